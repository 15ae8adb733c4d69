/**
 * What each stick moves that it should not.
 *
 * Two 3 x 3 matrices of derivatives at a stick position, columns the sticks collective, elevator, aileron (per unit
 * stick): of the ring (height mm, fore-aft tilt, side tilt, degrees) and of the blades (collective, longitudinal, lateral,
 * degrees, blade 1). They are a chain: pulses by sticks (exact, each corner on its own side), ring by horns (exact, from
 * the closure), then ring and blades by the ring's pose (central differences of sixth order on exact poses, whose error
 * was measured below 1e-9 beside extrapolated differences of the sticks, 3e-9 on carelessly set flybar heads).
 */
import { DEG_PER_RAD, radOf } from '../quantities/angles.ts';
import { checkCase } from '../rig/case.ts';
import {
  type Miss,
  makePose,
  type Pose,

  poseRing,
  ringNormalInF,
  sampleRevolution,
  setHorns,
  setSticks,
  settleFlybar,
} from '../rig/pose.ts';
import { unreachableOf } from '../rig/predict.ts';
import type { PreparedRig, PreparedServo } from '../rig/prepare.ts';
import type { Case, Unreachable } from '../rig/rig.ts';
import { ringSlopes } from '../rig/ring-slopes.ts';
import { harmonicsOf, REVOLUTION } from '../rotor/harmonics.ts';
import { RING, ringNormal } from '../swashplate/ring.ts';
import { meanPulseSlopes, type StickName } from '../transmitter/slopes.ts';

export type Matrix3 = [[number, number, number], [number, number, number], [number, number, number]];

/** Percent with sign; null where the axis that it is a part of does not move at all. */
export interface CrossCoupling {
  /** side (lateral) per fore-aft (longitudinal), under elevator */
  elevator: number | null;
  /** fore-aft (longitudinal) per side (lateral), under aileron */
  aileron: number | null;
  /** fore-aft (longitudinal) under collective, over that under elevator */
  collectiveForeAft: number | null;
  /** side (lateral) under collective, over that under aileron */
  collectiveSide: number | null;
}

/** Degrees, at mid-stick, before anything moves. */
export interface Standing {
  foreAft: number;
  side: number;
  longitudinal: number;
  lateral: number;
}

export interface ReachedCoupling {
  at: Case;
  /** rows height mm, fore-aft tilt, side tilt degrees; columns collective, elevator, aileron, per unit stick */
  swash: Matrix3;
  /** rows collective, longitudinal, lateral degrees; the same columns */
  blade: Matrix3;
  cross: { swash: CrossCoupling; blade: CrossCoupling };
  standing: Standing;
  healthy: boolean;
}

export interface UnreachedCoupling {
  at: Case;
  unreachable: Unreachable;
}

export type Coupling = ReachedCoupling | UnreachedCoupling;

/** How near is near enough; the defaults of a targets document. Degrees, and percent for `cross`. */
export interface HealthLimits {
  level: number;
  zero: number;
  match: number;
  cross: number;
}

export const HEALTH_LIMITS: HealthLimits = { level: 0.5, zero: 0.4, match: 0.4, cross: 5 };

const STICKS: StickName[] = ['collective', 'elevator', 'aileron'];
const QUANTITIES = 6;
/**
 * Steps in z (mm), a and b (half-angle tangents). A flybar head with an arm far from level bends sharply: steps of 0.2 and 0.008
 * left 1e-5 there, 0.05 and 0.002 2e-8; at these the order no longer shows, and rounding is below 1e-10.
 */
const STEPS = [0.03, 0.001, 0.001];
const WEIGHTS = [45 / 60, -9 / 60, 1 / 60];

const samples = new Float64Array(REVOLUTION);

/**
 * Coupling at a case. Its `teeter` (or `settled`) is the flybar's at every azimuth; `mode` picks the flight mode.
 * @throws CaseError as `predict` does
 */
export function coupling(prepared: PreparedRig, at: Case = {}, limits: HealthLimits = HEALTH_LIMITS): Coupling {
  const here = slopesAt(prepared, at);
  if ('unreachable' in here) return { at, unreachable: here.unreachable };
  const midCase: Case = at.mode === undefined ? {} : { mode: at.mode };
  const mid = slopesAt(prepared, midCase);
  if ('unreachable' in mid) return { at, unreachable: mid.unreachable };
  const cross = { swash: crossOf(here.swash), blade: crossOf(here.blade) };
  return {
    at,
    swash: here.swash,
    blade: here.blade,
    cross,
    standing: mid.standing,
    healthy: isHealthy(mid, crossOf(mid.blade), limits),
  };
}

interface Slopes {
  swash: Matrix3;
  blade: Matrix3;
  standing: Standing;
  /** theta0 of every blade, degrees */
  bladesDeg: number[];
}

