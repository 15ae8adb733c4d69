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
  /** the designed rise of each link from eye to ball, over its own length: -1 to 1 */
  designedRise: Float64Array;
  /** that over the link's actual length, per mm: a rise times it is 1 times the designed rise's square where the link stands as designed */
  perRise: Float64Array;
  /** determinant of the closure's derivatives at the designed pose, mm^2 */
  designedDeterminant: number;
  /** turns a determinant of Newton's rows into a part of the designed one */
  perDesignedDeterminant: number;
  /** distance of the farthest ball from the ring's centre: what an angle's step is multiplied by to count in mm */
  reachMm: number;
  /** a Newton step below this is the last */
  lastStepMm: number;
  /** the links do not hold the ring at its designed pose, from which all others are reached: none is */
  singular: boolean;
}

/** What the closure writes: z mm, a = tan(p/2), b = tan(r/2), normal in G (3), determinant / designed, steps taken, way. */
export const RING = { Z: 0, A: 1, B: 2, NX: 3, NY: 4, NZ: 5, DETERMINANT: 6, STEPS: 7, WAY: 8, SIZE: 9 } as const;

/**
 * How a pose was found: by Newton, where that is surely the continuous one; by a walk from the designed pose; or, that walk
 * being barred on its straight way, as a pose that closes on the designed side of every singular one.
 */
export const WAY = { NEWTON: 0, WALKED: 1, BARRED: 2 } as const;

/**
 * A ring so badly held at its designed pose is not held: what a double rounds off of 100 mm (1e-14) would move it by more
 * than the 1e-9 mm to which answers are promised.
 */
const SINGULAR_CONDITION = 1e5;

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
  const designedLinkMm = new Float64Array(3);
  const designedRise = new Float64Array(3);
  const perRise = new Float64Array(3);
  let reachMm = 0;
  let shortestMm = Number.POSITIVE_INFINITY;
  for (let i = 0; i < 3; i++) {
    placeBall(balls[i] as RingBall, swash.guide, own, 3 * i);
    const x = own[3 * i] as number;
    const y = own[3 * i + 1] as number;
    const h = own[3 * i + 2] as number;
    const alongMm = x - (designedEyes[3 * i] as number);
    const acrossMm = y - (designedEyes[3 * i + 1] as number);
    const riseMm = swash.height + h - (designedEyes[3 * i + 2] as number);
    const designedMm = Math.sqrt(alongMm * alongMm + acrossMm * acrossMm + riseMm * riseMm);
    const rise = riseMm / designedMm;
    const actualMm = linkMm[i] as number;
    designedLinkMm[i] = designedMm;
    designedRise[i] = rise;
    perRise[i] = rise / actualMm;
    reachMm = Math.max(reachMm, Math.sqrt(x * x + y * y + h * h));
    shortestMm = Math.min(shortestMm, actualMm);
  }
  const ring: PreparedRing = {
    guideCos: cosDeg(swash.guide),
    guideSin: sinDeg(swash.guide),
    designedHeightMm: swash.height,
    balls: own,
    linkMm: Float64Array.from(linkMm),
    designedEyes,
    designedLinkMm,
    designedRise,
    perRise,
    designedDeterminant: 1,
    perDesignedDeterminant: 1,
    reachMm,
    lastStepMm: Math.sqrt((2 * RESIDUAL_LEFT_MM) / (1 / shortestMm + 2 / reachMm)),
    singular: false,
  };
  scratchPose.fill(0);
  scratchPose[RING.Z] = swash.height;
  ring.singular = !(ringCondition(ring, scratchPose, designedEyes) < SINGULAR_CONDITION);
  ringResiduals(ring, scratchPose, designedEyes, designedLinkMm, scratchResiduals, scratchJacobian);
  ring.designedDeterminant = determinant3(scratchJacobian);
  // Newton's rows are a length each too large, and angles are not half tangents: twice, for two columns.
  ring.perDesignedDeterminant = 4 / (ring.designedDeterminant * product3(ring.linkMm));
  return ring;
}

const scratchPose = new Float64Array(3);
const scratchResiduals = new Float64Array(3);
const scratchJacobian = new Float64Array(9);

/** A ball's place on the ring, in its own axes turned to the guide, into `out[at .. at + 2]`, mm. */
export function placeBall(ball: RingBall, guideDeg: number, out: Float64Array, at: number): void {
  out[at] = ball.radius * cosDeg(ball.azimuth - guideDeg);
  out[at + 1] = ball.radius * sinDeg(ball.azimuth - guideDeg);
  out[at + 2] = ball.height;
}

function product3(v: Float64Array): number {
  return (v[0] as number) * (v[1] as number) * (v[2] as number);
}

/** Places in a row of the closure: (P - eye) . dP/d(z, p, r) in mm and mm^2 a radian, then |P - eye| mm. */
export const ROW = 4;

