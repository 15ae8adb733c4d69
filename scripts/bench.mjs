/**
 * `pnpm bench`: bundles each *.bench.ts below bench/ with the library's sources, and runs one after another, each in its own
 * process so that none warms up or slows down the next. Words after `--` choose by path (`npm run bench -- pose`).
 */
import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { installPackages } from './install.mjs';
import { main, run, Stop, top } from './run.mjs';

const BUNDLES = 'node_modules/.cache/swashtrue/bench';

await main(() => {
  installPackages();
  const words = process.argv.slice(2);
  const all = readdirSync(join(top, 'bench'), { recursive: true, encoding: 'utf8' }).filter((path) => path.endsWith('.bench.ts'));
  const chosen = all.filter((path) => words.length === 0 || words.some((word) => path.includes(word))).sort();
  if (chosen.length === 0) {
    throw new Stop(
      `Benchmarks: got none with ${words.join(' or ') || '.bench.ts'} in its path, expected one of: ${all.join(', ') || '(bench/ holds none yet)'}`,
    );
  }
  const failed = chosen.filter((path) => !measured(path));
  if (failed.length > 0) throw new Stop(`Benchmarks that failed: ${failed.join(', ')}`);
});

/**
 * @param {string} path
 * @returns {boolean} whether it was bundled and ended well
 */
function measured(path) {
  const bundle = join(BUNDLES, path.replace(/\.ts$/, '.mjs'));
  const bundler = 'packages/mixing/node_modules/rolldown/bin/cli.mjs';
  const options = ['--file', bundle, '--format', 'esm', '--platform', 'node', '--log-level', 'warn'];
  return run(process.execPath, [bundler, join('bench', path), ...options], { quiet: true }) && run(process.execPath, [bundle]);
}