function slopesAt(prepared: PreparedRig, kase: Case): Slopes | { unreachable: Unreachable } {
  const mode = checkCase(prepared.transmitter, kase);
  const pose = makePose(prepared);
  const sticks = { collective: kase.collective ?? 0, elevator: kase.elevator ?? 0, aileron: kase.aileron ?? 0 };
  setSticks(prepared, pose, mode, sticks.collective, sticks.elevator, sticks.aileron);
  setHorns(prepared, pose);
  if (!poseRing(prepared, pose)) return { unreachable: unreachableOf(pose.miss as Miss) };
  const ringByHorn = new Float64Array(9);
  if (!ringSlopes(prepared, pose, ringByHorn)) return { unreachable: { path: '/servos/0/link', short: 0 } };
  const here = new Float64Array(QUANTITIES);
  if (!quantitiesAt(prepared, pose, kase, here)) return { unreachable: unreachableOf(pose.miss as Miss) };
  const bladesDeg = prepared.rig.rotor.links.map((_, k) => {
    revolution(prepared, pose, kase, k);
    return harmonicsOf(samples, prepared.rotation).collective * DEG_PER_RAD;
  });
  const byPose = new Float64Array(QUANTITIES * 3);
  if (!differences(prepared, pose, kase, byPose)) return { unreachable: unreachableOf(pose.miss as Miss) };
  const matrix = Array.from({ length: QUANTITIES }, () => [0, 0, 0]);
  const slopes = new Float64Array(3);
  STICKS.forEach((stick, column) => {
    meanPulseSlopes(prepared.transmitter, mode, sticks, stick, slopes);
    for (let q = 0; q < QUANTITIES; q++) {
      let sum = 0;
      for (let i = 0; i < 3; i++) {
        const servo = prepared.servos[i] as PreparedServo;
        const hornSlope = (slopes[servo.output] as number) * servo.horn.rateRadPerUs;
        for (let k = 0; k < 3; k++) sum += (byPose[3 * q + k] as number) * (ringByHorn[3 * k + i] as number) * hornSlope;
      }
      (matrix[q] as number[])[column] = sum;
    }
  });
  return {
    swash: matrix.slice(0, 3) as Matrix3,
    blade: matrix.slice(3) as Matrix3,
    standing: {
      foreAft: here[1] as number,
      side: here[2] as number,
      longitudinal: here[4] as number,
      lateral: here[5] as number,
    },
    bladesDeg,
  };
}

function revolution(prepared: PreparedRig, pose: Pose, kase: Case, blade: number): boolean {
  const wave = kase.settled && prepared.flybar ? pose.wave : undefined;
  if (wave && !settleFlybar(prepared, pose)) return false;
  return sampleRevolution(prepared, pose, blade, radOf(kase.teeter ?? 0), wave, samples);
}

/** [height mm, fore-aft, side, collective, longitudinal, lateral degrees] of a posed ring, into `out`. */
function quantitiesAt(prepared: PreparedRig, pose: Pose, kase: Case, out: Float64Array): boolean {
  const [nx, ny, nz] = ringNormalInF(prepared, pose);
  out[0] = pose.ring[RING.Z] as number;
  out[1] = Math.atan2(nx, nz) * DEG_PER_RAD;
  out[2] = Math.atan2(-ny, nz) * DEG_PER_RAD;
  if (!revolution(prepared, pose, kase, 0)) return false;
  const harmonics = harmonicsOf(samples, prepared.rotation);
  out[3] = harmonics.collective * DEG_PER_RAD;
  out[4] = harmonics.longitudinal * DEG_PER_RAD;
  out[5] = harmonics.lateral * DEG_PER_RAD;
  return true;
}

/** d(quantities)/d(z, a, b) into `out` (6 x 3); the pose is put back as it was. */
function differences(prepared: PreparedRig, pose: Pose, kase: Case, out: Float64Array): boolean {
  const start = Float64Array.from(pose.ring);
  const at = new Float64Array(QUANTITIES);
  out.fill(0);
  let reached = true;
  for (let k = 0; k < 3 && reached; k++) {
    const step = STEPS[k] as number;
    for (let m = -3; m <= 3 && reached; m++) {
      if (m === 0) continue;
      pose.ring.set(start);
      pose.ring[k] = (start[k] as number) + m * step;
      ringNormal(pose.ring[RING.A] as number, pose.ring[RING.B] as number, pose.ring, RING.NX);
      reached = quantitiesAt(prepared, pose, kase, at);
      const weight = (Math.sign(m) * (WEIGHTS[Math.abs(m) - 1] as number)) / step;
      for (let q = 0; q < QUANTITIES; q++) out[3 * q + k] = (out[3 * q + k] as number) + weight * (at[q] as number);
    }
  }
  pose.ring.set(start);
  return reached;
}

function percent(part: number, whole: number): number | null {
  return whole === 0 ? null : (100 * part) / whole;
}

/** The cross-axis coupling that a matrix holds, percent with sign. */
export function crossOf(matrix: Matrix3): CrossCoupling {
  const [, foreAft, side] = matrix;
  return {
    elevator: percent(side[1], foreAft[1]),
    aileron: percent(foreAft[2], side[2]),
    collectiveForeAft: percent(foreAft[0], foreAft[1]),
    collectiveSide: percent(side[0], side[2]),
  };
}

/**
 * Whether the machine at mid-stick is level, at zero, its blades alike, and each cyclic stick's blades free of the other
 * axis. Collective's own part in the cyclic axes is shown, not judged: unlike horns' arcs give some to sound machines.
 */
function isHealthy(mid: Slopes, cross: CrossCoupling, limits: HealthLimits): boolean {
  const foreAft = Math.tan(radOf(mid.standing.foreAft));
  const side = Math.tan(radOf(mid.standing.side));
  const tiltDeg = Math.atan(Math.hypot(foreAft, side)) * DEG_PER_RAD;
  const highest = Math.max(...mid.bladesDeg);
  const lowest = Math.min(...mid.bladesDeg);
  return (
    tiltDeg <= limits.level &&
    Math.max(highest, -lowest) <= limits.zero &&
    highest - lowest <= limits.match &&
    Math.abs(cross.elevator ?? Number.POSITIVE_INFINITY) <= limits.cross &&
    Math.abs(cross.aileron ?? Number.POSITIVE_INFINITY) <= limits.cross
  );
}
