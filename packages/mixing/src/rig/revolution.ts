/** One blade's pitch all round the disc of a posed ring: what its harmonics are taken from. */
import { closeFlybarHead, type PreparedFlybarHead } from '../flybar/head.ts';
import type { SettledWave } from '../flybar/settle.ts';
import { bladeHalfTangent, bladeMissMm } from '../rotor/blade.ts';
import { PSI_COS, PSI_SIN, REVOLUTION } from '../rotor/harmonics.ts';
import { anglesOf, halfTangentsRound, halfTangentsRoundFixed } from '../rotor/round-the-disc.kernel.ts';
import { STAND } from '../rotor/round-the-disc.ts';
import { type PreparedTurningBall, turningBall } from '../rotor/turning-ring.ts';
import { RING } from '../swashplate/ring.ts';
import { type Miss, normalAtTail, type Pose } from './pose.ts';
import type { PreparedRig } from './prepare.ts';

const eye = new Float64Array(3);
const tail = new Float64Array(3);

/**
 * Pitch of blade `k` (0 is blade 1) at REVOLUTION equally spaced azimuths of that blade, radians, into `samples`.
 * A flybar is held at `teeterRad`, or follows `wave` where that is given. False where one sample cannot close.
 *
 * Two passes, half tangents and then angles: each is short enough for a processor to be at several azimuths at once.
 */
export function sampleRevolution(
  prepared: PreparedRig,
  pose: Pose,
  k: number,
  teeterRad: number,
  wave: SettledWave | undefined,
  samples: Float64Array,
): boolean {
  pose.miss = undefined;
  if (prepared.flybar) flybarHalfTangents(prepared, prepared.flybar, pose, k, teeterRad, wave, samples);
  else directHalfTangents(prepared, pose, k, samples);
  anglesOf(REVOLUTION, samples);
  if (prepared.flybar) return pose.miss === undefined;
  // A sample that cannot close is NaN, and so then is the sum; four sums, since an addition waits for the one before.
  let whole0 = 0;
  let whole1 = 0;
  let whole2 = 0;
  let whole3 = 0;
  for (let i = 0; i < REVOLUTION; i += 4) {
    whole0 += samples[i] as number;
    whole1 += samples[i + 1] as number;
    whole2 += samples[i + 2] as number;
    whole3 += samples[i + 3] as number;
  }
  const whole = whole0 + whole1 + whole2 + whole3;
  if (whole !== whole) pose.miss = worstRoundTheDisc(prepared, pose, k);
  return pose.miss === undefined;
}

/** A direct head's blade eye at sample `i` of a revolution, into `eye`; `tail` holds the normal at the tail. */
function directEye(prepared: PreparedRig, pose: Pose, k: number, i: number): void {
  const c = PSI_COS[i] as number;
  const s = PSI_SIN[i] as number;
  const t0 = tail[0] as number;
  const t1 = tail[1] as number;
  const ball = prepared.bladeBalls[k] as PreparedTurningBall;
  turningBall(ball, pose.ring[RING.Z] as number, t0 * c + t1 * s, t1 * c - t0 * s, tail[2] as number, eye, 0);
}

const stand = new Float64Array(STAND.SIZE);
let fixed: Float64Array<ArrayBuffer> | undefined;

function directHalfTangents(prepared: PreparedRig, pose: Pose, k: number, halves: Float64Array): void {
  normalAtTail(prepared, pose, tail);
  stand[STAND.HEIGHT] = pose.ring[RING.Z] as number;
  stand[STAND.T0] = tail[0] as number;
  stand[STAND.T1] = tail[1] as number;
  stand[STAND.NZ] = tail[2] as number;
  stand[STAND.LINK] = prepared.bladeLinkMm[k] as number;
  fixed = halfTangentsRoundFixed(prepared.bladeBalls[k] as PreparedTurningBall, prepared.blade, stand, fixed);
  halfTangentsRound(fixed, REVOLUTION, PSI_COS, PSI_SIN, halves);
}

function worstRoundTheDisc(prepared: PreparedRig, pose: Pose, k: number): Miss {
  const worst: Miss = { path: `/rotor/links/${k}`, missMm: 0 };
  for (let i = 0; i < REVOLUTION; i++) {
    directEye(prepared, pose, k, i);
    const missMm = bladeMissMm(prepared.blade, prepared.bladeLinkMm[k] as number, eye, 0);
    if (Math.abs(missMm) > Math.abs(worst.missMm)) worst.missMm = missMm;
  }
  return worst;
}

/** As for a direct head, but each sample closes washout and mixing arms, and leaves the worst miss in the pose itself. */
function flybarHalfTangents(
  prepared: PreparedRig,
  flybar: PreparedFlybarHead,
  pose: Pose,
  k: number,
  teeterRad: number,
  wave: SettledWave | undefined,
  halves: Float64Array,
): void {
  normalAtTail(prepared, pose, tail);
  const t0 = tail[0] as number;
  const t1 = tail[1] as number;
  const link = prepared.bladeLinkMm[k] as number;
  // blade 1's azimuth is this blade's less its place ahead, and this blade's R is turned by as much
  const turn = k === 0 ? 1 : -1;
  for (let i = 0; i < REVOLUTION; i++) {
    const psiCos = turn * (PSI_COS[i] as number);
    const psiSin = turn * (PSI_SIN[i] as number);
    const teeter = wave ? wave.cosine * psiCos + wave.sine * psiSin : teeterRad;
    const nx = t0 * psiCos + t1 * psiSin;
    const ny = t1 * psiCos - t0 * psiSin;
    const z = pose.ring[RING.Z] as number;
    const miss = closeFlybarHead(flybar, z, nx, ny, tail[2] as number, teeter, pose.flybar, i > 0 && !pose.miss);
    halves[i] = Number.NaN;
    if (miss) {
      if (!pose.miss || Math.abs(miss.missMm) > Math.abs(pose.miss.missMm)) pose.miss = miss;
      continue;
    }
    const ends = pose.flybar.bladeEnds;
    eye[0] = turn * (ends[3 * k] as number);
    eye[1] = turn * (ends[3 * k + 1] as number);
    eye[2] = ends[3 * k + 2] as number;
    const half = bladeHalfTangent(prepared.blade, link, eye, 0);
    halves[i] = half;
    if (half !== half) {
      const missMm = bladeMissMm(prepared.blade, link, eye, 0);
      if (!pose.miss || Math.abs(missMm) > Math.abs(pose.miss.missMm)) pose.miss = { path: `/rotor/links/${k}`, missMm };
    }
  }
}
