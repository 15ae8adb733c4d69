/**
 * Reads a readings document whose quantities are plain numbers into readings with every default filled in: sticks 0,
 * azimuth 0, teeter 0, of 1, and the standard deviation of the reading, of its instrument, or the usual one.
 */
import { readAs, type DocumentKind } from '../rig/document.ts';
import type { DocumentFault } from '../rig/fault.ts';
import type { Rig } from '../rig/rig.ts';
import { readingsRules, readingsRulesOn } from './readings-rules.ts';
import { READINGS_FORMAT, readingsSchema } from './readings-schema.ts';
import {
  USUAL_SD,
  type Instrument,
  type Item,
  type Measure,
  type Moves,
  type Reading,
  type ReadingsDocument,
  type Sticks,
} from './readings.ts';

/** The kind of document; with a rig, also what that machine must have. */
export function readingsDocument(rig?: Rig): DocumentKind<ReadingsDocument> {
  return {
    format: READINGS_FORMAT,
    schema: readingsSchema,
    rules: rig === undefined ? readingsRules : readingsRulesOn(rig),
    finish,
  };
}

export function readReadings(
  document: unknown,
  rig?: Rig,
): { ok: true; readings: ReadingsDocument } | { ok: false; faults: DocumentFault[] } {
  const read = readAs(readingsDocument(rig), document);
  return read.ok ? { ok: true, readings: read.value } : read;
}

/** An item as the schema leaves it, its own defaults filled in. */
interface Parsed {
  measure?: Measure;
  value?: number;
  sd?: number;
  of?: number;
  sticks?: Sticks;
  azimuth?: number;
  teeter?: number;
  yawRate?: number;
  mode?: string;
  instrument?: string | number;
  approach?: 'rising' | 'falling';
  flipped?: boolean;
  taken?: string;
  adjusted?: { path: string; by?: number; to?: unknown };
  seen?: { path: string; value: unknown };
  moves?: Moves;
  felt?: { sticks: Sticks; mode?: string; binds: boolean; part?: string };
  inspected?: { part: string; found: 'straight' | 'bent' | 'worn' | 'unknown' };
  flight?: { highBlade?: number; apart?: number; trims?: Record<string, number>; note?: string };
}

function finish(parsed: unknown): ReadingsDocument {
  const {
    format,
    instruments = [],
    lean,
    readings,
  } = parsed as Omit<ReadingsDocument, 'readings' | 'instruments'> & {
    instruments?: Instrument[];
    readings: Parsed[];
  };
  return {
    format,
    instruments,
    lean,
    readings: readings.map((item) => ({
      ...resolved(item, instruments),
      ...(item.taken === undefined ? {} : { taken: item.taken }),
    })),
  };
}

function resolved(item: Parsed, instruments: readonly Instrument[]): Item {
  if (item.adjusted !== undefined) {
    const { path, by, to } = item.adjusted;
    return { kind: 'adjusted', path, ...(by === undefined ? { to } : { by }) };
  }
  if (item.seen !== undefined) return { kind: 'seen', path: item.seen.path, value: item.seen.value };
  if (item.moves !== undefined) return { kind: 'moves', moves: item.moves };
  if (item.felt !== undefined) return { kind: 'felt', ...item.felt };
  if (item.inspected !== undefined) return { kind: 'inspected', ...item.inspected };
  if (item.flight !== undefined) return { kind: 'flight', ...item.flight };
  return { kind: 'reading', reading: readingOf(item, instruments) };
}

function readingOf(item: Parsed, instruments: readonly Instrument[]): Reading {
  // The rules have seen to it that a reading has both.
  const measure = item.measure as Measure;
  const named = item.instrument;
  // With no instruments listed a name says nothing: gauges then have no zero of their own.
  const place = typeof named === 'number' ? named : instruments.findIndex((instrument) => instrument.name === named);
  const instrument = instruments[place];
  return {
    measure,
    value: item.value as number,
    sd: item.sd ?? instrument?.sd ?? USUAL_SD[measure],
    of: item.of ?? 1,
    sticks: item.sticks ?? { collective: 0, elevator: 0, aileron: 0, rudder: 0 },
    azimuth: item.azimuth ?? 0,
    teeter: item.teeter ?? 0,
    yawRate: item.yawRate ?? 0,
    flipped: item.flipped ?? false,
    ...(item.mode === undefined ? {} : { mode: item.mode }),
    ...(instrument === undefined ? {} : { instrument: place }),
    ...(item.approach === undefined ? {} : { approach: item.approach }),
  };
}
