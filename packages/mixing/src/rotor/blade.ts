/**
 * The lower eye of a blade's link in, blade pitch out.
 *
 * In the blade's own frame R the feathering axis is x at hubHeight; at pitch t the pitch arm's ball is at
 * (station, lead cos t - height sin t, hubHeight + lead sin t + height cos t), positive leading edge up. The link ties it
 * to the lower eye: the ring's ball, or a mixing arm's blade end. Of the two closures the one nearer zero is meant.
 */
import { halfTangentNearZero, missMm } from '../numerics/circle-closure.ts';
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
