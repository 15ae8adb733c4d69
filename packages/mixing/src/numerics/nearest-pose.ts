/**
 * The pose that comes nearest where none closes: the least squares of a few residuals over a few unknowns, by damped
 * Gauss-Newton (Levenberg, Q. Appl. Math. 2, 1944, 164-168; Marquardt, J. SIAM 11, 1963, 431-441).
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
  const trial = new Float64Array(n);
  const r = new Float64Array(m);
  const rTrial = new Float64Array(m);
  const jacobian = new Float64Array(m * n);
  const jTrial = new Float64Array(m * n);
  const normal = new Float64Array(n * n);
  const step = new Float64Array(n);
  residualsOf(x, r, jacobian);
  let cost = dot(r);
  let damping = 1e-3;
  // 400 rounds: a badly singular pose (all links in one line) creeps; the usual one is done in twenty.
  for (let round = 0; round < 400 && damping < 1e12; round++) {
    for (let i = 0; i < n; i++) {
      let gradient = 0;
      for (let k = 0; k < m; k++) gradient -= (jacobian[k * n + i] as number) * (r[k] as number);
      step[i] = gradient;
      for (let j = 0; j < n; j++) {
        let sum = 0;
        for (let k = 0; k < m; k++) sum += (jacobian[k * n + i] as number) * (jacobian[k * n + j] as number);
        normal[i * n + j] = sum;
      }
    }
    for (let i = 0; i < n; i++) normal[i * n + i] = (normal[i * n + i] as number) * (1 + damping) + 1e-14;
    if (!solveSmall(normal, step, n)) {
      damping *= 10;
      continue;
    }
    let moved = 0;
    for (let i = 0; i < n; i++) {
      trial[i] = (x[i] as number) + (step[i] as number);
      moved = Math.max(moved, Math.abs(step[i] as number));
    }
    const inside = residualsOf(trial, rTrial, jTrial);
    const costTrial = inside ? dot(rTrial) : Number.POSITIVE_INFINITY;
    if (costTrial <= cost) {
      x.set(trial);
      r.set(rTrial);
      jacobian.set(jTrial);
      cost = costTrial;
      damping = Math.max(damping / 8, 1e-15);
      if (moved < 1e-12) break;
    } else damping *= 6;
  }
  return { x, residuals: r };
}

function dot(r: Float64Array): number {
  let sum = 0;
  for (let k = 0; k < r.length; k++) sum += (r[k] as number) * (r[k] as number);
  return sum;
}
