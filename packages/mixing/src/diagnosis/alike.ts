/**
 * Which causes no reading so far tells apart: their best log-likelihoods lie within ln 3 of one another.
 *
 * Adding a fault never makes the best fit worse, so that by likelihood alone every cause would be alike to itself and
 * any small thing more. A group therefore holds only causes that are also about as likely: none below RATIO of its
 * likeliest; and the likeliest few, since a group of ten is no help at the bench.
 *
 * Nor are two told apart of which neither is three times as probable as the other: what one gains by fitting better, the
 * other has by being the commoner. And beside 'nothing but scatter' stand the likeliest few small faults that scatter may
 * still hide: they fit a little better each, there are many of them, and so each by itself is the less probable.
 *
 * Some causes no bench reading can ever split, and they are alike although a free size fits a little better than a whole
 * step: a tooth, an angle, a sub-trim and a neutral pulse all turn one horn; and a servo made for the other usual neutral,
 * two degrees, drowns in the scatter that every machine has, so that it is alike to the same cause without it.
 */
import type { Rig } from '../rig/rig.ts';
import type { Cause } from './diagnosis.ts';

const WITHIN = Math.log(3);
/** Of what turns the same horn: a reading may tell its size, and no reading what it is that turns it. */
const WITHIN_ONE_HORN = 6;
const RATIO = 0.06;
const RATIO_ONE_HORN = 0.02;
/** Posterior odds within which two causes are as good as one another: 1 to 3. */
const EVEN = 1 / 3;
/** What scatter may hide: posterior odds against 'nothing but scatter' of 1 to 25. No source. */
const HIDDEN = 0.04;
/** The group of the likeliest cause may be larger than the others: it is the one that is acted on. */
const MOST_OF_FIRST = 4;
const MOST = 3;

export function alikeOf(causes: readonly Cause[], record: Rig): number[][] {
  const groups: number[][] = [];
  const taken = new Set<number>();
  const whats = causes.map((cause) => turnsWhat(cause, record, false));
  const drowned = causes.map((cause) => turnsWhat(cause, record, true));
  /** The same horns turned; or the same but for one neutral that drowns. */
  const turnTheSame = (i: number, j: number): boolean => {
    const apart = (causes[i] as Cause).changes.length - (causes[j] as Cause).changes.length;
    return whats[i] === whats[j] || (Math.abs(apart) === 1 && drowned[i] === drowned[j]);
  };
  causes.forEach((cause, i) => {
    if (taken.has(i) || cause.somethingElse) return;
    const group = [i];
    const most = i === 0 ? MOST_OF_FIRST : MOST;
    for (let j = i + 1; j < causes.length && group.length < most; j++) {
      const other = causes[j] as Cause;
      if (taken.has(j) || other.somethingElse) continue;
      const odds = other.probability / cause.probability;
      const apart = Math.abs(other.logLikelihood - cause.logLikelihood);
      const fitAlike = odds >= RATIO && apart <= WITHIN;
      const turnAlike = odds >= RATIO_ONE_HORN && apart <= WITHIN_ONE_HORN && turnTheSame(i, j);
      if (fitAlike || turnAlike || (i === 0 && odds >= (cause.changes.length === 0 ? HIDDEN : EVEN))) group.push(j);
    }
    if (group.length > 1) {
      groups.push(group);
      for (const at of group) taken.add(at);
    }
  });
  return groups;
}

/** What a cause turns, so far as a bench can tell: one word a horn, one a path otherwise; `leaveOut`: without what drowns. */
function turnsWhat({ changes }: Cause, record: Rig, leaveOut: boolean): string {
  const words = changes.flatMap(({ path, record: says, machine }) => {
    const servo = /^\/servos\/(\d)\/(horn\/(?:tooth|offset)|neutral)$/.exec(path);
    if (servo) return leaveOut && servo[2] === 'neutral' && drowns(says, machine) ? [] : [`horn ${servo[1]}`];
    const output = /^\/transmitter\/outputs\/(\d)\/(subtrim|neutral)$/.exec(path);
    if (!output) return [path];
    if (leaveOut && drowns(says, machine)) return [];
    return record.servos.flatMap((one, i) => (one.output === Number(output[1]) + 1 ? [`horn ${i}`] : []));
  });
  return [...new Set(words)].sort().join(' + ');
}

/** Microseconds of neutral or sub-trim that scatter hides: the two makers' neutrals are 20 apart. */
const DROWNED_US = 21;

const drowns = (says: unknown, machine: unknown): boolean =>
  typeof says === 'number' && typeof machine === 'number' && Math.abs(machine - says) <= DROWNED_US;
