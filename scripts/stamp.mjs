/**
 * Whether a step's inputs are those of its last good run: the digest of their contents against the one it left behind.
 * Contents and not times, because a fresh clone, a branch switched and back, and an edit undone all change times.
 */
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { top } from './run.mjs';

const GENERATED = new Set(['node_modules', 'dist', 'dev-dist']);

/**
 * @param {string} path from the top
 * @returns {string[]}
 */
function filesUnder(path) {
  const whole = join(top, path);
  if (!existsSync(whole)) return [];
  if (!statSync(whole).isDirectory()) return [path];
  return readdirSync(whole)
    .filter((name) => !GENERATED.has(name))
    .sort()
    .flatMap((name) => filesUnder(join(path, name)));
}

/** @param {string[]} inputs files and folders, from the top */
export function digest(inputs) {
  const hash = createHash('sha256').update(process.version);
  for (const file of inputs.flatMap(filesUnder)) hash.update(`\0${file}\0`).update(readFileSync(join(top, file)));
  return hash.digest('hex');
}

/**
 * Runs `step` unless `stamp` holds the digest of `inputs` and every one of `outputs` is there. The digest is taken
 * before the step, so that an edit made while it runs is seen the next time.
 * @param {{ stamp: string, inputs: string[], outputs: string[] }} what
 * @param {() => void} step
 * @returns {boolean} whether it ran
 */
export function unlessCurrent({ stamp, inputs, outputs }, step) {
  const file = join(top, stamp);
  const now = digest(inputs);
  const there = outputs.every((output) => existsSync(join(top, output)));
  if (there && existsSync(file) && readFileSync(file, 'utf8') === now) return false;
  rmSync(file, { force: true });
  step();
  mkdirSync(dirname(file), { recursive: true });
  writeFileSync(file, now);
  return true;
}
