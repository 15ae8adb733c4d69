/**
 * What is believed in, the changes that most likely meet all targets out.
 *
 * For each set of exact cures that some hypothesis asks for, and for none: the knobs are fitted on that hypothesis's mean
 * machine and tried on a few drawn ones. The best set is fitted again by climbing on all drawn machines, worked out
 * exactly at the fit.
 */
import type { Hypothesis, Posterior } from '../diagnosis/posterior.ts';
import type { Rig } from '../rig/rig.ts';
import { climb, COST, costOf, scoreOf, SINGLY } from './climb.ts';
import { curesOf } from './cures.ts';
import { fitKnobs } from './fit-knobs.ts';
import type { Judge } from './judge.ts';
import type { Knob } from './knobs.ts';
import { asMachine, type DrawnMachine, errorsOf, meanMachine, type Renewed } from './machines.ts';
import type { Alteration } from './place.ts';
import type { TargetQuantities } from './target-quantities.ts';

/** Sets of cures that are tried: those of the likeliest hypotheses, down to this share of what is believed. */
const LEAST_SHARE = 0.02;
const MOST_SETS = 6;
/** What a set of cures gains by being what is believed: the right place before another that reads as well. */
const BELIEVED = 0.05;
/** Machines on which sets are compared. */
const FEW = 48;

export interface Bench {
  posterior: Posterior;
  judge: Judge;
  quantities: TargetQuantities;
  knobs: readonly Knob[];
  machines: readonly DrawnMachine[];
  renewed: readonly Renewed[];
  /** changes that are made in any case, before all others */
  asked: readonly Alteration[];
}

export interface Found {
  cures: Alteration[];
  /** steps of each knob */
  steps: Int32Array;
  worth: number;
}

interface CureSet {
  cures: Alteration[];
  /** share of what is believed whose hypotheses ask for just these */
  share: number;
  /** mean machine of the likeliest such hypothesis */
  mean: Rig;
}

export function searchPlan(bench: Bench): Found {
  const few = bench.machines.slice(0, FEW);
  let best: { set: CureSet; steps: Int32Array; worth: number } | undefined;
  for (const believed of cureSets(bench.posterior, bench.renewed)) {
    const set = { ...believed, cures: [...believed.cures, ...bench.asked] };
    const steps = fitOn(bench, set);
    const worth = worthOn(bench, few, set.cures, steps) + BELIEVED * set.share;
    if (best === undefined || worth > best.worth) best = { set, steps, worth };
  }
  if (best === undefined) return { cures: [], steps: new Int32Array(bench.knobs.length), worth: 0 };
  return climbFrom(bench, best.set, best.steps);
}

/** Sets of cures, none among them always, by the share of what is believed that asks for them. */
function cureSets(posterior: Posterior, renewed: readonly Renewed[]): CureSet[] {
  const sets = new Map<string, CureSet & { heaviest: Hypothesis }>();
  const [likeliestOfAll] = posterior.hypotheses;
  if (likeliestOfAll)
    sets.set('[]', { cures: [], share: 0, heaviest: likeliestOfAll, mean: meanMachine(posterior, likeliestOfAll, renewed) });
  for (const hypothesis of posterior.hypotheses) {
    if (hypothesis.weight < 1e-4) continue;
    const cures = curesOf(posterior, hypothesis);
    const key = JSON.stringify(cures);
    const known = sets.get(key);
    if (known === undefined)
      sets.set(key, { cures, share: hypothesis.weight, heaviest: hypothesis, mean: meanMachine(posterior, hypothesis, renewed) });
    else {
      known.share += hypothesis.weight;
      if (known.share === hypothesis.weight || hypothesis.weight > known.heaviest.weight) {
        known.heaviest = hypothesis;
        known.mean = meanMachine(posterior, hypothesis, renewed);
      }
    }
  }
  const likeliest = [...sets.values()].sort((a, b) => b.share - a.share);
  return likeliest.filter(({ share, cures }, i) => i === 0 || cures.length === 0 || (i < MOST_SETS && share >= LEAST_SHARE));
}

