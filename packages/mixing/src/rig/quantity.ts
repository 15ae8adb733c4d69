/**
 * The kinds of value that a document holds, each with its unit, its bounds, its name in words of the trade and what to
 * expect of it. The schemas are built from these, and everything that has to know a value's unit or name (texts such as
 * "14 mm", `unitAt`, `describePath`, the printed JSON Schema) reads it here: there is no second table.
 */
import { z } from 'zod';

// Else the validator makes code out of text where it may, which the page's content policy forbids; it must be told before the first schema.
z.config({ jitless: true });

export type Unit = 'mm' | 'degree' | 'us' | 'percent' | 'degree/us' | 'us/(degree/s)' | 'degree/s' | '';

/** What the trade says about one place of a document. */
export interface Trade {
  /** its name beside its owner's: "horn", "offset"; `{n}` is its place from 1, `{name}` its own name in brackets */
  words?: string;
  /** true where what lies inside belongs to it: "servo 2's ..." */
  owner?: boolean;
  /** present for numbers that carry a unit, '' for plain ones */
  unit?: Unit;
  /** where the unit is another value's: that of the value whose path stands beside it, or as what stands beside it says */
  unitFrom?: 'path' | ((beside: Record<string, unknown>) => Unit);
  /** completes "expected ..." */
  expected?: string;
  wayOut?: string;
  /** a sentence for the printed schema */
  about?: string;
  /** what the printed JSON Schema says besides, where a rule between keys can be said there */
  printed?: Record<string, unknown>;
}

/** Words, units and expectations of every schema node, by node. */
export const trade = z.registry<Trade>();

/** Adds what the trade says to a schema node and gives the node back. */
export function named<S extends z.ZodType>(schema: S, says: Trade): S {
  trade.add(schema, says);
  return schema;
}

/**
 * No part, angle or pulse of a model helicopter comes near a million of its unit, and none that is measured is shorter
 * than a micrometre; beyond these a sum of squares loses every digit, so the document is refused instead.
 */
export const LARGEST = 1e6;
export const SHORTEST_MM = 1e-3;

const finite = () => z.number().min(-LARGEST).max(LARGEST);

/** A part's length, more than nothing. */
export const length = (words: string, about?: string) =>
  named(z.number().min(SHORTEST_MM).max(LARGEST), {
    words,
    unit: 'mm',
    expected: 'a length in mm, more than 0',
    wayOut: 'give it as measured, eye to eye or centre to centre',
    ...(about === undefined ? {} : { about }),
  });

/** A distance that may be nothing, as a pivot's from the mast. */
export const distanceMm = (words: string, about?: string) =>
  named(z.number().min(0).max(LARGEST), {
    words,
    unit: 'mm',
    expected: 'a distance in mm, 0 or more',
    wayOut: 'turn the azimuth by 180 degrees in place of a negative distance',
    ...(about === undefined ? {} : { about }),
  });

const signed = (unit: Unit, expected: string, wayOut: string) => (words: string, about?: string) =>
  named(finite(), { words, unit, expected, wayOut, ...(about === undefined ? {} : { about }) });

const positive = (unit: Unit, expected: string, wayOut: string) => (words: string, about?: string) =>
  named(z.number().gt(0).max(LARGEST), { words, unit, expected, wayOut, ...(about === undefined ? {} : { about }) });

export const notNegative = (unit: Unit, expected: string, wayOut: string) => (words: string, about?: string) =>
  named(z.number().min(0).max(LARGEST), { words, unit, expected, wayOut, ...(about === undefined ? {} : { about }) });

const AS_TEXT = 'write a plain number, or the number with its unit as text';

/** A coordinate, height, station or lead: any sign, nothing allowed. */
export const place = signed('mm', 'a place in mm', `${AS_TEXT}, as "14 mm"`);
export const angle = signed('degree', 'an angle in degrees', `${AS_TEXT}, as "10 deg"`);
export const percent = signed('percent', 'a value in percent', `${AS_TEXT}, as "50 %"`);
export const trim = signed('us', 'a pulse difference in microseconds', `${AS_TEXT}, as "20 us"`);
export const pulse = positive('us', 'a pulse in microseconds, more than 0', `${AS_TEXT}, as "1520 us" or "1.52 ms"`);
export const yawRate = signed('degree/s', 'a turning rate in degrees a second', `${AS_TEXT}, as "60 deg/s"`);
export const share = notNegative('percent', 'a value in percent, 0 or more', 'a sign belongs in the mix or in reverse');
export const servoRate = positive('degree/us', 'degrees a microsecond, more than 0', 'the direction belongs in sense, +1 or -1');
export const gyroRate = notNegative(
  'us/(degree/s)',
  'microseconds per degree a second, 0 or more',
  'the direction belongs in the sign of gain and in reverse',
);