/**
 * What one link asks of the ring at x = (z, a, b): for i = 1, 2, 3 the derivatives of |P_i - eye_i|^2 / 2 by z and by the
 * angles p and r, and the length |P_i - eye_i| itself, into `rows` (3 x 4).
 */
export function ringRows(ring: PreparedRing, x: Float64Array, eyes: Float64Array, rows: Float64Array): void {
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

/** The length |P_i - eye_i| of link i alone at x = (z, a, b), mm: as `ringRows` has it. */
export function ringLength(ring: PreparedRing, x: Float64Array, eyes: Float64Array, i: number): number {
  const a = x[1] as number;
  const b = x[2] as number;
  const perA = 2 / (1 + a * a);
  const perB = 2 / (1 + b * b);
  const cosP = perA - 1;
  const sinP = a * perA;
  const cosR = perB - 1;
  const sinR = b * perB;
  const { balls } = ring;
  const k = 3 * i;
  const bx = balls[k] as number;
  const by = balls[k + 1] as number;
  const bh = balls[k + 2] as number;
  const w = by * sinR + bh * cosR;
  const dx = bx * cosP + w * sinP - (eyes[k] as number);
  const dy = by * cosR - bh * sinR - (eyes[k + 1] as number);
  const dz = (x[0] as number) + (w * cosP - bx * sinP) - (eyes[k + 2] as number);
  return Math.sqrt(dx * dx + dy * dy + dz * dz);
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

/**
 * How well the three links hold the ring at a pose x = (z, a, b) that closes: the condition number of the closure's
 * derivatives, |J| |J^-1| / 3 in Frobenius norms, of which 1 is the best. Rows are the links, each in mm along itself;
 * columns z in mm and the two tilts in mm too, as arcs at the farthest ball (angle times `reachMm`), so that all compare.
 * Relative errors of links and eyes come out in the pose at most about three times as many times larger. Infinity, or a
 * number beyond 1e15, where the pose is singular.
 */
export function ringCondition(ring: PreparedRing, x: Float64Array, eyes: Float64Array): number {
  const rows = scratchRows;
  ringRows(ring, x, eyes, rows);
  const per0 = 1 / (rows[3] as number);
  const per1 = 1 / (rows[7] as number);
  const per2 = 1 / (rows[11] as number);
  const perReach = 1 / ring.reachMm;
  const m0 = (rows[0] as number) * per0;
  const m1 = (rows[1] as number) * per0 * perReach;
  const m2 = (rows[2] as number) * per0 * perReach;
  const m3 = (rows[4] as number) * per1;
  const m4 = (rows[5] as number) * per1 * perReach;
  const m5 = (rows[6] as number) * per1 * perReach;
  const m6 = (rows[8] as number) * per2;
  const m7 = (rows[9] as number) * per2 * perReach;
  const m8 = (rows[10] as number) * per2 * perReach;
  const c0 = m4 * m8 - m5 * m7;
  const c1 = m5 * m6 - m3 * m8;
  const c2 = m3 * m7 - m4 * m6;
  const c3 = m2 * m7 - m1 * m8;
  const c4 = m0 * m8 - m2 * m6;
  const c5 = m1 * m6 - m0 * m7;
  const c6 = m1 * m5 - m2 * m4;
  const c7 = m2 * m3 - m0 * m5;
  const c8 = m0 * m4 - m1 * m3;
  const size = m0 * m0 + m1 * m1 + m2 * m2 + m3 * m3 + m4 * m4 + m5 * m5 + m6 * m6 + m7 * m7 + m8 * m8;
  const cofactors = c0 * c0 + c1 * c1 + c2 * c2 + c3 * c3 + c4 * c4 + c5 * c5 + c6 * c6 + c7 * c7 + c8 * c8;
  return Math.sqrt(size * cofactors) / (3 * Math.abs(m0 * c0 + m1 * c1 + m2 * c2));
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

/** The ring's unit normal in G from its half-angle tangents, into `out[at ..]`. */
export function ringNormal(a: number, b: number, out: Float64Array, at: number): void {
  const perA = 2 / (1 + a * a);
  const perB = 2 / (1 + b * b);
  out[at] = a * perA * (perB - 1);
  out[at + 1] = -b * perB;
  out[at + 2] = (perA - 1) * (perB - 1);
}

/** How the normal moves with each half tangent, d n/da into `out[0 .. 2]` and d n/db into `out[3 .. 5]`, in G. */
export function ringNormalSlopes(a: number, b: number, out: Float64Array): void {
  const perA = 2 / (1 + a * a);
  const perB = 2 / (1 + b * b);
  const sinP = a * perA;
  const cosP = perA - 1;
  const sinR = b * perB;
  const cosR = perB - 1;
  out[0] = perA * cosP * cosR;
  out[1] = 0;
  out[2] = -perA * sinP * cosR;
  out[3] = -perB * sinP * sinR;
  out[4] = -perB * cosR;
  out[5] = -perB * cosP * sinR;
}
