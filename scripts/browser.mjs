/**
 * A Chromium for the page's tests: `$CHROMIUM_PATH`, else where systems put one, else Debian's package where we may
 * install it. Tests get its path in CHROMIUM_PATH. `node scripts/browser.mjs` prints it.
 */
import { accessSync, constants, existsSync } from 'node:fs';
import { delimiter, join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { main, run, Stop } from './run.mjs';

const NAMES = ['chromium', 'chromium-browser', 'google-chrome-stable', 'google-chrome', 'chrome', 'microsoft-edge'];
const PLACES = [
  '/usr/bin/chromium',
  '/usr/lib/chromium/chromium',
  '/snap/bin/chromium',
  '/opt/google/chrome/chrome',
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  ...[process.env.PROGRAMFILES, process.env['PROGRAMFILES(X86)'], process.env.LOCALAPPDATA]
    .filter((folder) => folder !== undefined)
    .map((folder) => join(folder, 'Google/Chrome/Application/chrome.exe')),
];

/** @param {string} file */
function runs(file) {
  try {
    accessSync(file, constants.X_OK);
    return true;
  } catch {
    return false;
  }
}

/** @returns {string | undefined} */
export function findBrowser() {
  const given = process.env.CHROMIUM_PATH;
  if (given) {
    if (runs(given)) return given;
    throw new Stop(`CHROMIUM_PATH: got ${given}, expected a program that can be run; correct it or unset it`);
  }
  const onPath = (process.env.PATH ?? '').split(delimiter).flatMap((folder) => NAMES.map((name) => join(folder, name)));
  return [...onPath, ...PLACES].find(runs);
}

/** @returns {string} the browser's path; throws a Stop that says what is missing */
export function browser() {
  const found = findBrowser() ?? (installed() ? findBrowser() : undefined);
  if (found === undefined) {
    throw new Stop(
      'Browser: got none, expected Chromium or Chrome. Install one (on Debian or Ubuntu: apt-get install --no-install-recommends chromium), or give the path of one in CHROMIUM_PATH, and run this again.',
    );
  }
  return found;
}

function installed() {
  const isRoot = process.getuid?.() === 0;
  if (!existsSync('/usr/bin/apt-get')) return false;
  if (!isRoot && !existsSync('/usr/bin/sudo')) return false;
  process.stdout.write('Installing a browser for the tests (Chromium)\n');
  /** @param {string[]} args */
  const apt = (args) => {
    const command = ['env', 'DEBIAN_FRONTEND=noninteractive', 'apt-get', '-q', ...args];
    // -n: never wait for a password that nobody is there to type
    return run(isRoot ? 'env' : 'sudo', isRoot ? command.slice(1) : ['-n', ...command], { quiet: true });
  };
  const install = ['install', '-y', '--no-install-recommends', 'chromium'];
  return apt(install) || (apt(['update']) && apt(install));
}

if (process.argv[1] && import.meta.url === pathToFileURL(process.argv[1]).href) {
  await main(() => process.stdout.write(`${browser()}\n`));
}
