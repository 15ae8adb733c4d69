/**
 * The pose that comes nearest where none closes: the least squares of a few residuals over a few unknowns, by Newton on the sum's gradient,
 * damped until the sum falls (Levenberg, Q. Appl. Math. 2, 1944, 164-168). The second derivatives are kept whole, from
 * differences of the gradient: Gauss-Newton, which drops their curved part, creeps where the misfit is millimetres, and left 0.7 mm in a washout.
 * Only failing cases come here, so it is written to be read; no matrix library, since a stage reaches none.
 */

/** Fills residuals r (m) and their derivatives J (m x n, row-major) at x (n); false where x is out of bounds. */
export type Residuals = (x: Float64Array, r: Float64Array, jacobian: Float64Array) => boolean;

export interface NearestPose {
  x: Float64Array;
  residuals: Float64Array;
}

/** Solves A x = b for a small dense A (n x n, row-major), by elimination with row exchange; false where singular. */
export function solveSmall(a: Float64Array, b: Float64Array, n: number): boolean {
  for (let k = 0; k < n; k++) {
    let pivot = k;
    for (let i = k + 1; i < n; i++) if (Math.abs(a[i * n + k] as number) > Math.abs(a[pivot * n + k] as number)) pivot = i;
    if (!(Math.abs(a[pivot * n + k] as number) > 0)) return false;
    if (pivot !== k) {
      for (let j = 0; j < n; j++) {
        const swap = a[k * n + j] as number;
        a[k * n + j] = a[pivot * n + j] as number;
        a[pivot * n + j] = swap;
      }
      const swap = b[k] as number;
      b[k] = b[pivot] as number;
      b[pivot] = swap;
    }
    for (let i = k + 1; i < n; i++) {
      const factor = (a[i * n + k] as number) / (a[k * n + k] as number);
      for (let j = k; j < n; j++) a[i * n + j] = (a[i * n + j] as number) - factor * (a[k * n + j] as number);
      b[i] = (b[i] as number) - factor * (b[k] as number);
    }
  }
  for (let k = n - 1; k >= 0; k--) {
    let sum = b[k] as number;
    for (let j = k + 1; j < n; j++) sum -= (a[k * n + j] as number) * (b[j] as number);
    b[k] = sum / (a[k * n + k] as number);
  }
  return true;
}

export function nearestPose(residualsOf: Residuals, start: Float64Array, m: number): NearestPose {
  const n = start.length;
  const x = Float64Array.from(start);
  const r = new Float64Array(m);
  const jacobian = new Float64Array(m * n);
  const trial = new Float64Array(n);
  const gradient = new Float64Array(n);
  const aside = new Float64Array(n);
  const hessian = new Float64Array(n * n);
  const damped = new Float64Array(n * n);
  const step = new Float64Array(n);
  /** Half the sum of squares at `at`, its gradient in `out`; infinite out of bounds. */
  const costAt = (at: Float64Array, out: Float64Array): number => {
    if (!residualsOf(at, r, jacobian)) return Number.POSITIVE_INFINITY;
    for (let i = 0; i < n; i++) {
      let sum = 0;
      for (let k = 0; k < m; k++) sum += (jacobian[k * n + i] as number) * (r[k] as number);
      out[i] = sum;
    }
    return dot(r);
  };
  let cost = costAt(x, gradient);
  let damping = 1e-2;
  for (let round = 0; round < 200 && damping < 1e12; round++) {
    let trace = 0;
    for (let j = 0; j < n; j++) {
      trial.set(x);
      trial[j] = (x[j] as number) + DIFFERENCE;
      costAt(trial, step);
      trial[j] = (x[j] as number) - DIFFERENCE;
      costAt(trial, aside);
      for (let i = 0; i < n; i++) hessian[i * n + j] = ((step[i] as number) - (aside[i] as number)) / (2 * DIFFERENCE);
      trace += Math.abs(hessian[j * n + j] as number);
    }
    let moved = 0;
    for (; damping < 1e12; damping = Math.max(10 * damping, 1e-9)) {
      for (let i = 0; i < n; i++) {
        for (let j = 0; j < n; j++) damped[i * n + j] = ((hessian[i * n + j] as number) + (hessian[j * n + i] as number)) / 2;
        damped[i * n + i] = (damped[i * n + i] as number) + damping * trace;
        step[i] = -(gradient[i] as number);
      }
      if (!solveSmall(damped, step, n)) continue;
      for (let i = 0; i < n; i++) trial[i] = (x[i] as number) + (step[i] as number);
      const costTrial = costAt(trial, aside);
      if (!(costTrial < cost)) continue;
      for (let i = 0; i < n; i++) moved = Math.max(moved, Math.abs(step[i] as number));
      x.set(trial);
      gradient.set(aside);
      cost = costTrial;
      damping = damping < 1e-9 ? 0 : damping / 8;
      break;
    }
    if (moved < 1e-11) break;
  }
  residualsOf(x, r, jacobian);
  return { x, residuals: r };
}

/** mm or rad: differences of the gradient are then good to 1e-8, which only slows the last rounds. */
const DIFFERENCE = 1e-5;

function dot(r: Float64Array): number {
  let sum = 0;
  for (let k = 0; k < r.length; k++) sum += (r[k] as number) * (r[k] as number);
  return sum;
}
