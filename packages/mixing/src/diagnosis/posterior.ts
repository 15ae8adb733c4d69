/**
 * What is believed of a machine after its readings: a weighted list of hypotheses, each a set of exact settings and a
 * Gaussian over every value that scatters or may be off by any amount.
 *
 *   p(machine | readings) = sum over h of weight_h  N(values; mean_h, covariance_h),  settings as h says
 *
 * Values are the document's own (mm, degrees, microseconds, percent), so that a drawn machine is a rig document.
 */
import { factorCholesky } from '../numerics/cholesky.ts';
import { logNormal } from '../numerics/normal.ts';
import { seededDraws } from '../numerics/random.ts';
import { valueAt } from '../rig/changes.ts';
import { unitAt } from '../rig/describe.ts';
import type { Rig } from '../rig/rig.ts';
import { machineAsFound, machineNow } from './machine.ts';
import { type Model, modelOf } from './model.ts';
import type { FaultTaken, Node } from './node.ts';
import { type FaultKind, type Priors, USUAL_PRIORS } from './priors.ts';
import type { ReadingsDocument } from './readings.ts';
import { fitWhole, type Refined, refine } from './refine.ts';
import { type Candidate, search, type SearchWidth, USUAL_WIDTH } from './search.ts';

/** One value that is not known exactly: a number of the rig document, or an instrument's zero or the lean. */
export interface UnknownValue {
  path: string;
  document: 'rig' | 'readings';
  /** what the record says; 0 for a zero or a lean */
  record: number;
  /** one standard deviation of the scatter that every machine has; 0 where only a fault can move it */
  sd: number;
  unit: string;
}

/** A document value that is not what the record says, exactly or to within `sd`. */
export interface CauseChange {
  path: string;
  record: unknown;
  /** what it is on the machine as it was found, before the first `adjusted` item */
  machine: unknown;
  /** one standard deviation of `machine`; 0 for a value that is exact (a tooth, a lead, a sign) */
  sd: number;
  unit: string;
  /** present where it is no value of the rig */
  document?: 'readings';
}

export interface Hypothesis {
  /** the faults as `causes` states them; empty where nothing but scatter is at work */
  changes: CauseChange[];
  /** kinds and places of the faults, sorted: equal in hypotheses that state the same cause */
  key: string;
  /** posterior probability; all hypotheses', `rest` and `somethingElse` together make 1 */
  weight: number;
  /** natural log of prior times evidence, up to a constant common to all hypotheses */
  logEvidence: number;
  /** best log-likelihood of the readings under it, the scatter's own density included */
  logLikelihood: number;
  /** weighted squares of all residuals, readings and scatter, at the best fit */
  chi2: number;
  /** how many readings were fitted, wild ones left aside */
  readings: number;
  /** exact values that differ from the record, as found: teeth, leads, signs, holes */
  settings: readonly { path: string; value: unknown }[];
  /** mean of the values at `Posterior.unknowns`, as found, in document units */
  mean: Float64Array;
  /** lower triangle L, row-major n x n, with covariance = L L': mean + L z draws from it, z standard normal */
  factor: Float64Array;
  /** for each item of the readings the chance that it is wild under this hypothesis (0 for what is no reading) */
  wild: Float64Array;
}

/** One fault and the chance that it is there, whatever else is. */
export interface Suspect {
  kind: FaultKind;
  /** the values that it changes */
  paths: string[];
  /** what an exact fault makes of them; absent for a fault of a size */
  machine?: unknown[];
  probability: number;
}

export interface Draw {
  hypothesis: Hypothesis;
  /** at `Posterior.unknowns`, as found */
  values: Float64Array;
}

export interface Posterior {
  /** the record as it stood before the first item */
  record: Rig;
  unknowns: readonly UnknownValue[];
  /** likeliest first */
  hypotheses: readonly Hypothesis[];
  /** weight of many hypotheses too unlikely each to be worked out */
  rest: number;
  /** weight of 'something else': a machine that none of the hypotheses describes */
  somethingElse: number;
  /** each fault by itself: the chance that it is there, alone or with others, likeliest first */
  suspects: readonly Suspect[];
  /** paths of faults that no reading and no look can see, so that they were left out */
  unseen: readonly string[];
  /** Draws a machine, `rest` and `something else` left aside: the same seed gives the same machines in the same order. */
  sampler(seed: number): () => Draw;
  /** The drawn machine as it was found. A fresh rig, sharing nothing that is changed. */
  asFound(draw: Draw): Rig;
  /** The drawn machine as it stands now: as found, with every `adjusted` item of the readings made to it. */
  now(draw: Draw): Rig;
  /** The machine of a hypothesis at its mean, as it stands now. */
  meanNow(hypothesis: Hypothesis): Rig;
}

