/**
 * The Bell-Hiller mixing arms: ring ball places and teeter in, arm angles and blade ends out.
 *
 * Both arms' pivots sit on the flybar's carrier, which teeter tips about the axis across the flybar at the flybar's
 * height (and paddle pitch leaves alone). In the carrier's own frame C an arm is a lever: its swashplate end is tied by a
 * rod to the turning ring's ball, its blade end is the lower eye of the blade's link.
 */
import { closeOnSide, missMm, overCentreSine, sideOf } from '../numerics/circle-closure.ts';
import { cosDeg, sinDeg } from '../quantities/angles.ts';
import type { Flybar } from '../rig/rig.ts';

export interface PreparedMixing {
  flybarHeightMm: number;
  axisCos: number;
  axisSin: number;
  /** first arm's pivot in C, height from the flybar; the second's is turned 180 degrees about the mast */
  pivotX: number;
  pivotY: number;
  pivotZ: number;
  /** direction of the first arm's plane in C */
  planeCos: number;
  planeSin: number;
  swashEndMm: number;
  swashEndCos: number;
  swashEndSin: number;
  bladeEndMm: number;
  betweenCos: number;
  betweenSin: number;
  rodMm: Float64Array;
  /** the closure of each arm, fixed by the designed pose */
  side: [1 | -1, 1 | -1];
}

/** `designedBalls`: the two ring balls with the ring level at its designed height, in R (2 x 3). */
export function prepareMixing(flybar: Flybar, designedBalls: Float64Array): PreparedMixing {
  const mixing = flybar.mixing;
  const pivotDeg = mixing.pivot.azimuth - flybar.azimuth;
  const planeDeg = mixing.azimuth - flybar.azimuth;
  const m: PreparedMixing = {
    flybarHeightMm: flybar.height,
    axisCos: cosDeg(flybar.azimuth),
    axisSin: sinDeg(flybar.azimuth),
    pivotX: mixing.pivot.radius * cosDeg(pivotDeg),
    pivotY: mixing.pivot.radius * sinDeg(pivotDeg),
    pivotZ: mixing.pivot.height - flybar.height,
    planeCos: cosDeg(planeDeg),
    planeSin: sinDeg(planeDeg),
    swashEndMm: mixing.swashEnd.length,
    swashEndCos: cosDeg(mixing.swashEnd.angle),
    swashEndSin: sinDeg(mixing.swashEnd.angle),
    bladeEndMm: mixing.bladeEnd.length,
    betweenCos: cosDeg(mixing.bladeEnd.angle - mixing.swashEnd.angle),
    betweenSin: sinDeg(mixing.bladeEnd.angle - mixing.swashEnd.angle),
    rodMm: Float64Array.from(mixing.rods),
    side: [1, 1],
  };
  for (const arm of [0, 1] as const) {
    fromPivot(m, arm, designedBalls, 1, 0);
    m.side[arm] = sideOf(seen[0] as number, seen[1] as number, m.swashEndCos, m.swashEndSin);
  }
  return m;
}

/** The ring's ball seen from the arm's pivot: in the arm's plane (out, up) and across it. */
const seen = new Float64Array(3);

function fromPivot(m: PreparedMixing, arm: 0 | 1, balls: Float64Array, teeterCos: number, teeterSin: number): void {
  const turn = arm === 0 ? 1 : -1;
  const x = balls[3 * arm] as number;
  const y = balls[3 * arm + 1] as number;
  const z = (balls[3 * arm + 2] as number) - m.flybarHeightMm;
  const level = x * m.axisCos + y * m.axisSin;
  const across = y * m.axisCos - x * m.axisSin;
  const qx = level * teeterCos + z * teeterSin - turn * m.pivotX;
  const qy = across - turn * m.pivotY;
  seen[0] = turn * (qx * m.planeCos + qy * m.planeSin);
  seen[1] = z * teeterCos - level * teeterSin - m.pivotZ;
  seen[2] = turn * (qy * m.planeCos - qx * m.planeSin);
}

/**
 * Closes arm `arm` (0 or 1) on the ring's ball in `balls` (2 x 3, in R). Writes cosine and sine of its swashplate end's
 * angle into `turn[0], turn[1]`, and its blade end into `eye[at ..]`, in R of blade 1. False where the rod cannot reach.
 */
