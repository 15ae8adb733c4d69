/**
 * NIST Statistical Reference Datasets (US Government, public domain), with their certified values and standard
 * deviations, through the fit code that the diagnosis uses. Measure: LRE = -log10 |got - certified| / |certified|, the
 * number of right digits. Data and values: tests/answers/fixtures.json.
 */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { fitLinear } from '../../packages/mixing/src/numerics/fit-linear.ts';
import { covarianceOf, fitNonlinear } from '../../packages/mixing/src/numerics/fit-nonlinear.ts';

interface Certified {
  x: number[];
  y: number[];
  starts?: number[][];
  b: number[];
  sd: number[];
  rss: number;
  dof: number;
}
const answers = JSON.parse(readFileSync(new URL('../answers/fixtures.json', import.meta.url), 'utf8')) as Record<string, never>;

/** Certified digits that agree; throws below `least`. */
function expectDigits(got: number | undefined, certified: number, least: number, what: string): void {
  const digits = got === certified ? 15 : Math.min(15, -Math.log10(Math.abs((got as number) - certified) / Math.abs(certified)));
  if (!(digits >= least))
    throw new Error(`${what}: got ${got}, certified ${certified}: ${digits} digits agree, expected ${least}`);
}

describe('linear regressions certified by NIST', () => {
  it('Norris, lower difficulty: values, standard deviations, covariance', () => {
    const norris = answers['norris'] as unknown as {
      x: number[];
      y: number[];
      B: number[];
      sd: number[];
      residualSD: number;
      rss: number;
      dof: number;
      cov01_recomputed: number;
    };
    const fit = fitLinear(
      norris.x.map((x) => [1, x]),
      norris.y,
    );
    norris.B.forEach((b, i) => expectDigits(fit.values[i], b, 11, `B${i}`));
    norris.sd.forEach((sd, i) => expectDigits(Math.sqrt(fit.covariance[i]?.[i] ?? Number.NaN), sd, 11, `sd of B${i}`));
    expectDigits(fit.residualSd, norris.residualSD, 11, 'residual sd');
    expectDigits(fit.squares, norris.rss, 11, 'squares');
    expect(fit.dof).toBe(norris.dof);
    // recomputed in 50 digits; widely copied copies are good to ten
    expectDigits(fit.covariance[0]?.[1], norris.cov01_recomputed, 11, 'covariance of B0 and B1');
  });

  it('Longley, higher difficulty', () => {
    const longley = answers['longley'] as unknown as {
      rows: number[][];
      B: number[];
      sd: number[];
      residualSD: number;
      dof: number;
    };
    const fit = fitLinear(
      longley.rows.map(([, ...x]) => [1, ...x]),
      longley.rows.map(([y]) => y as number),
    );
    longley.B.forEach((b, i) => expectDigits(fit.values[i], b, 9, `B${i}`));
    longley.sd.forEach((sd, i) => expectDigits(Math.sqrt(fit.covariance[i]?.[i] ?? Number.NaN), sd, 9, `sd of B${i}`));
    expectDigits(fit.residualSd, longley.residualSD, 10, 'residual sd');
    expect(fit.dof).toBe(longley.dof);
  });

  it('weights are inverse variances: an observation of weight 2 counts as two', () => {
    const x = [0, 1, 2, 4];
    const y = [1, 3, 2, 7];
    const weighted = fitLinear(
      x.map((v) => [1, v]),
      y,
      [1, 2, 1, 1],
    );
    const doubled = fitLinear(
      [...x, 1].map((v) => [1, v]),
      [...y, 3],
    );
    weighted.values.forEach((v, i) => expectDigits(v, doubled.values[i] as number, 12, `value ${i}`));
    expectDigits(weighted.squares, doubled.squares, 12, 'squares');
  });

  it('refuses columns that depend on one another, and too few observations', () => {
    expect(() =>
      fitLinear(
        [
          [1, 2],
          [2, 4],
          [3, 6],
        ],
        [1, 2, 3],
      ),
    ).toThrow('depend on one another');
    expect(() => fitLinear([[1, 2]], [1])).toThrow('expected more observations than values');
  });
});

