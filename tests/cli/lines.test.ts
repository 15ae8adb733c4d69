import { Readable, Writable } from 'node:stream';
import { describe, expect, test } from 'vitest';
import { forEachLine, LineTooLong, LineWriter, LONGEST_LINE } from '../../packages/mixing/src/cli/lines.ts';

const linesOf = async (...chunks: string[]) => {
  const lines: [string, number][] = [];
  await forEachLine(
    Readable.from(chunks),
    (line, number) => lines.push([line, number]),
    async () => undefined,
  );
  return lines;
};

describe('lines in', () => {
  test('are the same however the text is cut into chunks', async () => {
    const whole: [string, number][] = [
      ['one', 1],
      ['', 2],
      ['three', 3],
      ['four', 4],
    ];
    expect(await linesOf('one\n\nthree\r\nfour')).toEqual(whole);
    expect(await linesOf('o', 'ne\n', '\nth', 'ree\r', '\n', 'four', '\n')).toEqual(whole);
    expect(await linesOf('')).toEqual([]);
    expect(await linesOf('\n')).toEqual([['', 1]]);
  });

  test('a line that is too long is an error with its number, whether or not it ends', async () => {
    const long = 'x'.repeat(LONGEST_LINE + 1);
    const error = await linesOf('first\n', long).catch((thrown: unknown) => thrown);
    expect(error).toBeInstanceOf(LineTooLong);
    expect((error as LineTooLong).lineNumber).toBe(2);
    await expect(linesOf(`${long}\n`)).rejects.toThrow('line 1');
  });
});

describe('lines out', () => {
  test('wait for a slow reader: what is on its way stays small, and nothing is lost or turned round', async () => {
    const taken: string[] = [];
    let most = 0;
    const slow = new Writable({
      decodeStrings: false,
      highWaterMark: 1 << 16,
      write(chunk: string, _encoding, done) {
        taken.push(chunk);
        setImmediate(done);
      },
    });
    const out = new LineWriter(slow);
    const input = Readable.from(Array.from({ length: 200 }, (_, i) => `${`${i} `.repeat(2000)}\n`));
    await forEachLine(
      input,
      (line) => {
        for (let copy = 0; copy < 10; copy++) out.line(line);
        most = Math.max(most, slow.writableLength);
      },
      () => out.ready(),
    );
    await out.end();
    await new Promise((resolve) => slow.end(resolve));
    const lines = taken.join('').split('\n');
    expect(lines).toHaveLength(200 * 10 + 1);
    expect(lines[1995]).toMatch(/^199 199 /);
    expect(lines.at(-1)).toBe('');
    // 200 chunks come to 15 MB; what one chunk makes and one batch are the most that may be waiting.
    expect(most).toBeLessThan(300_000);
  });
});
