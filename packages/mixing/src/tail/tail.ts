/**
 * The tail: rudder pulse in, horn, lever, slider and tail pitch out; and the gyro's first answer.
 *
 * In the tail's own axes [u aft, v along the shaft away from the gear case, w up]:
 *   horn ball = shaft + length (sin(angle) u + cos(angle) (cos(roll) v + sin(roll) w))       zero square to the boom
 *   lever end = pivot + length (cos(angle + b) u + sin(angle + b) v)                          b zero as designed
 *   slider    = v of sliderEnd less its v at b = 0, held between the stops
 *   grip: arm ball (lead cos t - height sin t, lead sin t + height cos t) a link away from (spider0, spider1 + slider)
 *   tail pitch = right t
 */
import { closeOnSide, halfTangentNearZero, missMm, sideOf } from '../numerics/circle-closure.ts';
import { cosDeg, RAD_PER_DEG, sinDeg } from '../quantities/angles.ts';
import type { Output, Tail } from '../rig/rig.ts';
import { standingRad } from '../servo/horn.ts';

export interface PreparedTail {
  rateRadPerUs: number;
  neutralUs: number;
  standingRad: number;
  shaft: Float64Array;
  hornMm: number;
  rollCos: number;
  rollSin: number;
  pivot: Float64Array;
  servoEndMm: number;
  servoEndCos: number;
  servoEndSin: number;
  sliderEndMm: number;
  sliderEndSin: number;
  betweenCos: number;
  betweenSin: number;
  rodMm: number;
  side: 1 | -1;
  stopLeastMm: number;
  stopMostMm: number;
  gripLead: number;
  gripHeight: number;
  spiderX: number;
  spiderV: number;
  gripLinkMm: number;
  right: 1 | -1;
  /** microseconds per degree a second, signed; 0 where the gyro is off or absent */
  gyroUsPerDegPerS: number;
  holdLeastUs: number;
  holdMostUs: number;
}

/** The tail's state: horn rad, lever rad, slider as commanded and as it is mm, blade rotation t rad. */
export interface TailPose {
  hornRad: number;
  leverRad: number;
  sliderMm: number;
  /** how far beyond a stop the command would go, mm, signed; 0 where free */
  pastMm: number;
  gripRad: number;
}

export interface TailMiss {
  path: '/tail/rod' | '/tail/grip/link';
  missMm: number;
}

/** The gyro's gain in percent with its sign, -100 to 100, from either way in which it is shown. */
export function signedGainPercent(gyro: { gain: number; scale: 'signed' | 'centred' }): number {
  return gyro.scale === 'centred' ? 2 * (gyro.gain - 50) : gyro.gain;
}

export function prepareTail(tail: Tail, rudder: Output): PreparedTail {
  const { servo, lever, grip, gyro } = tail;
  const rollCos = cosDeg(servo.horn.roll);
  const rollSin = sinDeg(servo.horn.roll);
  const servoEndCos = cosDeg(lever.servoEnd.angle);
  const servoEndSin = sinDeg(lever.servoEnd.angle);
  const gyroSign = gyro?.reverse ? -1 : 1;
  const hold = gyro ? rudder.span * (gyro.limit / 100) : Number.POSITIVE_INFINITY;
  const stops = tail.slider.stops;
  return {
    rateRadPerUs: servo.sense * servo.rate * RAD_PER_DEG,
    neutralUs: servo.neutral,
    standingRad: standingRad(servo.horn),
    shaft: Float64Array.from(servo.shaft),
    hornMm: servo.horn.length,
    rollCos,
    rollSin,
    pivot: Float64Array.from(lever.pivot),
    servoEndMm: lever.servoEnd.length,
    servoEndCos,
    servoEndSin,
    sliderEndMm: lever.sliderEnd.length,
    sliderEndSin: sinDeg(lever.sliderEnd.angle),
    betweenCos: cosDeg(lever.sliderEnd.angle - lever.servoEnd.angle),
    betweenSin: sinDeg(lever.sliderEnd.angle - lever.servoEnd.angle),
    rodMm: tail.rod,
    side: sideOf(
      servo.shaft[0] - lever.pivot[0],
      servo.shaft[1] + servo.horn.length * rollCos - lever.pivot[1],
      servoEndCos,
      servoEndSin,
    ),
    stopLeastMm: stops ? stops[0] : Number.NEGATIVE_INFINITY,
    stopMostMm: stops ? stops[1] : Number.POSITIVE_INFINITY,
    gripLead: grip.lead,
    gripHeight: grip.height,
    spiderX: grip.spider[0],
    spiderV: grip.spider[1],
    gripLinkMm: grip.link,
    right: tail.right,
    gyroUsPerDegPerS: gyro ? gyroSign * (Math.abs(signedGainPercent(gyro)) / 100) * gyro.rate : 0,
    holdLeastUs: rudder.neutral - hold,
    holdMostUs: rudder.neutral + hold,
  };
}

