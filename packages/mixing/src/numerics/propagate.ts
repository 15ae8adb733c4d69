/**
 * The spread of what is computed from values that scatter: covariance S = J C J' (JCGM 100:2008, 5.2.2, in matrix form).
 *
 * C comes as a factor, C = F F' (its standard deviations where the values are independent, else any square root such as
 * Cholesky's), so that S is a sum of squares and never loses its sign: S = (J F)(J F)'.
 */

/** S += G G' for G (m x n, row-major), into the lower triangle of S (m x m). */
export function addOuter(g: Float64Array, m: number, n: number, s: Float64Array): void {
  // Two rows by two columns at once: each number that is fetched is used twice.
  const even = m - (m % 2);
  for (let i = 0; i < even; i += 2) {
    const row = i * n;
    for (let j = 0; j <= i; j += 2) {
      const column = j * n;
      let s00 = 0;
      let s01 = 0;
      let s10 = 0;
      let s11 = 0;
      for (let k = 0; k < n; k++) {
        const a0 = g[row + k] as number;
        const a1 = g[row + n + k] as number;
        const b0 = g[column + k] as number;
        const b1 = g[column + n + k] as number;
        s00 += a0 * b0;
        s01 += a0 * b1;
        s10 += a1 * b0;
        s11 += a1 * b1;
      }
      const at = i * m + j;
      s[at] = (s[at] as number) + s00;
      if (j < i) s[at + 1] = (s[at + 1] as number) + s01;
      s[at + m] = (s[at + m] as number) + s10;
      s[at + m + 1] = (s[at + m + 1] as number) + s11;
    }
  }
  if (even === m) return;
  for (let j = 0; j < m; j++) {
    let sum = 0;
    for (let k = 0; k < n; k++) sum += (g[even * n + k] as number) * (g[j * n + k] as number);
    s[even * m + j] = (s[even * m + j] as number) + sum;
  }
}

/** G = J F with J (m x n) and lower triangular F (n x n), both row-major. */
export function timesLower(j: Float64Array, m: number, n: number, f: Float64Array): Float64Array {
  const g = new Float64Array(m * n);
  for (let i = 0; i < m; i++) {
    for (let k = 0; k < n; k++) {
      let sum = 0;
      for (let l = k; l < n; l++) sum += (j[i * n + l] as number) * (f[l * n + k] as number);
      g[i * n + k] = sum;
    }
  }
  return g;
}

/** Fills the upper triangle of a symmetric n x n matrix from its lower one. */
export function mirrorLower(a: Float64Array, n: number): void {
  for (let i = 0; i < n; i++) for (let j = 0; j < i; j++) a[j * n + i] = a[i * n + j] as number;
}
