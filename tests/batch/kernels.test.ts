/** The kernels are what their generator makes of the passes, and answer as the stages do. */
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { makeBatchPoses, poseBatch } from '../../packages/mixing/src/batch/batch.ts';
import { cosDeg, radOf, sinDeg } from '../../packages/mixing/src/quantities/angles.ts';
import { makePose, poseHead, poseRing, setHorns, setSticks } from '../../packages/mixing/src/rig/pose.ts';
import { type PreparedRig, prepare } from '../../packages/mixing/src/rig/prepare.ts';
import { RING } from '../../packages/mixing/src/swashplate/ring.ts';
import { kernelFile, kernelText, PASSES } from '../../scripts/kernel/generate.mjs';
import { rigOf } from '../support/answer.ts';
import { disturb } from '../support/disturb.ts';
import { expectNear } from '../support/expect-near.ts';
import { KINDS, type Kind, randomRig } from '../support/machines.ts';
import { type Random, seededRandom } from '../support/random.ts';

test.each(PASSES)('the kernel of %s is the one that its sources make; `npm run kernels` makes it anew', (passes) => {
  expect(readFileSync(kernelFile(passes), 'utf8')).toBe(kernelText(passes));
});

test('the generator stops at what it does not understand, and says where', () => {
  expect(() => kernelText('../../../tests/batch/odd-pass.ts')).toThrow(
    /odd-pass\.ts:4: switch .*this statement is not understood/s,
  );
});

/** 10,000 machines in all: a few hundred made anew, each carelessly set many times over. */
const MACHINES: Record<Kind, number> = { direct: 200, lever: 200, flybar: 100 };
const SETTINGS = 20;
const CASES = 3;

describe.each(KINDS)('a batch, %s', (kind) => {
  test(`answers as the stages do to 1e-12 mm and rad on ${MACHINES[kind] * SETTINGS} random machines, seeds 0 and on`, () => {
    let worst = 0;
    let unreached = 0;
    for (let seed = 0; seed < MACHINES[kind]; seed++) {
      const healthy = rigOf(randomRig(seed, kind, { tail: false }));
      const random = seededRandom(seed);
      for (let setting = 0; setting < SETTINGS; setting++) {
        const rig = structuredClone(healthy);
        if (setting > 0) disturb(rig, random);
        const found = compare(prepare(rig), random, `seed ${seed}, setting ${setting}`);
        worst = Math.max(worst, found.worst);
        unreached += found.unreached;
      }
    }
    expect(worst).toBeGreaterThan(0); // they were compared
    expect(unreached).toBeLessThan(0.05 * CASES * MACHINES[kind] * SETTINGS);
  }, 60_000);
});

/** A batch of random cases against the same cases one by one through the stages. */
function compare(prepared: PreparedRig, random: Random, what: string): { worst: number; unreached: number } {
  const sticks = Float64Array.from({ length: 3 * CASES }, () => random.between(-1, 1));
  const azimuth = Float64Array.from({ length: CASES }, () => random.between(-400, 400));
  const teeter = prepared.flybar ? random.between(-5, 5) : 0;
  const poses = makeBatchPoses(prepared, CASES);
  poseBatch(prepared, { sticks, azimuth, teeter }, poses);
  const pose = makePose(prepared);
  const found = { worst: 0, unreached: 0 };
  for (let i = 0; i < CASES; i++) {
    setSticks(prepared, pose, 0, sticks[3 * i] as number, sticks[3 * i + 1] as number, sticks[3 * i + 2] as number);
    setHorns(prepared, pose);
    const azimuthDeg = azimuth[i] as number;
    const reached = poseRing(prepared, pose) && poseHead(prepared, pose, cosDeg(azimuthDeg), sinDeg(azimuthDeg), radOf(teeter));
    const path = poses.paths[(poses.missing[i] as number) - 1];
    if (path !== pose.miss?.path) throw new Error(`${what}, pose ${i}: got ${path} missing, expected ${pose.miss?.path}`);
    if (!reached) {
      found.unreached++;
      expectNear(poses.shortMm[i], Math.abs(pose.miss?.missMm ?? Number.NaN), 1e-9, 'mm', `${what}, pose ${i}`);
      continue;
    }
    const height = expectNear(poses.heightMm[i], pose.ring[RING.Z] as number, 1e-12, 'mm', `${what}, pose ${i}`);
    const pitches = poses.pitchRad.map((column) => column[i] as number);
    const pitch = expectNear(pitches, Array.from(pose.pitchRad), 1e-12, 'rad', `${what}, pose ${i}`);
    found.worst = Math.max(found.worst, height, pitch);
  }
  return found;
}
