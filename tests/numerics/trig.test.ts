/** The fast sine, cosine and arctangent against series summed in 60 digits of integer arithmetic: a second derivation. */
import { expect, test } from 'vitest';
import { atanOf, cosOf, sinOf } from '../../packages/mixing/src/numerics/trig.ts';
import { seededRandom } from '../support/random.ts';

/** Fixed-point numbers with this denominator, as integers. */
const ONE = 10n ** 60n;

/** A double as a fixed-point number: exact but for what lies below 60 digits. */
function fixed(x: number): bigint {
  let mantissa = x;
  let twos = 0n;
  while (!Number.isInteger(mantissa)) {
    mantissa *= 2;
    twos++;
  }
  return (BigInt(mantissa) * ONE) >> twos;
}

const times = (a: bigint, b: bigint): bigint => (a * b) / ONE;

/** x - x^3/3! + x^5/5! ... from `first` = x, or 1 - x^2/2! + x^4/4! ... from `first` = 1. */
function circular(x: bigint, first: bigint, from: bigint): bigint {
  let term = first;
  let sum = 0n;
  for (let k = from; term !== 0n; k += 2n) {
    sum += term;
    term = -times(times(term, x), x) / ((k + 1n) * (k + 2n));
  }
  return sum;
}

function arctangent(x: bigint): bigint {
  let power = x;
  let sum = 0n;
  for (let k = 1n; power !== 0n; k += 2n) {
    sum += power / k;
    power = -times(times(power, x), x);
  }
  return sum;
}

/** Relative difference of a double from a fixed-point number. */
const relative = (actual: number, exact: bigint): number =>
  Math.abs(Number(((fixed(actual) - exact) * 10n ** 30n) / (exact === 0n ? ONE : exact))) / 1e30;

const functions = [
  { name: 'sine', fast: sinOf, platform: Math.sin, exact: (x: bigint) => circular(x, x, 1n), most: Math.PI / 4 },
  { name: 'cosine', fast: cosOf, platform: Math.cos, exact: (x: bigint) => circular(x, ONE, 0n), most: Math.PI / 4 },
  { name: 'arctangent', fast: atanOf, platform: Math.atan, exact: arctangent, most: Math.tan(Math.PI / 12) },
] as const;

test.each(functions)('$name is within 1.6e-16 of its series over its whole range, seed 71', ({ fast, exact, most }) => {
  const random = seededRandom(71);
  let worst = 0;
  for (let i = 0; i <= 3000; i++) {
    // Both ends, zero's neighbourhood, and anywhere between.
    const x = i === 0 ? most : i < 40 ? most / 2 ** i : random.between(-most, most);
    worst = Math.max(worst, relative(fast(x), exact(fixed(x))));
  }
  expect(worst).toBeGreaterThan(1e-17); // it was measured, and rounding alone is more than this
  expect(worst).toBeLessThan(1.6e-16);
});

test.each(functions)('$name beyond its range is the platform’s', ({ fast, platform, most }) => {
  for (const x of [most * 1.0001, -most * 1.0001, 1.5, -3, 100, 0]) expect(fast(x)).toBe(platform(x));
  expect(fast(Number.NaN)).toBeNaN();
});
