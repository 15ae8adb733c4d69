/**
 * The tail's part of a plan: what the tail check would turn on the machine that is believed in, where it is believed to need it.
 *
 * The head's targets say nothing of the tail: stick and gyro the right way, both ends free, the slider at its middle and
 * travel equal as far as a caliper can show. A tail that is likely so is left alone.
 */
import type { Posterior } from '../diagnosis/posterior.ts';
import type { Rig } from '../rig/rig.ts';
import { tailAdjustments } from '../tail/check-cures.ts';
import { answers, commandedMm, isFree, type TailRig, tailState, unevenMm } from '../tail/check-state.ts';
import { type DrawnMachine, meanMachine, type Renewed } from './machines.ts';
import { type Alteration, makeChanges } from './place.ts';

export interface TailPlan {
  changes: Alteration[];
  /** what is said of each change, by its path */
  says: Map<string, string>;
  /** the chance that the tail is then well, and that it is as it stands */
  chance: number;
  asItStands: number;
}

/** What a caliper tells apart: 0.2 mm a reading, two of them. Common practice, no source. */
const WITHIN_MM = 0.3;
/** Machines on which tails are tried. */
const TRIED = 32;
/** Hypotheses whose mean tail is cured for a try. */
const CURED = 3;
/** Well enough to be left alone; and what a cure must add. No source. */
const WELL = 0.8;
const GAIN = 0.1;

export function tailPlan(
  posterior: Posterior,
  machines: readonly DrawnMachine[],
  renewed: readonly Renewed[],
): TailPlan | undefined {
  if (posterior.record.tail === undefined) return undefined;
  const tried = machines.slice(0, TRIED);
  const asItStands = chanceOf(tried, []);
  let best: TailPlan = { changes: [], says: new Map(), chance: asItStands, asItStands };
  if (asItStands >= WELL) return best;
  const known = new Set<string>();
  for (const hypothesis of posterior.hypotheses.slice(0, CURED)) {
    const cures = tailAdjustments(meanMachine(posterior, hypothesis, renewed) as TailRig);
    const changes = cures.map(
      (cure): Alteration => ('by' in cure ? { path: cure.path, by: cure.by } : { path: cure.path, to: cure.to }),
    );
    const key = JSON.stringify(changes);
    if (known.has(key)) continue;
    known.add(key);
    const chance = chanceOf(tried, changes);
    if (chance >= best.chance + GAIN)
      best = { changes, says: new Map(cures.map(({ path, says }) => [path, says])), chance, asItStands };
  }
  return best;
}

function chanceOf(machines: readonly DrawnMachine[], changes: readonly Alteration[]): number {
  let well = 0;
  for (const machine of machines) {
    const rig = machine.stand();
    const undo = makeChanges(rig, changes);
    if (isWell(rig)) well++;
    undo();
  }
  return well / machines.length;
}

function isWell(rig: Rig): boolean {
  const machine = rig as TailRig;
  const state = tailState(machine);
  const { rudder, gyro } = answers(machine);
  const uneven = unevenMm(state);
  const middle = commandedMm(state.centre);
  return (
    rudder === 'with' &&
    gyro !== 'against' &&
    [state.centre, state.left, state.right].every(isFree) &&
    uneven !== undefined &&
    Math.abs(uneven) <= 2 * WITHIN_MM &&
    middle !== undefined &&
    Math.abs(middle) <= WITHIN_MM
  );
}
