/** Batches on real worker threads: the same columns as without, progress, refusals, cancelled at once. */
import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type BatchCases, makeBatchPoses, poseBatch } from '../../packages/mixing/src/batch/batch.ts';
import type { BatchPool } from '../../packages/mixing/src/batch/batch-pool.ts';
import { nodeBatchPool } from '../../packages/mixing/src/batch/node.ts';
import { Cancelled } from '../../packages/mixing/src/batch/pool.ts';
import { CaseError } from '../../packages/mixing/src/rig/case.ts';
import { prepare } from '../../packages/mixing/src/rig/prepare.ts';
import { rigOf } from '../support/answer.ts';
import { type MachineDocument, randomRig } from '../support/machines.ts';
import { seededRandom } from '../support/random.ts';

const mixing = fileURLToPath(new URL('../../packages/mixing', import.meta.url));
const folder = mkdtempSync(join(tmpdir(), 'swashtrue-threads-'));
let pool: BatchPool;

// A thread is a file of its own, which Node must be able to read: the compiled one where the library is built, here a bundle.
beforeAll(() => {
  const file = join(folder, 'thread.mjs');
  const options = ['--file', file, '--format', 'esm', '--platform', 'node', '--log-level', 'warn'];
  execFileSync(process.execPath, [
    join(mixing, 'node_modules/rolldown/bin/cli.mjs'),
    join(mixing, 'src/batch/node-thread.ts'),
    ...options,
  ]);
  pool = nodeBatchPool(2, pathToFileURL(file));
}, 60_000);

afterAll(() => {
  pool.close();
  rmSync(folder, { recursive: true });
});

function casesFor(seed: number, count: number): BatchCases {
  const random = seededRandom(seed);
  return {
    sticks: Float64Array.from({ length: 3 * count }, () => random.between(-1, 1)),
    azimuth: Float64Array.from({ length: count }, () => random.between(0, 360)),
  };
}

/** Blade links so short that full pitch is past their reach, each blade at its own azimuths. */
function tooShort(document: MachineDocument): MachineDocument {
  document.rotor.links = [(document.rotor.links[0] as number) - 16, (document.rotor.links[1] as number) - 16];
  document.rotor.blades = 2;
  return document;
}

describe('a batch shared by two threads', () => {
  it.each([
    ['a direct head', randomRig(61, 'direct', { tail: false }), 0],
    ['a flybar head', randomRig(62, 'flybar', { tail: false }), 0],
    ['a machine that reaches only some of it', tooShort(randomRig(61, 'direct', { tail: false })), 2],
  ])('%s: every column is the one that a single thread fills, seed 60', async (_, document, lengthsThatMiss) => {
    const rig = rigOf(document);
    const cases = casesFor(60, 20_000);
    const alone = makeBatchPoses(prepare(rig), 20_000);
    poseBatch(prepare(rig), cases, alone);
    expect(alone.paths.length).toBe(lengthsThatMiss);
    expect(alone.missing.some((code) => code === 0)).toBe(true);
    const told: number[] = [];
    const shared = await pool.pose(rig, cases, { progress: (done, all) => told.push(done / all) });
    const { missing, paths, ...columns } = shared;
    const missed = (poses: typeof shared) => Array.from(poses.missing, (code) => poses.paths[code - 1]);
    expect(columns).toEqual({ ...alone, missing: undefined, paths: undefined });
    expect(missed({ missing, paths, ...columns })).toEqual(missed(alone));
    expect(told.length).toBe(3);
    expect(told.toSorted((a, b) => a - b)).toEqual(told);
    expect(told.at(-1)).toBe(1);
  });

  it('refuses a stick beyond its end by its place in the whole batch', async () => {
    const cases = casesFor(63, 20_000);
    cases.sticks[3 * 17_003 + 1] = 1.5;
    const refused = pool.pose(rigOf(randomRig(61, 'direct', { tail: false })), cases);
    await expect(refused).rejects.toThrow(CaseError);
    await expect(refused).rejects.toMatchObject({ pointer: '/17003/elevator', got: '1.5' });
  });

  it('is cancelled at once, and the pool goes on', async () => {
    const rig = rigOf(randomRig(62, 'flybar', { tail: false }));
    const cases = casesFor(64, 2_000_000);
    const stop = new AbortController();
    let heard = 0;
    const progress = () => {
      heard++;
      stop.abort();
    };
    const batch = pool.pose(rig, cases, { signal: stop.signal, progress });
    await expect(batch).rejects.toThrow(Cancelled);
    const after = heard;
    // The whole of it would be well over a second's work; nothing more of it is heard.
    await new Promise((resolve) => setTimeout(resolve, 100));
    expect([heard, after]).toEqual([1, 1]);
    const few = await pool.pose(rig, casesFor(65, 100));
    expect(few.missing.every((code) => code === 0)).toBe(true);
  });

  it('is not begun where it was cancelled before', async () => {
    const batch = pool.pose(rigOf(randomRig(61, 'direct', { tail: false })), casesFor(66, 100), { signal: AbortSignal.abort() });
    await expect(batch).rejects.toThrow(Cancelled);
  });

  it('says what befell a thread that cannot be started', async () => {
    const broken = nodeBatchPool(1, pathToFileURL(join(folder, 'no-such-file.mjs')));
    await expect(broken.pose(rigOf(randomRig(61, 'direct', { tail: false })), casesFor(67, 10))).rejects.toThrow(/no-such-file/);
  });
});
