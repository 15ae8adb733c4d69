/**
 * How ring and blades move with the ring's pose x = (z, a, b): height and tilts, and the harmonics of blade 1's pitch.
 *
 * A blade's part is exact: at each azimuth its link keeps its length, which gives d pitch / d x, and the harmonics are sums
 * of those. On a settled flybar head the teeter wave, found by iteration, moves too; there it is differences of poses.
 */
import { closeFlybarHead, type PreparedFlybarHead } from '../flybar/head.ts';
import { bladeEndSlope } from '../flybar/mixing.ts';
import { DEG_PER_RAD } from '../quantities/angles.ts';
import { normalAtTail, type Pose, settleFlybar } from '../rig/pose.ts';
import { sampleRevolution } from '../rig/revolution.ts';
import type { PreparedRig } from '../rig/prepare.ts';
import { pitchSlope } from '../rotor/blade.ts';
import { harmonicsOf, PSI_COS, PSI_SIN, REVOLUTION } from '../rotor/harmonics.ts';
import { normalOverTail, type PreparedTurningBall, turningBall, turningBallSlope } from '../rotor/turning-ring.ts';
import { RING, ringNormal, ringNormalSlopes } from '../swashplate/ring.ts';

const bySide = new Float64Array(6);

/** d(height mm, fore-aft, side degrees)/d(z, a, b) of a posed ring, into `out` (3 x 3). */
export function swashByPose(prepared: PreparedRig, pose: Pose, out: Float64Array): void {
  const { guideCos, guideSin } = prepared.ring;
  const nx = (pose.ring[RING.NX] as number) * guideCos - (pose.ring[RING.NY] as number) * guideSin;
  const ny = (pose.ring[RING.NX] as number) * guideSin + (pose.ring[RING.NY] as number) * guideCos;
  const nz = pose.ring[RING.NZ] as number;
  ringNormalSlopes(pose.ring[RING.A] as number, pose.ring[RING.B] as number, bySide);
  out.fill(0, 0, 9);
  out[0] = 1;
  for (let k = 0; k < 2; k++) {
    const x = bySide[3 * k] as number;
    const y = bySide[3 * k + 1] as number;
    const dx = x * guideCos - y * guideSin;
    const dy = x * guideSin + y * guideCos;
    const dz = bySide[3 * k + 2] as number;
    out[4 + k] = (DEG_PER_RAD * (nz * dx - nx * dz)) / (nx * nx + nz * nz);
    out[7 + k] = (DEG_PER_RAD * (ny * dz - nz * dy)) / (ny * ny + nz * nz);
  }
}

const tail = new Float64Array(3);
/** d normal over the tail / da and / db */
const tailSlopes = new Float64Array(6);
const eye = new Float64Array(3);
const eyeSlope = new Float64Array(3);
const ballSlope = new Float64Array(3);

