/**
 * Pulse in, horn angle and horn ball out.
 *
 *   angle = sense (pulse - neutral) rate + tooth 360/teeth + offset      positive raises the ball, zero is level
 *   ball  = shaft + length (cos(angle) d + sin(angle) z)                 d: the horizontal direction of the horn's plane
 *
 * Takes: microseconds. Gives: radians, and millimetres in the frame in which it was prepared (G).
 */
import { cosOf, sinOf } from '../numerics/trig.ts';
import { cosDeg, RAD_PER_DEG, radOf, sinDeg } from '../quantities/angles.ts';
import type { Servo } from '../rig/rig.ts';

export interface PreparedHorn {
  /** radians a microsecond, signed by `sense` */
  rateRadPerUs: number;
  neutralUs: number;
  /** tooth and offset together */
  standingRad: number;
  shaftX: number;
  shaftY: number;
  shaftZ: number;
  lengthMm: number;
  directionX: number;
  directionY: number;
}

/** Tooth and offset of a horn together, radians. */
export function standingRad(horn: { teeth: number; tooth: number; offset: number }): number {
  return radOf((horn.tooth * 360) / horn.teeth + horn.offset);
}

/** `guideDeg` is the machine azimuth of frame G's x axis. */
export function prepareHorn(servo: Servo, guideDeg: number): PreparedHorn {
  const c = cosDeg(guideDeg);
  const s = sinDeg(guideDeg);
  const [x, y, z] = servo.shaft;
  return {
    rateRadPerUs: servo.sense * servo.rate * RAD_PER_DEG,
    neutralUs: servo.neutral,
    standingRad: standingRad(servo.horn),
    shaftX: x * c + y * s,
    shaftY: y * c - x * s,
    shaftZ: z,
    lengthMm: servo.horn.length,
    directionX: cosDeg(servo.horn.azimuth - guideDeg),
    directionY: sinDeg(servo.horn.azimuth - guideDeg),
  };
}

/** Horn angle in radians, positive raising the ball. */
export function hornAngleRad(horn: PreparedHorn, pulseUs: number): number {
  return (pulseUs - horn.neutralUs) * horn.rateRadPerUs + horn.standingRad;
}

/** The horn's ball at an angle, into `ball[at .. at + 2]`, mm. */
export function hornBall(horn: PreparedHorn, angleRad: number, ball: Float64Array, at: number): void {
  const out = horn.lengthMm * cosOf(angleRad);
  ball[at] = horn.shaftX + out * horn.directionX;
  ball[at + 1] = horn.shaftY + out * horn.directionY;
  ball[at + 2] = horn.shaftZ + horn.lengthMm * sinOf(angleRad);
}
