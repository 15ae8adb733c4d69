/**
 * What a hand can turn by some amount: every such value of a machine with its smallest step and how gladly it is turned.
 * Never a ball, a pivot or a servo's insides. What is set once and for all (a sign, a lead, a tooth, a hole) is in cures.ts.
 */
import { linkStepOf } from '../rig/link-step.ts';
import type { Rig } from '../rig/rig.ts';

export type KnobKind = 'link' | 'blade-link' | 'mixing-rod' | 'sub-trim' | 'phase' | 'mix' | 'curve' | 'travel';

export interface Knob {
  path: string;
  kind: KnobKind;
  /** in the value's own unit: a link's step, 1 microsecond, 1 percent, 1 degree */
  step: number;
  /** steps that a search tries at once, either way */
  strides: readonly number[];
  /** what using it costs, in link's turnings: a cure at the right place is the cheapest that cures */
  cost: number;
  /** and what each step adds to that */
  costPerStep: number;
  /** steps that are thought much: how far a fit goes without being asked twice */
  reach: number;
  /** steps, either way, that are allowed at all; no bound where left out */
  most?: number;
}

/**
 * A link before a mix value, phase before a mix value, both before travel; sub-trim small, so that it costs by the
 * microsecond. No source: the order of the bench, made numbers.
 */
const KINDS: Record<KnobKind, Pick<Knob, 'strides' | 'cost' | 'costPerStep' | 'reach'>> = {
  link: { strides: [1], cost: 1, costPerStep: 0, reach: 6 },
  'blade-link': { strides: [1], cost: 1, costPerStep: 0, reach: 3 },
  'mixing-rod': { strides: [1], cost: 1.1, costPerStep: 0, reach: 3 },
  'sub-trim': { strides: [1, 4, 12], cost: 1.4, costPerStep: 0.03, reach: 12 },
  phase: { strides: [1, 4], cost: 1.1, costPerStep: 0, reach: 20 },
  mix: { strides: [1, 4], cost: 1.3, costPerStep: 0, reach: 8 },
  curve: { strides: [1, 3], cost: 1.6, costPerStep: 0.02, reach: 8 },
  travel: { strides: [1, 4], cost: 2.5, costPerStep: 0.03, reach: 6 },
};

export interface KnobOptions {
  /** values that are not to be turned: parts that are replaced */
  without?: ReadonlySet<string>;
  /** microseconds of sub-trim that are allowed, on an output that has none */
  mostSubtrim?: number;
}

/** Every knob that the head's targets can feel, in the flight mode at place `mode`. */
export function knobsOf(rig: Rig, mode: number, { without, mostSubtrim }: KnobOptions = {}): Knob[] {
  const knobs: Knob[] = [];
  const add = (kind: KnobKind, path: string, step = 1) => knobs.push({ path, kind, step, ...KINDS[kind] });
  const addLength = (kind: KnobKind, path: string) => {
    const step = linkStepOf(rig, path);
    if (step !== undefined) add(kind, path, step);
  };
  rig.servos.forEach((servo, i) => {
    if (servo.pushrod !== undefined) addLength('link', `/servos/${i}/pushrod`);
    addLength('link', `/servos/${i}/link`);
  });
  if (rig.flybar) for (const k of [0, 1]) addLength('mixing-rod', `/flybar/mixing/rods/${k}`);
  rig.rotor.links.forEach((_, k) => addLength('blade-link', `/rotor/links/${k}`));
  rig.transmitter.outputs.forEach((_, j) => add('sub-trim', `/transmitter/outputs/${j}/subtrim`));
  add('phase', '/transmitter/mix/phase');
  for (const stick of ['collective', 'elevator', 'aileron']) add('mix', `/transmitter/mix/${stick}`);
  // With a point of its own at mid-stick a curve's ends can be moved and leave the middle where it is.
  const curve = rig.transmitter.flightModes[mode]?.pitchCurve ?? [];
  if (curve.length >= 3 && curve.length % 2 === 1) {
    for (const end of [0, curve.length - 1]) add('curve', `/transmitter/flightModes/${mode}/pitchCurve/${end}`);
  }
  rig.transmitter.outputs.forEach((_, j) => {
    for (const end of [0, 1]) add('travel', `/transmitter/outputs/${j}/travel/${end}`);
  });
  return knobs
    .filter(({ path }) => without?.has(path) !== true)
    .map((knob) => (knob.kind === 'sub-trim' && mostSubtrim !== undefined ? { ...knob, most: Math.floor(mostSubtrim) } : knob));
}
