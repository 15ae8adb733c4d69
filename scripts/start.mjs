/** `npm start`: installs and builds what is needed, then hands over to the built program: the demo's story and the page. */
import { pathToFileURL } from 'node:url';
import { join } from 'node:path';
import { buildLibrary, buildPage } from './build.mjs';
import { installPackages } from './install.mjs';
import { main, top } from './run.mjs';

await main(async () => {
  installPackages();
  buildLibrary();
  buildPage();
  await import(pathToFileURL(join(top, 'packages/mixing/dist/program/start.js')).href);
});
