/**
 * The readings document: every key, kind and default. An item is one object whose kind is told by the one key that it
 * has (`measure` for a reading); what goes with what stands in `readings-rules.ts`.
 */
import { z } from 'zod';
import {
  angle,
  anything,
  factor,
  list,
  named,
  notNegativeAngle,
  notNegativeAs,
  numberAs,
  object,
  pathText,
  positiveAs,
  text,
  whole,
  word,
  yawRate,
  yesNo,
} from '../rig/quantity.ts';
import type { Unit } from '../rig/quantity.ts';
import { MEASURES } from './readings.ts';

export const READINGS_FORMAT = 'swashtrue-readings/1';

/** mm for what a caliper takes, degrees for what a gauge or an eye takes. */
export const unitOfMeasure = (measure: unknown): Unit =>
  measure === 'swash-height' || measure === 'washout-height' || measure === 'slider'
    ? 'mm'
    : MEASURES.some((known) => known === measure)
      ? 'degree'
      : '';
const asMeasured = (beside: Record<string, unknown>) => unitOfMeasure(beside.measure);

const stick = (words: string) =>
  named(z.number().min(-1).max(1), {
    words,
    unit: '',
    expected: 'a stick position from -1 to +1',
    wayOut: 'full stick is 1 and mid-stick 0',
  });

const sticks = object(
  { words: 'sticks', about: '-1 to +1; 0 where left out' },
  {
    collective: stick('collective').default(0),
    elevator: stick('elevator').default(0),
    aileron: stick('aileron').default(0),
    rudder: stick('rudder').default(0),
  },
);

const mode = text('mode', 'a flight mode by its name');
const azimuth = angle('azimuth', "degrees: blade 1's psi, from the tail in the direction of rotation");
const of = whole('of', 1, 16, 'the number of the servo, blade or arm, from 1');

const change = object(
  {
    words: 'adjusted',
    owner: true,
    about: 'a change that was made to the machine',
    printed: { oneOf: [{ required: ['by'] }, { required: ['to'] }] },
  },
  {
    path: pathText('what was changed'),
    by: numberAs('by', 'path', "added to the machine's own value").exactOptional(),
    to: anything('to', 'the value that stands there now', 'path').exactOptional(),
    // What a plan prints beside a change, so that its adjustments can be copied as they are.
    unit: named(z.string(), { words: 'unit', expected: 'a text' }).exactOptional(),
    turns: factor('turns').exactOptional(),
    says: named(z.string(), { words: 'says', expected: 'a text' }).exactOptional(),
    after: anything('after', 'not looked at').exactOptional(),
  },
);

