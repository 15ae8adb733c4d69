/**
 * `npm test`: installs what is needed, a browser included, builds, type-checks and runs every test. Words after `--`
 * go to the test runner (`npm test -- tests/rig`). The last line is 'N passed, N failed'; a type error, a test file
 * that does not load and a missing browser count as failures, because each leaves something untested.
 */
import { existsSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { browser } from './browser.mjs';
import { buildLibrary, buildPage } from './build.mjs';
import { checkTypes } from './check.mjs';
import { installPackages } from './install.mjs';
import { main, run, Stop, top } from './run.mjs';
import { countTests } from './test-count.mjs';

const RESULTS = 'test-results/tests.json';

/** Words of what failed outside the test runner. @type {string[]} */
const failures = [];

/**
 * @template T
 * @param {() => T} step
 * @returns {T | undefined} nothing where it failed: the rest is still worth running
 */
function attempt(step) {
  try {
    return step();
  } catch (error) {
    if (!(error instanceof Stop)) throw error;
    failures.push(error.message);
    return undefined;
  }
}

await main(() => {
  installPackages();
  const chromium = attempt(browser);
  attempt(buildLibrary);
  attempt(buildPage);
  failures.push(...checkTypes());

  const words = process.argv.slice(2);
  rmSync(join(top, RESULTS), { force: true });
  const ended = run(
    process.execPath,
    [
      'node_modules/vitest/vitest.mjs',
      'run',
      '--reporter=default',
      '--reporter=json',
      `--outputFile.json=${RESULTS}`,
      ...(chromium ? [] : ['--project=unit']),
      ...words,
    ],
    { env: chromium ? { CHROMIUM_PATH: chromium } : {} },
  );
  const results = join(top, RESULTS);
  const count = existsSync(results)
    ? countTests(JSON.parse(readFileSync(results, 'utf8')), top)
    : { passed: 0, failures: ['The test runner left no results; it says why above.'], skipped: [] };
  failures.push(...count.failures);
  if (!ended && failures.length === 0)
    failures.push('The test runner ended badly though no test failed: an error outside the tests, above.');

  for (const name of count.skipped) process.stdout.write(`not run: ${name}\n`);
  for (const failure of failures) process.stdout.write(`failed: ${failure}\n`);
  process.stdout.write(`${count.passed} passed, ${failures.length} failed\n`);
  process.exitCode = failures.length === 0 ? 0 : 1;
});
