/**
 * Which pose: the one reached continuously as horns go from level, and lengths from those that close the designed
 * pose, to their values.
 *
 * Near the designed pose Newton finds just that one, and a bound says when it did. Otherwise the way there is walked in
 * small steps; where the walk ends before its goal, no pose is reached, and the nearest (least squares) pose says which
 * link is short and by how much.
 */
import { nearestPose } from '../numerics/nearest-pose.ts';
import { newtonRing, STEP } from './newton.ts';
import { determinant3, type PreparedRing, RING, ringNormal, ringResiduals, WAY } from './ring.ts';

/** The lower eyes and link lengths at a part `along` (0 to 1) of the way from the designed pose; false: none there. */
export type EyesAlong = (along: number, eyes: Float64Array) => boolean;

/**
 * Newton's pose is taken without a walk while the determinant kept at least this part of its designed size, the ring tilts
 * less than TILT_TAKEN (half-angle tangents: 31 degrees) and each link keeps this part of its designed rise (squared, where a
 * link was designed aslant), so that none has turned over.
 *
 * Measured by `npm run bench -- branch` with both done on 60,000 machines, two poses each: all 90,000 poses of random and
 * carelessly set machines were taken, and the walk arrived at each; of 27,514 poses of extreme machines 12,949 were taken, and
 * the walk arrived at all but 10, whose straight way is barred short of the same pose. Without the rise, four in that many were
 * other poses, of rings that had gone to the other side of a link made ten times as long.
 */
const DETERMINANT_TAKEN = 0.3;
const TILT_TAKEN = 0.28;
const RISE_TAKEN = 0.4;

export interface RingMiss {
  /** place of the servo whose link misses most */
  servo: number;
  /** signed: positive where the link is too short */
  missMm: number;
}

const told = new Float64Array(STEP.LENGTH);

/** Whether Newton's pose, with half tangents a and b, is surely the continuous one: by what its last step told (STEP). */
export function isContinuous(ring: PreparedRing, told: Float64Array, a: number, b: number): boolean {
  let least = 1;
  for (let i = 0; i < 3; i++) {
    const rise = ring.designedRise[i] as number;
    const left = (told[STEP.RISE + i] as number) * (ring.perRise[i] as number) - RISE_TAKEN * rise * rise;
    least = left < least ? left : least;
  }
  return (told[STEP.DETERMINANT] as number) > DETERMINANT_TAKEN && a * a + b * b < TILT_TAKEN * TILT_TAKEN && least >= 0;
}

/**
 * Closes the ring on `eyes`, starting from `pose` (z, a, b in places RING.Z, .A, .B), and writes the whole of `pose`.
 * False where Newton did not settle on a pose that is surely the continuous one; then `walkRing` decides.
 */
export function closeRing(ring: PreparedRing, eyes: Float64Array, pose: Float64Array): boolean {
  const steps = newtonRing(ring, eyes, ring.linkMm, pose, told);
  if (steps < 0 || ring.singular) return false;
  const a = pose[RING.A] as number;
  const b = pose[RING.B] as number;
  if (!isContinuous(ring, told, a, b)) return false;
  ringNormal(a, b, pose, RING.NX);
  pose[RING.DETERMINANT] = told[STEP.DETERMINANT] as number;
  pose[RING.STEPS] = steps;
  pose[RING.WAY] = WAY.NEWTON;
  return true;
}

/**
 * Walks from the designed pose to `eyes` at along = 1. Writes `pose`, and returns undefined, where it arrives;
 * otherwise returns which link misses at the nearest pose.
 */
export function walkRing(ring: PreparedRing, eyesAlong: EyesAlong, pose: Float64Array): RingMiss | undefined {
  const eyes = new Float64Array(9);
  const linkMm = new Float64Array(3);
  const x = Float64Array.of(ring.designedHeightMm, 0, 0);
  const trial = new Float64Array(3);
  const setAt = (along: number): boolean => {
    for (let i = 0; i < 3; i++) {
      const designed = ring.designedLinkMm[i] as number;
      linkMm[i] = designed + along * ((ring.linkMm[i] as number) - designed);
    }
    return eyesAlong(along, eyes);
  };
  let along = 0;
  let stride = ring.singular ? 0 : 1 / 16;
  while (along < 1 && stride > 1e-6) {
    const next = Math.min(1, along + stride);
    trial.set(x);
    const settled = setAt(next) && newtonRing(ring, eyes, linkMm, trial, told, 6) > 0;
    // 1.5 mm or 3 degrees a stride: other poses of a swashplate lie tens of degrees away.
    const near =
      settled &&
      Math.abs((trial[0] as number) - (x[0] as number)) < 1.5 &&
      Math.abs((trial[1] as number) - (x[1] as number)) < 0.026 &&
      Math.abs((trial[2] as number) - (x[2] as number)) < 0.026;
    if (near && (told[STEP.DETERMINANT] as number) > 0) {
      x.set(trial);
      along = next;
      stride *= 1.6;
    } else stride /= 2;
  }
  setAt(1);
  if (along < 1) {
    const miss = closeBarred(ring, eyes, x);
    if (miss) return miss;
  }
  pose.set(x);
  const steps = newtonRing(ring, eyes, linkMm, pose, told);
  ringNormal(pose[RING.A] as number, pose[RING.B] as number, pose, RING.NX);
  pose[RING.DETERMINANT] = told[STEP.DETERMINANT] as number;
  pose[RING.STEPS] = steps;
  pose[RING.WAY] = along < 1 ? WAY.BARRED : WAY.WALKED;
  return undefined;
}

/**
 * Where the straight way is barred short of its end: from the last pose on it, `x`, the nearest there is. If that closes, or
 * Newton's does from the designed pose, on the designed side of every singular pose, it is the machine's own after all
 * (and in `x`), reached on some other way; else the link that misses most.
 */
function closeBarred(ring: PreparedRing, eyes: Float64Array, x: Float64Array): RingMiss | undefined {
  const residuals = new Float64Array(3);
  const jacobian = new Float64Array(9);
  const nearest = nearestPose(
    (at, r, j) => {
      ringResiduals(ring, at, eyes, ring.linkMm, r, j);
      return Math.abs(at[1] as number) < 1 && Math.abs(at[2] as number) < 1;
    },
    x,
    3,
  );
  let servo = 0;
  for (let i = 1; i < 3; i++) {
    if (Math.abs(nearest.residuals[i] as number) > Math.abs(nearest.residuals[servo] as number)) servo = i;
  }
  const missMm = nearest.residuals[servo] as number;
  if (ring.singular) return { servo, missMm };
  ringResiduals(ring, nearest.x, eyes, ring.linkMm, residuals, jacobian);
  const side = determinant3(jacobian) / ring.designedDeterminant;
  if (Math.abs(missMm) < 1e-9 && side > 1e-6) {
    x.set(nearest.x);
    return undefined;
  }
  const designed = Float64Array.of(ring.designedHeightMm, 0, 0);
  if (newtonRing(ring, eyes, ring.linkMm, designed, told) < 0) return { servo, missMm };
  if (!isContinuous(ring, told, designed[1] as number, designed[2] as number)) return { servo, missMm };
  x.set(designed);
  return undefined;
}
