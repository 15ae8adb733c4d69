/**
 * Nonlinear least squares: Levenberg and Marquardt's step between Gauss-Newton and steepest descent.
 *
 *   minimise  sum_i r_i(x)^2         step: (J'J + lambda D) dx = -J'r,   D the diagonal of J'J
 *
 * Residuals come already divided by their standard deviations. A Gaussian prior is so many more residuals,
 * (x_j - mean_j)/sd_j: give it as `prior`, which adds them without a row each. The answer's `information` is J'J (with the
 * prior), whose inverse is the covariance; where the sd of the observations is not known it is scaled by squares / dof.
 */
import { factorCholesky, inverseFromCholesky, solveLower, solveUpper } from './cholesky.ts';

export interface NonlinearProblem {
  /** number of residuals */
  rows: number;
  /** number of values sought */
  columns: number;
  /** Writes residuals (rows) and their derivatives (rows x columns, row-major); false where x has none. */
  evaluate(x: Float64Array, residuals: Float64Array, jacobian: Float64Array): boolean;
  /** independent normal priors: mean and 1/sd (0: none) of each value */
  prior?: { mean: Float64Array; inverseSd: Float64Array };
}

export interface NonlinearFit {
  status: 'settled' | 'stalled' | 'out-of-range';
  values: Float64Array;
  /** sum of squares of the residuals, and of those of the prior */
  squares: number;
  priorSquares: number;
  residuals: Float64Array;
  jacobian: Float64Array;
  /** the factor L of J'J + prior, L L', row-major */
  informationFactor: Float64Array;
  iterations: number;
}

export interface FitOptions {
  /** a step smaller than this part of a value's own standard deviation ends the fit (default 1e-9) */
  tolerance?: number;
  most?: number;
}

export function fitNonlinear(problem: NonlinearProblem, start: ArrayLike<number>, options: FitOptions = {}): NonlinearFit {
  const { rows: m, columns: n, prior } = problem;
  const { tolerance = 1e-9, most = 500 } = options;
  let x = Float64Array.from(start);
  let trial = new Float64Array(n);
  let r = new Float64Array(m);
  let j = new Float64Array(m * n);
  let trialR = new Float64Array(m);
  let trialJ = new Float64Array(m * n);
  const normal = new Float64Array(n * n);
  const damped = new Float64Array(n * n);
  const gradient = new Float64Array(n);
  const step = new Float64Array(n);
  const priorSquares = (at: Float64Array): number => {
    if (!prior) return 0;
    let sum = 0;
    for (let k = 0; k < n; k++) {
      const d = ((at[k] as number) - (prior.mean[k] as number)) * (prior.inverseSd[k] as number);
      sum += d * d;
    }
    return sum;
  };
  const done = (status: NonlinearFit['status'], iterations: number): NonlinearFit => {
    normalEquations(j, r, m, n, normal, gradient, prior, x);
    const factor = Float64Array.from(normal);
    factorScaled(factor, n);
    return {
      status,
      values: x,
      squares: squaresOf(r),
      priorSquares: priorSquares(x),
      residuals: r,
      jacobian: j,
      informationFactor: factor,
      iterations,
    };
  };
  if (!problem.evaluate(x, r, j)) return done('out-of-range', 0);
  let cost = squaresOf(r) + priorSquares(x);
  let lambda = 1e-4;
  let lowered = 0;
  for (let iteration = 1; iteration <= most; iteration++) {
    normalEquations(j, r, m, n, normal, gradient, prior, x);
    for (;;) {
      damped.set(normal);
      for (let k = 0; k < n; k++) damped[k * n + k] = (normal[k * n + k] as number) * (1 + lambda) + 1e-300;
      for (let k = 0; k < n; k++) step[k] = -(gradient[k] as number);
      if (factorScaled(damped, n)) {
        solveLower(damped, n, step);
        solveUpper(damped, n, step);
        let size = 0;
        for (let k = 0; k < n; k++) {
          trial[k] = (x[k] as number) + (step[k] as number);
          size = Math.max(size, Math.abs(step[k] as number) * Math.sqrt(normal[k * n + k] as number));
        }
        // At noise level the sum of squares can no longer say better from worse: take the step and be done.
        const noise = 1e-13 * cost;
        const last = size < tolerance * Math.max(1, Math.sqrt(cost));
        if (problem.evaluate(trial, trialR, trialJ)) {
          const trialCost = squaresOf(trialR) + priorSquares(trial);
          if (trialCost <= cost + (last ? noise : 0)) {
            lowered = cost - trialCost;
            [x, trial] = [trial, x];
            [r, trialR] = [trialR, r];
            [j, trialJ] = [trialJ, j];
            cost = trialCost;
            lambda = lambda > 1e-14 ? lambda / 10 : 0;
            if (last && lowered <= noise) return done('settled', iteration);
            break;
          }
        }
        if (last) return done('settled', iteration);
      }
      lambda = lambda === 0 ? 1e-10 : lambda * 10;
      if (lambda > 1e20) return done('stalled', iteration);
    }
  }
  return done('stalled', most);
}

/** The covariance (n x n) of a fit; `scale` is squares / dof where the observations' own sd was not known. */
export function covarianceOf(fit: NonlinearFit, scale = 1): Float64Array {
  const n = fit.values.length;
  const out = new Float64Array(n * n);
  inverseFromCholesky(fit.informationFactor, n, out);
  for (let i = 0; i < n * n; i++) out[i] = (out[i] as number) * scale;
  return out;
}

function squaresOf(r: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < r.length; i++) sum += (r[i] as number) * (r[i] as number);
  return sum;
}

function normalEquations(
  j: Float64Array,
  r: Float64Array,
  m: number,
  n: number,
  normal: Float64Array,
  gradient: Float64Array,
  prior: NonlinearProblem['prior'],
  x: Float64Array,
): void {
  normal.fill(0);
  gradient.fill(0);
  for (let i = 0; i < m; i++) {
    const row = i * n;
    const ri = r[i] as number;
    for (let a = 0; a < n; a++) {
      const ja = j[row + a] as number;
      if (ja === 0) continue;
      gradient[a] = (gradient[a] as number) + ja * ri;
      for (let b = 0; b <= a; b++) normal[a * n + b] = (normal[a * n + b] as number) + ja * (j[row + b] as number);
    }
  }
  if (!prior) return;
  for (let k = 0; k < n; k++) {
    const w = (prior.inverseSd[k] as number) ** 2;
    normal[k * n + k] = (normal[k * n + k] as number) + w;
    gradient[k] = (gradient[k] as number) + w * ((x[k] as number) - (prior.mean[k] as number));
  }
}

/**
 * Cholesky with rows and columns brought to a unit diagonal first: values as unlike as 1e3 and 1e-8 then cost no digits
 * beyond those of their correlation. `a` becomes the factor of the unscaled matrix.
 */
function factorScaled(a: Float64Array, n: number): boolean {
  const scale = new Float64Array(n);
  for (let i = 0; i < n; i++) scale[i] = Math.sqrt(a[i * n + i] as number);
  for (let i = 0; i < n; i++) {
    for (let k = 0; k <= i; k++) a[i * n + k] = (a[i * n + k] as number) / ((scale[i] as number) * (scale[k] as number));
  }
  const factored = factorCholesky(a, n);
  for (let i = 0; i < n; i++) for (let k = 0; k <= i; k++) a[i * n + k] = (a[i * n + k] as number) * (scale[i] as number);
  return factored;
}
