/**
 * What is believed of a machine after its readings: a weighted list of hypotheses, each a set of exact settings and a
 * Gaussian over every value that scatters or may be off by any amount.
 *
 *   p(machine | readings) = sum over h of weight_h  N(values; mean_h, covariance_h),  settings as h says
 *
 * Values are the document's own (mm, degrees, microseconds, percent), so that a drawn machine is a rig document.
 */
import type { Rig } from '../rig/rig.ts';

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
  /** posterior probability; all hypotheses' and `somethingElse` together make 1 */
  weight: number;
  /** natural log of prior times evidence, up to a constant common to all hypotheses */
  logEvidence: number;
  /** best log-likelihood of the readings under it, the scatter's own density included */
  logLikelihood: number;
  /** weighted squares of all residuals, readings and scatter, at the best fit */
  chi2: number;
  /** exact values that differ from the record, as found: teeth, leads, signs, holes */
  settings: readonly { path: string; value: unknown }[];
  /** mean of the values at `Posterior.unknowns`, as found, in document units */
  mean: Float64Array;
  /** lower triangle L, row-major n x n, with covariance = L L': mean + L z draws from it, z standard normal */
  factor: Float64Array;
  /** for each reading item (in their order) the chance that it is wild under this hypothesis */
  wild: Float64Array;
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
  /** weight of 'something else': a machine that none of the hypotheses describes */
  somethingElse: number;
  /** Draws a machine, `something else` left aside: the same seed gives the same machines in the same order. */
  sampler(seed: number): () => Draw;
  /** The drawn machine as it was found. A fresh rig, sharing nothing that is changed. */
  asFound(draw: Draw): Rig;
  /** The drawn machine as it stands now: as found, with every `adjusted` item of the readings made to it. */
  now(draw: Draw): Rig;
  /** The machine of a hypothesis at its mean, as it stands now. */
  meanNow(hypothesis: Hypothesis): Rig;
}
