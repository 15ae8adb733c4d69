/** A start from the pose before is quicker and nothing else: it never leads to another pose than a start from the designed one. */
import { expect, test } from 'vitest';
import { makePose, type Pose, poseHead, poseRing, setHorns, setSticks } from '../../packages/mixing/src/rig/pose.ts';
import { type PreparedRig, prepare } from '../../packages/mixing/src/rig/prepare.ts';
import { WASHOUT } from '../../packages/mixing/src/flybar/washout.ts';
import { RING } from '../../packages/mixing/src/swashplate/ring.ts';
import { rigOf } from '../support/answer.ts';
import { expectNear } from '../support/expect-near.ts';
import { extreme, KINDS, type MachineDocument, randomRig } from '../support/machines.ts';
import { type Random, seededRandom } from '../support/random.ts';

const STEPS = 12;

function poseAt(prepared: PreparedRig, pose: Pose, sticks: readonly number[], warm: boolean): boolean {
  setSticks(prepared, pose, 0, sticks[0] as number, sticks[1] as number, sticks[2] as number);
  setHorns(prepared, pose);
  return poseRing(prepared, pose, warm) && poseHead(prepared, pose, 0.6, 0.8, 0.02, warm);
}

/** From one corner of the sticks to another and on to a third, in great strides. Gives how many poses were reached, and how many not. */
function alongPath(document: MachineDocument, random: Random, what: string): [number, number] {
  const prepared = prepare(rigOf(document));
  const warm = makePose(prepared);
  const cold = makePose(prepared);
  const counts: [number, number] = [0, 0];
  let from = [0, 0, 0];
  let held = poseAt(prepared, warm, from, false);
  for (let leg = 0; leg < 3; leg++) {
    const to = [random.between(-1, 1), random.sign(), random.between(-1, 1)];
    for (let step = 1; step <= STEPS; step++) {
      const sticks = from.map((one, k) => one + (step / STEPS) * ((to[k] as number) - one));
      held = poseAt(prepared, warm, sticks, held);
      const where = `${what}, leg ${leg}, step ${step}`;
      expect(poseAt(prepared, cold, sticks, false), where).toBe(held);
      counts[held ? 0 : 1]++;
      if (!held) continue;
      const places = (pose: Pose) => [
        ...pose.ring.subarray(0, RING.DETERMINANT),
        ...pose.pitchRad,
        ...(prepared.flybar ? pose.flybar.washout.subarray(0, WASHOUT.SIZE) : []),
      ];
      expectNear(places(warm), places(cold), 1e-9, 'mm and rad', where);
    }
    from = to;
  }
  return counts;
}

test.each(KINDS)('%s: along a path, 40 machines of which 20 are carelessly set, seeds 700 to 739', (kind) => {
  for (let seed = 700; seed < 740; seed++) {
    const document = randomRig(seed, kind, { offNominal: seed % 2 === 0, tail: false });
    const [, unreached] = alongPath(document, seededRandom(seed), `seed ${seed}`);
    expect(unreached).toBe(0);
  }
});

test('150 extreme machines along a path, in and out of reach, seeds 700 to 849', () => {
  let both = 0;
  for (let seed = 700; seed < 850; seed++) {
    const [reached, unreached] = alongPath(extreme(seed), seededRandom(seed), `extreme, seed ${seed}`);
    if (reached > 0 && unreached > 0) both++;
  }
  expect(both).toBeGreaterThan(10);
});
