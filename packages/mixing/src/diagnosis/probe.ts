/**
 * One place where something is read off a posed machine, without any instrument: degrees, or mm.
 */
import { DEG_PER_RAD } from '../quantities/angles.ts';
import { closeFlybarHead } from '../flybar/head.ts';
import { closeMixingArm, mixingAngleRad } from '../flybar/mixing.ts';
import { WASHOUT } from '../flybar/washout.ts';
import type { PreparedRig, PreparedServo } from '../rig/prepare.ts';
import { normalAtTail, type Pose, ringNormalInF } from '../rig/pose.ts';
import { bladeHalfTangent } from '../rotor/blade.ts';
import { type PreparedTurningBall, turningBall } from '../rotor/turning-ring.ts';
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

const normal = new Float64Array(3);
const balls = new Float64Array(6);
const eye = new Float64Array(6);
const turn = new Float64Array(2);

/** Where blade 1 stands and how the flybar is held, for everything read there. */
export interface HeadPlace {
  psiCos: number;
  psiSin: number;
  teeterRad: number;
}

/**
 * A reading above the ring, on a closed ring: only the blade, arm or paddle that is asked for is closed. NaN where it
 * cannot be. `warm` starts the washout from the reading before, which must be near.
 */
export function headReading(
  prepared: PreparedRig,
  pose: Pose,
  head: HeadPlace,
  measure: Measure,
  of: number,
  warm = false,
): number {
  normalAtTail(prepared, pose, normal);
  const t0 = normal[0] as number;
  const t1 = normal[1] as number;
  const nz = normal[2] as number;
  const nx = t0 * head.psiCos + t1 * head.psiSin;
  const ny = t1 * head.psiCos - t0 * head.psiSin;
  const z = pose.ring[RING.Z] as number;
  const k = of - 1;
  const { flybar } = prepared;
  if (!flybar) {
    const c = prepared.bladeCos[k] as number;
    const s = prepared.bladeSin[k] as number;
    turningBall(prepared.bladeBalls[k] as PreparedTurningBall, z, nx * c + ny * s, ny * c - nx * s, nz, eye, 0);
    return 2 * Math.atan(bladeHalfTangent(prepared.blade, prepared.bladeLinkMm[k] as number, eye, 0)) * DEG_PER_RAD;
  }
  if (measure === 'blade-pitch' || measure === 'mixing-arm') {
    const arm = k === 0 ? 0 : 1;
    turningBall(flybar.ringBalls[2 + arm] as PreparedTurningBall, z, nx, ny, nz, balls, 3 * arm);
    const teeterCos = Math.cos(head.teeterRad);
    const teeterSin = Math.sin(head.teeterRad);
    if (!closeMixingArm(flybar.mixing, arm, balls, teeterCos, teeterSin, turn, eye, 0)) return Number.NaN;
    if (measure === 'mixing-arm') return mixingAngleRad(flybar.mixing, turn) * DEG_PER_RAD;
    // into the blade's own R: blade 2's is turned half round
    if (arm === 1) {
      eye[0] = -(eye[0] as number);
      eye[1] = -(eye[1] as number);
    }
    return 2 * Math.atan(bladeHalfTangent(prepared.blade, prepared.bladeLinkMm[k] as number, eye, 0)) * DEG_PER_RAD;
  }
  if (closeFlybarHead(flybar, z, nx, ny, nz, head.teeterRad, pose.flybar, warm)) return Number.NaN;
  const { washout } = pose.flybar;
  if (measure === 'washout-height') return washout[WASHOUT.H] as number;
  if (measure === 'washout-arm') return (washout[WASHOUT.ARM1 + k] as number) * DEG_PER_RAD;
  return (washout[WASHOUT.PADDLE] as number) * DEG_PER_RAD;
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
  const held = heldPulseUs(
    transmitter.rudderOutput,
    freePulseUs(transmitter.rudderOutput, shapedStick(transmitter.rudder, rudder)),
  );
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
