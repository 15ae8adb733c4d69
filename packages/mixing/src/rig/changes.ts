/**
 * Changes to a rig, named by JSON Pointer (RFC 6901): `by` adds to a number, `to` replaces a value. A change gives a
 * new rig that shares what did not change with the old one, and is checked as the document was: the new value by the
 * schema of its place, then the rules between places.
 */
import { faultOf } from './document.ts';
import { show, nearest, type DocumentFault } from './fault.ts';
import { formatPointer, isObject, listPlace, parsePointer, lookUp } from './pointer.ts';
import { readRig } from './read.ts';
import type { Rig } from './rig.ts';
import { rigRules } from './rules.ts';
import { rigSchema } from './schema.ts';
import { keysOf, nodesAlong } from './walk.ts';
import type { z } from 'zod';

export type Change = { path: string; by: number } | { path: string; to: unknown };

/** A change that cannot be made: where, what was got, what was expected, and a way out. */
export class ChangeError extends Error {
  override readonly name = 'ChangeError';
  readonly path: string;
  readonly got: string;
  readonly expected: string;
  readonly wayOut: string;
  constructor(fault: DocumentFault) {
    super(`${fault.pointer}: got ${fault.got}, expected ${fault.expected}; ${fault.wayOut}`);
    this.path = fault.pointer;
    this.got = fault.got;
    this.expected = fault.expected;
    this.wayOut = fault.wayOut;
  }
}

/** The value at a path of the rig; undefined where there is none. Throws ChangeError where the text is no pointer. */
export function valueAt(rig: Rig, path: string): unknown {
  return lookUp(rig, tokensOf(path));
}

/** The rig with one change made; the old rig stays as it is. Throws ChangeError. */
export function applyChange(rig: Rig, change: Change): Rig {
  const value = checkedValue(rig, change);
  const changed = setAt(rig, change.path, value);
  if (typeof value === 'object') {
    // A whole part may hold unknown keys and defaults that depend on its place: read as a document is.
    const read = readRig(changed);
    if (read.ok) return read.rig;
    throw new ChangeError(read.faults[0] as DocumentFault);
  }
  for (const rule of rigRules) {
    const fault = rule(changed)[0];
    if (fault !== undefined) throw new ChangeError(fault);
  }
  return changed;
}

/**
 * The rig with changes made one after another. The rules between places are asked of the end alone, so that changes
 * which only agree together (a lever with its pushrod, two stops) can be made in any order. Throws ChangeError.
 */
export function applyChanges(rig: Rig, changes: readonly Change[]): Rig {
  const last = changes.at(-1);
  if (last === undefined) return rig;
  const before = changes.slice(0, -1).reduce((so, change) => setAt(so, change.path, checkedValue(so, change)), rig);
  return applyChange(before, last);
}

/**
 * The rig with the value at a path replaced, nothing checked but that the path's parent is there: for callers who make
 * thousands of changes that they know to be right. Throws ChangeError.
 */
export function setAt(rig: Rig, path: string, value: unknown): Rig {
  const tokens = tokensOf(path);
  if (tokens.length === 0) throw noPlace(path, 'the whole document', 'a value inside it');
  const set = (holder: unknown, depth: number): unknown => {
    if (depth === tokens.length) return value;
    const token = tokens[depth] ?? '';
    if (Array.isArray(holder)) {
      const place = listPlace(token);
      if (place === undefined || place >= holder.length) {
        const got = `place ${token} of a list of ${holder.length}`;
        throw noPlace(path, got, `a place from 0 to ${holder.length - 1}`);
      }
      const copy = holder.slice();
      copy[place] = set(holder[place], depth + 1);
      return copy;
    }
    if (!isObject(holder)) {
      const parent = formatPointer(tokens.slice(0, depth));
      throw noPlace(path, `${parent} is ${show(holder)}`, 'a path whose parent is there');
    }
    return { ...holder, [token]: set(Object.hasOwn(holder, token) ? holder[token] : undefined, depth + 1) };
  };
  return set(rig, 0) as Rig;
}

function tokensOf(path: string): string[] {
  const tokens = parsePointer(path);
  if (tokens === undefined) throw noPlace(path, show(path), 'a JSON Pointer, as "/servos/0/link"');
  return tokens;
}

const noPlace = (path: string, got: string, expected: string) =>
  new ChangeError({ pointer: path, got, expected, wayOut: 'start the path with / and count list places from 0' });

/** The value that the change would leave, with its defaults filled in, or ChangeError. */
export function checkedValue(rig: Rig, change: Change): unknown {
  const { path } = change;
  const tokens = tokensOf(path);
  const nodes = nodesAlong(rigSchema, tokens);
  const node = nodes?.at(-1);
  if (node === undefined) throw unknownPlace(path, tokens);
  if (tokens[0] === 'format') throw noPlace(path, 'the format', 'a value of the machine');
  let value: unknown;
  if ('by' in change) {
    const old = lookUp(rig, tokens);
    if (typeof old !== 'number') {
      throw new ChangeError({
        pointer: path,
        got: `"by" on ${show(old)}`,
        expected: 'a number to add to',
        wayOut: 'use "to" to replace the value',
      });
    }
    if (typeof change.by !== 'number' || !Number.isFinite(change.by)) {
      throw new ChangeError({
        pointer: path,
        got: `"by" of ${show(change.by)}`,
        expected: 'a number',
        wayOut: 'write how much to add, in the unit of the value',
      });
    }
    value = old + change.by;
  } else value = change.to;
  // Left to the schema, nothing would take the default of its place: a change always says what is there afterwards.
  if (value === undefined) throw noPlace(path, 'nothing', 'a value to put there');
  const parsed = (node as z.ZodType).safeParse(value);
  if (parsed.success) return parsed.data;
  const fault = faultOf(node as z.ZodType, parsed.error.issues[0] as z.core.$ZodIssue, value);
  throw new ChangeError({ ...fault, pointer: path + fault.pointer });
}

function unknownPlace(path: string, tokens: readonly string[]): ChangeError {
  let known = tokens.length - 1;
  while (known > 0 && nodesAlong(rigSchema, tokens.slice(0, known)) === undefined) known--;
  const holder = known === 0 ? rigSchema : nodesAlong(rigSchema, tokens.slice(0, known))?.at(-1);
  const like = holder && nearest(tokens[known] ?? '', keysOf(holder));
  return new ChangeError({
    pointer: path,
    got: `the unknown key ${show(tokens[known] ?? '')}`,
    expected:
      like === undefined ? 'a path that the document knows' : `a path that the document knows; the nearest key is "${like}"`,
    wayOut: 'name a value of the rig document, as "/servos/0/link"',
  });
}
