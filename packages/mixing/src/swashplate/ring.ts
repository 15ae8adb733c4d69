/**
 * The stationary ring: three link eyes in, the pose that closes all three links out.
 *
 * In frame G (x toward the guide) the guide keeps the ring's own x axis in the x-z plane, so R_GS = Ry(p) Rx(r), which
 * is fixed-axis roll and pitch with yaw 0 of REP-103: p positive front (guide side) down, r positive left side up. With
 * a = tan(p/2), b = tan(r/2), a ball at (x, y, h) on the ring stands at
 *
 *   v = y cos r - h sin r        w = y sin r + h cos r
 *   P = (x cos p + w sin p,  v,  z - x sin p + w cos p)
 *
 * and the pose is where |P_i - eye_i| = link_i for i = 1, 2, 3: Newton on (z, a, b), on the lengths themselves and not
 * their squares, whose residual is then millimetres.
 */
import { cosDeg, sinDeg } from '../quantities/angles.ts';
import type { RingBall } from '../rig/rig.ts';

export interface PreparedRing {
  /** cosine and sine of the guide's machine azimuth: turns G into F */
  guideCos: number;
  guideSin: number;
  designedHeightMm: number;
  /** the three balls on the ring, 3 x (x, y, h) in its own axes turned to the guide */
  balls: Float64Array;
  linkMm: Float64Array;
  /** the three lower eyes with horns and levers as designed, and the lengths that close the level ring on them */
  designedEyes: Float64Array;
  designedLinkMm: Float64Array;
  /** determinant of the closure's derivatives at the designed pose, mm^2 */
  designedDeterminant: number;
  /** turns a determinant of Newton's rows into a part of the designed one */
  perDesignedDeterminant: number;
  /** distance of the farthest ball from the ring's centre: what an angle's step is multiplied by to count in mm */
  reachMm: number;
  /** a Newton step below this is the last */
  lastStepMm: number;
}

/** What the closure writes: z mm, a = tan(p/2), b = tan(r/2), normal in G (3), determinant / designed, steps taken. */
export const RING = { Z: 0, A: 1, B: 2, NX: 3, NY: 4, NZ: 5, DETERMINANT: 6, STEPS: 7, SIZE: 8 } as const;

/** An offset past which a half-angle tangent means a ring turned over: no swashplate goes past 90 degrees. */
const TURNED_OVER = 1;

/**
 * A pose is taken without another look at its residual once that must be below this. A step that moves a ball by at
 * most m (its z, and its angles times the farthest ball's distance R) leaves of a link of length L the residual's second
 * order alone: at most m^2/2 (1/L + 1/R) from lengths and arcs and m^2/(2 R) from half tangents, together m^2/2 (1/L + 2/R).
 */
const RESIDUAL_LEFT_MM = 1e-13;

export function prepareRing(
  balls: RingBall[],
  linkMm: number[],
  designedEyes: Float64Array,
  swash: { height: number; guide: number },
): PreparedRing {
  const own = new Float64Array(9);
  balls.forEach((ball, i) => {
    own[3 * i] = ball.radius * cosDeg(ball.azimuth - swash.guide);
    own[3 * i + 1] = ball.radius * sinDeg(ball.azimuth - swash.guide);
    own[3 * i + 2] = ball.height;
  });
  const designedLinkMm = new Float64Array(3);
  for (let i = 0; i < 3; i++) {
    designedLinkMm[i] = Math.hypot(
      (own[3 * i] as number) - (designedEyes[3 * i] as number),
      (own[3 * i + 1] as number) - (designedEyes[3 * i + 1] as number),
      swash.height + (own[3 * i + 2] as number) - (designedEyes[3 * i + 2] as number),
    );
  }
  const ring: PreparedRing = {
    guideCos: cosDeg(swash.guide),
    guideSin: sinDeg(swash.guide),
    designedHeightMm: swash.height,
    balls: own,
    linkMm: Float64Array.from(linkMm),
    designedEyes,
    designedLinkMm,
    designedDeterminant: 1,
    perDesignedDeterminant: 1,
    reachMm: 0,
    lastStepMm: 0,
  };
  for (let i = 0; i < 3; i++) {
    const distance = Math.hypot(own[3 * i] as number, own[3 * i + 1] as number, own[3 * i + 2] as number);
    ring.reachMm = Math.max(ring.reachMm, distance);
  }
  ring.lastStepMm = Math.sqrt((2 * RESIDUAL_LEFT_MM) / (1 / Math.min(...linkMm) + 2 / ring.reachMm));
  const jacobian = new Float64Array(9);
  ringResiduals(ring, Float64Array.of(swash.height, 0, 0), designedEyes, designedLinkMm, new Float64Array(3), jacobian);
  ring.designedDeterminant = determinant3(jacobian);
  // Newton's rows are a length each too large, and angles are not half tangents: twice, for two columns.
  ring.perDesignedDeterminant = 4 / (ring.designedDeterminant * product3(ring.linkMm));
  return ring;
}