/** d(collective, longitudinal, lateral degrees)/d(z, a, b) of blade 1, a flybar held, into `out` (3 x 3). `pitchRad` are its REVOLUTION samples. */
export function bladesByPose(
  prepared: PreparedRig,
  pose: Pose,
  teeterRad: number,
  pitchRad: Float64Array,
  out: Float64Array,
): void {
  normalAtTail(prepared, pose, tail);
  ringNormalSlopes(pose.ring[RING.A] as number, pose.ring[RING.B] as number, bySide);
  const { guideCos, guideSin } = prepared.ring;
  for (let k = 0; k < 6; k += 3) {
    const [x, y, z] = [bySide[k] as number, bySide[k + 1] as number, bySide[k + 2] as number];
    normalOverTail(guideCos, guideSin, prepared.rotation, x, y, z, tailSlopes, k);
  }
  const height = pose.ring[RING.Z] as number;
  const nz = tail[2] as number;
  const sums = [new Float64Array(3), new Float64Array(3), new Float64Array(3)] as const;
  for (let i = 0; i < REVOLUTION; i++) {
    const c = PSI_COS[i] as number;
    const s = PSI_SIN[i] as number;
    const nx = (tail[0] as number) * c + (tail[1] as number) * s;
    const ny = (tail[1] as number) * c - (tail[0] as number) * s;
    const ball = (prepared.flybar ? prepared.flybar.ringBalls[2] : prepared.bladeBalls[0]) as PreparedTurningBall;
    if (prepared.flybar) flybarEye(prepared.flybar, pose, height, nx, ny, nz, teeterRad, i > 0);
    else turningBall(ball, height, nx, ny, nz, eye, 0);
    for (let k = 0; k < 3; k++) {
      if (k === 0) {
        ballSlope[0] = 0;
        ballSlope[1] = 0;
        ballSlope[2] = 1;
      } else {
        const at = 3 * (k - 1);
        const t0 = tailSlopes[at] as number;
        const t1 = tailSlopes[at + 1] as number;
        turningBallSlope(ball, nx, ny, nz, t0 * c + t1 * s, t1 * c - t0 * s, tailSlopes[at + 2] as number, ballSlope);
      }
      if (prepared.flybar) flybarEyeSlope(prepared.flybar, pose, ballSlope);
      const slope = pitchSlope(prepared.blade, pitchRad[i] as number, eye, 0, prepared.flybar ? eyeSlope : ballSlope);
      const sum = sums[k] as Float64Array;
      sum[0] = (sum[0] as number) + slope;
      sum[1] = (sum[1] as number) + slope * c;
      sum[2] = (sum[2] as number) + slope * s;
    }
  }
  const lateralSign = prepared.rotation > 0 ? -1 : 1;
  for (let k = 0; k < 3; k++) {
    const sum = sums[k] as Float64Array;
    out[k] = (DEG_PER_RAD * (sum[0] as number)) / REVOLUTION;
    out[3 + k] = (-DEG_PER_RAD * (sum[2] as number)) / (REVOLUTION / 2);
    out[6 + k] = (lateralSign * DEG_PER_RAD * (sum[1] as number)) / (REVOLUTION / 2);
  }
}

function flybarEye(
  head: PreparedFlybarHead,
  pose: Pose,
  height: number,
  nx: number,
  ny: number,
  nz: number,
  teeterRad: number,
  warm: boolean,
): void {
  closeFlybarHead(head, height, nx, ny, nz, teeterRad, pose.flybar, warm);
  for (let k = 0; k < 3; k++) eye[k] = pose.flybar.bladeEnds[k] as number;
}

/** Into `eyeSlope`. */
function flybarEyeSlope(head: PreparedFlybarHead, pose: Pose, slope: Float64Array): void {
  const { teeterRad, mixingBalls, mixingTurn } = pose.flybar;
  bladeEndSlope(head.mixing, 0, mixingBalls, Math.cos(teeterRad), Math.sin(teeterRad), mixingTurn[0], slope, eyeSlope);
}

/**
 * Steps in z (mm), a and b (half-angle tangents). A flybar head with an arm far from level bends sharply: steps of 0.2 and 0.008
 * left 1e-5 there, 0.05 and 0.002 2e-8; at these the order no longer shows, and rounding is below 1e-10.
 */
const STEPS = [0.03, 0.001, 0.001];
/** Central differences of sixth order. */
const WEIGHTS = [45 / 60, -9 / 60, 1 / 60];

const samples = new Float64Array(REVOLUTION);

/** As `bladesByPose`, for a settled flybar: differences of settled poses. False where one of them cannot close; the pose is put back. */
export function settledByPose(prepared: PreparedRig, pose: Pose, out: Float64Array): boolean {
  const start = Float64Array.from(pose.ring);
  out.fill(0, 0, 9);
  let reached = true;
  for (let k = 0; k < 3 && reached; k++) {
    const step = STEPS[k] as number;
    for (let m = -3; m <= 3 && reached; m++) {
      if (m === 0) continue;
      pose.ring.set(start);
      pose.ring[k] = (start[k] as number) + m * step;
      ringNormal(pose.ring[RING.A] as number, pose.ring[RING.B] as number, pose.ring, RING.NX);
      reached = settleFlybar(prepared, pose) && sampleRevolution(prepared, pose, 0, 0, pose.wave, samples);
      const weight = (DEG_PER_RAD * Math.sign(m) * (WEIGHTS[Math.abs(m) - 1] as number)) / step;
      const { collective, longitudinal, lateral } = harmonicsOf(samples, prepared.rotation);
      out[k] = (out[k] as number) + weight * collective;
      out[3 + k] = (out[3 + k] as number) + weight * longitudinal;
      out[6 + k] = (out[6 + k] as number) + weight * lateral;
    }
  }
  pose.ring.set(start);
  return reached;
}
