/**
 * What one more fault would do to a hypothesis that is worked out, without working it out again.
 *
 * Of a size b, spread w^2, along the derivatives j of the readings by its value:
 *
 *   r <- r - b j,   S <- S + w^2 j j'         (Sherman and Morrison)
 *   with a = j' S^-1 j,  t = j' S^-1 r - b a,  p = 1/w^2 + a:
 *   r' S^-1 r  <-  r' S^-1 r - 2 b j' S^-1 r + b^2 a - t^2 / p,     log |S| <- log |S| + log(1 + w^2 a)
 *
 * An exact one: its own readings h, held against the parent's S. Both sum over single wild readings as the parent does.
 */
import type { Branch } from './faults.ts';
import type { Model } from './model.ts';
import { branchMean, branchVariance, type Node } from './node.ts';

export interface Column {
  /** S^-1 j, and S^-1 of the move to the branch's middle less b j (none where the readings go straight there) */
  weighted: Float64Array;
  bent?: Float64Array;
  /** j' S^-1 j and j' S^-1 r */
  a: number;
  t: number;
  /** the same with the bend c: c' S^-1 c, c' S^-1 j, c' S^-1 r */
  cc: number;
  cj: number;
  cr: number;
}

/** What every extension of a node is reckoned from: worked out once a node. */
export interface Standing {
  /** J (d - mu): what the linearised readings owe to the deviations */
  linear: Float64Array;
  /** r' S^-1 r, wild readings widened */
  squares: number;
  /** log of what the single wild readings add */
  logWild: number;
}

export function standingOf(model: Model, node: Node): Standing {
  const { m, n } = model;
  const { jacobian, deviation, mean, weighted, h } = node;
  const linear = new Float64Array(m);
  let squares = 0;
  for (let i = 0; i < m; i++) {
    let sum = 0;
    for (let k = 0; k < n; k++) {
      const slope = jacobian[i * n + k] as number;
      if (slope !== 0) sum += slope * ((deviation[k] as number) - (mean[k] as number));
    }
    linear[i] = sum;
    const row = model.rows[i] as { value: number; wildVariance: number };
    const before = h[i] as number;
    const was = before === before ? row.value - before + sum : Math.sqrt(row.wildVariance) + sum;
    squares += was * (weighted[i] as number);
  }
  return { linear, squares, logWild: wildSum(node) };
}

/**
 * `bend`: by how much readings of the record's machine miss the straight line at the middle of the branch. The slope
 * there is then steeper by twice that over its size, as on a parabola.
 */
export function columnOf(model: Model, node: Node, k: number, bend?: Float64Array, branch?: Branch): Column {
  const { m, n } = model;
  const { jacobian, precision } = node;
  const b = branch ? branchMean(branch) : 0;
  const steeper = bend && b !== 0 ? 2 / b : 0;
  const j = scratch(m);
  for (let i = 0; i < m; i++) j[i] = (jacobian[i * n + k] as number) + (bend ? steeper * (bend[i] as number) : 0);
  const weighted = times(precision, m, j);
  const column: Column = { weighted, a: dot(j, weighted), t: dot(j, node.weighted), cc: 0, cj: 0, cr: 0 };
  if (bend) {
    // The middle is b j_0 + bend away, which is b j - bend with the slope j taken there.
    const c = j;
    for (let i = 0; i < m; i++) c[i] = -(bend[i] as number);
    column.bent = times(precision, m, c);
    column.cc = dot(c, column.bent);
    column.cj = dot(c, weighted);
    column.cr = dot(c, node.weighted);
  }
  return column;
}

/** A symmetric matrix times a vector. */
function times(matrix: Float64Array, m: number, v: Float64Array): Float64Array {
  const out = new Float64Array(m);
  for (let i = 0; i < m; i++) {
    const x = v[i] as number;
    if (x === 0) continue;
    const row = i * m;
    for (let l = 0; l < m; l++) out[l] = (out[l] as number) + x * (matrix[row + l] as number);
  }
  return out;
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += (a[i] as number) * (b[i] as number);
  return sum;
}

/** Change of the log evidence (rows alone) by a fault of a size. */
export function sizedGain(
  model: Model,
  node: Node,
  column: Column,
  branch: Branch,
  { logWild } = standingOf(model, node),
): number {
  const b = branchMean(branch);
  const w2 = branchVariance(branch);
  const { a, cc, cj, cr, bent } = column;
  // r moves by b j + c
  const t = column.t - b * a - cj;
  const p = 1 / w2 + a;
  const gain = b * column.t + cr - 0.5 * (b * b * a + 2 * b * cj + cc) + (0.5 * t * t) / p - 0.5 * Math.log(1 + w2 * a);
  const move = b + t / p;
  let sum = 0;
  for (let i = 0; i < model.m; i++) {
    const c = column.weighted[i] as number;
    const q = (node.weighted[i] as number) - move * c - (bent ? (bent[i] as number) : 0);
    const qii = (node.precision[i * model.m + i] as number) - (c * c) / p;
    sum += wildTerm(model, node, i, q, qii);
  }
  return gain + Math.log(1 + sum) - logWild;
}

/** Log evidence of an exact change whose readings are h, with the parent's S; the looks are the caller's. */
export function exactEvidence(
  model: Model,
  node: Node,
  h: Float64Array,
  { linear, squares, logWild } = standingOf(model, node),
): number {
  const { m, rows } = model;
  const { precision } = node;
  // Against the parent's own linearised readings at its prior mean, r holds y - h + J (d - mu).
  const r = scratch(m);
  for (let i = 0; i < m; i++) {
    const row = rows[i] as { value: number; variance: number };
    const now = h[i] as number;
    r[i] = now === now ? row.value - now + (linear[i] as number) : UNREACHED * Math.sqrt(row.variance);
  }
  let quad = 0;
  let sum = 0;
  for (let i = 0; i < m; i++) {
    const row = i * m;
    let q = 0;
    for (let j = 0; j < m; j++) q += (precision[row + j] as number) * (r[j] as number);
    quad += q * (r[i] as number);
    sum += wildTerm(model, node, i, q, precision[row + i] as number);
  }
  return node.logEvidence - node.logLooks - logWild - 0.5 * (quad - squares) + Math.log(1 + sum);
}

/** Standard deviations by which a reading counts as missed that the changed machine could not have given: as rare as a wild one. */
const UNREACHED = 4;

function wildTerm(model: Model, node: Node, i: number, q: number, qii: number): number {
  if (node.wild[i]) return 0;
  const row = model.rows[i] as { variance: number; wildVariance: number };
  const residual = q / qii;
  const sound = 1 / qii;
  const wild = sound - row.variance + row.wildVariance;
  // Most readings are sound: the logarithm is worked out only where the square alone could tip the odds.
  const half = 0.5 * residual * residual * (1 / sound - 1 / wild);
  if (half < 2) return 0;
  return Math.exp(Math.min(600, model.logWildOdds + 0.5 * Math.log(sound / wild) + half));
}

function wildSum(node: Node): number {
  let sum = 0;
  for (let i = 0; i < node.wildOdds.length; i++) if (!node.wild[i]) sum += node.wildOdds[i] as number;
  return Math.log(1 + sum);
}

let kept = new Float64Array(0);
function scratch(m: number): Float64Array {
  if (kept.length !== m) kept = new Float64Array(m);
  return kept;
}
