/**
 * The washout and the paddles: ring ball places in, base height, both arm angles and paddle pitch out.
 *
 * In R of blade 1. A base at height H slides on the mast; on it turn two arms (angles e1, e2), each tied by a link from
 * its swashplate end to the turning ring and by a rod from its flybar end to the flybar's control-arm ball, which paddle
 * pitch t turns about the flybar's axis and teeter carries. Four lengths, four unknowns (H, e1, e2, t); Newton, whose
 * derivatives are
 *
 *   link j:  dL/dH, dL/de_j          rod j:  dL/dH, dL/de_j, dL/dt
 *
 * so that e1 and e2 drop out and a 2 x 2 system in (H, t) is left.
 */
import { cosOf, sinOf } from '../numerics/trig.ts';
import { cosDeg, sinDeg } from '../quantities/angles.ts';
import type { Flybar } from '../rig/rig.ts';

export interface PreparedWashout {
  heightMm: number;
  flybarHeightMm: number;
  /** direction of the flybar's axis in R, toward paddle 1 */
  axisCos: number;
  axisSin: number;
  armStation: number;
  armLead: number;
  armHeight: number;
  /** first arm's pivot on the base; the second's is (-x, -y) */
  pivotX: number;
  pivotY: number;
  pivotHeight: number;
  /** direction of the first arm's plane; the second's is turned 180 degrees */
  planeCos: number;
  planeSin: number;
  flybarEndMm: number;
  flybarEndCos: number;
  flybarEndSin: number;
  swashEndMm: number;
  swashEndCos: number;
  swashEndSin: number;
  linkMm: Float64Array;
  rodMm: Float64Array;
}

export function prepareWashout(flybar: Flybar): PreparedWashout {
  const washout = flybar.washout;
  return {
    heightMm: washout.height,
    flybarHeightMm: flybar.height,
    axisCos: cosDeg(flybar.azimuth),
    axisSin: sinDeg(flybar.azimuth),
    armStation: flybar.arm.station,
    armLead: flybar.arm.lead,
    armHeight: flybar.arm.height,
    pivotX: washout.pivot.radius * cosDeg(washout.pivot.azimuth),
    pivotY: washout.pivot.radius * sinDeg(washout.pivot.azimuth),
    pivotHeight: washout.pivot.height,
    planeCos: cosDeg(washout.azimuth),
    planeSin: sinDeg(washout.azimuth),
    flybarEndMm: washout.flybarEnd.length,
    flybarEndCos: cosDeg(washout.flybarEnd.angle),
    flybarEndSin: sinDeg(washout.flybarEnd.angle),
    swashEndMm: washout.swashEnd.length,
    swashEndCos: cosDeg(washout.swashEnd.angle),
    swashEndSin: sinDeg(washout.swashEnd.angle),
    linkMm: Float64Array.from(washout.links),
    rodMm: Float64Array.from(washout.rods),
  };
}

/** The places in a washout state: base height mm, arm angles rad, paddle pitch rad. */
export const WASHOUT = { H: 0, ARM1: 1, ARM2: 2, PADDLE: 3, SIZE: 4 } as const;

/** Place of control-arm ball `side` (0 or 1) in R, and its derivative by paddle pitch, into out[0..5]. */
export function controlArmBall(
  w: PreparedWashout,
  side: 0 | 1,
  paddleCos: number,
  paddleSin: number,
  teeterCos: number,
  teeterSin: number,
  out: Float64Array,
): void {
  const station = side === 0 ? w.armStation : -w.armStation;
  const lead = side === 0 ? w.armLead : -w.armLead;
  const across = lead * paddleCos - w.armHeight * paddleSin;
  const up = lead * paddleSin + w.armHeight * paddleCos;
  const along = station * teeterCos - up * teeterSin;
  out[0] = along * w.axisCos - across * w.axisSin;
  out[1] = along * w.axisSin + across * w.axisCos;
  out[2] = w.flybarHeightMm + station * teeterSin + up * teeterCos;
  const alongPer = -across * teeterSin;
  out[3] = alongPer * w.axisCos + up * w.axisSin;
  out[4] = alongPer * w.axisSin - up * w.axisCos;
  out[5] = across * teeterCos;
}

const ball = new Float64Array(6);

/**
 * Residuals [link 1, link 2, rod 1, rod 2] (mm) at `state`, and their derivatives by [H, own arm, paddle] (4 x 3,
 * row-major), for ring balls at `ringBalls` (2 x 3, in R).
 */
