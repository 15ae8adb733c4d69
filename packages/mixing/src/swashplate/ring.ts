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
}

/** What the closure writes: z mm, a = tan(p/2), b = tan(r/2), normal in G (3), determinant / designed, steps taken. */
export const RING = { Z: 0, A: 1, B: 2, NX: 3, NY: 4, NZ: 5, DETERMINANT: 6, STEPS: 7, SIZE: 8 } as const;

/** An offset past which a half-angle tangent means a ring turned over: no swashplate goes past 90 degrees. */
const TURNED_OVER = 1;

/**
 * A Newton step below this leaves an error of its square over a length of the mechanism's size: 1e-14 / 10 mm, below
 * what a double holds of 100 mm. So the pose is taken without another look at the residual.
 */
const LAST_STEP_MM = 1e-7;

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
  };
  const jacobian = new Float64Array(9);
  ringResiduals(ring, Float64Array.of(swash.height, 0, 0), designedEyes, designedLinkMm, new Float64Array(3), jacobian);
  ring.designedDeterminant = determinant3(jacobian);
  return ring;
}

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
    const length = Math.sqrt(dx * dx + dy * dy + dz * dz);
    const inverse = 1 / length;
    residuals[i] = length - (linkMm[i] as number);
    jacobian[k] = dz * inverse;
    jacobian[k + 1] = (dx * pz - dz * px) * inverse * perA;
    jacobian[k + 2] = (v * (dx * sinP + dz * cosP) - dy * w) * inverse * perB;
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

const scratchResiduals = new Float64Array(3);
const scratchJacobian = new Float64Array(9);

/**
 * Newton from the pose in `x` (z, a, b), which it overwrites with the pose that closes.
 * Returns the steps taken, or -1 where it does not settle. Says nothing about which pose it is: `closeRing` does.
 * `determinantOut[0]` is the last determinant over the designed one: 1 at the designed pose, 0 at a singular one.
 */
export function newtonRing(
  ring: PreparedRing,
  eyes: Float64Array,
  linkMm: Float64Array,
  x: Float64Array,
  determinantOut: Float64Array,
  most = 12,
): number {
  const r = scratchResiduals;
  const j = scratchJacobian;
  for (let step = 1; step <= most; step++) {
    ringResiduals(ring, x, eyes, linkMm, r, j);
    const r0 = r[0] as number;
    const r1 = r[1] as number;
    const r2 = r[2] as number;
    const j0 = j[0] as number;
    const j1 = j[1] as number;
    const j2 = j[2] as number;
    const j3 = j[3] as number;
    const j4 = j[4] as number;
    const j5 = j[5] as number;
    const j6 = j[6] as number;
    const j7 = j[7] as number;
    const j8 = j[8] as number;
    const c0 = j4 * j8 - j5 * j7;
    const c1 = j5 * j6 - j3 * j8;
    const c2 = j3 * j7 - j4 * j6;
    const determinant = j0 * c0 + j1 * c1 + j2 * c2;
    const inverse = 1 / determinant;
    const dz = (r0 * c0 + r1 * (j2 * j7 - j1 * j8) + r2 * (j1 * j5 - j2 * j4)) * inverse;
    const da = (r0 * c1 + r1 * (j0 * j8 - j2 * j6) + r2 * (j2 * j3 - j0 * j5)) * inverse;
    const db = (r0 * c2 + r1 * (j1 * j6 - j0 * j7) + r2 * (j0 * j4 - j1 * j3)) * inverse;
    x[0] = (x[0] as number) - dz;
    const a = (x[1] as number) - da;
    const b = (x[2] as number) - db;
    x[1] = a;
    x[2] = b;
    determinantOut[0] = determinant / ring.designedDeterminant;
    // 30 mm: the radius at which a half-angle step counts, so that the three are compared in millimetres.
    const size = Math.abs(dz) + 30 * (Math.abs(da) + Math.abs(db));
    if (size < LAST_STEP_MM) return step;
    if (!(Math.abs(a) < TURNED_OVER && Math.abs(b) < TURNED_OVER)) return -1;
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
