/** DEVELOPERS.md and bench/README.md against the tree: what they name is there, and no folder of the sources goes unnamed. */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';

const top = fileURLToPath(new URL('../..', import.meta.url));
const read = (path: string): string => readFileSync(join(top, path), 'utf8');
const LIBRARY = 'packages/mixing/src';
const PAGE = 'packages/viewer/src';
/** Where a path may start: at the top, or in the sources, as one speaks of them. */
const FROM = ['', LIBRARY, PAGE, `${LIBRARY}/rig`, 'tests', 'tests/answers', 'bench'];

const foldersOf = (path: string): string[] =>
  readdirSync(join(top, path), { withFileTypes: true }).flatMap((entry) => (entry.isDirectory() ? [entry.name] : []));
const files = new Set(
  [LIBRARY, PAGE, 'tests', 'scripts', 'bench'].flatMap((from) =>
    readdirSync(join(top, from), { recursive: true, encoding: 'utf8' }).map((path) => basename(path)),
  ),
);
const { scripts } = JSON.parse(read('package.json')) as { scripts: Record<string, string> };

/** What stands between backticks and is a file or a folder; patterns (`*`), what is built and what is installed are neither. */
function pathsIn(text: string): string[] {
  return [...text.replace(/```[^]*?```/g, '').matchAll(/`([^`\s]+)`/g)]
    .map((match) => match[1] as string)
    .filter((path) => /\/|\.(ts|tsx|mjs|md|json|yaml)$/.test(path))
    .filter((path) => !/[*…<>@]|node_modules|dist\b/.test(path));
}

/** The paths that are nowhere. A bare name is looked for in every folder, for a row of a table has named its own. */
const missing = (text: string): string[] =>
  pathsIn(text).filter((path) => {
    const stands = FROM.some((from) => ['', '.bench.ts'].some((ending) => existsSync(join(top, from, path + ending))));
    return !stands && (path.includes('/') || !files.has(path));
  });
const missingCommands = (text: string): string[] =>
  [...text.matchAll(/npm run ([a-z]+)/g)].map((match) => match[1] as string).filter((name) => !(name in scripts));

describe.each(['DEVELOPERS.md', 'bench/README.md', 'README.md'])('%s', (name) => {
  test('names only files, folders and commands that are there', () => {
    expect(missing(read(name))).toEqual([]);
    expect(missingCommands(read(name))).toEqual([]);
  });
});

test('DEVELOPERS.md names every folder of the library and of the page, and every script of the workspace', () => {
  const text = read('DEVELOPERS.md');
  const unnamed = [...foldersOf(LIBRARY), ...foldersOf(PAGE)].filter((folder) => !text.includes(`\`${folder}/`));
  expect(unnamed).toEqual([]);
  const standing = ['start', 'test'];
  const untold = Object.keys(scripts).filter((one) => !text.includes(standing.includes(one) ? `npm ${one}` : `npm run ${one}`));
  expect(untold).toEqual([]);
});

test('bench/README.md names every benchmark and every variable that one reads', () => {
  const text = read('bench/README.md');
  const benchmarks = readdirSync(join(top, 'bench'), { recursive: true, encoding: 'utf8' })
    .filter((path) => path.endsWith('.bench.ts'))
    .map((path) => path.replaceAll('\\', '/'));
  expect(benchmarks.filter((path) => !text.includes(`\`${path.replace('.bench.ts', '')}\``))).toEqual([]);
  const variables = benchmarks.flatMap((path) =>
    [...read(`bench/${path}`).matchAll(/(?:env\(|process\.env\[|process\.env\.)'?([A-Z]+)/g)].map((match) => match[1] as string),
  );
  expect(new Set(variables).size).toBeGreaterThan(10);
  expect([...new Set(variables)].filter((name) => !text.includes(`\`${name}\``) && !text.includes(`\`${name}=`))).toEqual([]);
});

test('a path or command that is not there is named', () => {
  expect(missing('see `rig/predict.ts`, `tests/support/open-page.ts` and `newtn.ts`, in `servo/` or `motor/`')).toEqual([
    'tests/support/open-page.ts',
    'newtn.ts',
    'motor/',
  ]);
  expect(missingCommands('`npm run bench`, then `npm run bake`')).toEqual(['bake']);
});
