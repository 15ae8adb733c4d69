/**
 * The last word on a hypothesis: the priors of its sizes as they are, and its best fit by Levenberg and Marquardt over
 * all unknowns at once (Laplace's evidence follows from the same linearisation).
 */
import { covarianceOf, fitNonlinear } from '../numerics/fit-nonlinear.ts';
import type { Model } from './model.ts';
import { assess, branchMean, branchVariance, linearise, moveToBest, type Node } from './node.ts';
import { propagateExpectations, type Site, type SizePrior, sizePriorOf } from './size-prior.ts';

interface Sized {
  k: number;
  prior: SizePrior;
  site: Site;
}

export interface Refined {
  node: Node;
  /** log of prior times evidence */
  log: number;
  /** best log-likelihood of the readings over its sizes, scatter summed over */
  logLikelihood: number;
  /** weighted squares of readings and scatter at the best fit */
  chi2: number;
}

/** Brings a node's linearisation and evidence up to date with the sizes' own priors. */
export function refine(model: Model, node: Node): Refined {
  const sized = sizedOf(model, node);
  let scale = withOwnPriors(model, node, sized);
  if (sized.length > 0) {
    // The sizes' own priors move the best fit, where the readings are then linearised again.
    moveToBest(model, node);
    linearise(model, node, true);
    assess(model, node);
    scale = withOwnPriors(model, node, sized);
  }
  return {
    node,
    log: node.logPrior + node.logEvidence + scale,
    logLikelihood: bestLikelihood(model, node, sized),
    chi2: squaresAtBest(model, node, sized),
  };
}

function sizedOf(model: Model, node: Node): Sized[] {
  return node.taken.flatMap(({ fault, branch }): Sized[] => {
    if (!branch || fault.path === undefined) return [];
    const k = model.placeOf.get(fault.path) as number;
    const blur = model.scatter[k] as number;
    return [
      {
        k,
        prior: sizePriorOf(fault, branch, blur),
        site: { mean: branchMean(branch), variance: branchVariance(branch) + blur, log: 0 },
      },
    ];
  });
}

/** Puts the sizes' sites in place of their stand-in priors, and gives the log of their factors. */
function withOwnPriors(model: Model, node: Node, sized: Sized[]): number {
  if (sized.length === 0) return 0;
  const { m, n } = model;
  const s = sized.length;
  const mean = new Float64Array(s);
  const covariance = new Float64Array(s * s);
  sized.forEach(({ k }, a) => {
    const c = node.variance[k] as number;
    const weighted = new Float64Array(m);
    let move = 0;
    for (let i = 0; i < m; i++) {
      const slope = node.jacobian[i * n + k] as number;
      move += slope * (node.weighted[i] as number);
      for (let l = 0; l < m; l++) weighted[l] = (weighted[l] as number) + slope * (node.precision[i * m + l] as number);
    }
    mean[a] = (node.mean[k] as number) + c * move;
    sized.forEach((other, b) => {
      let sum = 0;
      for (let i = 0; i < m; i++) sum += (weighted[i] as number) * (node.jacobian[i * n + other.k] as number);
      covariance[a * s + b] = (a === b ? c : 0) - c * (node.variance[other.k] as number) * sum;
    });
  });
  const sites = propagateExpectations(
    sized.map(({ prior }) => prior),
    sized.map(({ site }) => site),
    mean,
    covariance,
  );
  let scale = 0;
  sized.forEach((entry, a) => {
    entry.site = sites[a] as Site;
    node.mean[entry.k] = entry.site.mean;
    node.variance[entry.k] = entry.site.variance;
    scale += entry.site.log;
  });
  assess(model, node);
  return scale;
}

/** The evidence at the best sizes instead of over all of them. */
function bestLikelihood(model: Model, node: Node, sized: readonly Sized[]): number {
  if (sized.length === 0) return node.logEvidence;
  const fixed: Node = { ...node, mean: Float64Array.from(node.mean), variance: Float64Array.from(node.variance) };
  fixed.precision = new Float64Array(node.precision.length);
  fixed.weighted = new Float64Array(node.weighted.length);
  fixed.noise = Float64Array.from(node.noise);
  fixed.wild = Uint8Array.from(node.wild);
  fixed.wildOdds = Float64Array.from(node.wildOdds);
  const best = Float64Array.from(node.deviation);
  moveToBest(model, { ...node, deviation: best });
  for (const { k } of sized) {
    fixed.mean[k] = best[k] as number;
    fixed.variance[k] = model.scatter[k] as number;
  }
  assess(model, fixed);
  return fixed.logEvidence;
}

/** Squares of readings and scatter at the linearised best fit; a size that is fitted counts for none. */
function squaresAtBest(model: Model, node: Node, sized: readonly Sized[]): number {
  const { m, n } = model;
  const best = Float64Array.from(node.deviation);
  moveToBest(model, { ...node, deviation: best });
  let sum = 0;
  for (let i = 0; i < m; i++) {
    if (node.wild[i]) continue;
    let residual = (model.rows[i] as { value: number }).value - (node.h[i] as number);
    for (let k = 0; k < n; k++)
      residual -= (node.jacobian[i * n + k] as number) * ((best[k] as number) - (node.deviation[k] as number));
    sum += (residual * residual) / (node.noise[i] as number);
  }
  for (let k = 0; k < n; k++) {
    const c = node.variance[k] as number;
    if (c > 0 && !sized.some((entry) => entry.k === k)) sum += ((best[k] as number) - (node.mean[k] as number)) ** 2 / c;
  }
  return sum;
}

export interface Fitted {
  deviation: Float64Array;
  /** covariance of the active unknowns, a x a, and their places */
  covariance: Float64Array;
  active: number[];
}

/** The whole fit over all unknowns of a refined node, with their covariance. */
export function fitWhole(model: Model, node: Node): Fitted {
  const { m, n } = model;
  const active: number[] = [];
  for (let k = 0; k < n; k++) if ((node.variance[k] as number) > 0) active.push(k);
  const a = active.length;
  const trial: Node = {
    ...node,
    deviation: Float64Array.from(node.deviation),
    h: new Float64Array(node.h.length),
    jacobian: new Float64Array(m * n),
  };
  const evaluate = (x: Float64Array, residuals: Float64Array, jacobian: Float64Array): boolean => {
    active.forEach((k, j) => {
      trial.deviation[k] = x[j] as number;
    });
    linearise(model, trial, true);
    for (let i = 0; i < m; i++) {
      const h = trial.h[i] as number;
      const perSd = h === h ? 1 / Math.sqrt(node.noise[i] as number) : 0;
      residuals[i] = h === h ? (h - (model.rows[i] as { value: number }).value) * perSd : 0;
      for (let j = 0; j < a; j++) jacobian[i * a + j] = (trial.jacobian[i * n + (active[j] as number)] as number) * perSd;
    }
    return true;
  };
  const prior = {
    mean: Float64Array.from(active, (k) => node.mean[k] as number),
    inverseSd: Float64Array.from(active, (k) => 1 / Math.sqrt(node.variance[k] as number)),
  };
  // A hundredth of a standard deviation is far below what any reading tells.
  const fit = fitNonlinear(
    { rows: m, columns: a, evaluate, prior },
    active.map((k) => node.deviation[k] as number),
    { tolerance: 0.01, most: 6 },
  );
  const deviation = Float64Array.from(node.deviation);
  active.forEach((k, j) => {
    deviation[k] = fit.values[j] as number;
  });
  return { deviation, covariance: covarianceOf(fit), active };
}
