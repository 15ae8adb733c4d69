/** Documents and cases as they come in: a path, or `-` for standard input. */
import { readFile } from 'node:fs/promises';
import { createReadStream } from 'node:fs';
import { text } from 'node:stream/consumers';
import type { Readable } from 'node:stream';
import { readCase } from '../rig/case.ts';
import { readAs, type DocumentKind } from '../rig/document.ts';
import { isObject } from '../rig/pointer.ts';
import { rigDocument } from '../rig/read.ts';
import type { Case, Rig } from '../rig/rig.ts';
import { holdsTextQuantity } from '../rig/walk.ts';
import { refusalOf, refusingCases } from './refusal.ts';
import type { Streams } from './streams.ts';

const STDIN = '-';
/** How a file is called in what is told of it. */
export const nameOf = (file: string) => (file === STDIN ? 'standard input' : file);

/** Standard input can be read once: two documents cannot both be `-`. Throws Refusal. */
export function onceStdin(...files: (string | undefined)[]): void {
  if (files.filter((file) => file === STDIN).length < 2) return;
  throw refusalOf(nameOf(STDIN), [
    {
      pointer: '',
      got: 'asked for twice',
      expected: 'one of the two as a path',
      wayOut: 'save one of them to a file and give its path',
    },
  ]);
}

/** Reads and checks a document of a kind, texts with units and all. Throws Refusal with every fault. */
export async function readDocument<T>(kind: DocumentKind<T>, file: string, { stdin }: Streams): Promise<T> {
  const written = parseJson(nameOf(file), await readText(file, stdin));
  // The units are a library of their own; most documents hold plain numbers and start faster without it.
  const read = holdsTextQuantity(kind.schema, written)
    ? (await import('../units/read-document.ts')).readWritten(kind, written)
    : readAs(kind, written);
  if (!read.ok) throw refusalOf(nameOf(file), read.faults);
  return read.value;
}

export const readRigFile = (file: string, streams: Streams): Promise<Rig> => readDocument(rigDocument, file, streams);

/** A case written on the command line. */
export function caseFrom(json: string, where: string): Case {
  const value = parseJson(where, json);
  return refusingCases(where, () => readCase(value));
}

async function readText(file: string, stdin: Readable): Promise<string> {
  try {
    return file === STDIN ? await text(stdin) : await readFile(file, 'utf8');
  } catch (error) {
    throw unreadable(file, error);
  }
}

/** A stream of text, whose own errors are refusals too. */
export function openText(file: string, { stdin }: Streams): Readable {
  const stream = file === STDIN ? stdin : createReadStream(file);
  return stream.setEncoding('utf8');
}

/** A file that cannot be read, as a refusal; any other error as it is. */
export function unreadable(file: string, error: unknown): unknown {
  const code = isObject(error) ? error.code : undefined;
  const got = {
    ENOENT: 'no such file',
    EISDIR: 'a folder',
    EACCES: 'a file that may not be read',
    ENOTDIR: 'no such file',
    ENAMETOOLONG: 'a path that is too long',
  }[String(code)];
  if (got === undefined) return error;
  return refusalOf(nameOf(file), [
    { pointer: '', got, expected: 'a file to read', wayOut: 'correct the path, or give - to read from standard input' },
  ]);
}

/** JSON, or a refusal that says where the text stops being JSON. */
export function parseJson(where: string, json: string): unknown {
  // Some editors begin a file with a byte order mark, which JSON does not know.
  const plain = json.charCodeAt(0) === 0xfeff ? json.slice(1) : json;
  try {
    return JSON.parse(plain) as unknown;
  } catch (error) {
    throw refusalOf(where, [
      {
        pointer: '',
        got: plain.trim() === '' ? 'nothing' : `text that is not JSON${placeIn(plain, error)}`,
        expected: 'one JSON document',
        wayOut: 'keys and texts stand in double quotes, and no comma follows the last value',
      },
    ]);
  }
}

/** Line and column, where the engine says at which character it stopped. */
function placeIn(json: string, error: unknown): string {
  const position = /at position ([0-9]+)/.exec(error instanceof Error ? error.message : '')?.[1];
  if (position === undefined) return ' (it ends too early, or is no JSON from the start)';
  const before = json.slice(0, Number(position)).split('\n');
  return ` (line ${before.length}, column ${(before.at(-1) ?? '').length + 1})`;
}
