/**
 * One hypothesis worked out: the machine with these faults, linearised where it fits best.
 *
 *   shown = h(d) + noise,  noise ~ N(0, R),  deviations d ~ N(mu, C)       C diagonal: the scatter, and a fault's size
 *   r = y - h(d0) + J (d0 - mu),   S = R + J C J'                          linearised at d0
 *   log evidence = -1/2 (r' S^-1 r + log |S| + m log 2 pi)                 d <- mu + C J' S^-1 r is the next d0
 *
 * Wild readings: each may, by a small chance, be as good as unread (variance `wildVariance`). What the evidence would be
 * with reading i wild follows in closed form from S^-1 (leave one out: residual q_i / Q_ii, variance 1 / Q_ii), so that the
 * sum over all single wild readings costs nothing; one that is more likely wild than not is made so, and the rest again.
 */
import { factorCholesky, inverseFromCholesky, logDeterminant } from '../numerics/cholesky.ts';
import { LOG_2PI } from '../numerics/normal.ts';
import { addOuter, mirrorLower } from '../numerics/propagate.ts';
import type { Branch, Fault } from './faults.ts';
import type { Model } from './model.ts';

export interface FaultTaken {
  fault: Fault;
  /** which of its branches, for a fault of a size */
  branch?: Branch;
}

export interface Node {
  taken: FaultTaken[];
  /** prior of its faults, natural log */
  logPrior: number;
  /** prior of the deviations: mean and variance of each unknown */
  mean: Float64Array;
  variance: Float64Array;
  /** where it is linearised, and how many times it was */
  deviation: Float64Array;
  steps: number;
  h: Float64Array;
  jacobian: Float64Array;
  /** variance of each row, wild ones widened */
  noise: Float64Array;
  wild: Uint8Array;
  /** S^-1, and S^-1 r */
  precision: Float64Array;
  weighted: Float64Array;
  /** r' S^-1 r, before any reading is taken for wild */
  squares: number;
  /** log-likelihood of the looks */
  logLooks: number;
  /** log evidence of rows and looks, wild readings summed over; without the prior */
  logEvidence: number;
  /** odds of each row being wild against not, the others as they are */
  wildOdds: Float64Array;
}

/** log prior of a set of faults: how many there are, and the share of each; places in a set have no order. */
export function logPriorOf(model: Model, taken: readonly FaultTaken[]): number {
  return taken.reduce((sum, one) => sum + logShareOf(one), logCountOf(model, taken.length));
}

/** log prior of so many faults, in any order. */
export function logCountOf(model: Model, count: number): number {
  const { counts } = model.priors;
  const k = count as 0 | 1 | 2 | 3;
  const total = counts[0] + counts[1] + counts[2] + counts[3];
  return Math.log(counts[k] / total) + Math.log(k === 3 ? 6 : k === 2 ? 2 : 1);
}

/** What one fault adds to the log prior. */
export function logShareOf({ fault, branch }: FaultTaken): number {
  if (!branch) return Math.log(fault.share);
  // A branch holds that part of the sizes which it covers.
  const whole = fault.branches.reduce((width, { least, most }) => width + most - least, 0);
  return Math.log(fault.share) + Math.log((branch.most - branch.least) / whole);
}

export const branchMean = ({ least, most }: Branch): number => (least + most) / 2;
export const branchVariance = ({ least, most }: Branch): number => (most - least) ** 2 / 12;

/** Sets the working copy to the machine of these faults with these deviations. */
export function setMachine(model: Model, taken: readonly FaultTaken[], deviation: Float64Array): void {
  const { work, slots } = model.bench;
  work.restore();
  for (const { fault } of taken) work.assign(fault.singles);
  for (let k = 0; k < model.n; k++) {
    const d = deviation[k] as number;
    const slot = slots[k];
    if (d === 0 || slot === undefined) continue;
    work.set(slot, (slot.holder[slot.key] as number) + d);
  }
}

