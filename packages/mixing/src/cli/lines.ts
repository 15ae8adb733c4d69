/** Lines in and lines out, as many as there are, in constant memory: what is written waits for whoever reads it. */
import { once } from 'node:events';
import type { Readable, Writable } from 'node:stream';

/** Written in one go once this many characters are waiting: writing each line by itself costs more than predicting it. */
const BATCH = 1 << 16;

/** Collects lines and writes them in batches. Await `ready()` now and then, and `end()` at last. */
export class LineWriter {
  readonly #out: Writable;
  #waiting: string[] = [];
  #size = 0;
  #full = false;

  constructor(out: Writable) {
    this.#out = out;
  }

  line(text: string): void {
    this.#waiting.push(text, '\n');
    this.#size += text.length + 1;
    if (this.#size >= BATCH) this.#flush();
  }

  /** Waits until the reader has taken what is on its way. */
  async ready(): Promise<void> {
    if (!this.#full) return;
    this.#full = false;
    await once(this.#out, 'drain');
  }

  async end(): Promise<void> {
    this.#flush();
    await this.ready();
  }

  #flush(): void {
    if (this.#size === 0) return;
    const text = this.#waiting.join('');
    this.#waiting = [];
    this.#size = 0;
    this.#full = !this.#out.write(text);
  }
}

/** No case comes near this; a line beyond it is no list of cases, and must not fill the memory. */
export const LONGEST_LINE = 1 << 20;

/** A line longer than `LONGEST_LINE`. */
export class LineTooLong extends Error {
  override readonly name = 'LineTooLong';
  readonly lineNumber: number;
  constructor(lineNumber: number) {
    super(`line ${lineNumber} is longer than ${LONGEST_LINE} characters`);
    this.lineNumber = lineNumber;
  }
}

/**
 * Calls `take` for each line of a text stream (its number from 1), and `pause` after each chunk, so that a full output
 * holds the input back. Node's own line reader makes an event of every line and goes on reading while the output is full.
 */
export async function forEachLine(
  input: Readable,
  take: (line: string, number: number) => void,
  pause: () => Promise<void>,
): Promise<void> {
  let rest = '';
  let number = 0;
  for await (const chunk of input as AsyncIterable<string>) {
    let from = 0;
    const text = rest === '' ? chunk : rest + chunk;
    for (let end = text.indexOf('\n', from); end >= 0; end = text.indexOf('\n', from)) {
      number += 1;
      if (end - from > LONGEST_LINE) throw new LineTooLong(number);
      take(text.slice(from, text.charCodeAt(end - 1) === 13 ? end - 1 : end), number);
      from = end + 1;
    }
    rest = text.slice(from);
    if (rest.length > LONGEST_LINE) throw new LineTooLong(number + 1);
    await pause();
  }
  if (rest !== '') take(rest, number + 1);
}