export const notNegativeAngle = notNegative('degree', 'an angle in degrees, 0 or more', `${AS_TEXT}, as "1 deg"`);
/** Plain, in the unit of whatever it is used with. */
export const notNegativeAs = notNegative('', 'a number, 0 or more', 'write a plain number');

/** A plain number without a unit. */
export const factor = (words: string, about?: string) =>
  named(finite(), {
    words,
    unit: '',
    expected: 'a number',
    wayOut: 'write a plain number',
    ...(about === undefined ? {} : { about }),
  });

/** One standard deviation in the unit of whatever it belongs to. */
export const spread = (words = 'standard deviation', says: Pick<Trade, 'unit' | 'unitFrom'> = { unitFrom: 'path' }) =>
  named(z.number().min(0).max(LARGEST), {
    words,
    ...says,
    expected: 'one standard deviation, 0 or more',
    wayOut: 'half the range that holds two values in three',
  });

/** A whole number from `least` to `most`. */
export const whole = (words: string, least: number, most: number, about?: string) =>
  named(z.int().min(least).max(most), {
    words,
    unit: '',
    expected: most >= LARGEST ? `a whole number, ${least} or more` : `a whole number from ${least} to ${most}`,
    wayOut: 'count it on the machine',
    ...(about === undefined ? {} : { about }),
  });

/** +1 or -1. */
export const sense = (words: string, about: string) =>
  named(z.literal([1, -1]), { words, unit: '', expected: '1 or -1', wayOut: about, about });

export const yesNo = (words: string, about: string) =>
  named(z.boolean(), { words, expected: 'true or false', wayOut: 'write true or false, without quotes', about });

export const text = (words: string, about: string) =>
  named(z.string().min(1), { words, expected: 'a text, not empty', wayOut: about, about });

/** One of a few words. */
export const word = <const W extends readonly [string, ...string[]]>(words: string, choices: W, about: string) =>
  named(z.enum(choices), {
    words,
    expected: `one of ${choices.map((choice) => JSON.stringify(choice)).join(', ')}`,
    about,
  });

/** A JSON Pointer; whether it names anything is a rule of the document that holds it. */
export const pathText = (about: string) =>
  named(z.string(), {
    words: 'path',
    expected: 'a JSON Pointer, as "/servos/0/link"',
    wayOut: 'start it with / and count list places from 0',
    about,
  });

/** An object whose unknown keys are looked at elsewhere (`unknownKeys`), so that keys beginning `x-` are kept. */
export const object = <Shape extends z.core.$ZodLooseShape>(says: Trade, shape: Shape) =>
  named(z.looseObject(shape), { expected: 'an object', wayOut: 'write { and } around its keys', ...says });

/** A list of any count; counts that must agree are rules of the document. */
export const list = <S extends z.ZodType>(says: Trade, item: S, least = 0, most = 10_000) =>
  named(z.array(item).min(least).max(most), {
    expected: least === most ? `a list of ${least}` : least > 0 ? `a list of at least ${least}` : 'a list',
    wayOut: 'write [ and ] around its values, separated by commas',
    ...says,
  });

/** A number whose unit is that of another place: see `Trade.unitFrom`. */
export const numberAs = (words: string, unitFrom: NonNullable<Trade['unitFrom']>, about: string) =>
  named(finite(), { words, unitFrom, expected: 'a number', wayOut: AS_TEXT, about });

/** The same, more than nothing. */
export const positiveAs = (words: string, unitFrom: NonNullable<Trade['unitFrom']>, about: string) =>
  named(z.number().gt(0).max(LARGEST), { words, unitFrom, expected: 'a number, more than 0', wayOut: AS_TEXT, about });

/** Any value at all. */
export const anything = (words: string, about: string, unitFrom?: NonNullable<Trade['unitFrom']>) =>
  named(z.unknown(), { words, about, expected: 'a value', ...(unitFrom === undefined ? {} : { unitFrom }) });

/** Two values in order. */
export const pair = <A extends z.ZodType, B extends z.ZodType>(says: Trade, first: A, second: B) =>
  named(z.tuple([first, second]), {
    expected: 'a list of two numbers',
    wayOut: 'write both, as [first, second]',
    ...says,
  });

/** Three values in order, as a place [x, y, z]. */
export const three = <A extends z.ZodType, B extends z.ZodType, C extends z.ZodType>(
  says: Trade,
  first: A,
  second: B,
  third: C,
) =>
  named(z.tuple([first, second, third]), {
    expected: 'a list of three numbers',
    wayOut: 'write all three, as [first, second, third]',
    ...says,
  });
