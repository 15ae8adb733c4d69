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
    let i = j + 1;
    // Two rows at once: each number of row j that is fetched is used twice.
    for (; i + 1 < n; i += 2) {
      const first = i * n;
      const second = first + n;
      let s = a[first + j] as number;
      let t = a[second + j] as number;
      for (let k = 0; k < j; k++) {
        const l = a[row + k] as number;
        s -= (a[first + k] as number) * l;
        t -= (a[second + k] as number) * l;
      }
      a[first + j] = s * inverse;
      a[second + j] = t * inverse;
    }
    if (i < n) {
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
  // First L^-1 into the lower triangle of `out`, row by row, then its own transpose times itself.
  for (let i = 0; i < n; i++) {
    const row = i * n;
    const pivot = l[row + i] as number;
    for (let j = 0; j < i; j++) out[row + j] = 0;
    for (let k = 0; k < i; k++) {
      const f = l[row + k] as number;
      const above = k * n;
      for (let j = 0; j <= k; j++) out[row + j] = (out[row + j] as number) - f * (out[above + j] as number);
    }
    for (let j = 0; j < i; j++) out[row + j] = (out[row + j] as number) / pivot;
    out[row + i] = 1 / pivot;
  }
  for (let i = 0; i < n; i++) {
    let j = 0;
    // Two columns at once. The upper triangle is not needed again: entry (i, j) of L^-1 is read as (k, i), k >= i.
    for (; j < i; j += 2) {
      let s = 0;
      let t = 0;
      for (let k = i; k < n; k++) {
        const f = out[k * n + i] as number;
        s += f * (out[k * n + j] as number);
        t += f * (out[k * n + j + 1] as number);
      }
      out[j * n + i] = s;
      out[(j + 1) * n + i] = t;
    }
    if (j === i) {
      let s = 0;
      for (let k = i; k < n; k++) s += (out[k * n + i] as number) * (out[k * n + j] as number);
      out[j * n + i] = s;
    }
  }
  for (let i = 0; i < n; i++) for (let j = 0; j < i; j++) out[i * n + j] = out[j * n + i] as number;
}
