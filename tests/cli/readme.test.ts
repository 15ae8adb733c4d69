import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { realProgram } from './program.ts';

const program = realProgram();
const readme = readFileSync(new URL('../../README.md', import.meta.url), 'utf8');

interface Line {
  words: string[];
  /** the file that the shell would write standard output to */
  into: string | undefined;
}

/** The command lines of README's blocks, as a shell would split them: 'quoted words', # remarks and > files. */
function commandLines(): Line[] {
  return [...readme.matchAll(/^npx swashtrue (.*)$/gm)].map((match) => {
    const parts = [...(match[1] ?? '').matchAll(/'([^']*)'|(\S+)/g)].map(([, quoted, plain]) => ({
      text: quoted ?? plain ?? '',
      quoted: quoted !== undefined,
    }));
    const remark = parts.findIndex(({ text, quoted }) => !quoted && text.startsWith('#'));
    const words = parts.slice(0, remark < 0 ? undefined : remark).map(({ text }) => text);
    const arrow = words.indexOf('>');
    return arrow < 0 ? { words, into: undefined } : { words: words.slice(0, arrow), into: words[arrow + 1] };
  });
}

test('every command line of README runs, in its order, and ends well', async () => {
  const lines = commandLines();
  expect(lines.length).toBeGreaterThan(8);
  for (const { words, into } of lines) {
    // It serves until it is interrupted: tested with the commands.
    if (words[0] === 'view') continue;
    const placed = words.map((word) => (/\.(json|html)$/.test(word) ? join(program.folder, word) : word));
    const { status, out, err } = await program.run(placed);
    expect([status, err], words.join(' ')).toEqual([0, '']);
    if (into === undefined) expect(out.length, words.join(' ')).toBeGreaterThan(20);
    else writeFileSync(join(program.folder, into), out);
  }
}, 120_000);

test('README shows every command that the program has', async () => {
  const { out } = await program.run(['--help']);
  const commands = [...(out.split('Commands:')[1] ?? '').matchAll(/^ {2}([a-z]+) /gm)]
    .map((match) => match[1])
    .filter((name) => name !== 'help');
  expect(commands.length).toBeGreaterThan(6);
  const shown = new Set(commandLines().map(({ words }) => words[0]));
  expect(commands.filter((name) => !shown.has(name))).toEqual([]);
});
