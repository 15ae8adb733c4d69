/**
 * The transmitter's part of the rig document: flight modes, rates, mix and outputs.
 * Pulses in microseconds; curve, rate, mix and travel values in percent.
 */
import { angle, factor, list, object, pair, percent, pulse, share, text, three, trim, yesNo } from './quantity.ts';

const flightMode = object(
  { words: 'flight mode {n}{name}', owner: true },
  {
    name: text('name', 'name it, as "normal"'),
    pitchCurve: list(
      {
        words: 'pitch curve',
        expected: '2 to 17 values in percent',
        about: 'percent at equally spaced collective stick positions from -1 to +1',
        wayOut: 'give the values from stick fully down to fully up, as [-100, 100]',
      },
      percent('pitch curve point {n}'),
      2,
      17,
    ).default([-100, 100]),
  },
);

const stickRate = (stick: string) =>
  object(
    { words: `${stick} stick`, owner: true },
    {
      rate: percent('rate', 'percent of the stick').default(100),
      expo: percent('expo', 'percent; positive softens the centre').default(0),
    },
  );

export const output = (words: string) =>
  object(
    { words, owner: true },
    {
      neutral: pulse('neutral', 'microseconds').default(1520),
      span: pulse('span', 'microseconds for a full command at 100 percent travel').default(400),
      travel: pair(
        { words: 'travel', about: 'percent [below, above] the neutral command', expected: '[below, above] in percent' },
        share('below neutral'),
        share('above neutral'),
      ).default([100, 100]),
      subtrim: trim('sub-trim', 'microseconds').default(0),
      reverse: yesNo('reverse', 'whether the command is turned round').default(false),
      limits: pair(
        {
          words: 'limits',
          about: 'microseconds [least, most]; none where left out',
          expected: '[least, most] in microseconds, least first',
          wayOut: 'write the smaller pulse first, or leave limits out',
        },
        pulse('least'),
        pulse('most'),
      ).exactOptional(),
    },
  );

const weightRow = three(
  { words: 'output {n} weights', about: '[collective, elevator, aileron]', expected: '[collective, elevator, aileron]' },
  factor('collective'),
  factor('elevator'),
  factor('aileron'),
);

const mix = object(
  { words: '', about: 'either azimuths or weights, and the signed mix values' },
  {
    azimuths: list(
      {
        words: 'layout that the mix believes',
        about: 'degrees: where the transmitter believes the three balls are',
        expected: 'three azimuths in degrees',
        wayOut: 'give one azimuth for each of the three outputs',
      },
      angle('mix azimuth of output {n}'),
      3,
      3,
    ).exactOptional(),
    weights: list(
      {
        words: 'mix weights',
        about: 'one row [collective, elevator, aileron] an output, in place of those that azimuths give',
        expected: 'three rows [collective, elevator, aileron]',
        wayOut: 'give one row for each of the three outputs',
      },
      weightRow,
      3,
      3,
    ).exactOptional(),
    collective: percent('collective mix value', 'percent, signed'),
    elevator: percent('elevator mix value', 'percent, signed'),
    aileron: percent('aileron mix value', 'percent, signed'),
    phase: angle('mix phase', 'degrees by which the commanded tilt is turned in the direction of rotation').default(0),
    cyclicLimit: share('cyclic limit', 'percent of full stick; none where left out').exactOptional(),
  },
);

export const transmitter = object(
  { words: '' },
  {
    flightModes: list(
      { words: 'flight modes', expected: 'at least one flight mode', about: 'the first is used where a case names none' },
      flightMode,
      1,
    ).prefault([{ name: 'normal' }]),
    rates: object(
      { words: '' },
      {
        elevator: stickRate('elevator').prefault({}),
        aileron: stickRate('aileron').prefault({}),
        rudder: stickRate('rudder').prefault({}),
      },
    ).prefault({}),
    mix,
    outputs: list(
      {
        words: 'outputs',
        expected: 'three outputs',
        wayOut: 'give one object for each of the three outputs; {} takes every default',
      },
      output('output {n}'),
      3,
      3,
    ).prefault([{}, {}, {}]),
    rudder: output('rudder output').prefault({}),
  },
);
