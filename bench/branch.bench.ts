/**
 * Whether the pose that Newton finds at once is the one that a walk from the designed pose arrives at: what the thresholds in
 * swashplate/close.ts and flybar/head.ts rest on. Counts, for seeded machines, the poses taken without a walk and those of
 * them that the walk finds elsewhere; and how far from the thresholds the nearest mistake lies.
 */
import { closeFlybarHead, FlybarPose, walkWashout } from '../packages/mixing/src/flybar/head.ts';
import {
  makePose,
  normalAtTail,
  type Pose,
  poseEyes,
  poseRing,
  setHorns,
  setSticks,
  walkToRing,
} from '../packages/mixing/src/rig/pose.ts';
import { type PreparedRig, prepare } from '../packages/mixing/src/rig/prepare.ts';
import type { Rig } from '../packages/mixing/src/rig/rig.ts';
import { RING, WAY } from '../packages/mixing/src/swashplate/ring.ts';
import { rigOf } from '../tests/support/answer.ts';
import { disturb } from '../tests/support/disturb.ts';
import { extreme, type Kind, randomRig } from '../tests/support/machines.ts';
import { type Random, seededRandom } from '../tests/support/random.ts';

const MACHINES = Number(process.env.MACHINES ?? 6000);
/** Settings of one machine: making a sound one costs far more than mis-setting it. */
const SETTINGS = 20;
/** mm, and rad at an arm's length of 30 mm: two poses farther apart than this are two. */
const APART = 1e-6;

interface Count {
  poses: number;
  taken: number;
  walked: number;
  barred: number;
  unreached: number;
  /** taken, and the walk arrives elsewhere or nowhere */
  wrong: string[];
}

const none = (): Count => ({ poses: 0, taken: 0, walked: 0, barred: 0, unreached: 0, wrong: [] });

function* machines(kind: Kind | 'extreme'): Generator<{ rig: Rig; what: string; random: Random }> {
  const settings = kind === 'extreme' ? 1 : SETTINGS;
  for (let seed = 0; seed < MACHINES / settings; seed++) {
    const random = seededRandom(seed);
    const rig = rigOf(kind === 'extreme' ? extreme(seed) : randomRig(seed, kind, { tail: false }));
    for (let setting = 0; setting < settings; setting++) {
      const set = structuredClone(rig);
      if (setting > 0) disturb(set, random);
      yield { rig: set, what: `${kind}, seed ${seed}, setting ${setting}`, random };
    }
  }
}

function tryRing(prepared: PreparedRig, pose: Pose, count: Count, what: string): boolean {
  if (!poseEyes(prepared, pose)) return false;
  const reached = poseRing(prepared, pose);
  count.poses++;
  if (!reached) count.unreached++;
  else if (pose.ring[RING.WAY] === WAY.WALKED) count.walked++;
  else if (pose.ring[RING.WAY] === WAY.BARRED) count.barred++;
  else {
    count.taken++;
    const at = Float64Array.from(pose.ring);
    const arrives = walkToRing(prepared, pose);
    const apart = (k: number, size: number) => size * Math.abs((at[k] as number) - (pose.ring[k] as number));
    if (!arrives || Math.max(apart(RING.Z, 1), apart(RING.A, 30), apart(RING.B, 30)) > APART) {
      count.wrong.push(`${what}: the walk ${arrives ? 'arrives elsewhere' : 'is barred'}`);
    } else if (pose.ring[RING.WAY] === WAY.BARRED) {
      count.wrong.push(`${what}: the same pose, but the straight way to it is barred`);
    }
    pose.ring.set(at);
  }
  return reached;
}

function tryWashout(prepared: PreparedRig, pose: Pose, random: Random, count: Count, what: string): void {
  const head = prepared.flybar;
  if (!head) return;
  const tail = new Float64Array(3);
  normalAtTail(prepared, pose, tail);
  const psi = random.between(0, 2 * Math.PI);
  const [c, s] = [Math.cos(psi), Math.sin(psi)];
  const nx = (tail[0] as number) * c + (tail[1] as number) * s;
  const ny = (tail[1] as number) * c - (tail[0] as number) * s;
  const z = pose.ring[RING.Z] as number;
  const teeterRad = random.between(-0.2, 0.2);
  const miss = closeFlybarHead(head, z, nx, ny, tail[2] as number, teeterRad, pose.flybar);
  count.poses++;
  if (miss) count.unreached++;
  else if (pose.flybar.walked) count.walked++;
  else {
    count.taken++;
    const walked = new FlybarPose();
    const lost = walkWashout(head, z, nx, ny, tail[2] as number, teeterRad, walked);
    const apart = Array.from(
      walked.washout,
      (value, k) => Math.abs(value - (pose.flybar.washout[k] as number)) * (k === 0 ? 1 : 15),
    );
    if (lost || Math.max(...apart) > APART)
      count.wrong.push(`${what}: the washout’s walk ${lost ? 'is barred' : 'arrives elsewhere'}`);
  }
}

for (const kind of ['direct', 'lever', 'flybar', 'extreme'] as const) {
  const ring = none();
  const washout = none();
  for (const { rig, what, random } of machines(kind)) {
    const prepared = prepare(rig);
    const pose = makePose(prepared);
    for (let k = 0; k < 2; k++) {
      setSticks(prepared, pose, 0, random.between(-1, 1), random.between(-1, 1), random.between(-1, 1));
      setHorns(prepared, pose);
      if (tryRing(prepared, pose, ring, what)) tryWashout(prepared, pose, random, washout, what);
    }
  }
  for (const [part, count] of [
    ['ring', ring],
    ['washout', washout],
  ] as const) {
    if (count.poses === 0) continue;
    const { poses, taken, walked, barred, unreached, wrong } = count;
    console.log(
      `${kind.padEnd(8)} ${part.padEnd(8)} ${poses} poses: ${taken} taken at once, ${walked} walked, ${barred} past a bar, ${unreached} not reached; wrong ${wrong.length}`,
    );
    for (const one of wrong.slice(0, 10)) console.log(`  ${one}`);
  }
}
