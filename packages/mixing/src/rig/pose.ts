/**
 * One pose, from sticks to blades, over arrays that are made once: the stages called in order, nothing else.
 * `predict` (the readable whole), the figure, coupling, diagnosis and the batches are all made of these.
 *
 *   setSticks -> setHorns -> poseRing -> poseHead (one azimuth) or sampleRevolution (all of them, in revolution.ts)
 *
 * A stage that cannot close leaves its `miss` in the pose, and what lies after it is stale: read `miss` first.
 */
import { closeFlybarHead, FlybarPose } from '../flybar/head.ts';
import { SettledWave, settle } from '../flybar/settle.ts';
import { atanOf } from '../numerics/trig.ts';
import { wrapRad } from '../quantities/angles.ts';
import { bladeHalfTangent, bladeMissMm } from '../rotor/blade.ts';
import { normalOverTail, type PreparedTurningBall, turningBall } from '../rotor/turning-ring.ts';
import { hornAngleRad, hornBall } from '../servo/horn.ts';
import { closeLever, pushrodMissMm } from '../servo/lever.ts';
import { closeRing, walkRing } from '../swashplate/close.ts';
import { RING } from '../swashplate/ring.ts';
import { commands, outputPulses } from '../transmitter/outputs.ts';
import type { PreparedRig, PreparedServo } from './prepare.ts';

/** The length that misses most at the stage's nearest pose: signed, positive where it is too short. */
export interface Miss {
  path: string;
  missMm: number;
}

export class Pose {
  readonly u = new Float64Array(3);
  readonly pulseUs = new Float64Array(3);
  readonly saturated = new Uint8Array(3);
  readonly hornRad = new Float64Array(3);
  /** horns' balls in G, 3 x 3 mm */
  readonly hornBalls = new Float64Array(9);
  /** lower eyes of the links in G, 3 x 3 mm: the horns' balls, or the levers' swashplate ends */
  readonly eyes = new Float64Array(9);
  /** cosine and sine of each lever's servo end */
  readonly leverTurn = [new Float64Array(2), new Float64Array(2), new Float64Array(2)] as const;
  readonly ring = new Float64Array(RING.SIZE);
  /** lower eyes of the blade links, each in its own blade's R, N x 3 mm */
  readonly bladeEyes: Float64Array;
  readonly pitchRad: Float64Array;
  readonly flybar = new FlybarPose();
  /** the teeter wave of a settled flybar: teeter = cosine cos psi + sine sin psi, rad */
  readonly wave = new SettledWave();
  miss: Miss | undefined = undefined;

  constructor(blades: number) {
    this.bladeEyes = new Float64Array(3 * blades);
    this.pitchRad = new Float64Array(blades);
  }
}

export function makePose(prepared: PreparedRig): Pose {
  return new Pose(prepared.rig.rotor.blades);
}

/** Sticks (-1 to +1) and flight mode (a place in the list) to output pulses. */
export function setSticks(
  prepared: PreparedRig,
  pose: Pose,
  mode: number,
  collective: number,
  elevator: number,
  aileron: number,
): void {
  commands(prepared.transmitter, mode, collective, elevator, aileron, pose.u);
  outputPulses(prepared.transmitter, pose.u, pose.pulseUs, pose.saturated);
}

/** Horn angles that the pulses give, radians. */
export function setHorns(prepared: PreparedRig, pose: Pose): void {
  for (let i = 0; i < 3; i++) {
    const servo = prepared.servos[i] as PreparedServo;
    pose.hornRad[i] = hornAngleRad(servo.horn, pose.pulseUs[servo.output] as number);
  }
}

/** Horns (in `pose.hornRad`) to the links' lower eyes. False where a pushrod cannot reach. */
export function poseEyes(prepared: PreparedRig, pose: Pose): boolean {
  pose.miss = undefined;
  for (let i = 0; i < 3; i++) {
    const servo = prepared.servos[i] as PreparedServo;
    const at = 3 * i;
    hornBall(servo.horn, pose.hornRad[i] as number, pose.hornBalls, at);
    if (servo.lever) {
      if (!closeLever(servo.lever, pose.hornBalls, at, pose.eyes, pose.leverTurn[i] as Float64Array)) {
        const missMm = pushrodMissMm(servo.lever, pose.hornBalls, at);
        (pose.leverTurn[i] as Float64Array).fill(Number.NaN);
        if (!pose.miss || Math.abs(missMm) > Math.abs(pose.miss.missMm)) {
          pose.miss = { path: `/servos/${i}/pushrod`, missMm };
        }
      }
    } else {
      pose.eyes[at] = pose.hornBalls[at] as number;
      pose.eyes[at + 1] = pose.hornBalls[at + 1] as number;
      pose.eyes[at + 2] = pose.hornBalls[at + 2] as number;
    }
  }
  return pose.miss === undefined;
}

/** Horns (in `pose.hornRad`) to the ring's pose. True where it closes; `warm` starts from the pose at hand. */
export function poseRing(prepared: PreparedRig, pose: Pose, warm = false): boolean {
  if (!poseEyes(prepared, pose)) return false;
  if (!warm) {
    pose.ring[RING.Z] = prepared.ring.designedHeightMm;
    pose.ring[RING.A] = 0;
    pose.ring[RING.B] = 0;
  }
  if (closeRing(prepared.ring, pose.eyes, pose.ring)) return true;
  return walkToRing(prepared, pose);
}

