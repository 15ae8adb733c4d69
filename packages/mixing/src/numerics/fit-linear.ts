/**
 * Weighted linear least squares with covariance, by QR of ml-matrix.
 *
 *   minimise sum_i weight_i (y_i - sum_j A_ij b_j)^2,   cov b = s^2 (A' W A)^-1,   s^2 = residual squares / (n - p)
 */
import { Matrix, QrDecomposition } from 'ml-matrix';

export interface LinearFit {
  values: number[];
  /** p x p, scaled by the residual variance */
  covariance: number[][];
  /** square root of the residual variance */
  residualSd: number;
  /** weighted squares of the residuals */
  squares: number;
  dof: number;
}

/** `design`: one row an observation. `weights`: 1 / variance of each, up to a common factor; 1 where left out. */
export function fitLinear(design: number[][], y: number[], weights?: number[]): LinearFit {
  const n = y.length;
  const p = design[0]?.length ?? 0;
  if (design.length !== n || n <= p) {
    throw new RangeError(
      `fitLinear: got ${design.length} rows for ${n} observations of ${p} values, expected more observations than values, one row each`,
    );
  }
  // Columns brought to length 1, or a column of years beside one of ones costs digits that QR would have kept.
  const root = y.map((_, i) => Math.sqrt(weights?.[i] ?? 1));
  const scale = Array.from(
    { length: p },
    (_, j) => 1 / Math.hypot(...design.map((row, i) => (row[j] as number) * (root[i] as number))),
  );
  const a = new Matrix(design.map((row, i) => row.map((v, j) => v * (root[i] as number) * (scale[j] as number))));
  const b = Matrix.columnVector(y.map((v, i) => v * (root[i] as number)));
  const qr = new QrDecomposition(a);
  // Columns have length 1: a pivot below 1e-12 leaves no digit that the data decide.
  if (qr.upperTriangularMatrix.diagonal().some((pivot) => !(Math.abs(pivot) > 1e-12))) {
    throw new RangeError('fitLinear: got columns that depend on one another, expected independent ones; leave one out');
  }
  const x = qr.solve(b);
  // One step of refinement on the residual of the first answer recovers what rounding in Q took.
  x.add(qr.solve(Matrix.sub(b, a.mmul(x))));
  const residual = Matrix.sub(b, a.mmul(x)).to1DArray();
  const squares = residual.reduce((sum, r) => sum + r * r, 0);
  const dof = n - p;
  const inverseR = invertUpper(qr.upperTriangularMatrix, p);
  const covariance = Array.from({ length: p }, (_, i) =>
    Array.from({ length: p }, (_, j) => {
      let sum = 0;
      for (let k = Math.max(i, j); k < p; k++) sum += (inverseR[i]?.[k] as number) * (inverseR[j]?.[k] as number);
      return (sum * (scale[i] as number) * (scale[j] as number) * squares) / dof;
    }),
  );
  return {
    values: x.to1DArray().map((v, j) => v * (scale[j] as number)),
    covariance,
    residualSd: Math.sqrt(squares / dof),
    squares,
    dof,
  };
}

function invertUpper(r: Matrix, p: number): number[][] {
  const out = Array.from({ length: p }, () => new Array<number>(p).fill(0));
  for (let j = 0; j < p; j++) {
    (out[j] as number[])[j] = 1 / r.get(j, j);
    for (let i = j - 1; i >= 0; i--) {
      let s = 0;
      for (let k = i + 1; k <= j; k++) s += r.get(i, k) * (out[k]?.[j] as number);
      (out[i] as number[])[j] = -s / r.get(i, i);
    }
  }
  return out;
}
