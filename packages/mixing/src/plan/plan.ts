/**
 * Readings in, what to turn out: `plan` of contract.md.
 *
 * The plan is the one that most likely meets all targets over everything that is believed of the machine, not the undoing of
 * the likeliest cause. It aims at the targets and not at the record, and leaves alone what is well enough.
 */
import { causesOf } from '../diagnosis/causes.ts';
import type { Cause } from '../diagnosis/diagnosis.ts';
import { type Hypothesis, type Posterior, type PosteriorOptions, posterior } from '../diagnosis/posterior.ts';
import type { ReadingsDocument } from '../diagnosis/readings.ts';
import { unitAt } from '../rig/describe.ts';
import { prepare } from '../rig/prepare.ts';
import type { Rig } from '../rig/rig.ts';
import { afterEach } from './after.ts';
import { askedFor, cyclicLimitFor } from './asked.ts';
import type { Foretold } from './foretell.ts';
import { Judge, TARGET_NAMES } from './judge.ts';
import { knobsOf } from './knobs.ts';
import { drawMachines, meanMachine } from './machines.ts';
import { Assessor, HOPELESS, type Meets, meetsOf, type Verdict } from './meets.ts';
import { inOrder } from './order.ts';
import { type Alteration, isLead, makeChanges } from './place.ts';
import { pruned } from './prune.ts';
import { lookedAtFirst, replacedParts, type Replacement } from './replace.ts';
import { searchPlan, turnsOf } from './search.ts';
import { tailPlan, type TailPlan } from './tail-plan.ts';
import { TargetQuantities } from './target-quantities.ts';
import { defaultTargets, type Targets } from './targets-document.ts';
import { washoutPlan } from './washout-plan.ts';
import { adjustmentSays, planSays, turnsOfThread, undoSays } from './words.ts';

export interface Adjustment {
  path: string;
  by?: number;
  to?: unknown;
  unit: string;
  /** of a thread, signed as `by` */
  turns?: number;
  says: string;
  /** readings that would show it, once it and all before it is done */
  after: Foretold[];
}

export interface Plan {
  replace: Replacement[];
  /** in the order in which a mechanic makes them */
  adjustments: Adjustment[];
  /** what the gauge shows at the end */
  after: Foretold[];
  meets: Meets;
  causes: Cause[];
  /** the chance that all targets are met with nothing turned */
  asItStands: number;
  says: string;
}

export interface PlanOptions extends PosteriorOptions {
  /** a whole number: the same seed gives the same plan */
  seed?: number;
}

/** Machines drawn to search on, to judge on, and to foretell readings from. */
const SEARCHED = 96;
const JUDGED = 160;
const FORETOLD = 80;
/** Well enough: a machine that meets all targets with this chance is left alone. */
const WELL = 0.95;
/** Where more than this is believed of machines that nobody thought of, nothing is turned on a guess. No source. */
const UNKNOWN = 0.5;
/** A plan must add this much to the chance, and this many times what it may spoil. No source. */
const GAIN = 0.02;
const GAIN_OVER_SPOIL = 2;
/** Where hardly any machine meets all targets, a plan must meet so many more of them in the mean. */
const GAIN_SINGLY = 0.3;

export function plan(
  record: Rig,
  readings: ReadingsDocument,
  targets: Targets = defaultTargets(),
  options: PlanOptions = {},
): Plan {
  return planFrom(posterior(record, readings, options), readings, targets, options);
}

