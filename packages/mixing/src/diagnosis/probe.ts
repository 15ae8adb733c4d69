/**
 * One place where something is read off a posed machine, without any instrument: degrees, or mm.
 */
import { DEG_PER_RAD } from '../quantities/angles.ts';
import { mixingAngleRad } from '../flybar/mixing.ts';
import { WASHOUT } from '../flybar/washout.ts';
import type { PreparedRig, PreparedServo } from '../rig/prepare.ts';
import { type Pose, ringNormalInF } from '../rig/pose.ts';
import { leverAngleRad } from '../servo/lever.ts';
import { RING } from '../swashplate/ring.ts';
import { gyroPulseUs, type PreparedTail, type TailPose, closeTail } from '../tail/tail.ts';
import { freePulseUs, heldPulseUs, type PreparedTransmitter, shapedStick } from '../transmitter/outputs.ts';
import type { Measure } from './readings.ts';

/** Which part of the machine must be posed for a measure: each stands on those before it, but for the tail. */
export type Reach = 'servo' | 'ring' | 'head' | 'tail' | 'none';

export function reachOf(measure: Measure): Reach {
  switch (measure) {
    case 'horn-angle':
    case 'lever-angle':
      return 'servo';
    case 'swash-height':
    case 'fore-aft-tilt':
    case 'side-tilt':
      return 'ring';
    case 'blade-pitch':
    case 'washout-height':
    case 'washout-arm':
    case 'mixing-arm':
    case 'paddle-pitch':
      return 'head';
    case 'tail-horn-angle':
    case 'slider':
    case 'tail-pitch':
      return 'tail';
    case 'blade-play':
      return 'none';
  }
}

/** A horn's or lever's angle on a pose whose horns (and levers) are set. */
export function servoReading(prepared: PreparedRig, pose: Pose, measure: Measure, of: number): number {
  if (measure === 'horn-angle') return (pose.hornRad[of - 1] as number) * DEG_PER_RAD;
  const lever = (prepared.servos[of - 1] as PreparedServo).lever;
  return lever ? leverAngleRad(lever, pose.leverTurn[of - 1] as Float64Array) * DEG_PER_RAD : Number.NaN;
}

export function ringReading(prepared: PreparedRig, pose: Pose, measure: Measure): number {
  if (measure === 'swash-height') return pose.ring[RING.Z] as number;
  const [nx, ny, nz] = ringNormalInF(prepared, pose);
  return (measure === 'fore-aft-tilt' ? Math.atan2(nx, nz) : Math.atan2(-ny, nz)) * DEG_PER_RAD;
}

export function headReading(prepared: PreparedRig, pose: Pose, measure: Measure, of: number): number {
  if (measure === 'blade-pitch') return (pose.pitchRad[of - 1] as number) * DEG_PER_RAD;
  const { washout, mixingTurn } = pose.flybar;
  switch (measure) {
    case 'washout-height':
      return washout[WASHOUT.H] as number;
    case 'washout-arm':
      return (washout[WASHOUT.ARM1 + of - 1] as number) * DEG_PER_RAD;
    case 'paddle-pitch':
      return (washout[WASHOUT.PADDLE] as number) * DEG_PER_RAD;
    default:
      return prepared.flybar
        ? mixingAngleRad(prepared.flybar.mixing, mixingTurn[of - 1] as Float64Array) * DEG_PER_RAD
        : Number.NaN;
  }
}

const tailPose: TailPose = { hornRad: 0, leverRad: 0, sliderMm: 0, pastMm: 0, gripRad: 0 };

/** NaN where the tail does not reach so far. */
export function tailReading(
  transmitter: PreparedTransmitter,
  tail: PreparedTail,
  measure: Measure,
  rudder: number,
  yawRate: number,
): number {
  const held = heldPulseUs(transmitter.rudderOutput, freePulseUs(transmitter.rudderOutput, shapedStick(transmitter.rudder, rudder)));
  const miss = closeTail(tail, gyroPulseUs(tail, held, yawRate), tailPose);
  if (measure === 'tail-horn-angle') return tailPose.hornRad * DEG_PER_RAD;
  if (miss?.path === '/tail/rod') return Number.NaN;
  if (measure === 'slider') return tailPose.sliderMm;
  return miss ? Number.NaN : tail.right * tailPose.gripRad * DEG_PER_RAD;
}

/** How far the last tail that was read would go beyond its stop, mm; 0 where it is free. */
export function tailPastMm(): number {
  return tailPose.pastMm;
}
