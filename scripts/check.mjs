/** Type-checks what no compiler builds: the tests with the scripts, and the page. `node scripts/check.mjs` builds the library first. */
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { buildLibrary } from './build.mjs';
import { main, run, Stop, top } from './run.mjs';
import { unlessCurrent } from './stamp.mjs';

const ALWAYS = ['pnpm-lock.yaml', 'tsconfig.base.json', 'packages/mixing/src', 'tests'];
const CHECKED = [
  {
    what: 'Tests and scripts',
    project: 'tsconfig.json',
    inputs: [...ALWAYS, 'tsconfig.json', 'vitest.config.ts', 'scripts', 'bench'],
  },
  { what: 'The page', project: 'packages/viewer', inputs: [...ALWAYS, 'packages/viewer'] },
];

/** @returns {string[]} a sentence for each project with a type error */
export function checkTypes() {
  /** @type {string[]} */
  const failures = [];
  for (const { what, project, inputs } of CHECKED) {
    if (!existsSync(join(top, project))) continue;
    try {
      unlessCurrent(
        { stamp: `node_modules/.cache/swashtrue/${project.replaceAll('/', '-')}.checked`, inputs, outputs: [] },
        () => {
          process.stdout.write(`Checking types: ${what.toLowerCase()}\n`);
          if (!run(process.execPath, ['node_modules/typescript/bin/tsc', '-p', project, '--noEmit'], { quiet: true })) {
            throw new Stop(`${what}: the types do not agree; the compiler says where above.`);
          }
        },
      );
    } catch (error) {
      if (!(error instanceof Stop)) throw error;
      failures.push(error.message);
    }
  }
  return failures;
}

if (process.argv[1] && import.meta.url === pathToFileURL(process.argv[1]).href) {
  await main(() => {
    buildLibrary();
    const failures = checkTypes();
    if (failures.length > 0) throw new Stop(failures.join('\n'));
  });
}