/** The same, of a belief that is at hand. */
export function planFrom(
  believed: Posterior,
  readings: ReadingsDocument,
  targets: Targets = defaultTargets(),
  { seed = 1 }: PlanOptions = {},
): Plan {
  const { record } = believed;
  const mode = Math.max(
    0,
    record.transmitter.flightModes.findIndex(({ name }) => name === targets.mode),
  );
  const replaced = replacedParts(record, readings);
  const { renewed } = replaced;
  const likeliest = meanMachine(believed, believed.hypotheses[0] as Hypothesis, renewed);
  const judged = drawMachines(believed, seed + 1, JUDGED, renewed);
  const quantities = new TargetQuantities(prepare(record), mode);
  const judge = new Judge(quantities.layout, targets);
  const assessor = new Assessor(judge, quantities, judged, mode);

  const standing = assessor.assess([]);
  let changes: Alteration[] = [];
  let reached = standing;
  let tail: TailPlan | undefined;
  if (standing.chance < WELL && believed.somethingElse <= UNKNOWN) {
    const { mostSubtrim, asked } = askedFor(targets, likeliest);
    // A bent part that has no value in the record moves the readings in ways that no length makes good.
    const knobs = replaced.unknownPart
      ? []
      : knobsOf(record, mode, { without: new Set(renewed.map(({ path }) => path)), ...mostSubtrim });
    const machines = drawMachines(believed, seed, SEARCHED, renewed);
    const found = searchPlan({ posterior: believed, judge, quantities, knobs, machines, renewed, asked });
    const tried = pruned(joined([...found.cures, ...turnsOf(knobs, found.steps)]), assessor);
    tried.push(...cyclicLimitFor(targets, tried, assessor, record));
    const after = assessor.assess(tried);
    if (isWorth(standing, after)) {
      changes = tried;
      reached = after;
    }
  }
  if (believed.somethingElse <= UNKNOWN) {
    const washout = washoutPlan(record, judged, changes, mode, blameOf(believed));
    tail = tailPlan(believed, judged, renewed);
    changes = inOrder([...changes, ...washout, ...(tail?.changes ?? [])]);
  }
  const told = afterEach(changes, groupsOf(changes), {
    posterior: believed,
    readings,
    machines: judged.slice(0, FORETOLD),
    likeliest,
    seed,
  });
  return {
    replace: [...replaced.replace, ...lookedAtFirst(believed, readings, judged)],
    adjustments: changes.map((change, i) => adjustmentOf(likeliest, changes, i, told.each[i] ?? [], tail?.says.get(change.path))),
    after: told.end,
    meets: meetsOf(reached, 1 - believed.somethingElse),
    causes: causesOf(believed).causes,
    asItStands: (1 - believed.somethingElse) * standing.chance,
    says: planSays(changes.length, standing.chance, reached.chance, {
      unknownPart: replaced.unknownPart,
      unknown: believed.somethingElse > UNKNOWN,
    }),
  };
}

/** Whether a plan is worth a hand's work, and the risk to a machine that stands well as it is. */
function isWorth(before: Verdict, after: Verdict): boolean {
  const gain = after.chance - before.chance;
  // One target may be out of a hand's reach: then the others are worth it, where nothing is likely to be spoiled.
  if (before.chance < HOPELESS && targetsMet(after) >= targetsMet(before) + GAIN_SINGLY) return gain >= 0;
  const spoiled = before.met.filter((met, s) => met && !after.met[s]).length / before.met.length;
  return gain >= GAIN && gain >= GAIN_OVER_SPOIL * spoiled;
}

const targetsMet = ({ each }: Verdict) => TARGET_NAMES.reduce((sum, name) => sum + each[name], 0);

/** One change a path. A value that is put back is put back to where it is then trimmed. */
function joined(changes: readonly Alteration[]): Alteration[] {
  const all = new Map<string, Alteration>();
  for (const change of changes) {
    const { path } = change;
    const known = all.get(path);
    if (change.by === undefined) all.set(path, change);
    else if (known?.to !== undefined) all.set(path, { path, to: (known.to as number) + change.by });
    else all.set(path, { path, by: rounded((known?.by ?? 0) + change.by) });
  }
  return [...all.values()].filter(({ by }) => by !== 0);
}

/** A sum of steps without the rounding that it picked up on the way. */
const rounded = (by: number) => Number(by.toFixed(6));

/** How sure it is that a value is off by more than scatter, by its path. */
function blameOf({ hypotheses }: Posterior): Map<string, number> {
  const blame = new Map<string, number>();
  for (const { changes, weight } of hypotheses) {
    for (const { path } of changes) blame.set(path, (blame.get(path) ?? 0) + weight);
  }
  return blame;
}

/** Leads are one group: nothing is read before all of them are in their places. */
function groupsOf(changes: readonly Alteration[]): number[] {
  const first = changes.findIndex(isLead);
  return changes.map((change, i) => (isLead(change) ? first : i));
}

function adjustmentOf(
  likeliest: Rig,
  changes: readonly Alteration[],
  i: number,
  after: Foretold[],
  said: string | undefined,
): Adjustment {
  const change = changes[i] as Alteration;
  const undo = makeChanges(likeliest, changes.slice(0, i));
  const says = said === undefined ? adjustmentSays(likeliest, change) : `${said} ${undoSays(likeliest, change)}`;
  undo();
  const turns = turnsOfThread(likeliest, change);
  return {
    path: change.path,
    ...(change.by === undefined ? { to: change.to } : { by: change.by }),
    unit: unitAt(change.path),
    ...(turns === undefined ? {} : { turns }),
    says,
    after,
  };
}
