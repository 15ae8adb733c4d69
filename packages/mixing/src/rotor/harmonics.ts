/**
 * Blade pitch over a revolution, as a mean and its first harmonic:
 *
 *   theta(psi) = theta0 + theta1c cos psi + theta1s sin psi + higher harmonics       psi: the blade's own azimuth
 *
 * from equally spaced samples, which is the discrete Fourier transform: theta0 the mean, theta1c = (2/N) sum theta cos psi,
 * theta1s = (2/N) sum theta sin psi (form and signs as in NASA CR-84460, MacNeal 1967).
 */
import { cosDeg, sinDeg } from '../quantities/angles.ts';
import type { RotationSign } from '../quantities/frames.ts';

/** Samples a revolution. */
export const REVOLUTION = 72;

/** cos psi and sin psi of the samples, psi = 0, 5, 10 ... degrees. */
export const PSI_COS = Float64Array.from({ length: REVOLUTION }, (_, k) => cosDeg((360 / REVOLUTION) * k));
export const PSI_SIN = Float64Array.from({ length: REVOLUTION }, (_, k) => sinDeg((360 / REVOLUTION) * k));

export interface Harmonics {
  /** theta0, in the samples' unit */
  collective: number;
  /** -theta1s: positive commands a forward tilt of the disc */
  longitudinal: number;
  /** -theta1c counter-clockwise, +theta1c clockwise: positive commands a tilt to the right */
  lateral: number;
  /** root mean square of what is left */
  residual: number;
}

/** The harmonics of REVOLUTION samples of blade pitch at psi = 0, 5, 10 ... degrees, in the samples' unit. */
export function harmonicsOf(samples: Float64Array, rotation: RotationSign): Harmonics {
  // Two samples half a turn apart see the same wave with opposite signs: they are taken together.
  const half = REVOLUTION / 2;
  let mean = 0;
  let cosine = 0;
  let sine = 0;
  for (let k = 0; k < half; k++) {
    const here = samples[k] as number;
    const across = samples[k + half] as number;
    mean += here + across;
    cosine += (here - across) * (PSI_COS[k] as number);
    sine += (here - across) * (PSI_SIN[k] as number);
  }
  mean /= REVOLUTION;
  cosine /= half;
  sine /= half;
  let squares = 0;
  for (let k = 0; k < half; k++) {
    const wave = cosine * (PSI_COS[k] as number) + sine * (PSI_SIN[k] as number);
    const leftHere = (samples[k] as number) - mean - wave;
    const leftAcross = (samples[k + half] as number) - mean + wave;
    squares += leftHere * leftHere + leftAcross * leftAcross;
  }
  return {
    collective: mean,
    longitudinal: -sine,
    lateral: rotation > 0 ? -cosine : cosine,
    residual: Math.sqrt(squares / REVOLUTION),
  };
}
