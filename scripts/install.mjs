/** Installs what the lock file names, unless that is what is there. */
import { run, Stop } from './run.mjs';
import { unlessCurrent } from './stamp.mjs';

const PNPM = 'pnpm@12.21.0';
const LEAST_NODE = [20, 19];

export function installPackages() {
  const [major = 0, minor = 0] = process.versions.node.split('.').map(Number);
  const [leastMajor = 0, leastMinor = 0] = LEAST_NODE;
  if (major < leastMajor || (major === leastMajor && minor < leastMinor)) {
    throw new Stop(
      `Node: got ${process.versions.node}, expected ${LEAST_NODE.join('.')} or later; install a newer Node and run this again`,
    );
  }
  unlessCurrent(
    {
      stamp: 'node_modules/.cache/swashtrue/installed',
      inputs: [
        'pnpm-lock.yaml',
        'pnpm-workspace.yaml',
        'package.json',
        'packages/mixing/package.json',
        'packages/viewer/package.json',
      ],
      outputs: ['node_modules/.bin/vitest', 'packages/mixing/node_modules', 'packages/viewer/node_modules'],
    },
    () => {
      process.stdout.write('Installing packages\n');
      if (!run('npx', ['--yes', PNPM, 'install', '--frozen-lockfile'])) {
        throw new Stop(
          'Packages: could not be installed. Needed: npm with its npx, a reachable package registry (`npm ping` tells) and room on the disk (about 700 MB). What went wrong stands above; mend it and run this again.',
        );
      }
    },
  );
}