/** Reads, into `h`, the machine that `setMachine` set with this deviation, with one more exact fault in it for the while. */
export function readWith({ bench, placeOf }: Model, fault: Fault, deviation: Float64Array, h: Float64Array): void {
  const { work } = bench;
  const before = fault.singles.map(({ path }) => work.get(path));
  for (const { path, value } of fault.singles) {
    const k = placeOf.get(path);
    work.write(work.slot(path), k === undefined ? value : (value as number) + (deviation[k] as number));
  }
  bench.evaluate(deviation, h);
  fault.singles.forEach(({ path }, i) => work.write(work.slot(path), before[i]));
}

/** Squares a row, beyond which the best fit is not sought: six standard deviations of scatter and noise all over. */
const FAR_OFF = 6;

/**
 * Works a hypothesis out, linearising `steps` times from the middle of its priors; one whose log of prior times evidence
 * is below `worth` at the first is left at that.
 */
export function workOut(model: Model, taken: FaultTaken[], steps: number, worth = Number.NEGATIVE_INFINITY): Node {
  const { m, n, rows } = model;
  const node: Node = {
    taken,
    logPrior: logPriorOf(model, taken),
    mean: new Float64Array(n),
    variance: Float64Array.from(model.scatter),
    deviation: new Float64Array(n),
    steps: 0,
    h: new Float64Array(model.bench.size),
    jacobian: new Float64Array(m * n),
    noise: Float64Array.from(rows, ({ variance }) => variance),
    wild: new Uint8Array(m),
    precision: new Float64Array(m * m),
    weighted: new Float64Array(m),
    squares: 0,
    logLooks: 0,
    logEvidence: Number.NEGATIVE_INFINITY,
    wildOdds: new Float64Array(m),
  };
  for (const { fault, branch } of taken) {
    if (!branch || fault.path === undefined) continue;
    const k = model.placeOf.get(fault.path) as number;
    node.mean[k] = branchMean(branch);
    node.variance[k] = (node.variance[k] as number) + branchVariance(branch);
  }
  node.deviation.set(node.mean);
  for (let step = 1; step <= steps; step++) {
    // The second time the derivatives of the first still hold well enough to compare hypotheses; those that are likely are
    // linearised anew when they are refined. The record's own machine, from which all else is reckoned, is done in full.
    if (step > 1 && taken.length > 0) readAgain(model, node);
    // Three faults are not added to: what a fourth would move is not needed.
    else linearise(model, node, taken.length === 3);
    assess(model, node);
    node.steps = step;
    // A hypothesis that is far off stays at its priors: its best fit would be a machine stretched out of all proportion.
    if (node.squares > FAR_OFF * m || node.logPrior + node.logEvidence < worth) break;
    if (step < steps) moveToBest(model, node);
  }
  return node;
}

/** Reads the node's machine at its deviations, with derivatives: by all unknowns, or by those alone that it does not know. */
export function linearise(model: Model, node: Node, ownAlone = false): void {
  setMachine(model, node.taken, node.deviation);
  model.bench.evaluate(node.deviation, node.h, node.jacobian, ownAlone ? node.variance : undefined);
  node.logLooks = model.looks.score(node.h, model.bench);
  const { m, n } = model;
  for (let i = 0; i < m; i++) {
    for (let k = 0; k < n; k++) {
      // Where the machine cannot reach, or just reaches, a reading says nothing by its derivatives.
      if (!Number.isFinite(node.jacobian[i * n + k])) node.jacobian[i * n + k] = 0;
    }
  }
}

/** Reads the node's machine at its deviations and keeps the derivatives that it has. */
function readAgain(model: Model, node: Node): void {
  setMachine(model, node.taken, node.deviation);
  model.bench.evaluate(node.deviation, node.h);
  node.logLooks = model.looks.score(node.h, model.bench);
}

/** d <- mu + C J' S^-1 r: the best deviations of the linearised hypothesis. */
export function moveToBest(model: Model, node: Node): void {
  const { m, n } = model;
  for (let k = 0; k < n; k++) {
    const c = node.variance[k] as number;
    if (c === 0) continue;
    let s = 0;
    for (let i = 0; i < m; i++) s += (node.jacobian[i * n + k] as number) * (node.weighted[i] as number);
    node.deviation[k] = (node.mean[k] as number) + c * s;
  }
}

