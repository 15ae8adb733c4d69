/**
 * What a tail check looks at: the tail at mid-stick and at both ends of the rudder stick, where the gyro would drive it,
 * and which way stick and gyro move it. Takes a rig with a tail; poses by the stage itself, so that no formula is here.
 */
import { sinDeg, cosDeg, radOf } from '../quantities/angles.ts';
import { type PredictedTail, predictTail } from '../rig/predict.ts';
import type { Case, Output, Rig, Tail } from '../rig/rig.ts';
import { prepareTransmitter } from '../transmitter/outputs.ts';
import { closeTail, prepareTail, signedGainPercent, tailHornBall, type TailPose } from './tail.ts';

export type TailRig = Rig & { tail: Tail };

export interface TailState {
  centre: PredictedTail;
  /** full left rudder, -1 */
  left: PredictedTail;
  right: PredictedTail;
}

/** The two ends to which the gyro can drive the servo, whatever the stick does. */
export interface GyroEnds {
  /** mm beyond a stop, signed, at the shorter and at the longer pulse; null where the tail cannot close there */
  past: [number | null, number | null];
}

/** A changed rig's tail is still there: no change of the check takes it away. */
export const withTail = (rig: Rig): TailRig => rig as TailRig;
export const withRod = (rig: TailRig, rodMm: number): TailRig => ({ ...rig, tail: { ...rig.tail, rod: rodMm } });
export function withRudder(rig: TailRig, part: Partial<Output>): TailRig {
  return { ...rig, transmitter: { ...rig.transmitter, rudder: { ...rig.transmitter.rudder, ...part } } };
}

export type Answer = 'with' | 'against' | 'none';

/**
 * Travel left and right within this counts as equal, mm. Half of what a caliper reads (0.2 mm, common practice, no source),
 * and more than half of what one percent of travel moves (0.04 to 0.08 mm), so that whole percents always reach it.
 */
export const EQUAL_MM = 0.1;

export function posing(rig: TailRig): (kase: Case) => PredictedTail {
  const transmitter = prepareTransmitter(rig.transmitter, rig.rotor.rotation);
  const tail = prepareTail(rig.tail, rig.transmitter.rudder);
  return (kase) => predictTail(transmitter, tail, kase);
}

export function tailState(rig: TailRig): TailState {
  const at = posing(rig);
  return { centre: at({}), left: at({ rudder: -1 }), right: at({ rudder: 1 }) };
}

/** Closes, and is not held by a stop. */
export function isFree(tail: PredictedTail): boolean {
  return tail.unreachable === undefined && tail.past === 0;
}

/** Where the lever asks the slider to be, stop or no stop, mm; undefined where the rod cannot close. */
export function commandedMm({ slider, past }: PredictedTail): number | undefined {
  return slider === undefined || past === undefined ? undefined : slider + past;
}

/** The ends stand on both sides of the designed middle, as far from it; undefined where one of them cannot be reached. */
export function unevenMm({ left, right }: TailState): number | undefined {
  return left.slider === undefined || right.slider === undefined ? undefined : left.slider + right.slider;
}

export function isEqual(state: TailState): boolean {
  const uneven = unevenMm(state);
  return uneven !== undefined && Math.abs(uneven) <= EQUAL_MM;
}

/** A gyro that is there, and neither at zero gain nor of zero rate. */
export function gyroIsOn({ tail: { gyro } }: TailRig): boolean {
  return gyro !== undefined && gyro.rate !== 0 && signedGainPercent(gyro) !== 0;
}

/** Undefined where no gyro is on: it drives nowhere. */
export function gyroEnds(rig: TailRig): GyroEnds | undefined {
  if (!gyroIsOn(rig)) return undefined;
  const tail = prepareTail(rig.tail, rig.transmitter.rudder);
  const pastAt = (pulseUs: number) => {
    const pose: TailPose = { hornRad: 0, leverRad: 0, sliderMm: 0, pastMm: 0, gripRad: 0 };
    return closeTail(tail, pulseUs, pose) ? null : pose.pastMm;
  };
  return { past: [pastAt(tail.holdLeastUs), pastAt(tail.holdMostUs)] };
}

export function gyroEndsFree(ends: GyroEnds | undefined): boolean {
  return ends === undefined || ends.past.every((past) => past === 0);
}

/** The rod in mm with which the lever stands as designed at mid-stick. */
export function squareRodMm(rig: TailRig): number {
  const { pivot, servoEnd } = rig.tail.lever;
  const [u, v, w] = tailHornBall(prepareTail(rig.tail, rig.transmitter.rudder), radOf(posing(rig)({}).horn));
  return Math.hypot(
    pivot[0] + servoEnd.length * cosDeg(servoEnd.angle) - u,
    pivot[1] + servoEnd.length * sinDeg(servoEnd.angle) - v,
    pivot[2] - w,
  );
}

/** Small enough to stay on one side of every fold of the linkage, large enough to stand above rounding. */
const NUDGE_STICK = 0.05;
const NUDGE_DEG_PER_S = 1;

/**
 * The tail without what can hold it still: stops, the output's limits and the gyro's, none of which says anything about
 * which way it goes; and with the square rod where its own cannot close.
 */
function unbound(rig: TailRig): TailRig {
  const { limits: _limits, ...rudder } = rig.transmitter.rudder;
  const { gyro, ...tail } = rig.tail;
  const free: TailRig = {
    ...rig,
    transmitter: { ...rig.transmitter, rudder },
    tail: { ...tail, slider: {}, ...(gyro ? { gyro: { ...gyro, limit: Number.MAX_VALUE } } : {}) },
  };
  return commandedMm(posing(free)({})) === undefined ? withRod(free, squareRodMm(free)) : free;
}

/** Which way tail pitch goes with right rudder, and with a counter-clockwise turn, at mid-stick. */
export function answers(rig: TailRig): { rudder: Answer; gyro: Answer } {
  const at = posing(unbound(rig));
  return {
    rudder: wayOf(at({ rudder: -NUDGE_STICK }), at({ rudder: NUDGE_STICK })),
    gyro: wayOf(at({ yawRate: -NUDGE_DEG_PER_S }), at({ yawRate: NUDGE_DEG_PER_S })),
  };
}

/** +1 where right rudder moves the slider away from the gear case, -1 toward it; undefined where it moves nothing. */
export function sliderWay(rig: TailRig): 1 | -1 | undefined {
  const at = posing(unbound(rig));
  const before = commandedMm(at({ rudder: -NUDGE_STICK }));
  const after = commandedMm(at({ rudder: NUDGE_STICK }));
  if (before === undefined || after === undefined || before === after) return undefined;
  return after > before ? 1 : -1;
}

function wayOf({ pitch: before }: PredictedTail, { pitch: after }: PredictedTail): Answer {
  if (before === undefined || after === undefined || before === after) return 'none';
  return after > before ? 'with' : 'against';
}
