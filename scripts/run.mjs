/** Runs a program with its output shown, or says in a sentence that it failed. Plain Node: used before anything is installed. */
import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';

export const top = fileURLToPath(new URL('..', import.meta.url));

/** A reason to stop that is the user's to mend; printed without a stack. */
export class Stop extends Error {}

/**
 * @param {string} command
 * @param {string[]} args
 * @param {{ cwd?: string, quiet?: boolean, env?: Record<string, string> }} [options] `quiet` keeps the output back unless it fails
 * @returns {boolean} whether it ended well
 */
export function run(command, args, { cwd = top, quiet = false, env = {} } = {}) {
  // `npm --silent` would otherwise hush what the tools below it have to say when they fail.
  const { npm_config_loglevel: _hushed, ...inherited } = process.env;
  const ended = spawnSync(command, args, {
    cwd,
    env: { ...inherited, ...env },
    stdio: quiet ? ['ignore', 'pipe', 'pipe'] : ['ignore', 'inherit', 'inherit'],
    encoding: 'utf8',
    shell: process.platform === 'win32' && command === 'npx',
  });
  if (ended.error) process.stderr.write(`${command}: ${ended.error.message}\n`);
  if (quiet && ended.status !== 0) process.stderr.write(`${ended.stdout ?? ''}${ended.stderr ?? ''}`);
  return ended.status === 0;
}

/**
 * Runs the steps and turns a Stop into one line and exit status 1.
 * @param {() => unknown} steps
 */
export async function main(steps) {
  try {
    await steps();
  } catch (error) {
    if (!(error instanceof Stop)) throw error;
    process.stderr.write(`${error.message}\n`);
    process.exitCode = 1;
  }
}