function product3(v: Float64Array): number {
  return (v[0] as number) * (v[1] as number) * (v[2] as number);
}

/** Places in a row of the closure: (P - eye) . dP/d(z, p, r) in mm and mm^2 a radian, then |P - eye| mm. */
const ROW = 4;

/**
 * What one link asks of the ring at x = (z, a, b): for i = 1, 2, 3 the derivatives of |P_i - eye_i|^2 / 2 by z and by the
 * angles p and r, and the length |P_i - eye_i| itself, into `rows` (3 x 4).
 */
function ringRows(ring: PreparedRing, x: Float64Array, eyes: Float64Array, rows: Float64Array): void {
  const z = x[0] as number;
  const a = x[1] as number;
  const b = x[2] as number;
  const perA = 2 / (1 + a * a);
  const perB = 2 / (1 + b * b);
  const cosP = perA - 1;
  const sinP = a * perA;
  const cosR = perB - 1;
  const sinR = b * perB;
  const balls = ring.balls;
  for (let i = 0; i < 3; i++) {
    const k = 3 * i;
    const bx = balls[k] as number;
    const by = balls[k + 1] as number;
    const bh = balls[k + 2] as number;
    const v = by * cosR - bh * sinR;
    const w = by * sinR + bh * cosR;
    const px = bx * cosP + w * sinP;
    const pz = w * cosP - bx * sinP;
    const dx = px - (eyes[k] as number);
    const dy = v - (eyes[k + 1] as number);
    const dz = z + pz - (eyes[k + 2] as number);
    const row = ROW * i;
    rows[row] = dz;
    rows[row + 1] = dx * pz - dz * px;
    rows[row + 2] = v * (dx * sinP + dz * cosP) - dy * w;
    rows[row + 3] = Math.sqrt(dx * dx + dy * dy + dz * dz);
  }
}

const scratchRows = new Float64Array(3 * ROW);

/**
 * Residuals |P_i - eye_i| - link_i (3, mm) and their derivatives by (z, a, b) (3 x 3, row-major) at x = (z, a, b).
 */
export function ringResiduals(
  ring: PreparedRing,
  x: Float64Array,
  eyes: Float64Array,
  linkMm: Float64Array,
  residuals: Float64Array,
  jacobian: Float64Array,
): void {
  const rows = scratchRows;
  ringRows(ring, x, eyes, rows);
  const perA = 2 / (1 + (x[1] as number) * (x[1] as number));
  const perB = 2 / (1 + (x[2] as number) * (x[2] as number));
  for (let i = 0; i < 3; i++) {
    const length = rows[ROW * i + 3] as number;
    residuals[i] = length - (linkMm[i] as number);
    jacobian[3 * i] = (rows[ROW * i] as number) / length;
    jacobian[3 * i + 1] = ((rows[ROW * i + 1] as number) / length) * perA;
    jacobian[3 * i + 2] = ((rows[ROW * i + 2] as number) / length) * perB;
  }
}

export function determinant3(m: Float64Array): number {
  const m0 = m[0] as number;
  const m1 = m[1] as number;
  const m2 = m[2] as number;
  const m3 = m[3] as number;
  const m4 = m[4] as number;
  const m5 = m[5] as number;
  const m6 = m[6] as number;
  const m7 = m[7] as number;
  const m8 = m[8] as number;
  return m0 * (m4 * m8 - m5 * m7) - m1 * (m3 * m8 - m5 * m6) + m2 * (m3 * m7 - m4 * m6);
}

/** What a step tells: the determinant over the designed one (1 at the designed pose, 0 at a singular one), its size mm. */
export const STEP = { DETERMINANT: 0, SIZE: 1, LENGTH: 2 } as const;

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
  const rows = scratchRows;
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

/** The ring's unit normal in G from its half-angle tangents, into `out[at ..]`. */
export function ringNormal(a: number, b: number, out: Float64Array, at: number): void {
  const perA = 2 / (1 + a * a);
  const perB = 2 / (1 + b * b);
  out[at] = a * perA * (perB - 1);
  out[at + 1] = -b * perB;
  out[at + 2] = (perA - 1) * (perB - 1);
}