export function closeMixingArm(
  m: PreparedMixing,
  arm: 0 | 1,
  balls: Float64Array,
  teeterCos: number,
  teeterSin: number,
  turn: Float64Array,
  eye: Float64Array,
  at: number,
): boolean {
  fromPivot(m, arm, balls, teeterCos, teeterSin);
  const rod = m.rodMm[arm] as number;
  if (!closeOnSide(m.swashEndMm, seen[0] as number, seen[1] as number, seen[2] as number, rod, m.side[arm], turn, 0)) {
    return false;
  }
  const c = turn[0] as number;
  const s = turn[1] as number;
  mixingPoint(
    m,
    arm,
    m.bladeEndMm * (c * m.betweenCos - s * m.betweenSin),
    m.bladeEndMm * (s * m.betweenCos + c * m.betweenSin),
    teeterCos,
    teeterSin,
    eye,
    at,
  );
  return true;
}

/** A point `out` along and `up` above an arm's pivot in its plane, in R of blade 1, into `eye[at ..]`. */
export function mixingPoint(
  m: PreparedMixing,
  arm: 0 | 1,
  out: number,
  up: number,
  teeterCos: number,
  teeterSin: number,
  eye: Float64Array,
  at: number,
): void {
  const turn = arm === 0 ? 1 : -1;
  const x = turn * (m.pivotX + out * m.planeCos);
  const y = turn * (m.pivotY + out * m.planeSin);
  const z = m.pivotZ + up;
  const level = x * teeterCos - z * teeterSin;
  eye[at] = level * m.axisCos - y * m.axisSin;
  eye[at + 1] = level * m.axisSin + y * m.axisCos;
  eye[at + 2] = m.flybarHeightMm + x * teeterSin + z * teeterCos;
}

/**
 * How arm `arm`'s blade end moves in R, into `out[0 .. 2]`, where its ring ball moves by `ballSlope` (3, mm per unit), teeter
 * held; `turn` is what `closeMixingArm` wrote. The rod keeps its length: (end - ball) . (d end - d ball) = 0.
 */
export function bladeEndSlope(
  m: PreparedMixing,
  arm: 0 | 1,
  balls: Float64Array,
  teeterCos: number,
  teeterSin: number,
  turn: Float64Array,
  ballSlope: Float64Array,
  out: Float64Array,
): void {
  fromPivot(m, arm, balls, teeterCos, teeterSin);
  const c = turn[0] as number;
  const s = turn[1] as number;
  const dx = m.swashEndMm * c - (seen[0] as number);
  const dy = m.swashEndMm * s - (seen[1] as number);
  const dn = -(seen[2] as number);
  const turned = arm === 0 ? 1 : -1;
  const ballX = ballSlope[0] as number;
  const ballY = ballSlope[1] as number;
  const ballZ = ballSlope[2] as number;
  const level = ballX * m.axisCos + ballY * m.axisSin;
  const across = ballY * m.axisCos - ballX * m.axisSin;
  const along = level * teeterCos + ballZ * teeterSin;
  const outward = turned * (along * m.planeCos + across * m.planeSin);
  const upward = ballZ * teeterCos - level * teeterSin;
  const aside = turned * (across * m.planeCos - along * m.planeSin);
  const rate = (dx * outward + dy * upward + dn * aside) / (m.swashEndMm * (dy * c - dx * s));
  const endOut = -rate * m.bladeEndMm * (s * m.betweenCos + c * m.betweenSin);
  const endUp = rate * m.bladeEndMm * (c * m.betweenCos - s * m.betweenSin);
  const x = turned * endOut * m.planeCos;
  const y = turned * endOut * m.planeSin;
  const flat = x * teeterCos - endUp * teeterSin;
  out[0] = flat * m.axisCos - y * m.axisSin;
  out[1] = flat * m.axisSin + y * m.axisCos;
  out[2] = x * teeterSin + endUp * teeterCos;
}

/** A mixing arm's angle from its designed position, radians, from the turn that `closeMixingArm` wrote. */
export function mixingAngleRad(m: PreparedMixing, turn: Float64Array): number {
  const c = turn[0] as number;
  const s = turn[1] as number;
  return Math.atan2(s * m.swashEndCos - c * m.swashEndSin, c * m.swashEndCos + s * m.swashEndSin);
}

/** By how many millimetres an arm's rod misses (positive: too short). */
export function mixingMissMm(m: PreparedMixing, arm: 0 | 1, balls: Float64Array, teeterCos: number, teeterSin: number): number {
  fromPivot(m, arm, balls, teeterCos, teeterSin);
  return missMm(m.swashEndMm, seen[0] as number, seen[1] as number, seen[2] as number, m.rodMm[arm] as number);
}

/** How far an arm stands from dead centre with its rod: see `overCentreSine`. */
export function mixingSine(
  m: PreparedMixing,
  arm: 0 | 1,
  balls: Float64Array,
  teeterCos: number,
  teeterSin: number,
  turn: Float64Array,
): number {
  fromPivot(m, arm, balls, teeterCos, teeterSin);
  return overCentreSine(seen[0] as number, seen[1] as number, turn[0] as number, turn[1] as number);
}
