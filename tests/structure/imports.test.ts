/** Imports go one way, along the signal path and then outward; a breach is named in a sentence. */
import { readdirSync, readFileSync } from 'node:fs';
import { join, relative, sep } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import { breaches, type Sources } from './imports.ts';

const top = fileURLToPath(new URL('../..', import.meta.url));
const { dependencies } = JSON.parse(readFileSync(join(top, 'packages/mixing/package.json'), 'utf8')) as {
  dependencies: Record<string, string>;
};
const declared = Object.keys(dependencies);

function sourcesIn(folder: string): [string, string][] {
  return readdirSync(join(top, folder), { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && /\.tsx?$/.test(entry.name))
    .map((entry) => join(entry.parentPath, entry.name))
    .map((file) => [relative(top, file).split(sep).join('/'), readFileSync(file, 'utf8')]);
}

const sources: Sources = new Map([...sourcesIn('packages/mixing/src'), ...sourcesIn('packages/viewer/src')]);

test('every import of the library and the page goes the right way', () => {
  expect([...sources.keys()].filter((path) => path.startsWith('packages/mixing/src/')).length).toBeGreaterThan(30);
  expect(breaches(sources, declared)).toEqual([]);
});

const LIBRARY = 'packages/mixing/src';
const planted: [string, Record<string, string>, RegExp][] = [
  [
    'a stage over a later one',
    { 'servo/horn.ts': `import { close } from '../swashplate/close.ts'` },
    /servo\/ may import .*transmitter\/, not swashplate\/$/,
  ],
  [
    'a stage over the one before the last',
    { 'rotor/blade.ts': `import { horn } from '../servo/horn.ts'` },
    /rotor\/ may import .*, not servo\//,
  ],
  [
    'a stage over the whole',
    { 'servo/horn.ts': `import { predict } from '../rig/predict.ts'` },
    /servo\/ may import .*, not rig\//,
  ],
  [
    'a stage over its own check',
    { 'tail/tail.ts': `import { tailCheck } from './check.ts'` },
    /tail\/ may import .*, not tail check\//,
  ],
  [
    'words that are no types',
    { 'servo/horn.ts': `import { type Rig, FORMAT } from '../rig/rig.ts'`, 'rig/rig.ts': 'export const FORMAT = 1' },
    /servo\/ may import .*, not rig\//,
  ],
  [
    'a stage that reaches mathjs through numerics',
    { 'servo/horn.ts': `import { fit } from '../numerics/fit.ts'`, 'numerics/fit.ts': `export * from 'mathjs/number'` },
    /servo\/horn\.ts imports .*numerics\/fit\.ts imports mathjs: a stage is plain arithmetic/,
  ],
  [
    'a stage that loads zod by a dynamic import',
    { 'tail/tail.ts': `const later = () => import('zod')` },
    /tail\/tail\.ts imports zod: a stage is plain arithmetic/,
  ],
  [
    'a pose on whose way the schema lies',
    { 'rig/pose.ts': `import { rig } from './schema.ts'`, 'rig/schema.ts': `import { z } from 'zod'` },
    /rig\/pose\.ts imports .*rig\/schema\.ts imports zod: a pose is plain arithmetic/,
  ],
  [
    'the validator outside the schema',
    { 'rig/changes.ts': `import { z } from 'zod'` },
    /only the schema files run the validator/,
  ],
  [
    'rig/ over mathjs',
    { 'rig/read.ts': `import { solve } from '../numerics/solve.ts'`, 'numerics/solve.ts': `import { lusolve } from 'mathjs'` },
    /rig\/ takes numbers only/,
  ],
  [
    'one answer over another',
    { 'coupling/coupling.ts': `import { x } from '../envelope/x.ts'` },
    /coupling\/ may import .*, not envelope\//,
  ],
  [
    'the library over its command line',
    { 'index.ts': `export * from './cli/main.ts'` },
    /the command line stands on the library/,
  ],
  ['the library over the screen', { 'drawing/sheet.ts': `import * as three from 'three'` }, /the library knows no screen/],
  [
    'the library over the system',
    { 'drawing/sheet.ts': `import { readFileSync } from 'node:fs'` },
    /the library runs in a browser too/,
  ],
  [
    'the command line over a package of someone else',
    { 'cli/main.ts': `import chalk from 'chalk'` },
    /package\.json does not list it/,
  ],
  ['a folder that nobody placed', { 'luck/luck.ts': `import { x } from '../rig/read.ts'` }, /luck\/ has no place yet/],
  ['the index over the threads in Node', { 'index.ts': `export * from './batch/node.ts'` }, /a page takes this too/],
  [
    'a re-export',
    { 'quantities/angles.ts': `export { x } from '../numerics/x.ts'` },
    /quantities\/ may import nothing, not numerics\//,
  ],
];

test.each(planted)('planted: %s', (_what, files, sentence) => {
  const sources = new Map(Object.entries(files).map(([path, text]) => [`${LIBRARY}/${path}`, text]));
  expect(breaches(sources, declared)).toContainEqual(expect.stringMatching(sentence));
});

test('planted in the page: an inner file of the library, three in the state', () => {
  const sources = new Map([
    ['packages/viewer/src/scene/ring.ts', `import { close } from '../../../mixing/src/swashplate/close.ts'`],
    ['packages/viewer/src/state/store.ts', `import { Vector3 } from 'three'`],
  ]);
  expect(breaches(sources, declared)).toEqual([
    expect.stringMatching(/the page uses the library by its name/),
    expect.stringMatching(/the state is plain, without React or three/),
  ]);
});

test('what is allowed is not named', () => {
  const sources = new Map([
    [`${LIBRARY}/servo/horn.ts`, `import type { Servo } from '../rig/rig.ts'; import { sin } from '../quantities/angles.ts'`],
    [`${LIBRARY}/rig/read.ts`, `import type { z } from 'zod'`],
    [
      `${LIBRARY}/plan/plan.ts`,
      `import { diagnose } from '../diagnosis/diagnose.ts'; import { predict } from '../rig/predict.ts'`,
    ],
    [
      `${LIBRARY}/cli/main.ts`,
      `import { Command } from 'commander'; import { readRig } from '../rig/read.ts'; import fs from 'node:fs'`,
    ],
  ]);
  expect(breaches(sources, declared)).toEqual([]);
});
