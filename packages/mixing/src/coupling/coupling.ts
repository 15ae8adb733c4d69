/**
 * What each stick moves that it should not.
 *
 * Two 3 x 3 matrices of derivatives at a stick position, columns the sticks collective, elevator, aileron (per unit
 * stick): of the ring (height mm, fore-aft tilt, side tilt, degrees) and of the blades (collective, longitudinal, lateral,
 * degrees, blade 1). They are a chain: pulses by sticks (exact, each corner on its own side), ring by horns (exact, from
 * the closure), then ring and blades by the ring's pose (exact too, but for a settled flybar head: by-pose.ts).
 */
import { DEG_PER_RAD, radOf } from '../quantities/angles.ts';
import type { PreparedRig } from '../rig/prepare.ts';
import type { Case, Unreachable } from '../rig/rig.ts';
import { type Matrix3, type Slopes, slopesAt, type Standing } from './slopes.ts';

export type { Matrix3, Standing } from './slopes.ts';

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
