/**
 * Means over a normal value by seven points: exact for polynomials up to degree 13.
 *
 *   mean of f = sum_i weight_i f(mu + sd x_i)
 *
 * Roots and weights of the Hermite polynomial of degree 7, scaled to the standard normal: Abramowitz and Stegun, Handbook
 * of Mathematical Functions, table 25.10 (x times sqrt 2, w over sqrt pi), from memory; the tests check the moments.
 */
const ROOTS = [0, 0.8162878828589647, 1.673551628767471, 2.651961356835233];
const WEIGHTS = [0.8102646175568073, 0.4256072526101278, 0.05451558281912703, 0.0009717812450995192];

export const HERMITE_POINTS: readonly number[] = [-3, -2, -1, 0, 1, 2, 3].map(
  (i) => Math.sign(i) * (ROOTS[Math.abs(i)] as number) * Math.SQRT2,
);
export const HERMITE_WEIGHTS: readonly number[] = [-3, -2, -1, 0, 1, 2, 3].map(
  (i) => (WEIGHTS[Math.abs(i)] as number) / Math.sqrt(Math.PI),
);