/** Evidence at the linearisation at hand, wild readings included. */
export function assess(model: Model, node: Node): void {
  const { m } = model;
  node.wild.fill(0);
  for (let i = 0; i < m; i++) node.noise[i] = (model.rows[i] as { variance: number }).variance;
  let base = gaussian(model, node);
  for (let wilds = 0; base > Number.NEGATIVE_INFINITY; wilds++) {
    let worst = -1;
    let sum = 0;
    for (let i = 0; i < m; i++) {
      const odds = wildOddsOf(model, node, i);
      node.wildOdds[i] = odds;
      if (node.wild[i]) sum += 1 / odds;
      else {
        sum += odds;
        if (worst < 0 || odds > (node.wildOdds[worst] as number)) worst = i;
      }
    }
    node.logEvidence = base + Math.log(1 + sum) + node.logLooks;
    // More than three wild readings in a set are no wild readings.
    if (worst < 0 || !((node.wildOdds[worst] as number) > 1) || wilds >= 3) return;
    base += makeWild(model, node, worst);
  }
  node.logEvidence = Number.NEGATIVE_INFINITY;
}

const NOTHING = 1e-300;

/** Odds of row i being wild, the others as they are: by leaving it out. */
function wildOddsOf(model: Model, node: Node, i: number): number {
  const row = model.rows[i] as { variance: number; wildVariance: number };
  const qii = node.precision[i * model.m + i] as number;
  const residual = (node.weighted[i] as number) / qii;
  const foretold = 1 / qii - (node.noise[i] as number);
  const sound = foretold + row.variance;
  const wild = foretold + row.wildVariance;
  const log = model.logWildOdds + 0.5 * (Math.log(sound / wild) + residual * residual * (1 / sound - 1 / wild));
  return Math.max(NOTHING, Math.exp(Math.min(600, log)));
}

/**
 * Widens row i by D: S^-1 <- S^-1 - s s' / (1/D + S^-1_ii), s its column i (Sherman and Morrison). Gives the change of the
 * log evidence.
 */
function makeWild(model: Model, node: Node, i: number): number {
  const { m } = model;
  const { precision, weighted } = node;
  const row = model.rows[i] as { variance: number; wildVariance: number };
  const widened = row.wildVariance - row.variance;
  const qii = precision[i * m + i] as number;
  const qi = weighted[i] as number;
  const divisor = 1 / widened + qii;
  const column = columnScratch(m);
  for (let j = 0; j < m; j++) column[j] = precision[j * m + i] as number;
  for (let j = 0; j < m; j++) {
    const share = (column[j] as number) / divisor;
    weighted[j] = (weighted[j] as number) - share * qi;
    for (let l = 0; l < m; l++) precision[j * m + l] = (precision[j * m + l] as number) - share * (column[l] as number);
  }
  node.wild[i] = 1;
  node.noise[i] = row.wildVariance;
  return model.logWildOdds + 0.5 * ((qi * qi) / divisor - Math.log(1 + widened * qii));
}

let scratchS = new Float64Array(0);
let scratchG = new Float64Array(0);
let scratchR = new Float64Array(0);
let scratchColumn = new Float64Array(0);

function columnScratch(m: number): Float64Array {
  if (scratchColumn.length !== m) scratchColumn = new Float64Array(m);
  return scratchColumn;
}

