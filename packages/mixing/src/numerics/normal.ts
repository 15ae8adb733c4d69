/**
 * The normal distribution, over the error function of mathjs (W. J. Cody, Math. Comp. 23, 1969: 16 digits).
 */
import { create, erfDependencies, type FactoryFunctionMap } from 'mathjs/number';

const { erf } = create(erfDependencies as FactoryFunctionMap) as { erf: (x: number) => number };

export const LOG_2PI = Math.log(2 * Math.PI);

/** The chance that a standard normal value is below x. Absolute error 1e-16: nothing beyond -8 is told from 0. */
export function normalBelow(x: number): number {
  return 0.5 * (1 + erf(x * Math.SQRT1_2));
}

/** Log of the normal density with variance v, at a distance d from its mean. */
export function logNormal(d: number, v: number): number {
  return -0.5 * (LOG_2PI + Math.log(v) + (d * d) / v);
}

/**
 * The mean, over x normal about `mean` with variance `v`, of a density that is even from `low` to `high`: the chance of
 * that range over its width.
 */
export function meanOfEven(mean: number, v: number, low: number, high: number): number {
  const scale = Math.SQRT1_2 / Math.sqrt(v);
  return (0.5 * (erf((high - mean) * scale) - erf((low - mean) * scale))) / (high - low);
}