export interface PosteriorOptions {
  priors?: Partial<Priors>;
  width?: Partial<SearchWidth>;
}

/** Hypotheses that are refined: those within this of the best, natural log, and no more than MOST. */
const REFINED_WITHIN = 6.5;
const MOST = 48;
/** Below this weight a hypothesis is left in `rest`. */
const NAMED = 0.003;

/** What is believed of the machine of this record after these readings. */
export function posterior(record: Rig, readings: ReadingsDocument, options: PosteriorOptions = {}): Posterior {
  return posteriorOf(modelFor(record, readings, options), { ...USUAL_WIDTH, ...options.width });
}

export function modelFor(record: Rig, readings: ReadingsDocument, options: PosteriorOptions): Model {
  return modelOf(record, readings, { ...USUAL_PRIORS, ...options.priors });
}

/** The same, of a model that is at hand. */
export function posteriorOf(model: Model, width: SearchWidth = USUAL_WIDTH): Posterior {
  const { candidates, root, unseen } = search(model, width);
  const top = candidates[0]?.log ?? 0;
  const refined: Refined[] = [];
  const others: Candidate[] = [];
  for (const candidate of candidates) {
    const { node } = candidate;
    if (node && refined.length < MOST && candidate.log > top - REFINED_WITHIN) refined.push(refine(model, node));
    else if (Number.isFinite(candidate.log)) others.push(candidate);
  }
  refined.sort((a, b) => b.log - a.log);
  const best = refined[0]?.log ?? top;
  const elseLog = somethingElseLog(model, root);
  const scale = Math.max(best, elseLog);
  const weights = refined.map(({ log }) => Math.exp(log - scale));
  const elseWeight = Math.exp(elseLog - scale);
  const restWeight = others.reduce((sum, { log }) => sum + Math.exp(log - scale), 0);
  const total = weights.reduce((a, b) => a + b, 0) + elseWeight + restWeight;
  let rest = restWeight / total;
  const hypotheses: Hypothesis[] = [];
  refined.forEach((entry, i) => {
    const weight = (weights[i] as number) / total;
    if (weight < NAMED && i > 0) rest += weight;
    else hypotheses.push(hypothesisOf(model, entry, weight));
  });
  const { record, document, unknowns } = model;
  const suspects = suspectsOf([
    ...refined.map(({ node }, i) => ({ taken: node.taken, weight: (weights[i] as number) / total })),
    ...others.map(({ taken, log }) => ({ taken, weight: Math.exp(log - scale) / total })),
  ]);
  return {
    record,
    unknowns,
    hypotheses,
    rest,
    somethingElse: elseWeight / total,
    suspects,
    unseen: unseen.flatMap((fault) => fault.path ?? fault.assignments.map(({ path }) => path)),
    sampler: (seed) => samplerOf(hypotheses, seed),
    asFound: ({ hypothesis, values }) => machineAsFound(record, unknowns, hypothesis.settings, values),
    now: ({ hypothesis, values }) => machineNow(machineAsFound(record, unknowns, hypothesis.settings, values), document),
    meanNow: (hypothesis) => machineNow(machineAsFound(record, unknowns, hypothesis.settings, hypothesis.mean), document),
  };
}

function suspectsOf(all: readonly { taken: readonly FaultTaken[]; weight: number }[]): Suspect[] {
  const byKey = new Map<string, Suspect>();
  for (const { taken, weight } of all) {
    for (const { fault } of taken) {
      const known = byKey.get(fault.key);
      if (known) known.probability += weight;
      else {
        const suspect: Suspect = {
          kind: fault.kind,
          paths: fault.path === undefined ? fault.assignments.map(({ path }) => path) : [fault.path],
          probability: weight,
        };
        if (fault.path === undefined) suspect.machine = fault.assignments.map(({ value }) => value);
        byKey.set(fault.key, suspect);
      }
    }
  }
  return [...byKey.values()].sort((a, b) => b.probability - a.probability);
}

