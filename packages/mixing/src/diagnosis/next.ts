/**
 * What to read or look at next: expected information about which cause it is, weighed by effort.
 *
 *   gain = sum_c w_c  mean over y of p(y | c) of log2 ( p(y | c) / sum_b w_b p(y | b) )
 *
 * with p(y | c) normal: the reading foretold under the cause, spread by what is still unknown of the machine and by the
 * reading's own noise; for an exact setting, what one would see but for a mistake. Zero where all causes foretell alike.
 */
import { HERMITE_POINTS, HERMITE_WEIGHTS } from '../numerics/gauss-hermite.ts';
import { valueAt } from '../rig/changes.ts';
import type { Rig } from '../rig/rig.ts';
import { Bench } from './bench.ts';
import type { Next } from './diagnosis.ts';
import { type Offer, offersOf } from './next-places.ts';
import type { Hypothesis, Posterior } from './posterior.ts';
import { type Reading, type ReadingsDocument, USUAL_SD } from './readings.ts';
import { instrumentTerms, readingVariance, type Row, SEEN_SD } from './rows.ts';
import { nextSays } from './says.ts';
import type { Assignment } from './work-machine.ts';

/** What `next` needs of a fault: the values that it can change. */
export interface Faultlike {
  path?: string;
  singles: Assignment[];
}

/** Hypotheses that are told apart: those above this weight, and no more than so many. */
const LEAST_WEIGHT = 0.01;
const MOST_HYPOTHESES = 12;
const MOST_NEXT = 8;
/** Bits below which a reading is not worth its minutes. */
const LEAST_GAIN = 0.01;

export interface NextInput {
  posterior: Posterior;
  readings: ReadingsDocument;
  faults: readonly Faultlike[];
  mistaken: number;
}

export function nextOf({ posterior, readings, faults, mistaken }: NextInput): Next[] {
  const hypotheses = posterior.hypotheses.filter(({ weight }, i) => i < MOST_HYPOTHESES && weight >= LEAST_WEIGHT);
  if (hypotheses.length < 2) return [];
  const total = hypotheses.reduce((sum, { weight }) => sum + weight, 0);
  const weights = hypotheses.map(({ weight }) => weight / total);
  const causes = causePlaces(hypotheses);
  const offers = offersOf(posterior.record, readings, faults);
  const placed = offers.filter((offer) => offer.place !== undefined);
  const foretold = foretell(posterior, readings, hypotheses, placed);
  const out: Next[] = [];
  placed.forEach((offer, i) => {
    const gain = normalGain(
      weights,
      causes,
      foretold.map(({ mean }) => mean[i] as number),
      foretold.map(({ variance }) => variance[i] as number),
    );
    if (gain >= LEAST_GAIN)
      out.push({ reading: offer.place as Reading, gain, effort: offer.effort, says: nextSays(posterior.record, offer) });
  });
  const machines = hypotheses.map((hypothesis) => posterior.meanNow(hypothesis));
  for (const offer of offers) {
    if (offer.path === undefined) continue;
    const gain = lookGain(posterior, weights, causes, hypotheses, machines, offer.path, mistaken);
    if (gain >= LEAST_GAIN)
      out.push({ look: { path: offer.path }, gain, effort: offer.effort, says: nextSays(posterior.record, offer) });
  }
  return out.sort((a, b) => b.gain / b.effort - a.gain / a.effort).slice(0, MOST_NEXT);
}

/** Hypotheses of one cause (its branches) are one thing to know. */
function causePlaces(hypotheses: readonly Hypothesis[]): number[] {
  const keys = [...new Set(hypotheses.map(({ key }) => key))];
  return hypotheses.map(({ key }) => keys.indexOf(key));
}

/** Means and variances of readings that could be taken on the machine as it stands now, under each hypothesis. */
export function foretell(
  posterior: Pick<Posterior, 'record' | 'unknowns'>,
  readings: ReadingsDocument,
  hypotheses: readonly Hypothesis[],
  offers: readonly Offer[],
): { mean: Float64Array; variance: Float64Array }[] {
  const { record, unknowns } = posterior;
  const rows = offers.map(({ place }) => rowOf(record, readings, unknowns, { ...(place as Reading), value: 0, sd: NaN }));
  const bench = new Bench(record, readings, unknowns, rows);
  const n = unknowns.length;
  return hypotheses.map(({ settings, mean, factor }) => {
    const { work } = bench;
    work.restore();
    work.assign(settings);
    const zeros = new Float64Array(n);
    unknowns.forEach(({ path, document }, k) => {
      if (document === 'rig') work.set(work.slot(path), mean[k]);
      else zeros[k] = mean[k] as number;
    });
    const h = new Float64Array(rows.length);
    const jacobian = new Float64Array(rows.length * n);
    bench.evaluate(zeros, h, jacobian);
    const variance = Float64Array.from(rows, (row, i) => {
      let sum = row.variance;
      for (let l = 0; l < n; l++) {
        let s = 0;
        for (let k = l; k < n; k++) s += (jacobian[i * n + k] as number) * (factor[k * n + l] as number);
        sum += s * s;
      }
      return sum;
    });
    return { mean: h, variance };
  });
}