const item = object(
  {
    words: 'item {n}',
    owner: true,
    about: 'a reading (measure and value), or one of adjusted, seen, moves, felt, inspected, flight',
    printed: {
      oneOf: [
        { required: ['measure', 'value'] },
        ...['adjusted', 'seen', 'moves', 'felt', 'inspected', 'flight'].map((key) => ({ required: [key] })),
      ],
    },
  },
  {
    measure: word('measure', MEASURES, 'what was read').exactOptional(),
    value: numberAs('value', asMeasured, 'as the instrument showed it, degrees or mm').exactOptional(),
    sd: positiveAs('sd', asMeasured, "one standard deviation; the instrument's or the usual where left out").exactOptional(),
    of: of.exactOptional(),
    sticks: sticks.exactOptional(),
    mode: mode.exactOptional(),
    azimuth: azimuth.exactOptional(),
    teeter: angle('teeter', 'degrees at which the flybar is held').exactOptional(),
    yawRate: yawRate('yaw rate', 'degrees a second, positive counter-clockwise from above').exactOptional(),
    instrument: named(z.union([z.string(), z.int().min(0)]), {
      words: 'instrument',
      expected: 'the name of one of the instruments',
      wayOut: 'write its name as in "instruments"',
    }).exactOptional(),
    approach: word('approach', ['rising', 'falling'], 'the way the stick came').exactOptional(),
    flipped: yesNo('flipped', 'the gauge was turned end for end').exactOptional(),
    adjusted: change.exactOptional(),
    seen: object(
      { words: 'seen', owner: true, about: 'a setting or part that was looked at and is so' },
      { path: pathText('what was looked at'), value: anything('value', 'what it is', 'path') },
    ).exactOptional(),
    moves: object(
      { words: 'moves', owner: true, about: 'which way something goes, without a number' },
      {
        sticks: sticks.prefault({}),
        part: word('part', ['servo', 'swash', 'fore-aft', 'side', 'blade', 'tail'], 'what moves'),
        of: of.default(1),
        way: word('way', ['up', 'down', 'forward', 'aft', 'left', 'right', 'none'], 'which way'),
        mode: mode.exactOptional(),
        azimuth: azimuth.default(0),
        yawRate: yawRate('yaw rate', 'degrees a second').default(0),
      },
    ).exactOptional(),
    felt: object(
      { words: 'felt', owner: true, about: 'a bind felt or heard' },
      {
        sticks: sticks.prefault({}),
        mode: mode.exactOptional(),
        binds: yesNo('binds', 'whether it binds there'),
        part: text('part', 'what binds').exactOptional(),
      },
    ).exactOptional(),
    inspected: object(
      { words: 'inspected', owner: true, about: 'a part that was looked over' },
      {
        part: text('part', 'the part, in words or by its path'),
        found: word('found', ['straight', 'bent', 'worn', 'unknown'], 'as found'),
      },
    ).exactOptional(),
    flight: object(
      { words: 'flight', owner: true, about: 'what a flight showed' },
      {
        highBlade: whole('high blade', 1, 16, 'the blade that tracks high').exactOptional(),
        apart: factor('apart', 'mm between the blade tips').exactOptional(),
        trims: object(
          { words: 'trims', about: 'left on the sticks after the flight' },
          {
            collective: factor('collective').exactOptional(),
            elevator: factor('elevator').exactOptional(),
            aileron: factor('aileron').exactOptional(),
            rudder: factor('rudder').exactOptional(),
          },
        ).exactOptional(),
        note: named(z.string(), { words: 'note', expected: 'a text' }).exactOptional(),
      },
    ).exactOptional(),
    taken: text('taken', 'date and time, as "2025-05-01T10:30"').exactOptional(),
    stabilised: yesNo('stabilised', 'whether a stabiliser was moving the swashplate').exactOptional(),
  },
);

export const readingsSchema = object(
  { words: 'readings', about: 'angles degrees, heights and slider travel mm, sticks -1 to +1' },
  {
    format: named(z.literal(READINGS_FORMAT), {
      words: 'format',
      expected: JSON.stringify(READINGS_FORMAT),
      wayOut: `write "format": ${JSON.stringify(READINGS_FORMAT)} at the head of the document`,
    }),
    instruments: list(
      { words: 'instruments', about: 'gauges with an unknown zero' },
      object(
        { words: 'instrument {n}{name}', owner: true },
        {
          name: text('name', 'name it, as "pitch gauge"'),
          reference: word('reference', ['gravity', 'shaft', 'head'], 'what it measures against').default('gravity'),
          zeroSd: notNegativeAs('zero spread', 'one standard deviation of its unknown zero').default(0),
          step: notNegativeAs('step', 'it shows whole multiples of this; 0 where not told').default(0),
          sd: positiveAs('sd', () => '', 'one standard deviation of a reading, in place of the usual').exactOptional(),
        },
      ),
    ).exactOptional(),
    lean: object(
      { words: 'lean', owner: true, about: 'how far the mast may lean on the bench, one standard deviation' },
      {
        foreAftSd: notNegativeAngle('fore-aft spread', 'degrees').default(0),
        sideSd: notNegativeAngle('side spread', 'degrees').default(0),
      },
    ).prefault({}),
    readings: list({ words: 'readings', about: 'in the order of the bench' }, item),
  },
);
