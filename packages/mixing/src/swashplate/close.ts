/**
 * Which pose: the one reached continuously as horns go from level, and lengths from those that close the designed
 * pose, to their values.
 *
 * Near the designed pose Newton finds just that one, and a bound says when it did. Otherwise the way there is walked in
 * small steps; where the walk ends before its goal, no pose is reached, and the nearest (least squares) pose says which
 * link is short and by how much.
 */
import { nearestPose } from '../numerics/nearest-pose.ts';
import { determinant3, newtonRing, type PreparedRing, RING, ringNormal, ringResiduals, STEP } from './ring.ts';

export type RingStatus = 'closed' | 'cannot-reach';

/** The lower eyes and link lengths at a part `along` (0 to 1) of the way from the designed pose; false: none there. */
export type EyesAlong = (along: number, eyes: Float64Array) => boolean;

/**
 * Newton's pose is taken without a walk while the determinant kept at least this part of its designed size and the
 * ring tilted less than TILT_TAKEN (half-angle tangents: 31 degrees). Over 60,000 random and extreme machines in which
 * both were done, every pose taken so was the walked one; nothing is lost beyond it but time.
 */
const DETERMINANT_TAKEN = 0.3;
const TILT_TAKEN = 0.28;

export interface RingMiss {
  /** place of the servo whose link misses most */
  servo: number;
  /** signed: positive where the link is too short */
  missMm: number;
}

const told = new Float64Array(STEP.LENGTH);

/** Whether a pose that closes is surely the continuous one, by its determinant over the designed one and its half tangents. */
export function isContinuous(determinant: number, a: number, b: number): boolean {
  return determinant > DETERMINANT_TAKEN && a * a + b * b < TILT_TAKEN * TILT_TAKEN;
}

/**
 * Closes the ring on `eyes`, starting from `pose` (z, a, b in places RING.Z, .A, .B), and writes the whole of `pose`.
 * False where Newton did not settle on a pose that is surely the continuous one; then `walkRing` decides.
 */
export function closeRing(ring: PreparedRing, eyes: Float64Array, pose: Float64Array): boolean {
  const steps = newtonRing(ring, eyes, ring.linkMm, pose, told);
  if (steps < 0) return false;
  const a = pose[RING.A] as number;
  const b = pose[RING.B] as number;
  const determinant = told[STEP.DETERMINANT] as number;
  if (!isContinuous(determinant, a, b)) return false;
  ringNormal(a, b, pose, RING.NX);
  pose[RING.DETERMINANT] = determinant;
  pose[RING.STEPS] = steps;
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
  let stride = 1 / 16;
  let sign = Math.sign(ring.designedDeterminant);
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
    if (near && sign !== 0 && (told[STEP.DETERMINANT] as number) > 0) {
      x.set(trial);
      along = next;
      stride *= 1.6;
    } else stride /= 2;
  }
  setAt(1);
  if (along < 1) {
    const nearest = nearestPose(
      (at, r, jacobian) => {
        ringResiduals(ring, at, eyes, linkMm, r, jacobian);
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
    // A pose does close but the straight way to it was barred; it is the machine's own only on the designed side.
    const jacobian = new Float64Array(9);
    ringResiduals(ring, nearest.x, eyes, linkMm, new Float64Array(3), jacobian);
    sign = determinant3(jacobian) / ring.designedDeterminant;
    if (!(Math.abs(missMm) < 1e-9 && sign > 1e-6)) return { servo, missMm };
    x.set(nearest.x);
  }
  pose.set(x);
  const steps = newtonRing(ring, eyes, linkMm, pose, told);
  ringNormal(pose[RING.A] as number, pose[RING.B] as number, pose, RING.NX);
  pose[RING.DETERMINANT] = told[STEP.DETERMINANT] as number;
  pose[RING.STEPS] = steps;
  return undefined;
}
