import { CholeskyDecomposition, inverse, Matrix } from 'ml-matrix';
import { describe, expect, it } from 'vitest';
import {
  factorCholesky,
  inverseFromCholesky,
  logDeterminant,
  solveLower,
  solveUpper,
} from '../../packages/mixing/src/numerics/cholesky.ts';
import { logNormal, meanOfEven, normalBelow } from '../../packages/mixing/src/numerics/normal.ts';
import { seededDraws } from '../../packages/mixing/src/numerics/random.ts';
import { expectNear } from '../support/expect-near.ts';
import { seededRandom } from '../support/random.ts';

function randomSpd(seed: number, n: number): Float64Array {
  const random = seededRandom(seed);
  const g = Matrix.zeros(n, n + 2);
  for (let i = 0; i < n; i++) for (let k = 0; k < n + 2; k++) g.set(i, k, random.between(-1, 1));
  return Float64Array.from(g.mmul(g.transpose()).to1DArray());
}

describe('Cholesky over flat arrays', () => {
  it('factors, solves, inverts and takes the determinant as ml-matrix does (seeds 1 to 8)', () => {
    for (let seed = 1; seed <= 8; seed++) {
      const n = 3 * seed;
      const a = randomSpd(seed, n);
      const whole = Matrix.from1DArray(n, n, [...a]);
      const l = Float64Array.from(a);
      expect(factorCholesky(l, n)).toBe(true);
      const theirs = new CholeskyDecomposition(whole).lowerTriangularMatrix;
      for (let i = 0; i < n; i++) for (let k = 0; k <= i; k++) expectNear(l[i * n + k], theirs.get(i, k), 1e-12, '');
      const b = Float64Array.from({ length: n }, (_, i) => Math.sin(i + seed));
      const x = Float64Array.from(b);
      solveLower(l, n, x);
      solveUpper(l, n, x);
      expectNear(whole.mmul(Matrix.columnVector([...x])).to1DArray(), [...b], 1e-10, '');
      const out = new Float64Array(n * n);
      inverseFromCholesky(l, n, out);
      expectNear([...out], inverse(whole).to1DArray(), 1e-8, '');
      expectNear(logDeterminant(l, n), 2 * Math.log(theirs.diagonal().reduce((p, d) => p * d, 1)), 1e-10, '');
    }
  });

  it('says so where the matrix is not positive definite', () => {
    expect(factorCholesky(Float64Array.of(1, 2, 2, 1), 2)).toBe(false);
    expect(factorCholesky(Float64Array.of(Number.NaN), 1)).toBe(false);
  });
});

describe('the normal distribution', () => {
  it('has the quantiles of every table (Abramowitz and Stegun, table 26.1, from memory)', () => {
    expectNear(normalBelow(0), 0.5, 1e-15, '');
    expectNear(normalBelow(1.959963984540054), 0.975, 1e-12, '');
    expectNear(normalBelow(-2.326347874040841), 0.01, 1e-12, '');
    expectNear(logNormal(0, 1), -0.918938533204673, 1e-14, '');
    expectNear(logNormal(3, 4), -0.918938533204673 - Math.log(2) - 9 / 8, 1e-14, '');
  });

  it('averages an even density over a normal value as a sum does', () => {
    let sum = 0;
    const step = 1e-3;
    for (let x = -8; x < 8; x += step) {
      const inside = x + 2 > 1 && x + 2 < 4.5;
      sum += inside ? (step * Math.exp(logNormal(x, 0.49))) / 3.5 : 0;
    }
    expectNear(meanOfEven(2, 0.49, 1, 4.5), sum, 5e-4, '');
    expectNear(meanOfEven(2.75, 1e-12, 1, 4.5), 1 / 3.5, 1e-12, '');
    expectNear(meanOfEven(9, 1e-12, 1, 4.5), 0, 1e-12, '');
  });
});

describe('seeded draws', () => {
  it('are the same for one seed, others for the next, and refuse half a seed', () => {
    const firsts = (seed: number) => {
      const draws = seededDraws(seed);
      return [draws.normal(), draws.uniform(), draws.normal(), draws.normal()];
    };
    expect(firsts(3)).toEqual(firsts(3));
    expect(firsts(4)).not.toEqual(firsts(3));
    expect(() => seededDraws(0.5)).toThrow('expected a whole number');
  });

  it('have the moments of the normal distribution, and neighbours are unrelated (seed 5)', () => {
    const draws = seededDraws(5);
    const n = 40000;
    const x = Array.from({ length: n }, () => draws.normal());
    const mean = (f: (v: number, i: number) => number) => x.reduce((s, v, i) => s + f(v, i), 0) / n;
    expectNear(
      mean((v) => v),
      0,
      0.025,
      '',
    ); // five of its own standard deviations, 1/sqrt(n)
    expectNear(
      mean((v) => v * v),
      1,
      0.036,
      '',
    );
    expectNear(
      mean((v) => v ** 3),
      0,
      0.1,
      '',
    );
    expectNear(
      mean((v) => v ** 4),
      3,
      0.25,
      '',
    );
    expectNear(
      mean((v, i) => v * (x[i - 1] ?? 0)),
      0,
      0.025,
      '',
    );
    expectNear(
      mean((v) => (v < 1 ? 1 : 0)),
      normalBelow(1),
      0.01,
      '',
    );
  });
});
