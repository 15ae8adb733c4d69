/**
 * Runs the program on its words: tables and JSON to standard output, what cannot be used to standard error. Exit status:
 * 0 done; 1 done, and the answer is no; 2 the input cannot be used; 3 the program failed.
 */
import { readFileSync } from 'node:fs';
import { CommanderError } from 'commander';
import { program } from './program.ts';
import { Refusal } from './refusal.ts';
import type { Streams } from './streams.ts';

const UNUSABLE = 2;
const FAILED = 3;

/** `words` without the interpreter's own. Gives the exit status, and never throws. */
export async function run(words: readonly string[], streams: Streams): Promise<number> {
  let status = 0;
  try {
    const top = program(version(), streams, (ended) => {
      status = ended;
    });
    // Commands copy the settings of the program as it is when they are added, so each is told by itself.
    for (const command of [top, ...top.commands]) command.exitOverride();
    if (words.length === 0) {
      top.outputHelp({ error: true });
      return UNUSABLE;
    }
    await top.parseAsync(words, { from: 'user' });
    return status;
  } catch (error) {
    if (error instanceof Refusal) {
      streams.stderr.write(`${error.lines.join('\n')}\n`);
      return UNUSABLE;
    }
    // What was typed wrong has been told by the argument reader itself; asking for help is no fault.
    if (error instanceof CommanderError) return error.exitCode === 0 ? 0 : UNUSABLE;
    const told = error instanceof Error ? (error.stack ?? error.message) : String(error);
    streams.stderr.write(`swashtrue failed, which it should not: ${told}\n`);
    return FAILED;
  }
}

/** The package's version: the file lies at the same place from the sources and from the built program. */
function version(): string {
  const { version } = JSON.parse(readFileSync(new URL('../../package.json', import.meta.url), 'utf8')) as { version: string };
  return version;
}
