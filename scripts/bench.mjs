/**
 * `pnpm bench`: builds the library, then runs every bench/*.bench.mjs one after another, each in its own process so that
 * none warms up or slows down the next. Words after `--` choose by name (`npm run bench -- pose`).
 */
import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { buildLibrary } from './build.mjs';
import { installPackages } from './install.mjs';
import { main, run, Stop, top } from './run.mjs';

await main(() => {
  installPackages();
  buildLibrary();
  const words = process.argv.slice(2);
  const all = readdirSync(join(top, 'bench')).filter((name) => name.endsWith('.bench.mjs'));
  const chosen = all.filter((name) => words.length === 0 || words.some((word) => name.includes(word))).sort();
  if (chosen.length === 0)
    throw new Stop(
      `Benchmarks: got none named ${words.join(' or ') || '*.bench.mjs'}, expected one of: ${all.join(', ') || '(bench/ is empty)'}`,
    );
  const failed = chosen.filter((name) => !run(process.execPath, [join('bench', name)]));
  if (failed.length > 0) throw new Stop(`Benchmarks that failed: ${failed.join(', ')}`);
});
