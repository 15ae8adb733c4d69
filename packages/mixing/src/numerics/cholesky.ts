/**
 * A = L L' of a symmetric positive definite matrix, over flat row-major arrays that are made once.
 *
 * The diagnosis factors some hundreds of 25 x 25 matrices a call; a matrix library's objects would cost more than the
 * arithmetic. Checked against ml-matrix in the tests. Only lower triangles are read and written.
 */

/**
 * Overwrites the lower triangle of `a` (n x n) with L. False where `a` is not positive definite to working precision,
 * and `a` is then half overwritten.
 */
export function factorCholesky(a: Float64Array, n: number): boolean {
  for (let j = 0; j < n; j++) {
    const row = j * n;
    let d = a[row + j] as number;
    for (let k = 0; k < j; k++) d -= (a[row + k] as number) * (a[row + k] as number);
    if (!(d > 0)) return false;
    const pivot = Math.sqrt(d);
    a[row + j] = pivot;
    const inverse = 1 / pivot;
    for (let i = j + 1; i < n; i++) {
      const other = i * n;
      let s = a[other + j] as number;
      for (let k = 0; k < j; k++) s -= (a[other + k] as number) * (a[row + k] as number);
      a[other + j] = s * inverse;
    }
  }
  return true;
}

/** Solves L x = b in place; `b` starts at `at`. */
export function solveLower(l: Float64Array, n: number, b: Float64Array, at = 0): void {
  for (let i = 0; i < n; i++) {
    let s = b[at + i] as number;
    for (let k = 0; k < i; k++) s -= (l[i * n + k] as number) * (b[at + k] as number);
    b[at + i] = s / (l[i * n + i] as number);
  }
}

/** Solves L' x = b in place; `b` starts at `at`. */
export function solveUpper(l: Float64Array, n: number, b: Float64Array, at = 0): void {
  for (let i = n - 1; i >= 0; i--) {
    let s = b[at + i] as number;
    for (let k = i + 1; k < n; k++) s -= (l[k * n + i] as number) * (b[at + k] as number);
    b[at + i] = s / (l[i * n + i] as number);
  }
}

/** The natural logarithm of det A, from its L. */
export function logDeterminant(l: Float64Array, n: number): number {
  let s = 0;
  for (let i = 0; i < n; i++) s += Math.log(l[i * n + i] as number);
  return 2 * s;
}

/** The whole inverse of A (n x n, both triangles) from its L, into `out`. */
export function inverseFromCholesky(l: Float64Array, n: number, out: Float64Array): void {
  // First L^-1 into the lower triangle of `out`, then its own transpose times itself.
  for (let j = 0; j < n; j++) {
    out[j * n + j] = 1 / (l[j * n + j] as number);
    for (let i = j + 1; i < n; i++) {
      let s = 0;
      for (let k = j; k < i; k++) s -= (l[i * n + k] as number) * (out[k * n + j] as number);
      out[i * n + j] = s / (l[i * n + i] as number);
    }
  }
  for (let i = 0; i < n; i++) {
    for (let j = 0; j <= i; j++) {
      let s = 0;
      for (let k = i; k < n; k++) s += (out[k * n + i] as number) * (out[k * n + j] as number);
      out[j * n + i] = s; // the upper triangle is not needed again: entry (i, j) of L^-1 is read as (k, i), k >= i
    }
  }
  for (let i = 0; i < n; i++) for (let j = 0; j < i; j++) out[i * n + j] = out[j * n + i] as number;
}