const model: Record<string, (x: number, b: ArrayLike<number>) => number> = {
  misra1a: (x, b) => (b[0] as number) * (1 - Math.exp(-(b[1] as number) * x)),
  danwood: (x, b) => (b[0] as number) * x ** (b[1] as number),
  mgh09: (x, b) => ((b[0] as number) * (x * x + x * (b[1] as number))) / (x * x + x * (b[2] as number) + (b[3] as number)),
  thurber: (x, b) =>
    ((b[0] as number) + (b[1] as number) * x + (b[2] as number) * x ** 2 + (b[3] as number) * x ** 3) /
    (1 + (b[4] as number) * x + (b[5] as number) * x ** 2 + (b[6] as number) * x ** 3),
};

/** Residuals and central differences of a model on its data. */
function problemOf(name: string, data: Certified) {
  const f = model[name] as (x: number, b: ArrayLike<number>) => number;
  const n = data.b.length;
  return {
    rows: data.x.length,
    columns: n,
    evaluate(b: Float64Array, r: Float64Array, j: Float64Array): boolean {
      const at = Float64Array.from(b);
      data.x.forEach((x, i) => {
        r[i] = f(x, b) - (data.y[i] as number);
        for (let k = 0; k < n; k++) {
          const value = b[k] as number;
          const h = 6e-6 * Math.abs(value);
          at[k] = value + h;
          const above = f(x, at);
          at[k] = value - h;
          j[i * n + k] = (above - f(x, at)) / (2 * h);
          at[k] = value;
        }
      });
      return r.every(Number.isFinite);
    },
  };
}

describe('nonlinear regressions certified by NIST', () => {
  const starts: Record<string, number[][]> = {
    danwood: [
      [1, 5],
      [0.7, 4],
    ],
  }; // NIST's own starts, from memory
  for (const name of ['misra1a', 'danwood', 'mgh09', 'thurber']) {
    const data = answers[name] as unknown as Certified;
    (data.starts ?? starts[name] ?? []).forEach((start, s) => {
      it(`${name} from start ${s + 1}: values and standard deviations`, () => {
        const fit = fitNonlinear(problemOf(name, data), start, { tolerance: 1e-10 });
        const dof = data.x.length - data.b.length;
        const covariance = covarianceOf(fit, fit.squares / dof);
        data.b.forEach((b, k) => expectDigits(fit.values[k], b, 7.5, `b${k + 1}`));
        data.sd.forEach((sd, k) =>
          expectDigits(Math.sqrt(covariance[k * data.b.length + k] as number), sd, 6, `sd of b${k + 1}`),
        );
        expectDigits(fit.squares, data.rss, 9, 'squares');
        expect(fit.status).toBe('settled');
        expect(dof).toBe(data.dof);
      });
    });
  }

  it('a prior counts as one more observation of the value itself', () => {
    // y = b at three observations of sd 1 and a prior of sd 0.5 about 10: precision 3 + 4
    const y = [1, 2, 6];
    const fit = fitNonlinear(
      {
        rows: 3,
        columns: 1,
        prior: { mean: Float64Array.of(10), inverseSd: Float64Array.of(2) },
        evaluate: (b, r, j) => {
          y.forEach((v, i) => {
            r[i] = (b[0] as number) - v;
            j[i] = 1;
          });
          return true;
        },
      },
      [0],
    );
    expectDigits(fit.values[0], (9 + 40) / 7, 12, 'mean');
    expectDigits(covarianceOf(fit)[0], 1 / 7, 12, 'variance');
    expectDigits(fit.priorSquares, (2 * (10 - 7)) ** 2, 12, 'prior squares');
  });

  it('says where it stands when the start has no value', () => {
    const fit = fitNonlinear({ rows: 1, columns: 1, evaluate: () => false }, [1]);
    expect(fit.status).toBe('out-of-range');
  });
});
