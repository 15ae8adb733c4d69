/**
 * What is wrong with a document, told so that its writer can mend it: where, what was got, what was expected and a
 * way out. A document's faults are always collected and told together.
 */
import { distance } from 'fastest-levenshtein';
import { isObject } from './pointer.ts';

export interface DocumentFault {
  /** JSON Pointer of the value at fault; of the missing value where there is none */
  pointer: string;
  got: string;
  expected: string;
  wayOut: string;
}

/** Either what was read, defaults filled in, or every fault of the document. */
export type ReadResult<Key extends string, T> = ({ ok: true } & Record<Key, T>) | { ok: false; faults: DocumentFault[] };

/** A value as a person recognises it in their document, on one line and short. */
export function show(value: unknown): string {
  if (value === undefined) return 'nothing';
  if (Array.isArray(value)) {
    const flat = value.length <= 17 && value.every((item) => typeof item === 'number');
    return flat ? `[${value.join(', ')}]` : `a list of ${value.length}`;
  }
  if (isObject(value)) return 'an object';
  if (typeof value === 'string') return JSON.stringify(value.length > 60 ? `${value.slice(0, 57)}...` : value);
  return String(value);
}

/** The one of `known` that takes the fewest letter changes to reach; the first of equals. */
export function nearest(word: string, known: readonly string[]): string | undefined {
  // A key of thousands of letters is like none of ours, and the distance costs their product: its start decides.
  const start = word.slice(0, 64).toLowerCase();
  let best: string | undefined;
  let least = Infinity;
  for (const candidate of known) {
    const changes = distance(start, candidate.toLowerCase());
    if (changes < least) {
      least = changes;
      best = candidate;
    }
  }
  return best;
}
