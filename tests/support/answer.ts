/** A document's answer through the library's own front door: read, prepared, posed. */
import type { Case, Rig } from '../../packages/mixing/src/rig/rig.ts';
import { type Prediction, predict } from '../../packages/mixing/src/rig/predict.ts';
import { type PreparedRig, prepare } from '../../packages/mixing/src/rig/prepare.ts';
import { readRig } from '../../packages/mixing/src/rig/read.ts';

/** The rig of a document that must be valid; throws with every fault named. */
export function rigOf(document: unknown): Rig {
  const read = readRig(structuredClone(document));
  if (!read.ok) {
    const faults = read.faults.map(({ pointer, got, expected }) => `${pointer}: got ${got}, expected ${expected}`);
    throw new Error(`rig document: got ${faults.length} faults, expected none: ${faults.join('; ')}`);
  }
  return read.rig;
}

export function preparedOf(document: unknown): PreparedRig {
  return prepare(rigOf(document));
}

export function answerOf(document: unknown, kase: Case): Prediction {
  return predict(preparedOf(document), kase);
}
