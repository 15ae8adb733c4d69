/**
 * One blade of a direct head at many azimuths of a posed ring: tan(pitch/2), then pitch. Two loops, so that each round
 * is short; `round-the-disc.kernel.ts`, made from this file, is what runs.
 */
import { atanOf } from '../numerics/trig.ts';
import { bladeHalfTangent, type PreparedBlade } from './blade.ts';
import { type PreparedTurningBall, turningBall } from './turning-ring.ts';

/** A count, or a place in an array. */
type Whole = number;
/** Values that do not change while a pass runs. */
type Fixed = Float64Array;

/** Places of `stand`: the ring's height mm, its normal in R of a blade over the tail (3), the blade's link mm. */
export const STAND = { HEIGHT: 0, T0: 1, T1: 2, NZ: 3, LINK: 4, SIZE: 5 } as const;

const eye = new Float64Array(3);

/** tan(pitch/2) at `count` azimuths of the blade, whose cosines and sines are given, into `halves`; NaN where it cannot reach. */
export function halfTangentsRound(
  ball: PreparedTurningBall,
  blade: PreparedBlade,
  stand: Fixed,
  count: Whole,
  psiCos: Float64Array,
  psiSin: Float64Array,
  halves: Float64Array,
): void {
  for (let i = 0; i < count; i++) {
    const c = psiCos[i] as number;
    const s = psiSin[i] as number;
    const t0 = stand[STAND.T0] as number;
    const t1 = stand[STAND.T1] as number;
    turningBall(ball, stand[STAND.HEIGHT] as number, t0 * c + t1 * s, t1 * c - t0 * s, stand[STAND.NZ] as number, eye, 0);
    halves[i] = bladeHalfTangent(blade, stand[STAND.LINK] as number, eye, 0);
  }
}

/** Half tangents to angles, radians, in place. */
export function anglesOf(count: Whole, halves: Float64Array): void {
  for (let i = 0; i < count; i++) {
    halves[i] = 2 * atanOf(halves[i] as number);
  }
}
