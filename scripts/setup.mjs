/** Everything a clone needs to be used from the command line: packages, library, program. */
import { buildLibrary } from './build.mjs';
import { installPackages } from './install.mjs';
import { main } from './run.mjs';

await main(() => {
  installPackages();
  buildLibrary();
});