/** Whole steps that put the set's mean machine right, worked out twice: the second time where the first one led. */
function fitOn({ judge, quantities, knobs }: Bench, set: CureSet): Int32Array {
  const widths = judge.widths();
  const aims = judge.aims();
  const reach = knobs.map((knob) => knob.reach);
  const costs = knobs.map((knob) => knob.cost);
  let steps: Float64Array = new Float64Array(knobs.length);
  for (let pass = 0; pass < 2; pass++) {
    const at = [...set.cures, ...turnsOf(knobs, steps)];
    const errors = errorsOf([asMachine(set.mean)], at, quantities, aims);
    const slopes = slopesOf(set.mean, at, knobs, quantities, errors, aims);
    // Errors as they would be with no knob turned, so that the fit decides anew which are.
    const unturned = errors.map((e, k) => steps.reduce((sum, s, j) => sum - s * ((slopes[j] as Float64Array)[k] as number), e));
    steps = fitKnobs({ errors: unturned, slopes, widths, reach, costs });
  }
  return Int32Array.from(steps, (step, j) => {
    const most = (knobs[j] as Knob).most ?? Number.POSITIVE_INFINITY;
    return Math.round(Math.max(-most, Math.min(most, step)));
  });
}

/** Change of each quantity with one step of each knob, on one machine with changes made. */
function slopesOf(
  rig: Rig,
  changes: readonly Alteration[],
  knobs: readonly Knob[],
  quantities: TargetQuantities,
  errors: Float64Array,
  aims: Float64Array,
): Float64Array[] {
  const machine = [asMachine(rig)];
  return knobs.map((knob) => {
    // A whole step is far from nothing where it is a link's: a tenth of it is as good as the derivative.
    const moved = errorsOf(machine, [...changes, { path: knob.path, by: knob.step / 10 }], quantities, aims);
    return moved.map((e, k) => {
      const slope = 10 * (e - (errors[k] as number));
      return slope === slope ? slope : 0;
    });
  });
}

function climbFrom(bench: Bench, set: CureSet, start: Int32Array): Found {
  const { judge, quantities, knobs, machines } = bench;
  const aims = judge.aims();
  let steps = start;
  let worth = 0;
  for (let pass = 0; pass < 2; pass++) {
    const at = [...set.cures, ...turnsOf(knobs, steps)];
    const errors = errorsOf(machines, at, quantities, aims);
    const reference = nearest(judge, errors, machines)?.stand() ?? set.mean;
    const here = errorsOf([asMachine(reference)], at, quantities, aims);
    const slopes = slopesOf(reference, at, knobs, quantities, here, aims);
    const climbed = climb(judge, errors, slopes, knobs, steps);
    const went = climbed.steps.reduce((sum, s, j) => sum + Math.abs(s - (steps[j] as number)) * (knobs[j] as Knob).step, 0);
    steps = climbed.steps;
    worth = climbed.worth;
    // Where the climb hardly left the place of its slopes, they hold.
    if (went < 2) break;
  }
  return { cures: set.cures, steps, worth };
}

/** The machine that is nearest to its targets: slopes are wanted where machines that can be helped are. */
function nearest(judge: Judge, errors: Float64Array, machines: readonly DrawnMachine[]): DrawnMachine | undefined {
  const { size } = judge.layout;
  const still = judge.still();
  let best: DrawnMachine | undefined;
  let least = Number.POSITIVE_INFINITY;
  machines.forEach((machine, s) => {
    const worst = judge.worst(errors, s * size, still);
    if (worst < least) {
      least = worst;
      best = machine;
    }
  });
  return best;
}

function worthOn(
  { judge, quantities, knobs }: Bench,
  machines: readonly DrawnMachine[],
  cures: readonly Alteration[],
  steps: Int32Array,
): number {
  const errors = errorsOf(machines, [...cures, ...turnsOf(knobs, steps)], quantities, judge.aims());
  const { size } = judge.layout;
  const still = judge.still();
  let sum = 0;
  for (let s = 0; s < machines.length; s++) sum += scoreOf(judge.worst(errors, s * size, still)) + SINGLY * judge.near;
  const spent = knobs.reduce((cost, knob, j) => cost + costOf(knob, steps[j] as number), COST * cures.length);
  return sum / machines.length - spent;
}

/** Knobs' steps as changes to a machine. */
export function turnsOf(knobs: readonly Knob[], steps: ArrayLike<number>): Alteration[] {
  return knobs.flatMap((knob, j) => (steps[j] ? [{ path: knob.path, by: (steps[j] as number) * knob.step }] : []));
}
