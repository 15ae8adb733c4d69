/**
 * One case through the whole chain: sticks -> transmitter -> servos -> linkage -> ring -> blades, and the tail.
 * Read this first: each line is a stage. Angles degrees, lengths mm, pulses microseconds, as in the document.
 */
import { DEG_PER_RAD, radOf, cosDeg, sinDeg } from '../quantities/angles.ts';
import { mixingAngleRad } from '../flybar/mixing.ts';
import { WASHOUT } from '../flybar/washout.ts';
import { harmonicsOf, REVOLUTION } from '../rotor/harmonics.ts';
import { leverAngleRad } from '../servo/lever.ts';
import { RING, ringCondition } from '../swashplate/ring.ts';
import { closeTail, gyroPulseUs, type PreparedTail, type TailPose } from '../tail/tail.ts';
import { freePulseUs, heldPulseUs, type PreparedTransmitter, shapedStick } from '../transmitter/outputs.ts';
import { checkCase } from './case.ts';
import { makePose, type Miss, type Pose, poseHead, poseRing, setHorns, setSticks, settleFlybar } from './pose.ts';
import type { PreparedRig, PreparedServo } from './prepare.ts';
import { sampleRevolution } from './revolution.ts';
import type { Case, Unreachable } from './rig.ts';
import { type OverCentre, overCentreOf, type PoseStatus, statusOf } from './status.ts';

export interface PredictedHarmonics {
  /** degrees, all four */
  collective: number;
  longitudinal: number;
  lateral: number;
  residual: number;
}

export interface PredictedTail {
  /** microseconds */
  pulse: number;
  saturated: boolean;
  /** degrees */
  horn: number;
  lever?: number;
  /** mm */
  slider?: number;
  /** mm beyond a stop, signed; 0 where free */
  past?: number;
  /** degrees, positive swings the nose right */
  pitch?: number;
  unreachable?: Unreachable;
}

export interface Prediction {
  case: Case;
  outputs: { pulse: number; saturated: boolean }[];
  servos: { pulse: number; horn: number; lever?: number }[];
  /** height mm, tilts degrees */
  swash?: { height: number; foreAft: number; side: number };
  /** degrees */
  blades?: { pitch: number }[];
  harmonics?: PredictedHarmonics | { unreachable: Unreachable };
  /** washout mm, the rest degrees */
  flybar?: {
    washout: number;
    washoutArms: [number, number];
    mixingArms: [number, number];
    paddle: number;
    teeter: number;
  };
  tail?: PredictedTail;
  unreachable?: Unreachable;
  /** how far the pose can be trusted, in one word */
  status: PoseStatus;
  /** how well the links hold the ring: 1 is the best, see `ringCondition`; absent where the ring does not close */
  condition?: number;
  /** the part nearest to dead centre, where one is near (degrees) */
  overCentre?: OverCentre;
}

/** Whether any part of a prediction could not be reached. */
export function isUnreachable(prediction: Prediction): boolean {
  return (
    prediction.unreachable !== undefined ||
    (prediction.harmonics !== undefined && 'unreachable' in prediction.harmonics) ||
    prediction.tail?.unreachable !== undefined
  );
}

const poses = new WeakMap<PreparedRig, Pose>();
const samples = new Float64Array(REVOLUTION);

/** The pose that `predict` and its like work in: one a prepared rig, so that a call allocates nothing but its answer. */
export function poseOf(prepared: PreparedRig): Pose {
  let pose = poses.get(prepared);
  if (!pose) {
    pose = makePose(prepared);
    poses.set(prepared, pose);
  }
  return pose;
}

/**
 * Predicts one case.
 * @throws CaseError where a stick is outside -1 to +1, the mode is not in the document, or `teeter` stands beside `settled`.
 */
export function predict(prepared: PreparedRig, kase: Case): Prediction {
  const mode = checkCase(prepared.transmitter, kase);
  const pose = poseOf(prepared);
  setSticks(prepared, pose, mode, kase.collective ?? 0, kase.elevator ?? 0, kase.aileron ?? 0);
  setHorns(prepared, pose);
  const reached = poseRing(prepared, pose);
  const prediction: Prediction = {
    case: kase,
    outputs: [outputOf(pose, 0), outputOf(pose, 1), outputOf(pose, 2)],
    servos: [servoOf(prepared, pose, 0), servoOf(prepared, pose, 1), servoOf(prepared, pose, 2)],
    status: prepared.ring.singular ? 'singular' : 'cannot-reach',
  };
  if (reached) {
    prediction.swash = swashOf(prepared, pose);
    prediction.condition = ringCondition(prepared.ring, pose.ring, pose.eyes);
    predictHead(prepared, pose, kase, prediction);
  } else prediction.unreachable = unreachableOf(pose.miss as Miss);
  if (prepared.tail) prediction.tail = predictTail(prepared.transmitter, prepared.tail, kase);
  return prediction;
}

export function unreachableOf(miss: Miss): Unreachable {
  return { path: miss.path, short: Math.abs(miss.missMm) };
}

function outputOf(pose: Pose, j: number): Prediction['outputs'][number] {
  return { pulse: pose.pulseUs[j] as number, saturated: pose.saturated[j] === 1 };
}

