/**
 * One case through the whole chain: sticks -> transmitter -> servos -> linkage -> ring -> blades, and the tail.
 * Read this first: each line is a stage. Angles degrees, lengths mm, pulses microseconds, as in the document.
 */
import { DEG_PER_RAD, radOf, cosDeg, sinDeg } from '../quantities/angles.ts';
import { mixingAngleRad } from '../flybar/mixing.ts';
import { WASHOUT } from '../flybar/washout.ts';
import { harmonicsOf, REVOLUTION } from '../rotor/harmonics.ts';
import { leverAngleRad } from '../servo/lever.ts';
import { RING } from '../swashplate/ring.ts';
import { closeTail, gyroPulseUs, type PreparedTail, type TailPose } from '../tail/tail.ts';
import { freePulseUs, heldPulseUs, type PreparedTransmitter, shapedStick } from '../transmitter/outputs.ts';
import { checkCase } from './case.ts';
import {
  makePose,
  type Miss,
  type Pose,
  poseHead,
  poseRing,
  ringNormalInF,
  sampleRevolution,
  setHorns,
  setSticks,
  settleFlybar,
} from './pose.ts';
import type { PreparedRig } from './prepare.ts';
import type { Case, Unreachable } from './rig.ts';

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
  const prediction: Prediction = { case: kase, outputs: outputsOf(pose), servos: servosOf(prepared, pose) };
  if (reached) {
    const [nx, ny, nz] = ringNormalInF(prepared, pose);
    prediction.swash = {
      height: pose.ring[RING.Z] as number,
      foreAft: Math.atan2(nx, nz) * DEG_PER_RAD,
      side: Math.atan2(-ny, nz) * DEG_PER_RAD,
    };
    predictHead(prepared, pose, kase, prediction);
  }
  if (pose.miss && !reached) prediction.unreachable = unreachableOf(pose.miss);
  if (prepared.tail) prediction.tail = predictTail(prepared.transmitter, prepared.tail, kase);
  return prediction;
}

export function unreachableOf(miss: Miss): Unreachable {
  return { path: miss.path, short: Math.abs(miss.missMm) };
}

function outputsOf(pose: Pose): Prediction['outputs'] {
  return [0, 1, 2].map((j) => ({ pulse: pose.pulseUs[j] as number, saturated: pose.saturated[j] === 1 }));
}

function servosOf(prepared: PreparedRig, pose: Pose): Prediction['servos'] {
  return prepared.servos.map((servo, i) => {
    const pulse = pose.pulseUs[servo.output] as number;
    const horn = (pose.hornRad[i] as number) * DEG_PER_RAD;
    if (!servo.lever) return { pulse, horn };
    const lever = leverAngleRad(servo.lever, pose.leverTurn[i] as Float64Array) * DEG_PER_RAD;
    return lever === lever ? { pulse, horn, lever } : { pulse, horn };
  });
}

/** Cosine and sine of blade 1's psi. */
function turnOf(kase: Case): [number, number] {
  const azimuthDeg = kase.azimuth ?? 0;
  return [cosDeg(azimuthDeg), sinDeg(azimuthDeg)];
}

function predictHead(prepared: PreparedRig, pose: Pose, kase: Case, prediction: Prediction): void {
  const [psiCos, psiSin] = turnOf(kase);
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
  prediction.blades = Array.from(pose.pitchRad, (pitchRad) => ({ pitch: pitchRad * DEG_PER_RAD }));
  if (prepared.flybar) {
    const { washout, mixingTurn } = pose.flybar;
    const mixing = prepared.flybar.mixing;
    prediction.flybar = {
      washout: washout[WASHOUT.H] as number,
      washoutArms: [(washout[WASHOUT.ARM1] as number) * DEG_PER_RAD, (washout[WASHOUT.ARM2] as number) * DEG_PER_RAD],
      mixingArms: [
        mixingAngleRad(mixing, mixingTurn[0]) * DEG_PER_RAD,
        mixingAngleRad(mixing, mixingTurn[1]) * DEG_PER_RAD,
      ],
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
