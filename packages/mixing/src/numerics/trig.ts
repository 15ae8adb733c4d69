/**
 * Sine, cosine and arctangent as plain polynomials, for the paths that are walked millions of times: the platform's own
 * are calls that a compiler cannot see into (15 ns each where these take 2 or 3), and these can be copied into a kernel.
 *
 * Sine and cosine, within 45 degrees: Taylor's series. It alternates, so what is left out is less than its first term:
 * x^17/17! < 4.7e-17 and x^18/18! < 2.1e-18, both below half of the last place of the result at that end (5.6e-17).
 * Arctangent, within tan 15 degrees (blade pitch is twice the arctangent of a half tangent: 30 degrees of it): the
 * polynomial of least relative error, 1.7e-17, by Remez's exchange in 50 digits. With rounding all three stay within
 * 1.6e-16 of the true value over the whole range, relative (measured against 60 digits in tests/numerics/trig.test.ts).
 * Beyond those ranges the platform's functions answer: no less exact, only slower.
 */
const EIGHTH_TURN_RAD = Math.PI / 4;
/** tan 15 degrees */
const TAN_TWELFTH = 0.2679491924311227;

/** Sine of an angle in radians. */
export function sinOf(x: number): number {
  if (!(x <= EIGHTH_TURN_RAD && x >= -EIGHTH_TURN_RAD)) return Math.sin(x);
  const u = x * x;
  return (
    x +
    x *
      u *
      (-1 / 6 +
        u *
          (1 / 120 + u * (-1 / 5040 + u * (1 / 362880 + u * (-1 / 39916800 + u * (1 / 6227020800 + u * (-1 / 1307674368000)))))))
  );
}

/** Cosine of an angle in radians. */
export function cosOf(x: number): number {
  if (!(x <= EIGHTH_TURN_RAD && x >= -EIGHTH_TURN_RAD)) return Math.cos(x);
  const u = x * x;
  return (
    1 -
    u *
      (1 / 2 -
        u *
          (1 / 24 -
            u *
              (1 / 720 -
                u * (1 / 40320 - u * (1 / 3628800 - u * (1 / 479001600 - u * (1 / 87178291200 - u * (1 / 20922789888000))))))))
  );
}

/** Arctangent, in radians. */
export function atanOf(x: number): number {
  if (!(x <= TAN_TWELFTH && x >= -TAN_TWELFTH)) return Math.atan(x);
  const u = x * x;
  return (
    x +
    x *
      u *
      (-0.33333333333331014894 +
        u *
          (0.19999999998947781993 +
            u *
              (-0.14285714122287169098 +
                u *
                  (0.11111098812050957052 +
                    u *
                      (-0.090903954075297348227 +
                        u * (0.076797348248427372382 + u * (-0.064861208633434715703 + u * 0.044485799374797824085)))))))
  );
}