function servoOf(prepared: PreparedRig, pose: Pose, i: number): Prediction['servos'][number] {
  const servo = prepared.servos[i] as PreparedServo;
  const pulse = pose.pulseUs[servo.output] as number;
  const horn = (pose.hornRad[i] as number) * DEG_PER_RAD;
  if (!servo.lever) return { pulse, horn };
  const lever = leverAngleRad(servo.lever, pose.leverTurn[i] as Float64Array) * DEG_PER_RAD;
  return lever === lever ? { pulse, horn, lever } : { pulse, horn };
}

export function swashOf(prepared: PreparedRig, pose: Pose): { height: number; foreAft: number; side: number } {
  const { guideCos, guideSin } = prepared.ring;
  const nx = pose.ring[RING.NX] as number;
  const ny = pose.ring[RING.NY] as number;
  const nz = pose.ring[RING.NZ] as number;
  return {
    height: pose.ring[RING.Z] as number,
    foreAft: Math.atan2(nx * guideCos - ny * guideSin, nz) * DEG_PER_RAD,
    side: Math.atan2(-(nx * guideSin + ny * guideCos), nz) * DEG_PER_RAD,
  };
}

function predictHead(prepared: PreparedRig, pose: Pose, kase: Case, prediction: Prediction): void {
  const azimuthDeg = kase.azimuth ?? 0;
  const psiCos = cosDeg(azimuthDeg);
  const psiSin = sinDeg(azimuthDeg);
  const wave = kase.settled && prepared.flybar ? pose.wave : undefined;
  if (wave && !settleFlybar(prepared, pose)) {
    prediction.unreachable = unreachableOf(pose.miss as Miss);
    return;
  }
  const teeterRad = wave ? wave.cosine * psiCos + wave.sine * psiSin : radOf(kase.teeter ?? 0);
  if (!poseHead(prepared, pose, psiCos, psiSin, teeterRad)) {
    prediction.unreachable = unreachableOf(pose.miss as Miss);
    return;
  }
  prediction.blades = [];
  for (let k = 0; k < pose.pitchRad.length; k++) prediction.blades.push({ pitch: (pose.pitchRad[k] as number) * DEG_PER_RAD });
  const overCentre = overCentreOf(prepared, pose);
  if (overCentre) prediction.overCentre = overCentre;
  prediction.status = statusOf(prepared, pose, prediction.condition as number, overCentre);
  if (prepared.flybar) {
    const { washout, mixingTurn } = pose.flybar;
    const mixing = prepared.flybar.mixing;
    prediction.flybar = {
      washout: washout[WASHOUT.H] as number,
      washoutArms: [(washout[WASHOUT.ARM1] as number) * DEG_PER_RAD, (washout[WASHOUT.ARM2] as number) * DEG_PER_RAD],
      mixingArms: [mixingAngleRad(mixing, mixingTurn[0]) * DEG_PER_RAD, mixingAngleRad(mixing, mixingTurn[1]) * DEG_PER_RAD],
      paddle: (washout[WASHOUT.PADDLE] as number) * DEG_PER_RAD,
      teeter: teeterRad * DEG_PER_RAD,
    };
  }
  if (!sampleRevolution(prepared, pose, 0, teeterRad, wave, samples)) {
    prediction.harmonics = { unreachable: unreachableOf(pose.miss as Miss) };
    return;
  }
  const { collective, longitudinal, lateral, residual } = harmonicsOf(samples, prepared.rotation);
  prediction.harmonics = {
    collective: collective * DEG_PER_RAD,
    longitudinal: longitudinal * DEG_PER_RAD,
    lateral: lateral * DEG_PER_RAD,
    residual: residual * DEG_PER_RAD,
  };
}

const tailPose: TailPose = { hornRad: 0, leverRad: 0, sliderMm: 0, pastMm: 0, gripRad: 0 };

/** The tail alone: rudder stick and yaw rate to slider travel and tail pitch. */
export function predictTail(transmitter: PreparedTransmitter, tail: PreparedTail, kase: Case): PredictedTail {
  const free = freePulseUs(transmitter.rudderOutput, shapedStick(transmitter.rudder, kase.rudder ?? 0));
  const held = heldPulseUs(transmitter.rudderOutput, free);
  const withGyro = held + tail.gyroUsPerDegPerS * (kase.yawRate ?? 0);
  const pulse = gyroPulseUs(tail, held, kase.yawRate ?? 0);
  const miss = closeTail(tail, pulse, tailPose);
  const predicted: PredictedTail = {
    pulse,
    saturated: held !== free || pulse !== withGyro,
    horn: tailPose.hornRad * DEG_PER_RAD,
  };
  if (miss?.path !== '/tail/rod') {
    predicted.lever = tailPose.leverRad * DEG_PER_RAD;
    predicted.slider = tailPose.sliderMm;
    predicted.past = tailPose.pastMm;
  }
  if (miss) predicted.unreachable = unreachableOf(miss);
  else predicted.pitch = tail.right * tailPose.gripRad * DEG_PER_RAD;
  return predicted;
}
