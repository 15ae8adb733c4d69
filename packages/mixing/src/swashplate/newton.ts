/** Newton on the ring's three lengths: one step, and steps until it settles. Which pose that is, `close.ts` says. */
import { type PreparedRing, ringRows, ROW } from './ring.ts';

/** An offset past which a half-angle tangent means a ring turned over: no swashplate goes past 90 degrees. */
const TURNED_OVER = 1;

const rows = new Float64Array(3 * ROW);

/**
 * What a step tells of the pose it started from: the determinant over the designed one (1 at the designed pose, 0 at a
 * singular one); the step's size, mm; the rise of each link from its eye to its ball, mm.
 */
export const STEP = { DETERMINANT: 0, SIZE: 1, RISE: 2, LENGTH: 5 } as const;

/**
 * One step of Newton from the pose in `x` (z, a, b), which it overwrites; `told` (STEP) is of the pose it started from.
 *
 * Each row is taken times its length, which needs no division: (P - eye) . dP = length (length - link). It is solved for
 * (z, p, r) by Cramer's rule, and a step in an angle is one in its half tangent by (1 + a^2)/2.
 */
export function ringStep(
  ring: PreparedRing,
  eyes: Float64Array,
  linkMm: Float64Array,
  x: Float64Array,
  told: Float64Array,
): void {
  ringRows(ring, x, eyes, rows);
  const l0 = rows[3] as number;
  const l1 = rows[7] as number;
  const l2 = rows[11] as number;
  const r0 = l0 * (l0 - (linkMm[0] as number));
  const r1 = l1 * (l1 - (linkMm[1] as number));
  const r2 = l2 * (l2 - (linkMm[2] as number));
  const j0 = rows[0] as number;
  const j1 = rows[1] as number;
  const j2 = rows[2] as number;
  const j3 = rows[4] as number;
  const j4 = rows[5] as number;
  const j5 = rows[6] as number;
  const j6 = rows[8] as number;
  const j7 = rows[9] as number;
  const j8 = rows[10] as number;
  const c0 = j4 * j8 - j5 * j7;
  const c1 = j5 * j6 - j3 * j8;
  const c2 = j3 * j7 - j4 * j6;
  const determinant = j0 * c0 + j1 * c1 + j2 * c2;
  const inverse = 1 / determinant;
  const dz = (r0 * c0 + r1 * (j2 * j7 - j1 * j8) + r2 * (j1 * j5 - j2 * j4)) * inverse;
  const dp = (r0 * c1 + r1 * (j0 * j8 - j2 * j6) + r2 * (j2 * j3 - j0 * j5)) * inverse;
  const dr = (r0 * c2 + r1 * (j1 * j6 - j0 * j7) + r2 * (j0 * j4 - j1 * j3)) * inverse;
  const a = x[1] as number;
  const b = x[2] as number;
  x[0] = (x[0] as number) - dz;
  x[1] = a - dp * (0.5 + 0.5 * a * a);
  x[2] = b - dr * (0.5 + 0.5 * b * b);
  told[STEP.DETERMINANT] = determinant * ring.perDesignedDeterminant;
  told[STEP.SIZE] = Math.abs(dz) + ring.reachMm * (Math.abs(dp) + Math.abs(dr));
  told[STEP.RISE] = j0;
  told[STEP.RISE + 1] = j3;
  told[STEP.RISE + 2] = j6;
}

/**
 * Newton from the pose in `x` (z, a, b), which it overwrites with the pose that closes.
 * Returns the steps taken, or -1 where it does not settle. Says nothing about which pose it is: `closeRing` does.
 */
export function newtonRing(
  ring: PreparedRing,
  eyes: Float64Array,
  linkMm: Float64Array,
  x: Float64Array,
  told: Float64Array,
  most = 12,
): number {
  for (let step = 1; step <= most; step++) {
    ringStep(ring, eyes, linkMm, x, told);
    if ((told[STEP.SIZE] as number) < ring.lastStepMm) return step;
    if (!(Math.abs(x[1] as number) < TURNED_OVER && Math.abs(x[2] as number) < TURNED_OVER)) return -1;
  }
  return -1;
}
