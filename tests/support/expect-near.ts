/**
 * The one numeric assertion of the tests: a number, or a list of numbers, against what it should be, with the
 * tolerance in the quantity's own unit. A failure prints actual, expected, difference and tolerance. NaN, infinity and
 * a list of another length fail whatever the tolerance is.
 */

/** What may be compared: one number, or lists of numbers nested alike. */
export type Numbers = number | readonly Numbers[];

export class NotNearError extends Error {
  override name = 'NotNearError';
}

/**
 * Throws NotNearError unless `actual` lies within `tolerance` (in `unit`) of `expected`, entry by entry.
 * `what` names the quantity in the message. Returns the largest difference, so that a test can tell how much room is left.
 */
export function expectNear(
  actual: Numbers | undefined,
  expected: Numbers,
  tolerance: number,
  unit: string,
  what = 'value',
): number {
  if (!(tolerance >= 0) || tolerance === Number.POSITIVE_INFINITY) {
    throw new NotNearError(`${what}: got tolerance ${tolerance} ${unit}, expected a finite number from 0`);
  }
  if (typeof expected === 'number') return expectNumber(actual, expected, tolerance, unit, what);
  if (!Array.isArray(actual)) {
    throw new NotNearError(`${what}: got ${describe(actual)}, expected a list of ${expected.length}`);
  }
  if (actual.length !== expected.length) {
    throw new NotNearError(`${what}: got a list of ${actual.length}, expected a list of ${expected.length}`);
  }
  let worst = 0;
  expected.forEach((entry, i) => {
    worst = Math.max(worst, expectNear(actual[i], entry, tolerance, unit, `${what}[${i}]`));
  });
  return worst;
}

function expectNumber(actual: unknown, expected: number, tolerance: number, unit: string, what: string): number {
  if (typeof actual !== 'number') throw new NotNearError(`${what}: got ${describe(actual)}, expected ${expected} ${unit}`);
  const difference = Math.abs(actual - expected);
  // Written so that a NaN on either side, or infinity less infinity, is a failure and never a pass.
  if (!(difference <= tolerance)) {
    throw new NotNearError(
      `${what}: actual ${actual} ${unit}, expected ${expected} ${unit}, difference ${difference} ${unit}, tolerance ${tolerance} ${unit}`,
    );
  }
  return difference;
}

function describe(value: unknown): string {
  if (value === undefined) return 'nothing';
  const text = JSON.stringify(value) ?? String(value);
  return text.length > 60 ? `${text.slice(0, 57)}...` : text;
}
