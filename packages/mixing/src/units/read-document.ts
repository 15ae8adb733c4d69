/** Reads a document as a person writes it: texts with units first, then its shape and rules; every fault at once. */
import { readAs, type DocumentKind, type Outcome } from '../rig/document.ts';
import { resolveQuantities } from './quantities.ts';

export function readWritten<T>(kind: DocumentKind<T>, written: unknown): Outcome<T> {
  const { document, faults } = resolveQuantities(kind.schema, written);
  const read = readAs(kind, document);
  if (faults.length === 0) return read;
  // A text that is no quantity is still there, and the schema complains of it again.
  const told = new Set(faults.map((fault) => fault.pointer));
  return { ok: false, faults: [...faults, ...(read.ok ? [] : read.faults.filter((fault) => !told.has(fault.pointer)))] };
}