/** log N(r; 0, S), every reading sound but those that this machine cannot give, filling S^-1 and S^-1 r. */
function gaussian(model: Model, node: Node): number {
  const { m, n, rows } = model;
  if (scratchS.length !== m * m) {
    scratchS = new Float64Array(m * m);
    scratchR = new Float64Array(m);
  }
  const active: number[] = [];
  for (let k = 0; k < n; k++) if ((node.variance[k] as number) > 0) active.push(k);
  const a = active.length;
  if (scratchG.length < m * a) scratchG = new Float64Array(m * a);
  const g = scratchG;
  const s = scratchS;
  const r = scratchR;
  const spread = active.map((k) => Math.sqrt(node.variance[k] as number));
  const away = active.map((k) => (node.deviation[k] as number) - (node.mean[k] as number));
  let wilds = 0;
  s.fill(0);
  for (let i = 0; i < m; i++) {
    const row = rows[i] as { value: number; wildVariance: number };
    const h = node.h[i] as number;
    // Read where this machine could not be read: as far off as a wild reading is.
    let residual = row.value - h;
    if (h !== h) {
      residual = Math.sqrt(row.wildVariance);
      node.wild[i] = 1;
      node.noise[i] = row.wildVariance;
      wilds++;
    }
    for (let j = 0; j < a; j++) {
      const slope = node.jacobian[i * n + (active[j] as number)] as number;
      residual += slope * (away[j] as number);
      g[i * a + j] = slope * (spread[j] as number);
    }
    r[i] = residual;
    s[i * m + i] = node.noise[i] as number;
  }
  let logDet: number;
  if (m > 1.3 * a) logDet = precisionOfMany(g, m, a, node.noise, node.precision);
  else {
    addOuter(g, m, a, s);
    if (!factorCholesky(s, m)) return Number.NEGATIVE_INFINITY;
    logDet = logDeterminant(s, m);
    inverseFromCholesky(s, m, node.precision);
  }
  let quad = 0;
  for (let i = 0; i < m; i++) {
    let q = 0;
    for (let j = 0; j < m; j++) q += (node.precision[i * m + j] as number) * (r[j] as number);
    node.weighted[i] = q;
    quad += q * (r[i] as number);
  }
  node.squares = quad;
  return -0.5 * (quad + logDet + m * LOG_2PI) + wilds * model.logWildOdds + m * Math.log(1 - model.priors.wild.chance);
}

let scratchA = new Float64Array(0);
let scratchB = new Float64Array(0);

/**
 * S^-1 into `precision`, and log |S|, for S = R + G G' with many more readings than unknowns (several sets of readings):
 *
 *   A = I + G' R^-1 G = L L',   B = L^-1 G' R^-1,   S^-1 = R^-1 - B' B,   log |S| = log |A| + log |R|      (Woodbury)
 */
function precisionOfMany(g: Float64Array, m: number, a: number, noise: Float64Array, precision: Float64Array): number {
  if (scratchA.length < a * a) scratchA = new Float64Array(a * a);
  if (scratchB.length < a * m) scratchB = new Float64Array(a * m);
  const A = scratchA;
  const b = scratchB;
  A.fill(0);
  let logDet = 0;
  for (let i = 0; i < m; i++) {
    const weight = 1 / (noise[i] as number);
    logDet -= Math.log(weight);
    for (let j = 0; j < a; j++) {
      const w = weight * (g[i * a + j] as number);
      b[j * m + i] = w;
      if (w === 0) continue;
      for (let l = 0; l <= j; l++) A[j * a + l] = (A[j * a + l] as number) + w * (g[i * a + l] as number);
    }
  }
  for (let j = 0; j < a; j++) A[j * a + j] = (A[j * a + j] as number) + 1;
  // I + G' R^-1 G has no eigenvalue below 1: it always factors.
  factorCholesky(A, a);
  for (let j = 0; j < a; j++) {
    const inverse = 1 / (A[j * a + j] as number);
    for (let l = 0; l < j; l++) {
      const f = A[j * a + l] as number;
      if (f !== 0) for (let i = 0; i < m; i++) b[j * m + i] = (b[j * m + i] as number) - f * (b[l * m + i] as number);
    }
    for (let i = 0; i < m; i++) b[j * m + i] = (b[j * m + i] as number) * inverse;
  }
  precision.fill(0);
  for (let j = 0; j < a; j++) {
    for (let i = 0; i < m; i++) {
      const f = b[j * m + i] as number;
      if (f === 0) continue;
      const row = i * m;
      for (let l = 0; l <= i; l++) precision[row + l] = (precision[row + l] as number) - f * (b[j * m + l] as number);
    }
  }
  for (let i = 0; i < m; i++) precision[i * m + i] = (precision[i * m + i] as number) + 1 / (noise[i] as number);
  mirrorLower(precision, m);
  return logDet + logDeterminant(A, a);
}
