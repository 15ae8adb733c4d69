/**
 * What is believed before a reading is taken. Common practice, no source; every number can be given otherwise
 * (`diagnose(rig, readings, { priors })`).
 *
 * No fault, one, two and three are equally likely; then their kinds; then the places of a kind. A fault of a size is
 * evenly spread over `sizes`, one chance in ten being kept for half as small and half as large again, so that no size is
 * ruled out at a sharp edge.
 */

export const FAULT_KINDS = [
  'horn-tooth',
  'horn-offset',
  'horn-hole',
  'link-length',
  'output-reversed',
  'leads-swapped',
  'mix-sign',
  'mix-value',
  'layout',
  'phase',
  'sub-trim',
  'travel',
  'servo-neutral',
  'blade-link',
  'washout',
  'mixing-arm',
  'tail-rod',
  'tail-horn',
  'tail-tooth',
  'gyro-reversed',
  'rudder-reversed',
] as const;

export type FaultKind = (typeof FAULT_KINDS)[number];

/** Kinds of a size, as [least, most], either way; `sub-trim` from 0. */
export type SizedKind =
  | 'horn-offset'
  | 'link-length'
  | 'mix-value'
  | 'phase'
  | 'sub-trim'
  | 'travel'
  | 'blade-link'
  | 'washout'
  | 'mixing-arm'
  | 'tail-rod'
  | 'tail-horn';

export interface Priors {
  /** weights of no fault, one, two and three */
  counts: [number, number, number, number];
  /** weight of each kind among the kinds that the machine can have */
  kinds: Record<FaultKind, number>;
  /** degrees, mm, percent of the value (mix), percentage points (travel) or microseconds (sub-trim) */
  sizes: Record<SizedKind, [number, number]>;
  /** a reading that fits nothing: its chance, and one standard deviation of it, degrees and mm */
  wild: { chance: number; spreadDeg: number; spreadMm: number };
  /** the chance that what is wrong is none of these */
  somethingElse: number;
  /** the chance that someone who looks, or says which way a thing goes, is mistaken */
  mistaken: number;
}

export const USUAL_PRIORS: Readonly<Priors> = {
  counts: [1, 1, 1, 1],
  kinds: Object.fromEntries(FAULT_KINDS.map((kind) => [kind, 1])) as Record<FaultKind, number>,
  sizes: {
    'horn-offset': [5, 12],
    'link-length': [0.4, 2],
    'mix-value': [20, 40],
    phase: [8, 40],
    'sub-trim': [0, 60],
    travel: [10, 40],
    'blade-link': [0.2, 1],
    washout: [0.4, 2],
    'mixing-arm': [0.4, 2],
    'tail-rod': [0.4, 2],
    'tail-horn': [5, 12],
  },
  wild: { chance: 0.01, spreadDeg: 10, spreadMm: 4 },
  somethingElse: 0.005,
  mistaken: 0.03,
};
