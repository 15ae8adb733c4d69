/** Compares an answer with an expected one, leaf by leaf, and keeps the worst difference of each kind. */
import { NotNearError, expectNear } from './expect-near.ts';

export interface Worst {
  difference: number;
  where: string;
}

/** The tolerances of one comparison, each in the unit of what it is named after; `default` for all the rest. */
export interface Tolerances {
  /** by the last key of a leaf's path */
  [key: string]: number;
  default: number;
}

/**
 * Every leaf of `expected` against the same leaf of `actual` (more keys in `actual` are allowed): numbers within the
 * tolerance of their key, all else equal. Returns the largest difference among the numbers. Throws NotNearError naming
 * the first leaf that is off.
 */
export function compareLeaves(actual: unknown, expected: unknown, tolerances: Tolerances, where = ''): Worst {
  if (typeof expected === 'number') {
    const key = where.split('/').findLast((step) => !/^\d+$/.test(step)) ?? '';
    const tolerance = tolerances[key] ?? tolerances.default;
    return { difference: expectNear(actual as number | undefined, expected, tolerance, '', where), where };
  }
  if (typeof expected !== 'object' || expected === null) {
    if (actual !== expected)
      throw new NotNearError(`${where}: got ${JSON.stringify(actual)}, expected ${JSON.stringify(expected)}`);
    return { difference: 0, where };
  }
  if (Array.isArray(expected) && (!Array.isArray(actual) || actual.length !== expected.length)) {
    throw new NotNearError(`${where}: got ${JSON.stringify(actual)}, expected a list of ${expected.length}`);
  }
  let worst: Worst = { difference: 0, where };
  for (const [key, value] of Object.entries(expected)) {
    const there = (actual as Record<string, unknown> | undefined)?.[key];
    const found = compareLeaves(there, value, tolerances, `${where}/${key}`);
    if (found.difference > worst.difference) worst = found;
  }
  return worst;
}

/** The larger of two differences. */
export function worse(one: Worst, other: Worst): Worst {
  return other.difference > one.difference ? other : one;
}
