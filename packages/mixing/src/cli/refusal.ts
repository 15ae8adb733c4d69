/** What cannot be used, told on standard error in the form `FILE: /json/pointer: got ..., expected ...; way out`. */
import { CaseError } from '../rig/case.ts';
import type { DocumentFault } from '../rig/fault.ts';

/** Input that cannot be used: the program ends with exit status 2. */
export class Refusal extends Error {
  override readonly name = 'Refusal';
  readonly lines: readonly string[];
  constructor(lines: readonly string[]) {
    super(lines.join('\n'));
    this.lines = lines;
  }
}

/** A document's faults, one line each. The whole document's pointer is the empty text, which a person would not see: `/`. */
export function refusalOf(file: string, faults: readonly DocumentFault[]): Refusal {
  return new Refusal(
    faults.map(({ pointer, got, expected, wayOut }) =>
      oneLine(`${file}: ${pointer === '' ? '/' : pointer}: got ${got}, expected ${expected}; ${wayOut}`),
    ),
  );
}

/** Runs `step`; a case that is misuse becomes a refusal that names where the case was written. */
export function refusingCases<T>(where: string, step: () => T): T {
  try {
    return step();
  } catch (error) {
    if (error instanceof CaseError) throw refusalOf(where, [error]);
    throw error;
  }
}

/** Keys and texts of a document may hold line ends and worse; a fault is one line of a terminal. */
const oneLine = (text: string) => text.replaceAll(/[\p{Cc}\u2028\u2029]/gu, ' ');
