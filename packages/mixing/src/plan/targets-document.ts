/**
 * What is wanted of a machine, and how near is near enough: the targets document with every default filled in. Angles
 * degrees, cross-axis coupling percent, sub-trim microseconds. The default figures are the model's (common practice, no
 * source).
 */
import { z } from 'zod';
import { readAs, type DocumentKind, type Rule } from '../rig/document.ts';
import { show, type DocumentFault } from '../rig/fault.ts';
import { lookUp } from '../rig/pointer.ts';
import { angle, named, notNegative, notNegativeAngle, object, pair, share, text, yesNo } from '../rig/quantity.ts';
import type { Rig } from '../rig/rig.ts';

export const TARGETS_FORMAT = 'swashtrue-targets/1';

export interface Targets {
  format: 'swashtrue-targets/1';
  /** a flight mode by name; the first where left out */
  mode?: string;
  /** degrees of blade pitch at the ends of the collective stick, [low, high] */
  collective: [number, number];
  /** degrees of longitudinal at full elevator and of lateral at full aileron, as amplitude */
  cyclic: number;
  within: {
    /** degrees of ring tilt at mid-stick */
    level: number;
    /** degrees of blade pitch at mid-stick */
    zero: number;
    /** degrees, blade against blade */
    match: number;
    /** degrees at the collective's ends */
    ends: number;
    /** degrees, half the difference of a cyclic stick's two ends */
    cyclic: number;
    /** percent of cross-axis coupling of the blades */
    cross: number;
    /** microseconds; counts only where the document asks for it */
    subtrim?: number;
    /** free of binding and saturation at every corner; counts only where the document asks for it */
    corners?: boolean;
  };
}

export const targetsSchema = object(
  { words: 'targets', about: 'angles degrees, cross-axis coupling percent, sub-trim microseconds' },
  {
    format: named(z.literal(TARGETS_FORMAT), {
      words: 'format',
      expected: JSON.stringify(TARGETS_FORMAT),
      wayOut: `write "format": ${JSON.stringify(TARGETS_FORMAT)} at the head of the document`,
    }),
    mode: text('mode', 'a flight mode by its name; the first where left out').exactOptional(),
    collective: pair(
      {
        words: 'collective',
        about: 'degrees of blade pitch at the ends of the stick',
        expected: '[low, high] in degrees, low first',
      },
      angle('low end'),
      angle('high end'),
    ).default([-10, 10]),
    cyclic: notNegativeAngle('cyclic', 'degrees at full elevator and at full aileron').default(5),
    within: object(
      { words: 'within', about: 'how near is near enough' },
      {
        level: notNegativeAngle('level', 'degrees of ring tilt at mid-stick').default(0.5),
        zero: notNegativeAngle('zero', 'degrees of blade pitch at mid-stick').default(0.4),
        match: notNegativeAngle('match', 'degrees, blade against blade').default(0.4),
        ends: notNegativeAngle('ends', "degrees at the collective's ends").default(0.6),
        cyclic: notNegativeAngle('cyclic', "degrees, half the difference of a cyclic stick's two ends").default(0.5),
        cross: share('cross', 'percent of cross-axis coupling of the blades').default(5),
        subtrim: notNegative(
          'us',
          'microseconds, 0 or more',
          'write a plain number, or as "40 us"',
        )('sub-trim', 'most microseconds of sub-trim; counts only where given').exactOptional(),
        corners: yesNo('corners', 'free at every full-stick corner; counts only where given').exactOptional(),
      },
    ).prefault({}),
  },
);

const lowFirst: Rule = (document) => {
  const ends = lookUp(document, ['collective']);
  if (!Array.isArray(ends) || ends.length !== 2) return [];
  const [low, high] = ends as unknown[];
  if (typeof low !== 'number' || typeof high !== 'number' || low < high) return [];
  return [
    {
      pointer: '/collective',
      got: show(ends),
      expected: '[low, high] in degrees, low first',
      wayOut: 'stick down is the low end: write the smaller pitch first',
    },
  ];
};

const modeThere =
  (rig: Rig): Rule =>
  (document) => {
    const mode = lookUp(document, ['mode']);
    const modes = rig.transmitter.flightModes.map((entry) => entry.name);
    if (typeof mode !== 'string' || modes.includes(mode)) return [];
    const expected = `one of the flight modes ${modes.map(show).join(', ')}`;
    return [{ pointer: '/mode', got: show(mode), expected, wayOut: 'leave it out for the first' }];
  };

/** The kind of document; with a rig, also the flight mode that it must have. */
export function targetsDocument(rig?: Rig): DocumentKind<Targets> {
  return {
    format: TARGETS_FORMAT,
    schema: targetsSchema,
    rules: rig === undefined ? [lowFirst] : [lowFirst, modeThere(rig)],
    finish: (parsed) => parsed as Targets,
  };
}

export function readTargets(
  document: unknown,
  rig?: Rig,
): { ok: true; targets: Targets } | { ok: false; faults: DocumentFault[] } {
  const read = readAs(targetsDocument(rig), document);
  return read.ok ? { ok: true, targets: read.value } : read;
}

/** The targets where no document is given. */
export function defaultTargets(): Targets {
  return targetsSchema.parse({ format: TARGETS_FORMAT }) as unknown as Targets;
}
