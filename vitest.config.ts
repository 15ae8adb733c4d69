import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';

/** Tests and the page's modules see the library's sources, so that a run needs no build of it first. */
const resolve = {
  alias: ['index', 'bench', 'written'].map((entry) => ({
    find: entry === 'index' ? /^@swashtrue\/mixing$/ : `@swashtrue/mixing/${entry}`,
    replacement: fileURLToPath(new URL(`./packages/mixing/src/${entry}.ts`, import.meta.url)),
  })),
};

export default defineConfig({
  test: {
    // A test left with `.only` would silently leave out all others.
    allowOnly: false,
    projects: [
      {
        resolve,
        // A test that hangs is to end; how fast the others are on a busy machine is no matter of right and wrong.
        test: {
          name: 'unit',
          include: ['tests/**/*.test.ts'],
          exclude: ['tests/**/*.browser.test.ts'],
          testTimeout: 120_000,
          hookTimeout: 120_000,
        },
      },
      {
        resolve,
        test: {
          name: 'browser',
          // What a page shows after a worker or a file has answered may take its time on a busy machine.
          expect: { poll: { timeout: 20_000 } },
          include: ['tests/viewer/**/*.browser.test.ts'],
          globalSetup: ['tests/support/built-page.ts'],
          // The 3D is drawn in software here; a first frame has been seen to take several seconds on a busy core.
          testTimeout: 60_000,
          hookTimeout: 60_000,
          fileParallelism: false,
        },
      },
    ],
  },
});
