import { describe, expect, it } from 'vitest';
import { compareLeaves, worse } from './compare.ts';

describe('compareLeaves', () => {
  const expected = { a: [1, { pitch: 2 }], flag: true };

  it('returns the worst difference and where it is, allowing more keys', () => {
    expect(compareLeaves({ a: [1.25, { pitch: 2.5, more: 1 }], flag: true, extra: 0 }, expected, { default: 1 })).toEqual({
      difference: 0.5,
      where: '/a/1/pitch',
    });
    expect(worse({ difference: 1, where: 'x' }, { difference: 2, where: 'y' }).where).toBe('y');
  });

  it('holds each leaf to the tolerance of its own key', () => {
    expect(() => compareLeaves({ a: [1, { pitch: 2.5 }], flag: true }, expected, { default: 1, pitch: 0.1 })).toThrow(
      '/a/1/pitch: actual 2.5',
    );
  });

  it('fails on a missing leaf, another flag, another length and NaN', () => {
    expect(() => compareLeaves({ a: [1, {}], flag: true }, expected, { default: 9 })).toThrow('/a/1/pitch: got nothing');
    expect(() => compareLeaves({ a: [1, { pitch: 2 }], flag: false }, expected, { default: 9 })).toThrow(
      '/flag: got false, expected true',
    );
    expect(() => compareLeaves({ a: [1], flag: true }, expected, { default: 9 })).toThrow('/a: got [1], expected a list of 2');
    expect(() => compareLeaves({ a: [1, { pitch: Number.NaN }], flag: true }, expected, { default: 9 })).toThrow(
      '/a/1/pitch: actual NaN',
    );
    expect(() => compareLeaves(undefined, expected, { default: 9 })).toThrow('/a: got undefined');
  });
});
