/**
 * What was seen at the bench, in order: the readings document with every default filled in.
 *
 * Takes nothing; `readings-document.ts` reads and checks a document into these. Values in the unit of what is measured:
 * degrees, or millimetres for `swash-height`, `washout-height` and `slider`. Sticks -1 to +1, azimuth (blade 1's psi) and
 * teeter in degrees, yaw rate in degrees a second.
 */

export const MEASURES = [
  'horn-angle',
  'lever-angle',
  'swash-height',
  'fore-aft-tilt',
  'side-tilt',
  'blade-pitch',
  'blade-play',
  'washout-height',
  'washout-arm',
  'mixing-arm',
  'paddle-pitch',
  'tail-horn-angle',
  'slider',
  'tail-pitch',
] as const;

export type Measure = (typeof MEASURES)[number];

export interface Sticks {
  collective: number;
  elevator: number;
  aileron: number;
  rudder: number;
}

export const sameSticks = (a: Sticks, b: Sticks): boolean =>
  a.collective === b.collective && a.elevator === b.elevator && a.aileron === b.aileron && a.rudder === b.rudder;

/** Where a reading is taken: everything about it but what it showed. */
export interface ReadingPlace {
  sticks: Sticks;
  /** a flight mode by name; the first where left out */
  mode?: string;
  /** degrees: blade 1's psi */
  azimuth: number;
  /** degrees; the flybar is held on the bench */
  teeter: number;
  /** degrees a second, positive counter-clockwise from above */
  yawRate: number;
  measure: Measure;
  /** from 1: the servo, blade or arm where there are several */
  of: number;
  /** place in `instruments`; absent where no instrument is named */
  instrument?: number;
  /** the gauge was turned end for end */
  flipped: boolean;
  /** the way the stick came */
  approach?: 'rising' | 'falling';
}

export interface Reading extends ReadingPlace {
  /** degrees or mm, as the instrument showed it */
  value: number;
  /** one standard deviation beside the instrument's zero: the reading's own, else the instrument's, else the usual */
  sd: number;
}

export interface Instrument {
  name: string;
  reference: 'gravity' | 'shaft' | 'head';
  /** one standard deviation of its unknown zero, 0 where it has none */
  zeroSd: number;
  /** it shows whole multiples of this; 0 where not told */
  step: number;
  /** one standard deviation of a reading, in place of the usual, where given */
  sd?: number;
}

export type Way = 'up' | 'down' | 'forward' | 'aft' | 'left' | 'right' | 'none';

/** Which way something goes as the sticks go from mid-stick to `sticks`, without a number. */
export interface Moves {
  sticks: Sticks;
  mode?: string;
  part: 'servo' | 'swash' | 'fore-aft' | 'side' | 'blade' | 'tail';
  /** from 1, where there are several */
  of: number;
  way: Way;
  /** degrees: blade 1's psi, for a blade */
  azimuth: number;
  /** degrees a second, for the tail's answer to a swing of the nose */
  yawRate: number;
}

export type Item =
  | { kind: 'reading'; reading: Reading }
  /** a change that was made to the machine: `by` is added to its own value there, `to` replaces it */
  | { kind: 'adjusted'; path: string; by?: number; to?: unknown }
  /** a setting or part that was looked at and is so */
  | { kind: 'seen'; path: string; value: unknown }
  | { kind: 'moves'; moves: Moves }
  /** a bind felt or heard (or, with `binds` false, a place felt to be free) */
  | { kind: 'felt'; sticks: Sticks; mode?: string; binds: boolean; part?: string }
  | { kind: 'inspected'; part: string; found: 'straight' | 'bent' | 'worn' | 'unknown' }
  | { kind: 'flight'; highBlade?: number; apart?: number; trims?: Record<string, number>; note?: string };

export interface ReadingsDocument {
  format: 'swashtrue-readings/1';
  instruments: Instrument[];
  /** how far the mast may lean on the bench, degrees, one standard deviation; 0 where it stands plumb */
  lean: { foreAftSd: number; sideSd: number };
  /** in the order of the bench; a place in this list is the place that `outliers` names */
  readings: Item[];
}

/** What one standard deviation of a reading usually is. Common practice, no source: gauge, eye, leveller, caliper. */
export const USUAL_SD: Readonly<Record<Measure, number>> = {
  'horn-angle': 1.5,
  'lever-angle': 2,
  'swash-height': 0.2,
  'fore-aft-tilt': 0.3,
  'side-tilt': 0.3,
  'blade-pitch': 0.25,
  'blade-play': 0.25,
  'washout-height': 0.2,
  'washout-arm': 2,
  'mixing-arm': 2,
  'paddle-pitch': 0.5,
  'tail-horn-angle': 1.5,
  slider: 0.2,
  'tail-pitch': 0.5,
};
