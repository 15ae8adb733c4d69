/**
 * Machines drawn from what is believed, on which plans are tried: each change is made to all of them, so that two plans are
 * compared on the same machines (common random numbers).
 *
 * The machines of one hypothesis differ in numbers only, so that they share one rig document, into which a machine's own
 * numbers are written when it is looked at: a clone each would take longer than all that is worked out on it.
 */
import type { Hypothesis, Posterior } from '../diagnosis/posterior.ts';
import { seededDraws } from '../numerics/random.ts';
import { prepare, type PreparedRig } from '../rig/prepare.ts';
import { prepareAgain, stagesOf } from '../rig/prepare-again.ts';
import type { Rig } from '../rig/rig.ts';
import { type Alteration, makeChanges, type Place, placeOf, readPlace } from './place.ts';
import type { TargetQuantities } from './target-quantities.ts';

/** A machine to look at. */
export interface Machine {
  /** the machine as it stands now; another machine of the same hypothesis writes over it */
  stand(): Rig;
  /** the same, prepared: once, however often it is asked for */
  prepared(): PreparedRig;
}

export interface DrawnMachine extends Machine {
  hypothesis: Hypothesis;
  /** at the posterior's unknowns, as found: zeros and lean are read from here */
  values: Float64Array;
}

/** A part that is put in new: from then on it is as the record says, but for the scatter of every such part. */
export interface Renewed {
  path: string;
  record: number;
  sd: number;
}

export function drawMachines(
  posterior: Posterior,
  seed: number,
  count: number,
  renewed: readonly Renewed[] = [],
): DrawnMachine[] {
  const draw = posterior.sampler(seed);
  const fresh = seededDraws(seed + 1);
  const stands = new Map<Hypothesis, Stand>();
  return Array.from({ length: count }, () => {
    const { hypothesis, values } = draw();
    const parts = renewed.map(({ record, sd }) => record + sd * fresh.normal());
    let stand = stands.get(hypothesis);
    if (stand === undefined) {
      stand = new Stand(posterior, hypothesis, renewed);
      stands.set(hypothesis, stand);
    }
    const own = stand;
    return { hypothesis, values, ...machineOf(() => own.as(values, parts)) };
  });
}

/** The mean machine of a hypothesis as it stands now, with the parts that are put in new. */
export function meanMachine(posterior: Posterior, hypothesis: Hypothesis, renewed: readonly Renewed[] = []): Rig {
  const rig = posterior.meanNow(hypothesis);
  makeChanges(
    rig,
    renewed.map(({ path, record }) => ({ path, to: record })),
  );
  return rig;
}

/** One rig document for all machines of a hypothesis. */
class Stand {
  private readonly rig: Rig;
  private readonly slots: { k: number; place: Place; moved: number }[] = [];
  private readonly parts: Place[];

  constructor(posterior: Posterior, hypothesis: Hypothesis, renewed: readonly Renewed[]) {
    this.rig = posterior.meanNow(hypothesis);
    this.parts = renewed.map(({ path }) => placeOf(this.rig, path));
    // What was done on the bench added to a value, or took its place: told by a machine whose values are all 1 more.
    const other = posterior.now({ hypothesis, values: hypothesis.mean.map((mean) => mean + 1) });
    posterior.unknowns.forEach(({ path, document }, k) => {
      if (document !== 'rig') return;
      const place = placeOf(this.rig, path);
      const now = readPlace(place) as number;
      if (readPlace(placeOf(other, path)) !== now) this.slots.push({ k, place, moved: now - (hypothesis.mean[k] as number) });
    });
  }

  as(values: Float64Array, parts: readonly number[]): Rig {
    for (const { k, place, moved } of this.slots) place.holder[place.key] = (values[k] as number) + moved;
    this.parts.forEach(({ holder, key }, i) => {
      holder[key] = parts[i];
    });
    return this.rig;
  }
}

function machineOf(stand: () => Rig): Machine {
  let prepared: PreparedRig | undefined;
  return {
    stand,
    prepared: () => {
      prepared ??= prepare(stand());
      return prepared;
    },
  };
}

/** A rig document as a machine to look at. */
export const asMachine = (rig: Rig): Machine => machineOf(() => rig);

/** Machines prepared with changes made to them: only the stages that the changes are in are prepared anew. */
export function preparing(changes: readonly Alteration[]): (machine: Machine) => PreparedRig {
  const stages = changes.reduce((all, { path }) => all | stagesOf(path), 0);
  return (machine) => {
    const before = machine.prepared();
    const rig = machine.stand();
    const undo = makeChanges(rig, changes);
    const after = prepareAgain(before, rig, stages);
    undo();
    return after;
  };
}

/** Quantities less aims of every machine with the changes made: one row of layout.size each, NaN where one cannot be reached. */
export function errorsOf(
  machines: readonly Machine[],
  changes: readonly Alteration[],
  quantities: TargetQuantities,
  aims: Float64Array,
): Float64Array {
  return errorsOfPrepared(machines.map(preparing(changes)), quantities, aims);
}

export function errorsOfPrepared(
  machines: readonly PreparedRig[],
  quantities: TargetQuantities,
  aims: Float64Array,
): Float64Array {
  const size = quantities.layout.size;
  const errors = new Float64Array(machines.length * size);
  machines.forEach((machine, s) => {
    quantities.evaluate(machine, errors, s * size);
    for (let k = 0; k < size; k++) errors[s * size + k] = (errors[s * size + k] as number) - (aims[k] as number);
  });
  return errors;
}
