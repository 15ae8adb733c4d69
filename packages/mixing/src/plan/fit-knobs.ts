/**
 * A first guess at what to turn: the few knobs that together bring one machine's errors near nothing.
 *
 *   minimise sum_k ((e_k + sum_j J_kj a_j) / width_k)^2 + HOLD sum_j (a_j / reach_j)^2,   a in steps
 *
 * then the knob that is missed least is left out, again and again, while leaving it out costs less than turning it does.
 */
import { factorCholesky, inverseFromCholesky, solveLower, solveUpper } from '../numerics/cholesky.ts';

/** Keeps knobs that do the same from running against one another. */
const HOLD = 0.01;
/** What one turning must save, in squares of widths: a seventh of what is near enough, squared. No source. */
const WORTH = 0.02;

export interface FitProblem {
  /** errors of the machine at hand, quantity by quantity */
  errors: Float64Array;
  /** knob by knob: change of each quantity a step */
  slopes: readonly Float64Array[];
  widths: Float64Array;
  reach: readonly number[];
  costs: readonly number[];
}

/** Steps of each knob, not yet whole; 0 where it is left alone. */
export function fitKnobs(problem: FitProblem): Float64Array {
  const m = problem.slopes.length;
  const normal = normalOf(problem);
  let kept = Array.from({ length: m }, (_, j) => j);
  let best = solve(normal, kept, m);
  while (kept.length > 0) {
    let leanest: { out: number; loss: number } | undefined;
    for (const [row, out] of kept.entries()) {
      // Without knob j the squares are more by a_j^2 / (A^-1)_jj, A the normal matrix of those kept.
      const loss = (best.steps[out] as number) ** 2 / (best.spread[row] as number) / (problem.costs[out] as number);
      if (leanest === undefined || loss < leanest.loss) leanest = { out, loss };
    }
    if (leanest === undefined || leanest.loss > WORTH) break;
    const { out } = leanest;
    kept = kept.filter((j) => j !== out);
    best = solve(normal, kept, m);
  }
  return best.steps;
}

interface Fit {
  /** of all knobs, 0 for those left out */
  steps: Float64Array;
  /** the inverse normal matrix's diagonal, of those kept */
  spread: Float64Array;
}

interface Normal {
  matrix: Float64Array;
  right: Float64Array;
}

function normalOf({ errors, slopes, widths, reach }: FitProblem): Normal {
  const m = slopes.length;
  const matrix = new Float64Array(m * m);
  const right = new Float64Array(m);
  for (let k = 0; k < errors.length; k++) {
    const weight = 1 / ((widths[k] as number) * (widths[k] as number));
    const e = errors[k] as number;
    // out of reach as yet: the fit brings within reach what it can
    if (e !== e) continue;
    for (let i = 0; i < m; i++) {
      const slope = (slopes[i] as Float64Array)[k] as number;
      if (slope === 0) continue;
      right[i] = (right[i] as number) - weight * slope * e;
      for (let j = 0; j <= i; j++)
        matrix[i * m + j] = (matrix[i * m + j] as number) + weight * slope * ((slopes[j] as Float64Array)[k] as number);
    }
  }
  for (let i = 0; i < m; i++) matrix[i * m + i] = (matrix[i * m + i] as number) + HOLD / (reach[i] as number) ** 2;
  return { matrix, right };
}

function solve({ matrix, right }: Normal, kept: readonly number[], m: number): Fit {
  const n = kept.length;
  const steps = new Float64Array(m);
  const spread = new Float64Array(n).fill(1);
  const a = new Float64Array(n * n);
  const x = new Float64Array(n);
  kept.forEach((i, row) => {
    x[row] = right[i] as number;
    kept.forEach((j, column) => {
      if (column <= row) a[row * n + column] = matrix[i * m + j] as number;
    });
  });
  if (!factorCholesky(a, n)) return { steps, spread };
  solveLower(a, n, x);
  solveUpper(a, n, x);
  const inverse = new Float64Array(n * n);
  inverseFromCholesky(a, n, inverse);
  kept.forEach((i, row) => {
    steps[i] = x[row] as number;
    spread[row] = inverse[row * n + row] as number;
  });
  return { steps, spread };
}
