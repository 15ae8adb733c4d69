/**
 * The flybar in flight: it follows its paddles a quarter turn late.
 *
 * With paddle pitch's first harmonic over a revolution dc cos psi + ds sin psi, teeter is dc sin psi - ds cos psi (the
 * hinged blade's answer, lag 90 degrees whatever its inertia). Teeter turns the paddles in turn through the rods, so the
 * two are solved together: Newton on (dc, ds), whose derivatives hardly change and are taken once.
 */
import { PSI_COS, PSI_SIN, REVOLUTION } from '../rotor/harmonics.ts';
import { closeFlybarHead, type FlybarPose, type HeadMiss, type PreparedFlybarHead } from './head.ts';
import { WASHOUT } from './washout.ts';

/** teeter(psi) = cosine cos psi + sine sin psi, radians, psi being blade 1's. */
export class SettledWave {
  cosine = 0;
  sine = 0;
}

/** Step in (dc, ds) at which the derivatives are taken, radians: their own error is taken up by the next round. */
const STEP_RAD = 1e-3;
/** The wave is settled when the next round would change it by less than this, radians. */
const SETTLED_RAD = 1e-14;

/** First harmonic [dc, ds] of paddle pitch over a revolution with the teeter that (dc, ds) gives. */
function paddleHarmonic(
  head: PreparedFlybarHead,
  ringHeightMm: number,
  normalAtTail: Float64Array,
  pose: FlybarPose,
  dc: number,
  ds: number,
  out: Float64Array,
): HeadMiss | undefined {
  const t0 = normalAtTail[0] as number;
  const t1 = normalAtTail[1] as number;
  const nz = normalAtTail[2] as number;
  let cosine = 0;
  let sine = 0;
  for (let k = 0; k < REVOLUTION; k++) {
    const c = PSI_COS[k] as number;
    const s = PSI_SIN[k] as number;
    const miss = closeFlybarHead(head, ringHeightMm, t0 * c + t1 * s, t1 * c - t0 * s, nz, dc * s - ds * c, pose, k > 0);
    if (miss) return miss;
    cosine += (pose.washout[WASHOUT.PADDLE] as number) * c;
    sine += (pose.washout[WASHOUT.PADDLE] as number) * s;
  }
  out[0] = cosine / (REVOLUTION / 2);
  out[1] = sine / (REVOLUTION / 2);
  return undefined;
}

const f = new Float64Array(2);
const g = new Float64Array(2);

/** Writes `wave`; returns what misses where a paddle or arm cannot close on the way. */
export function settle(
  head: PreparedFlybarHead,
  ringHeightMm: number,
  normalAtTail: Float64Array,
  pose: FlybarPose,
  wave: SettledWave,
): HeadMiss | undefined {
  let dc = 0;
  let ds = 0;
  let miss = paddleHarmonic(head, ringHeightMm, normalAtTail, pose, 0, 0, f);
  if (miss) return miss;
  miss = paddleHarmonic(head, ringHeightMm, normalAtTail, pose, STEP_RAD, 0, g);
  if (miss) return miss;
  const j00 = ((g[0] as number) - (f[0] as number)) / STEP_RAD - 1;
  const j10 = ((g[1] as number) - (f[1] as number)) / STEP_RAD;
  miss = paddleHarmonic(head, ringHeightMm, normalAtTail, pose, 0, STEP_RAD, g);
  if (miss) return miss;
  const j01 = ((g[0] as number) - (f[0] as number)) / STEP_RAD;
  const j11 = ((g[1] as number) - (f[1] as number)) / STEP_RAD - 1;
  const determinant = j00 * j11 - j01 * j10;
  for (let round = 0; round < 40; round++) {
    const r0 = (f[0] as number) - dc;
    const r1 = (f[1] as number) - ds;
    const stepC = (r0 * j11 - r1 * j01) / determinant;
    const stepS = (j00 * r1 - j10 * r0) / determinant;
    dc -= stepC;
    ds -= stepS;
    if (Math.abs(stepC) + Math.abs(stepS) < SETTLED_RAD) break;
    miss = paddleHarmonic(head, ringHeightMm, normalAtTail, pose, dc, ds, f);
    if (miss) return miss;
  }
  wave.sine = dc;
  wave.cosine = -ds;
  return undefined;
}