/** The same on the long way, from the designed pose in small strides: what `poseRing` does where Newton might mistake the pose. */
export function walkToRing(prepared: PreparedRig, pose: Pose): boolean {
  const miss = walkRing(prepared.ring, (along, eyes) => eyesAlong(prepared, pose, along, eyes), pose.ring);
  if (!miss) return true;
  pose.miss = { path: `/servos/${miss.servo}/link`, missMm: miss.missMm };
  return false;
}

/**
 * The lower eyes a part of the way from horns level and lengths as designed to where they are. A horn goes the short
 * way round: a tooth of 24 on a spline of 25 is the tooth -1.
 */
function eyesAlong(prepared: PreparedRig, pose: Pose, along: number, eyes: Float64Array): boolean {
  for (let i = 0; i < 3; i++) {
    const servo = prepared.servos[i] as PreparedServo;
    hornBall(servo.horn, along * wrapRad(pose.hornRad[i] as number), eyes, 3 * i);
    if (servo.lever) {
      const designed = servo.designedPushrodMm as number;
      const lever = { ...servo.lever, pushrodMm: designed + along * (servo.lever.pushrodMm - designed) };
      if (!closeLever(lever, eyes, 3 * i, eyes, new Float64Array(2))) return false;
    }
  }
  return true;
}

/** The ring's normal in the machine frame F. */
export function ringNormalInF(prepared: PreparedRig, pose: Pose): [number, number, number] {
  const { guideCos, guideSin } = prepared.ring;
  const nx = pose.ring[RING.NX] as number;
  const ny = pose.ring[RING.NY] as number;
  return [nx * guideCos - ny * guideSin, nx * guideSin + ny * guideCos, pose.ring[RING.NZ] as number];
}

/** The normal in R of a blade at psi 0 (over the tail), into `out` (3): turn it by psi for any other blade. */
export function normalAtTail(prepared: PreparedRig, pose: Pose, out: Float64Array): void {
  const { guideCos, guideSin } = prepared.ring;
  const nx = pose.ring[RING.NX] as number;
  const ny = pose.ring[RING.NY] as number;
  normalOverTail(guideCos, guideSin, prepared.rotation, nx, ny, pose.ring[RING.NZ] as number, out, 0);
}

const atTail = new Float64Array(3);

/**
 * The head on a posed ring, blade 1 at psi (cosine and sine given), a flybar held at `teeterRad`: pitches of all blades.
 * False where a blade, paddle or arm cannot close.
 */
export function poseHead(
  prepared: PreparedRig,
  pose: Pose,
  psiCos: number,
  psiSin: number,
  teeterRad: number,
  warm = false,
): boolean {
  pose.miss = undefined;
  normalAtTail(prepared, pose, atTail);
  const t0 = atTail[0] as number;
  const t1 = atTail[1] as number;
  const nz = atTail[2] as number;
  const nx = t0 * psiCos + t1 * psiSin;
  const ny = t1 * psiCos - t0 * psiSin;
  const z = pose.ring[RING.Z] as number;
  if (prepared.flybar) {
    pose.miss = closeFlybarHead(prepared.flybar, z, nx, ny, nz, teeterRad, pose.flybar, warm);
    if (pose.miss) return false;
    const ends = pose.flybar.bladeEnds;
    for (let k = 0; k < 2; k++) {
      const turn = k === 0 ? 1 : -1;
      pose.bladeEyes[3 * k] = turn * (ends[3 * k] as number);
      pose.bladeEyes[3 * k + 1] = turn * (ends[3 * k + 1] as number);
      pose.bladeEyes[3 * k + 2] = ends[3 * k + 2] as number;
    }
  } else {
    for (let k = 0; k < prepared.bladeBalls.length; k++) {
      const c = prepared.bladeCos[k] as number;
      const s = prepared.bladeSin[k] as number;
      const ball = prepared.bladeBalls[k] as PreparedTurningBall;
      turningBall(ball, z, nx * c + ny * s, ny * c - nx * s, nz, pose.bladeEyes, 3 * k);
    }
  }
  return closeBlades(prepared, pose);
}

function closeBlades(prepared: PreparedRig, pose: Pose): boolean {
  for (let k = 0; k < pose.pitchRad.length; k++) {
    const link = prepared.bladeLinkMm[k] as number;
    const half = bladeHalfTangent(prepared.blade, link, pose.bladeEyes, 3 * k);
    pose.pitchRad[k] = 2 * atanOf(half);
    if (half !== half) {
      const missMm = bladeMissMm(prepared.blade, link, pose.bladeEyes, 3 * k);
      if (!pose.miss || Math.abs(missMm) > Math.abs(pose.miss.missMm)) pose.miss = { path: `/rotor/links/${k}`, missMm };
    }
  }
  return pose.miss === undefined;
}

/** Finds the wave in which the flybar settles on a posed ring, into `pose.wave`. False where a paddle cannot close. */
export function settleFlybar(prepared: PreparedRig, pose: Pose): boolean {
  pose.miss = undefined;
  if (!prepared.flybar) return true;
  normalAtTail(prepared, pose, atTail);
  pose.miss = settle(prepared.flybar, pose.ring[RING.Z] as number, atTail, pose.flybar, pose.wave);
  return pose.miss === undefined;
}
