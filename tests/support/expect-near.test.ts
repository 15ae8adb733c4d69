import { describe, expect, it } from 'vitest';
import { expectNear } from './expect-near.ts';

describe('expectNear', () => {
  it('passes within the tolerance and returns the largest difference', () => {
    expect(expectNear(1.25, 1, 0.25, 'mm')).toBe(0.25);
    expect(expectNear([1, [2.5, 3]], [1, [2, 3.25]], 0.5, 'mm')).toBe(0.5);
  });

  it('fails on a value, printing actual, expected, difference and tolerance with the unit', () => {
    expect(() => expectNear(3.5, 3, 0.25, 'mm', 'link')).toThrow(
      'link: actual 3.5 mm, expected 3 mm, difference 0.5 mm, tolerance 0.25 mm',
    );
    expect(() => expectNear([1, 2], [1, 4], 0.5, 'degree', 'tilts')).toThrow('tilts[1]: actual 2 degree, expected 4 degree');
  });

  it('fails on another length, either way, and on a number where a list is meant', () => {
    expect(() => expectNear([1, 2], [1, 2, 3], 9, 'mm')).toThrow('got a list of 2, expected a list of 3');
    expect(() => expectNear([1, 2, 3], [1, 2], 9, 'mm')).toThrow('got a list of 3, expected a list of 2');
    expect(() => expectNear(1, [1], 9, 'mm')).toThrow('expected a list of 1');
    expect(() => expectNear([1], 1, 9, 'mm')).toThrow('got [1]');
    expect(() => expectNear(undefined, 1, 9, 'mm', 'pitch')).toThrow('pitch: got nothing, expected 1 mm');
  });

  it('fails on NaN and infinity on either side, even where both sides have them', () => {
    for (const bad of [Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY]) {
      expect(() => expectNear(bad, 1, 1e9, 'mm')).toThrow('difference');
      expect(() => expectNear(1, bad, 1e9, 'mm')).toThrow('difference');
      expect(() => expectNear(bad, bad, 1e9, 'mm')).toThrow('difference');
    }
  });

  it('refuses a tolerance that would let anything pass', () => {
    for (const tolerance of [Number.NaN, -1, Number.POSITIVE_INFINITY]) {
      expect(() => expectNear(1, 1, tolerance, 'mm')).toThrow('expected a finite number from 0');
    }
  });
});
