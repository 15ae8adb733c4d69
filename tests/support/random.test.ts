import { describe, expect, it } from 'vitest';
import { expectNear } from './expect-near.ts';
import { seededRandom } from './random.ts';

describe('seededRandom', () => {
  it('gives the same stream for one seed and other streams for its neighbours', () => {
    const draw = (seed: number) => {
      const random = seededRandom(seed);
      return [0, 1, 2, 3].map(() => random.between(0, 1));
    };
    expect(draw(7)).toEqual(draw(7));
    expect(draw(8)).not.toEqual(draw(7));
    const firsts = new Set(Array.from({ length: 1000 }, (_, seed) => draw(seed)[0]));
    expect(firsts.size).toBe(1000);
  });

  it('spreads evenly over 20 bins, along one stream and across first draws of neighbouring seeds (seed 11)', () => {
    const random = seededRandom(11);
    const along = Array.from({ length: 20000 }, () => random.between(0, 1));
    const across = Array.from({ length: 20000 }, (_, seed) => seededRandom(seed).between(0, 1));
    for (const sample of [along, across]) {
      const counts = new Array<number>(20).fill(0);
      for (const x of sample) counts[Math.floor(20 * x)] = (counts[Math.floor(20 * x)] ?? Number.NaN) + 1;
      const chiSquare = counts.reduce((sum, count) => sum + (count - 1000) ** 2 / 1000, 0);
      // 19 degrees of freedom: mean 19, standard deviation sqrt(38) = 6.2; 60 is more than six of them away, 3 is more
      // even than chance.
      expect(chiSquare).toBeLessThan(60);
      expect(chiSquare).toBeGreaterThan(3);
    }
  });

  it('has the mean and spread of what it says it draws (seed 12)', () => {
    const random = seededRandom(12);
    const n = 20000;
    const mean = (f: () => number) => Array.from({ length: n }, f).reduce((a, b) => a + b, 0) / n;
    expectNear(
      mean(() => random.between(-3, 9)),
      3,
      0.1,
      '',
      'mean of -3 to 9',
    ); // sd of the mean 0.025
    expectNear(
      mean(() => (random.between(-3, 9) - 3) ** 2),
      12,
      0.3,
      '',
      'variance',
    ); // 144/12; sd of the mean 0.076
    expectNear(
      mean(() => random.whole(2, 5)),
      3.5,
      0.04,
      '',
      'mean of 2 to 5',
    ); // sd of the mean 0.008
    expectNear(
      mean(() => random.sign()),
      0,
      0.04,
      '',
      'mean sign',
    );
    expectNear(
      mean(() => (random.chance(0.3) ? 1 : 0)),
      0.3,
      0.02,
      '',
      'chance',
    );
    expectNear(
      mean(() => random.pick([1, 4])),
      2.5,
      0.06,
      '',
      'mean pick',
    );
  });

  it('refuses a seed that is no whole number and an empty list', () => {
    expect(() => seededRandom(0.5)).toThrow('got 0.5, expected a whole number');
    expect(() => seededRandom(1).pick([])).toThrow();
  });
});
