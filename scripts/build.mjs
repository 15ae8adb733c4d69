/**
 * Builds the library with its program (packages/mixing/dist) and the page (packages/viewer/dist), each only when its
 * sources have changed. `node scripts/build.mjs [library] [page]`; with neither word, both.
 */
import { existsSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { main, run, Stop, top } from './run.mjs';
import { unlessCurrent } from './stamp.mjs';

const LIBRARY = 'packages/mixing';
const PAGE = 'packages/viewer';
const ALWAYS = ['pnpm-lock.yaml', 'tsconfig.base.json', 'scripts'];

/**
 * A package's own tool, by its script: spawning Node on it works on every system, and skips a package manager's start.
 * @param {string} folder
 * @param {string} script under the folder's node_modules
 * @param {string[]} args
 */
function tool(folder, script, args) {
  return run(process.execPath, [join(top, folder, 'node_modules', script), ...args], { cwd: join(top, folder), quiet: true });
}

export function buildLibrary() {
  return unlessCurrent(
    {
      stamp: `${LIBRARY}/dist/.built`,
      inputs: [LIBRARY, ...ALWAYS],
      outputs: [`${LIBRARY}/dist/index.js`, `${LIBRARY}/dist/program/swashtrue.js`],
    },
    () => {
      process.stdout.write('Building the library and the program\n');
      rmSync(join(top, LIBRARY, 'dist'), { recursive: true, force: true });
      // The compiler writes its output even where types do not agree, and so does the bundler: the program can then
      // still be tried, but it does not count as built.
      const compiled = tool(LIBRARY, 'typescript/bin/tsc', ['-p', 'tsconfig.json']);
      const bundled = tool(LIBRARY, 'rolldown/bin/cli.mjs', ['-c', 'rolldown.config.mjs', '--log-level', 'warn']);
      if (!compiled) throw new Stop('The library: the types do not agree; the compiler says where above.');
      if (!bundled) throw new Stop('The program could not be bundled; the bundler says why above.');
    },
  );
}

export function buildPage() {
  return unlessCurrent(
    { stamp: `${PAGE}/dist/.built`, inputs: [PAGE, `${LIBRARY}/src`, ...ALWAYS], outputs: [`${PAGE}/dist/index.html`] },
    () => {
      process.stdout.write('Building the page\n');
      if (!tool(PAGE, 'vite/bin/vite.js', ['build', '--logLevel', 'warn']))
        throw new Stop('The page does not build; the bundler says why above.');
    },
  );
}

if (process.argv[1] && import.meta.url === pathToFileURL(process.argv[1]).href) {
  const asked = process.argv.slice(2);
  await main(() => {
    if (!existsSync(join(top, 'node_modules'))) throw new Stop('Nothing is installed yet; run `npm run setup`.');
    if (asked.length === 0 || asked.includes('library')) buildLibrary();
    if (asked.length === 0 || asked.includes('page')) buildPage();
  });
}