/** The rudder pulse in microseconds with the gyro's first answer to a yaw rate (degrees a second), held at its limit. */
export function gyroPulseUs(tail: PreparedTail, rudderPulseUs: number, yawRateDegPerS: number): number {
  const asked = rudderPulseUs + tail.gyroUsPerDegPerS * yawRateDegPerS;
  return asked < tail.holdLeastUs ? tail.holdLeastUs : asked > tail.holdMostUs ? tail.holdMostUs : asked;
}

/** The tail horn's ball at an angle, [u, v, w] mm. */
export function tailHornBall(tail: PreparedTail, hornRad: number): [number, number, number] {
  const out = tail.hornMm * Math.cos(hornRad);
  return [
    (tail.shaft[0] as number) + tail.hornMm * Math.sin(hornRad),
    (tail.shaft[1] as number) + out * tail.rollCos,
    (tail.shaft[2] as number) + out * tail.rollSin,
  ];
}

const turn = new Float64Array(2);

/** Closes the tail on a pulse in microseconds: writes `pose`, or returns what misses (and `pose` holds what is before). */
export function closeTail(tail: PreparedTail, pulseUs: number, pose: TailPose): TailMiss | undefined {
  pose.hornRad = (pulseUs - tail.neutralUs) * tail.rateRadPerUs + tail.standingRad;
  const [u, v, w] = tailHornBall(tail, pose.hornRad);
  const du = u - (tail.pivot[0] as number);
  const dv = v - (tail.pivot[1] as number);
  const dw = w - (tail.pivot[2] as number);
  if (!closeOnSide(tail.servoEndMm, du, dv, dw, tail.rodMm, tail.side, turn, 0)) {
    pose.leverRad = Number.NaN;
    return { path: '/tail/rod', missMm: missMm(tail.servoEndMm, du, dv, dw, tail.rodMm) };
  }
  const c = turn[0] as number;
  const s = turn[1] as number;
  pose.leverRad = Math.atan2(s * tail.servoEndCos - c * tail.servoEndSin, c * tail.servoEndCos + s * tail.servoEndSin);
  const commandedMm = tail.sliderEndMm * (s * tail.betweenCos + c * tail.betweenSin - tail.sliderEndSin);
  const sliderMm =
    commandedMm < tail.stopLeastMm ? tail.stopLeastMm : commandedMm > tail.stopMostMm ? tail.stopMostMm : commandedMm;
  pose.sliderMm = sliderMm;
  pose.pastMm = commandedMm - sliderMm;
  return closeGrip(tail, sliderMm, pose);
}

/** Closes the grip for a slider travel in mm: writes `pose.gripRad`, or returns what misses. */
export function closeGrip(tail: PreparedTail, sliderMm: number, pose: TailPose): TailMiss | undefined {
  const x = tail.spiderX;
  const y = tail.spiderV + sliderMm;
  const half = halfTangentNearZero(tail.gripLead, tail.gripHeight, x, y, 0, tail.gripLinkMm);
  pose.gripRad = 2 * Math.atan(half);
  if (half === half) return undefined;
  return { path: '/tail/grip/link', missMm: missMm(Math.hypot(tail.gripLead, tail.gripHeight), x, y, 0, tail.gripLinkMm) };
}