function rowOf(record: Rig, readings: ReadingsDocument, unknowns: Posterior['unknowns'], reading: Reading): Row {
  const instrument = reading.instrument === undefined ? undefined : readings.instruments[reading.instrument];
  const variance = readingVariance(readings, { ...reading, sd: instrument?.sd ?? USUAL_SD[reading.measure] }, new Map());
  const zero =
    reading.instrument === undefined ? -1 : unknowns.findIndex(({ path }) => path === `/instruments/${reading.instrument}/zero`);
  return {
    item: -1,
    value: 0,
    variance,
    wildVariance: variance,
    zero,
    ...instrumentTerms(record, readings, reading),
    what: reading,
  };
}

/** Bits that a normal reading tells of which cause it is. */
export function normalGain(
  weights: readonly number[],
  causes: readonly number[],
  means: readonly number[],
  variances: readonly number[],
): number {
  let gain = 0;
  const count = weights.length;
  // A reading that some machine cannot give would tell, but it jams the machine that is there: not offered.
  if (means.some((mean) => !Number.isFinite(mean))) return 0;
  for (let i = 0; i < count; i++) {
    const sd = Math.sqrt(variances[i] as number);
    HERMITE_POINTS.forEach((x, q) => {
      const y = (means[i] as number) + sd * x;
      let own = 0;
      let ownWeight = 0;
      let all = 0;
      for (let j = 0; j < count; j++) {
        const v = variances[j] as number;
        const d = y - (means[j] as number);
        const density = ((weights[j] as number) * Math.exp((-0.5 * d * d) / v)) / Math.sqrt(v);
        all += density;
        if (causes[j] === causes[i]) {
          own += density;
          ownWeight += weights[j] as number;
        }
      }
      gain += (weights[i] as number) * (HERMITE_WEIGHTS[q] as number) * Math.log2(own / ownWeight / all);
    });
  }
  return Math.max(0, gain);
}

function lookGain(
  posterior: Posterior,
  weights: readonly number[],
  causes: readonly number[],
  hypotheses: readonly Hypothesis[],
  machines: readonly Rig[],
  path: string,
  mistaken: number,
): number {
  const values = machines.map((machine) => valueAt(machine, path));
  const k = posterior.unknowns.findIndex((unknown) => unknown.path === path);
  if (k >= 0 && values.every((value) => typeof value === 'number')) {
    const own = (SEEN_SD[posterior.unknowns[k]?.unit ?? ''] ?? 0.1) ** 2;
    const variances = hypotheses.map(({ factor, mean }) => {
      let sum = own;
      for (let l = 0; l <= k; l++) sum += (factor[k * mean.length + l] as number) ** 2;
      return sum;
    });
    return (1 - mistaken) * normalGain(weights, causes, values as number[], variances);
  }
  return exactGain(
    weights,
    causes,
    values.map((value) => JSON.stringify(value)),
    mistaken,
  );
}

/** Bits that a look at an exact setting tells, one look in so many being mistaken. */
export function exactGain(
  weights: readonly number[],
  causes: readonly number[],
  values: readonly string[],
  mistaken: number,
): number {
  const kinds = [...new Set(values)];
  if (kinds.length < 2) return 0;
  const chance = (said: string, is: string) => (said === is ? 1 - mistaken : mistaken / (kinds.length - 1));
  let gain = 0;
  for (const said of kinds) {
    const all = weights.reduce((sum, w, j) => sum + w * chance(said, values[j] as string), 0);
    for (const cause of new Set(causes)) {
      let own = 0;
      let weight = 0;
      weights.forEach((w, j) => {
        if (causes[j] !== cause) return;
        own += w * chance(said, values[j] as string);
        weight += w;
      });
      if (own > 0) gain += own * Math.log2(own / weight / all);
    }
  }
  return Math.max(0, gain);
}