export function washoutResiduals(
  w: PreparedWashout,
  state: Float64Array,
  ringBalls: Float64Array,
  teeterCos: number,
  teeterSin: number,
  linkMm: Float64Array,
  rodMm: Float64Array,
  residuals: Float64Array,
  jacobian: Float64Array,
): void {
  const paddleCos = cosOf(state[WASHOUT.PADDLE] as number);
  const paddleSin = sinOf(state[WASHOUT.PADDLE] as number);
  const baseZ = (state[WASHOUT.H] as number) + w.pivotHeight;
  for (let side = 0; side < 2; side++) {
    const turn = side === 0 ? 1 : -1;
    const c = cosOf(state[WASHOUT.ARM1 + side] as number);
    const s = sinOf(state[WASHOUT.ARM1 + side] as number);
    // swashplate end, and its link to the ring
    let out = w.swashEndMm * (w.swashEndCos * c - w.swashEndSin * s);
    let up = w.swashEndMm * (w.swashEndSin * c + w.swashEndCos * s);
    let dx = turn * (w.pivotX + out * w.planeCos) - (ringBalls[3 * side] as number);
    let dy = turn * (w.pivotY + out * w.planeSin) - (ringBalls[3 * side + 1] as number);
    let dz = baseZ + up - (ringBalls[3 * side + 2] as number);
    let length = Math.sqrt(dx * dx + dy * dy + dz * dz);
    residuals[side] = length - (linkMm[side] as number);
    jacobian[3 * side] = dz / length;
    jacobian[3 * side + 1] = (out * dz - turn * up * (dx * w.planeCos + dy * w.planeSin)) / length;
    jacobian[3 * side + 2] = 0;
    // flybar end, and its rod to the control arm
    out = w.flybarEndMm * (w.flybarEndCos * c - w.flybarEndSin * s);
    up = w.flybarEndMm * (w.flybarEndSin * c + w.flybarEndCos * s);
    controlArmBall(w, side as 0 | 1, paddleCos, paddleSin, teeterCos, teeterSin, ball);
    dx = turn * (w.pivotX + out * w.planeCos) - (ball[0] as number);
    dy = turn * (w.pivotY + out * w.planeSin) - (ball[1] as number);
    dz = baseZ + up - (ball[2] as number);
    length = Math.sqrt(dx * dx + dy * dy + dz * dz);
    const row = 6 + 3 * side;
    residuals[2 + side] = length - (rodMm[side] as number);
    jacobian[row] = dz / length;
    jacobian[row + 1] = (out * dz - turn * up * (dx * w.planeCos + dy * w.planeSin)) / length;
    jacobian[row + 2] = -(dx * (ball[3] as number) + dy * (ball[4] as number) + dz * (ball[5] as number)) / length;
  }
}

const scratchResiduals = new Float64Array(4);
const scratchJacobian = new Float64Array(12);

/** As for the ring: a step below this leaves an error of its square over the mechanism's size. */
const LAST_STEP_MM = 1e-7;

/**
 * Newton from `state`, which it overwrites. Returns the steps taken, or -1 where it does not settle.
 * `determinantOut[0]` is the determinant of the 2 x 2 that is left times both arms' own derivatives.
 */
export function newtonWashout(
  w: PreparedWashout,
  state: Float64Array,
  ringBalls: Float64Array,
  teeterCos: number,
  teeterSin: number,
  linkMm: Float64Array,
  rodMm: Float64Array,
  determinantOut: Float64Array,
  most = 12,
): number {
  const r = scratchResiduals;
  const j = scratchJacobian;
  for (let step = 1; step <= most; step++) {
    washoutResiduals(w, state, ringBalls, teeterCos, teeterSin, linkMm, rodMm, r, j);
    // From link j: e_j = (r_j - (dL/dH) H) / (dL/de_j); put into rod j.
    const arm1 = j[1] as number;
    const arm2 = j[4] as number;
    const ratio1 = (j[7] as number) / arm1;
    const ratio2 = (j[10] as number) / arm2;
    const h1 = (j[6] as number) - ratio1 * (j[0] as number);
    const h2 = (j[9] as number) - ratio2 * (j[3] as number);
    const t1 = j[8] as number;
    const t2 = j[11] as number;
    const q1 = (r[2] as number) - ratio1 * (r[0] as number);
    const q2 = (r[3] as number) - ratio2 * (r[1] as number);
    const determinant = h1 * t2 - h2 * t1;
    const dH = (q1 * t2 - q2 * t1) / determinant;
    const dT = (h1 * q2 - h2 * q1) / determinant;
    const d1 = ((r[0] as number) - (j[0] as number) * dH) / arm1;
    const d2 = ((r[1] as number) - (j[3] as number) * dH) / arm2;
    state[0] = (state[0] as number) - dH;
    state[1] = (state[1] as number) - d1;
    state[2] = (state[2] as number) - d2;
    state[3] = (state[3] as number) - dT;
    determinantOut[0] = determinant * arm1 * arm2;
    // 15 mm: the arms' size, at which an angle's step counts in millimetres.
    const size = Math.abs(dH) + 15 * (Math.abs(d1) + Math.abs(d2) + Math.abs(dT));
    if (size < LAST_STEP_MM) return step;
    if (!(size < 1e3)) return -1;
  }
  return -1;
}
