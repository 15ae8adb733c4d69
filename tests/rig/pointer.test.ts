import { describe, expect, test } from 'vitest';
import { formatPointer, parsePointer, lookUp } from '../../packages/mixing/src/rig/pointer.ts';

// RFC 6901, section 5: the example document and what each pointer evaluates to, copied from the text.
const document = {
  foo: ['bar', 'baz'],
  '': 0,
  'a/b': 1,
  'c%d': 2,
  'e^f': 3,
  'g|h': 4,
  'i\\j': 5,
  'k"l': 6,
  ' ': 7,
  'm~n': 8,
};
const examples: [string, unknown][] = [
  ['', document],
  ['/foo', ['bar', 'baz']],
  ['/foo/0', 'bar'],
  ['/', 0],
  ['/a~1b', 1],
  ['/c%d', 2],
  ['/e^f', 3],
  ['/g|h', 4],
  ['/i\\j', 5],
  ['/k"l', 6],
  ['/ ', 7],
  ['/m~0n', 8],
];

describe('JSON Pointer', () => {
  test.each(examples)('RFC 6901 section 5: %j', (pointer, value) => {
    const tokens = parsePointer(pointer);
    expect(tokens).toBeDefined();
    expect(lookUp(document, tokens ?? ['?'])).toEqual(value);
    expect(formatPointer(tokens ?? ['?'])).toBe(pointer);
  });

  test('RFC 6901 section 4: "~01" is "~1", never "/"', () => {
    expect(parsePointer('/~01')).toEqual(['~1']);
  });

  test('RFC 6901 sections 3 and 4: what is no pointer, and places that no list has', () => {
    expect(parsePointer('foo')).toBeUndefined();
    expect(parsePointer('/a~2')).toBeUndefined();
    expect(parsePointer('/a~')).toBeUndefined();
    expect(lookUp(document, ['foo', '-'])).toBeUndefined();
    expect(lookUp(document, ['foo', '01'])).toBeUndefined();
    expect(lookUp(document, ['foo', 'length'])).toBeUndefined();
    expect(lookUp(document, ['toString'])).toBeUndefined();
  });
});
