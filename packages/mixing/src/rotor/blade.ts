/**
 * The lower eye of a blade's link in, blade pitch out.
 *
 * In the blade's own frame R the feathering axis is x at hubHeight; at pitch t the pitch arm's ball is at
 * (station, lead cos t - height sin t, hubHeight + lead sin t + height cos t), positive leading edge up. The link ties it
 * to the lower eye: the ring's ball, or a mixing arm's blade end. Of the two closures the one nearer zero is meant.
 */
import { halfTangentNearZero, missMm, overCentreSine } from '../numerics/circle-closure.ts';
import { cosOf, sinOf } from '../numerics/trig.ts';
import type { Rotor } from '../rig/rig.ts';

export interface PreparedBlade {
  station: number;
  lead: number;
  height: number;
  hubHeight: number;
}

export function prepareBlade(rotor: Rotor): PreparedBlade {
  return { ...rotor.pitchArm, hubHeight: rotor.hubHeight };
}

/** tan(pitch/2) of a blade whose link's lower eye is at `eye[at ..]` in its own R (mm); NaN where it cannot reach. */
export function bladeHalfTangent(blade: PreparedBlade, linkMm: number, eye: Float64Array, at: number): number {
  return halfTangentNearZero(
    blade.lead,
    blade.height,
    eye[at + 1] as number,
    (eye[at + 2] as number) - blade.hubHeight,
    (eye[at] as number) - blade.station,
    linkMm,
  );
}

/**
 * How fast pitch moves (rad per unit) where the lower eye at `eye[at ..]` moves by `eyeSlope` (3, mm per unit): the link keeps
 * its length, (arm - eye) . (d arm - d eye) = 0.
 */
export function pitchSlope(
  blade: PreparedBlade,
  pitchRad: number,
  eye: Float64Array,
  at: number,
  eyeSlope: Float64Array,
): number {
  const c = cosOf(pitchRad);
  const s = sinOf(pitchRad);
  const armY = blade.lead * c - blade.height * s;
  const armZ = blade.lead * s + blade.height * c;
  const dx = blade.station - (eye[at] as number);
  const dy = armY - (eye[at + 1] as number);
  const dz = blade.hubHeight + armZ - (eye[at + 2] as number);
  const pulled = dx * (eyeSlope[0] as number) + dy * (eyeSlope[1] as number) + dz * (eyeSlope[2] as number);
  return pulled / (dz * armY - dy * armZ);
}

/** By how many millimetres the blade's link misses (positive: too short). */
export function bladeMissMm(blade: PreparedBlade, linkMm: number, eye: Float64Array, at: number): number {
  return missMm(
    Math.hypot(blade.lead, blade.height),
    eye[at + 1] as number,
    (eye[at + 2] as number) - blade.hubHeight,
    (eye[at] as number) - blade.station,
    linkMm,
  );
}

/** How far a blade's pitch arm at `pitchRad` stands from dead centre with its link: see `overCentreSine`. */
export function bladeSine(blade: PreparedBlade, pitchRad: number, eye: Float64Array, at: number): number {
  const c = cosOf(pitchRad);
  const s = sinOf(pitchRad);
  const y = eye[at + 1] as number;
  const z = (eye[at + 2] as number) - blade.hubHeight;
  const arm = Math.sqrt(blade.lead * blade.lead + blade.height * blade.height);
  return overCentreSine(y, z, blade.lead * c - blade.height * s, blade.lead * s + blade.height * c) / arm;
}
