/**
 * Reads a rig document whose quantities are plain numbers (texts such as "14 mm" become numbers in `units/` first):
 * either a rig with every default filled in, or every fault at once. Keys beginning `x-` are kept where they stand.
 */
import { readAs, type DocumentKind } from './document.ts';
import type { DocumentFault } from './fault.ts';
import type { Rig } from './rig.ts';
import { rigRules } from './rules.ts';
import { RIG_FORMAT, rigSchema } from './schema.ts';

export const rigDocument: DocumentKind<Rig> = { format: RIG_FORMAT, schema: rigSchema, rules: rigRules, finish };

export function readRig(document: unknown): { ok: true; rig: Rig } | { ok: false; faults: DocumentFault[] } {
  const read = readAs(rigDocument, document);
  return read.ok ? { ok: true, rig: read.value } : read;
}

/** The defaults that depend on a place or on another value: a servo's name and lead, and the gain that means off. */
function finish(parsed: unknown): Rig {
  const rig = parsed as Rig;
  rig.servos.forEach((servo, i) => {
    servo.name ??= `servo ${i + 1}`;
    servo.output ??= i + 1;
  });
  const gyro = rig.tail?.gyro;
  if (gyro !== undefined) gyro.gain ??= gyro.scale === 'centred' ? 50 : 0;
  return rig;
}
