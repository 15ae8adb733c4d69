/**
 * Horn ball in, lever angle and the lever's swashplate end out.
 *
 * A lever turns about a horizontal axis through its pivot, in the vertical plane that holds the direction d. At lever
 * angle a its end {length, angle} lies at pivot + length (cos(angle + a) d + sin(angle + a) z); the pushrod ties its
 * servo end to the horn's ball. Lever angle zero is the designed position and tells the two closures apart.
 */
import { cosDeg, sinDeg } from '../quantities/angles.ts';
import { closeOnSide, missMm, overCentreSine, sideOf } from '../numerics/circle-closure.ts';
import type { Lever } from '../rig/rig.ts';
import type { PreparedHorn } from './horn.ts';

export interface PreparedLever {
  pivotX: number;
  pivotY: number;
  pivotZ: number;
  directionX: number;
  directionY: number;
  servoEndMm: number;
  /** cosine and sine of the servo end's own angle */
  servoEndCos: number;
  servoEndSin: number;
  swashEndMm: number;
  /** cosine and sine of the angle from the servo end to the swashplate end */
  betweenCos: number;
  betweenSin: number;
  pushrodMm: number;
  /** the closure, fixed by the designed pose */
  side: 1 | -1;
}

export function prepareLever(lever: Lever, pushrodMm: number, horn: PreparedHorn, guideDeg: number): PreparedLever {
  const c = cosDeg(guideDeg);
  const s = sinDeg(guideDeg);
  const [x, y, z] = lever.pivot;
  const pivotX = x * c + y * s;
  const pivotY = y * c - x * s;
  const directionX = cosDeg(lever.azimuth - guideDeg);
  const directionY = sinDeg(lever.azimuth - guideDeg);
  const servoEndCos = cosDeg(lever.servoEnd.angle);
  const servoEndSin = sinDeg(lever.servoEnd.angle);
  const fromPivotX = horn.shaftX + horn.lengthMm * horn.directionX - pivotX;
  const fromPivotY = horn.shaftY + horn.lengthMm * horn.directionY - pivotY;
  const inPlane = fromPivotX * directionX + fromPivotY * directionY;
  return {
    pivotX,
    pivotY,
    pivotZ: z,
    directionX,
    directionY,
    servoEndMm: lever.servoEnd.length,
    servoEndCos,
    servoEndSin,
    swashEndMm: lever.swashEnd.length,
    betweenCos: cosDeg(lever.swashEnd.angle - lever.servoEnd.angle),
    betweenSin: sinDeg(lever.swashEnd.angle - lever.servoEnd.angle),
    pushrodMm,
    side: sideOf(inPlane, horn.shaftZ - z, servoEndCos, servoEndSin),
  };
}

/**
 * Closes the lever on the horn's ball at `ball[at ..]`. Writes the swashplate end over `eye[at ..]` (mm) and the
 * cosine and sine of the servo end's angle into `turn[0], turn[1]`. False where the pushrod cannot reach.
 */
export function closeLever(lever: PreparedLever, ball: Float64Array, at: number, eye: Float64Array, turn: Float64Array): boolean {
  const x = (ball[at] as number) - lever.pivotX;
  const y = (ball[at + 1] as number) - lever.pivotY;
  const z = (ball[at + 2] as number) - lever.pivotZ;
  const inPlane = x * lever.directionX + y * lever.directionY;
  const across = y * lever.directionX - x * lever.directionY;
  if (!closeOnSide(lever.servoEndMm, inPlane, z, across, lever.pushrodMm, lever.side, turn, 0)) return false;
  const c = turn[0] as number;
  const s = turn[1] as number;
  const out = lever.swashEndMm * (c * lever.betweenCos - s * lever.betweenSin);
  eye[at] = lever.pivotX + out * lever.directionX;
  eye[at + 1] = lever.pivotY + out * lever.directionY;
  eye[at + 2] = lever.pivotZ + lever.swashEndMm * (s * lever.betweenCos + c * lever.betweenSin);
  return true;
}

/** The lever's angle from its designed position, radians, from the turn that `closeLever` wrote. */
export function leverAngleRad(lever: PreparedLever, turn: Float64Array): number {
  const c = turn[0] as number;
  const s = turn[1] as number;
  return Math.atan2(s * lever.servoEndCos - c * lever.servoEndSin, c * lever.servoEndCos + s * lever.servoEndSin);
}

/** By how many millimetres the pushrod misses (positive: too short) for the horn's ball at `ball[at ..]`. */
export function pushrodMissMm(lever: PreparedLever, ball: Float64Array, at: number): number {
  const x = (ball[at] as number) - lever.pivotX;
  const y = (ball[at + 1] as number) - lever.pivotY;
  const z = (ball[at + 2] as number) - lever.pivotZ;
  const inPlane = x * lever.directionX + y * lever.directionY;
  return missMm(lever.servoEndMm, inPlane, z, y * lever.directionX - x * lever.directionY, lever.pushrodMm);
}

/** How far the lever stands from dead centre with its pushrod: see `overCentreSine`. */
export function leverSine(lever: PreparedLever, ball: Float64Array, at: number, turn: Float64Array): number {
  const x = (ball[at] as number) - lever.pivotX;
  const y = (ball[at + 1] as number) - lever.pivotY;
  const inPlane = x * lever.directionX + y * lever.directionY;
  return overCentreSine(inPlane, (ball[at + 2] as number) - lever.pivotZ, turn[0] as number, turn[1] as number);
}
