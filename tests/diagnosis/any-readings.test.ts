/**
 * Readings of any kind, few or many, in any order, sound, wild or nonsense, before and after changes: a belief comes out, whose
 * chances are chances, and a plan whose steps are numbers.
 */
import { expect, test } from 'vitest';
import { drawMachine } from '../../bench/diagnosis/draw.ts';
import { diagnosisOf, posterior, shortSet, standardSet } from '../../packages/mixing/src/diagnosis/index.ts';
import type { Item } from '../../packages/mixing/src/diagnosis/readings.ts';
import { planFrom } from '../../packages/mixing/src/plan/plan.ts';
import { seededRandom } from '../support/random.ts';

/** Among these seeds are some whose readings no hypothesis explains that is worked out early: 18, 53, 54, 69, 99. */
const SEEDS = [3, 18, 21, 34, 53, 54, 60, 69, 77, 85, 99, 112];

test.each(SEEDS)('a belief and a plan come out (seed %i)', (seed) => {
  const random = seededRandom(seed * 101 + 3);
  const drawn = drawMachine(seed + 50_000, random.pick(['direct', 'lever', 'flybar'] as const), {
    places: random.chance(0.3) ? shortSet : standardSet,
    tail: random.chance(0.5),
    zeroSd: random.pick([0, 0.5, 1]),
    leanSd: random.pick([0, 1, 2]),
    wild: random.pick([0, 0.05, 0.3]),
    flip: random.chance(0.3),
  });
  if (!drawn) throw new Error(`seed ${seed}: got a machine that jams, expected one that can be read`);
  const keep = random.pick([1, 0.8, 0.5, 0.2, 0.05, 0]);
  let items: Item[] = drawn.readings.readings.filter(() => random.chance(keep));
  if (random.chance(0.3)) items = [...items].sort(() => (random.chance(0.5) ? 1 : -1));
  if (random.chance(0.3)) items = [...items, { kind: 'adjusted', path: '/servos/0/link', by: 0.4 }, ...items];
  const { collective } = drawn.record.transmitter.mix;
  if (random.chance(0.2)) items = [{ kind: 'seen', path: '/transmitter/mix/collective', value: collective }, ...items];
  if (random.chance(0.1)) {
    items = items.map((item) =>
      item.kind === 'reading' ? { ...item, reading: { ...item.reading, value: random.between(-30, 30) } } : item,
    );
  }
  const readings = { ...drawn.readings, readings: items };
  const believed = posterior(drawn.record, readings);
  const { causes, alike } = diagnosisOf(believed, readings);
  expect(causes.length).toBeGreaterThan(0);
  for (const { probability } of causes) expect(probability).toBeGreaterThanOrEqual(0);
  expect(causes.reduce((sum, { probability }) => sum + probability, 0)).toBeLessThanOrEqual(1 + 1e-9);
  expect(alike.flat().filter((i) => causes[i] === undefined)).toEqual([]);
  const { adjustments, meets, after } = planFrom(believed, readings);
  expect(adjustments.filter(({ by, to }) => (by === undefined ? to === undefined : !Number.isFinite(by)))).toEqual([]);
  expect(Object.values(meets).filter((chance) => !(chance >= 0 && chance <= 1))).toEqual([]);
  expect([...after, ...adjustments.flatMap((one) => one.after)].filter(({ value, sd }) => !Number.isFinite(value + sd))).toEqual(
    [],
  );
});