function hypothesisOf(model: Model, { node, log, logLikelihood, chi2 }: Refined, weight: number): Hypothesis {
  const { record, unknowns, n } = model;
  const settings = node.taken.flatMap(({ fault }) => fault.singles);
  const base = machineAsFound(record, [], settings, new Float64Array(0));
  const { deviation, covariance, active } = fitWhole(model, node);
  const mean = Float64Array.from(
    unknowns,
    ({ path, document }, k) => (document === 'rig' ? (valueAt(base, path) as number) : 0) + (deviation[k] as number),
  );
  const a = active.length;
  const sdOf = (k: number): number => {
    const j = active.indexOf(k);
    return j < 0 ? 0 : Math.sqrt(covariance[j * a + j] as number);
  };
  const changes = node.taken.flatMap(({ fault }): CauseChange[] => {
    if (fault.path === undefined) {
      return fault.assignments.map(({ path, value }) => {
        // a list has the unit of its entries
        const unit = unitAt(Array.isArray(value) ? `${path}/0` : path);
        return { path, record: valueAt(record, path), machine: value, sd: 0, unit };
      });
    }
    const k = model.placeOf.get(fault.path) as number;
    return [{ path: fault.path, record: valueAt(record, fault.path), machine: mean[k], sd: sdOf(k), unit: unitAt(fault.path) }];
  });
  const lower = Float64Array.from(covariance);
  factorCholesky(lower, a);
  const factor = new Float64Array(n * n);
  active.forEach((k, i) => {
    active.forEach((l, j) => {
      // `active` rises, so that the factor stays a lower triangle when spread out.
      if (j <= i) factor[k * n + l] = lower[i * a + j] as number;
    });
  });
  const wild = new Float64Array(model.document.readings.length);
  model.rows.forEach(({ item }, i) => {
    const odds = node.wildOdds[i] as number;
    wild[item] = odds / (1 + odds);
  });
  return {
    changes,
    key: node.taken
      .map(({ fault }) => fault.key)
      .sort()
      .join(' + '),
    weight,
    logEvidence: log,
    logLikelihood,
    chi2,
    readings: node.wild.reduce((sum, wildOne) => sum - wildOne, model.m),
    settings,
    mean,
    factor,
    wild,
  };
}

/** Standard deviations, degrees or mm, by which a machine that nobody thought of may miss the record's readings. No source. */
const ELSE_SD = [1, 2, 4, 8];

/** log of prior times evidence of 'something else': each reading anywhere about what the record gives. */
function somethingElseLog(model: Model, root: Node): number {
  const { priors, rows, m } = model;
  const { h } = root;
  if (m === 0) return Number.NEGATIVE_INFINITY;
  const logs = ELSE_SD.map((sd) =>
    rows.reduce(
      (sum, { value, variance }, i) => {
        const d = value - (h[i] as number);
        return sum + logNormal(d === d ? d : sd, variance + sd * sd);
      },
      Math.log(priors.somethingElse / ELSE_SD.length),
    ),
  );
  const most = Math.max(...logs);
  return most + Math.log(logs.reduce((sum, log) => sum + Math.exp(log - most), 0));
}

function samplerOf(hypotheses: readonly Hypothesis[], seed: number): () => Draw {
  const draws = seededDraws(seed);
  const total = hypotheses.reduce((sum, { weight }) => sum + weight, 0);
  return () => {
    let left = draws.uniform() * total;
    let hypothesis = hypotheses[0] as Hypothesis;
    for (hypothesis of hypotheses) {
      left -= hypothesis.weight;
      if (left < 0) break;
    }
    const n = hypothesis.mean.length;
    const z = Float64Array.from({ length: n }, () => draws.normal());
    const values = Float64Array.from(hypothesis.mean);
    for (let i = 0; i < n; i++) {
      let s = 0;
      for (let j = 0; j <= i; j++) s += (hypothesis.factor[i * n + j] as number) * (z[j] as number);
      values[i] = (values[i] as number) + s;
    }
    return { hypothesis, values };
  };
}
