/** `example`: a demo document, as a person would write it, to be saved, changed and read back. */
import { nearest, show } from '../rig/fault.ts';
import { benchExamples, examples } from '../examples/examples.ts';
import { LineWriter } from './lines.ts';
import { Refusal } from './refusal.ts';
import type { Streams } from './streams.ts';
import { table } from './words.ts';

export interface ExampleOptions {
  list?: boolean;
  json?: boolean;
}

/** Without a name the first one; `list` tells the names instead. */
export async function runExample(name: string | undefined, options: ExampleOptions, streams: Streams): Promise<number> {
  const out = new LineWriter(streams.stdout);
  const all = [...examples, ...benchExamples];
  if (options.list === true) {
    if (options.json === true) for (const { name, about } of all) out.line(JSON.stringify({ name, about }));
    else out.line(table(all.map(({ name, about }) => [name.padEnd(22) + about])));
  } else {
    const names = all.map((example) => example.name);
    const found = name === undefined ? examples[0] : all.find((example) => example.name === name);
    if (found === undefined) {
      throw new Refusal([
        `example: got ${show(name)}, expected one of ${names.join(', ')}; the nearest is ${show(nearest(name ?? '', names))}`,
      ]);
    }
    out.line(JSON.stringify(found.document, undefined, options.json === true ? undefined : 2));
  }
  await out.end();
  return 0;
}
