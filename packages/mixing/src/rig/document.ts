/**
 * Reading a document of any kind: format first, then every fault of shape (zod), every unknown key and every rule
 * between places, all at once; then defaults filled in.
 */
import type { z } from 'zod';
import { nearest, show, type DocumentFault } from './fault.ts';
import { formatPointer, isObject, lookUp, type Token } from './pointer.ts';
import { nodesAlong, tradeOf, unknownKeys } from './walk.ts';

/** A rule between places: looks at a document that may be wrong elsewhere, and keeps silent where it cannot judge. */
export type Rule = (document: unknown) => DocumentFault[];

export interface DocumentKind<T> {
  /** as "swashtrue-rig/1" */
  format: string;
  schema: z.ZodType;
  rules: readonly Rule[];
  /** fills in what depends on other values, after the schema's own defaults */
  finish(parsed: unknown): T;
}

export type Outcome<T> = { ok: true; value: T } | { ok: false; faults: DocumentFault[] };

export function readAs<T>(kind: DocumentKind<T>, document: unknown): Outcome<T> {
  const other = otherDocument(kind.format, document);
  if (other !== undefined) return { ok: false, faults: [other] };
  const parsed = kind.schema.safeParse(document);
  const faults = [
    ...(parsed.success ? [] : parsed.error.issues.map((issue) => faultOf(kind.schema, issue, document))),
    ...unknownKeys(kind.schema, document),
    ...kind.rules.flatMap((rule) => rule(document)),
  ];
  if (faults.length > 0 || !parsed.success) return { ok: false, faults };
  return { ok: true, value: kind.finish(parsed.data) };
}

/** The one fault of a document that is no document of this kind at all, so that telling more would only confuse. */
function otherDocument(format: string, document: unknown): DocumentFault | undefined {
  if (!isObject(document)) {
    return {
      pointer: '',
      got: show(document),
      expected: `an object, the whole of a ${format} document`,
      wayOut: 'write { and } around the document',
    };
  }
  const [kind, version] = format.split('/');
  const match = /^(swashtrue-[a-z]+)\/([0-9]+)$/.exec(String(document.format));
  if (match === null || document.format === format) return undefined;
  const got = show(document.format);
  if (match[1] !== kind) {
    return { pointer: '/format', got, expected: show(format), wayOut: `this is another document; give one of ${kind}` };
  }
  if (Number(match[2]) <= Number(version)) return undefined;
  return {
    pointer: '/format',
    got,
    expected: `${show(format)} at the newest`,
    wayOut: 'the document is newer than this program reads: use a newer program, or save it in the older format',
  };
}

/** A zod issue in our own words; what is expected of a place is said once, beside the schema. */
export function faultOf(schema: z.ZodType, issue: z.core.$ZodIssue, document: unknown): DocumentFault {
  const path = issue.path as Token[];
  const node = nodesAlong(schema, path)?.at(-1) ?? schema;
  const value = lookUp(document, path);
  const says = tradeOf(node);
  return {
    pointer: formatPointer(path),
    got: value === 0 && issue.code === 'too_small' && says.unit === 'mm' ? '0, a length of zero' : show(value),
    expected: says.expected ?? issue.message,
    wayOut: value === undefined ? 'add it: it has no default' : (suggestion(issue, value) ?? says.wayOut ?? 'change it'),
  };
}

/** For one word of a few, the nearest of them. */
function suggestion(issue: z.core.$ZodIssue, value: unknown): string | undefined {
  if (issue.code !== 'invalid_value' || typeof value !== 'string') return undefined;
  const words = issue.values.filter((choice) => typeof choice === 'string');
  const like = nearest(value, words);
  return like === undefined || words.length < 2 ? undefined : `the nearest is ${JSON.stringify(like)}`;
}
