/**
 * Which causes no reading so far tells apart: their best log-likelihoods lie within ln 3 of one another.
 *
 * Adding a fault never makes the best fit worse, so that by likelihood alone every cause would be alike to itself and
 * any small thing more. A group therefore holds only causes that are also about as likely: none below RATIO of its
 * likeliest; and the likeliest few, since a group of ten is no help at the bench.
 */
import type { Cause } from './diagnosis.ts';

export const WITHIN = Math.log(3);
const RATIO = 0.06;
const MOST = 4;

export function alikeOf(causes: readonly Cause[]): number[][] {
  const groups: number[][] = [];
  const taken = new Set<number>();
  causes.forEach((cause, i) => {
    if (taken.has(i) || cause.somethingElse) return;
    const group = [i];
    for (let j = i + 1; j < causes.length && group.length < MOST; j++) {
      const other = causes[j] as Cause;
      if (taken.has(j) || other.somethingElse || other.probability < RATIO * cause.probability) continue;
      const logs = [...group, j].map((at) => (causes[at] as Cause).logLikelihood);
      if (Math.max(...logs) - Math.min(...logs) <= WITHIN) group.push(j);
    }
    if (group.length > 1) {
      groups.push(group);
      for (const at of group) taken.add(at);
    }
  });
  return groups;
}
