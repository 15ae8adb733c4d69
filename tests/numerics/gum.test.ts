/**
 * The examples of the Guide to the expression of uncertainty in measurement, JCGM 100:2008, annex H, through the fit and
 * covariance code that the diagnosis uses. Values: tests/answers/fixtures.json (printed ones read in two independent
 * transcriptions; unrounded ones recomputed).
 */
import { readFileSync } from 'node:fs';
import { describe, it } from 'vitest';
import { factorCholesky } from '../../packages/mixing/src/numerics/cholesky.ts';
import { fitLinear } from '../../packages/mixing/src/numerics/fit-linear.ts';
import { addOuter, mirrorLower, timesLower } from '../../packages/mixing/src/numerics/propagate.ts';
import { expectNear } from '../support/expect-near.ts';

const answers = JSON.parse(readFileSync(new URL('../answers/fixtures.json', import.meta.url), 'utf8'));

describe('GUM H.3, calibration of a thermometer', () => {
  const { t, b, t0, unrounded, ...printed } = answers.gumH3 as {
    t: number[];
    b: number[];
    t0: number;
    y1: number;
    u_y1: number;
    y2: number;
    u_y2: number;
    r: number;
    s: number;
    b30: number;
    u_b30: number;
    unrounded: Record<string, number>;
  };
  const fit = fitLinear(
    t.map((v) => [1, v - t0]),
    b,
  );
  const [[v11, v12], [, v22]] = fit.covariance as [[number, number], [number, number]];
  const at = (name: string) => unrounded[name] as number;

  it('intercept, slope, their uncertainties and correlation', () => {
    expectNear(fit.values, [at('y1'), at('y2')], 1e-9, 'degree');
    expectNear([Math.sqrt(v11), Math.sqrt(v22)], [at('u_y1'), at('u_y2')], 1e-9, 'degree');
    expectNear(v12 / Math.sqrt(v11 * v22), at('r'), 1e-6, '');
    expectNear(fit.residualSd, at('s'), 1e-8, 'degree');
    expectNear(fit.squares, at('rss'), 1e-15, 'degree squared');
    // as printed in the guide
    expectNear([fit.values[0] as number, fit.values[1] as number], [printed.y1, printed.y2], 5e-5, 'degree');
    expectNear(v12 / Math.sqrt(v11 * v22), printed.r, 5e-4, '');
  });

  it('the correction foretold at 30 degrees: J C J of correlated values', () => {
    const c = Float64Array.of(v11, v12, v12, v22);
    factorCholesky(c, 2);
    const j = Float64Array.of(1, 30 - t0);
    const s = new Float64Array(1);
    addOuter(timesLower(j, 1, 2, c), 1, 2, s);
    expectNear((fit.values[0] as number) + 10 * (fit.values[1] as number), at('b30'), 1e-8, 'degree');
    expectNear(Math.sqrt(s[0] as number), at('u_b30'), 1e-7, 'degree');
    expectNear(Math.sqrt(s[0] as number), printed.u_b30, 5e-5, 'degree');
  });

  it('an error of 0.005 that all readings share leaves the slope alone and widens the intercept (a gauge zero does so)', () => {
    // slope and intercept by the shared error: 0 and 1; published by GTC for this example: u(intercept) 0.00576893138
    const c = Float64Array.of(v11, v12, v12, v22);
    factorCholesky(c, 2);
    const s = new Float64Array(4);
    addOuter(timesLower(Float64Array.of(1, 0, 0, 1), 2, 2, c), 2, 2, s);
    addOuter(Float64Array.of(0.005, 0), 2, 1, s);
    expectNear(Math.sqrt(s[0] as number), 0.00576893138, 1e-10, 'degree');
    expectNear(Math.sqrt(s[3] as number), at('u_y2'), 1e-9, 'degree');
  });
});

describe('GUM H.2, resistance and reactance from correlated readings', () => {
  it('values, uncertainties and correlations', () => {
    const { V, I_mA, phi, unrounded, ...printed } = answers.gumH2 as {
      V: number[];
      I_mA: number[];
      phi: number[];
      R: number;
      uR: number;
      X: number;
      uX: number;
      Z: number;
      uZ: number;
      rRX: number;
      rRZ: number;
      rXZ: number;
      unrounded: { R: number; X: number; Z: number; u: [number, number, number]; rRX: number; rRZ: number; rXZ: number };
    };
    const columns = [V, I_mA.map((i) => i / 1000), phi];
    const n = V.length;
    const means = columns.map((column) => column.reduce((a, x) => a + x, 0) / n) as [number, number, number];
    const c = new Float64Array(9);
    columns.forEach((a, i) => {
      columns.forEach((b, j) => {
        let sum = 0;
        for (let k = 0; k < n; k++) sum += ((a[k] as number) - (means[i] as number)) * ((b[k] as number) - (means[j] as number));
        c[3 * i + j] = sum / (n * (n - 1));
      });
    });
    factorCholesky(c, 3);
    const [v, i, f] = means;
    const z = v / i;
    const cos = Math.cos(f);
    const sin = Math.sin(f);
    const jacobian = Float64Array.of(cos / i, (-z * cos) / i, -z * sin, sin / i, (-z * sin) / i, z * cos, 1 / i, -z / i, 0);
    const s = new Float64Array(9);
    addOuter(timesLower(jacobian, 3, 3, c), 3, 3, s);
    mirrorLower(s, 3);
    const u = [0, 4, 8].map((k) => Math.sqrt(s[k] as number)) as [number, number, number];
    const r = (a: number, b: number) => (s[3 * a + b] as number) / ((u[a] as number) * (u[b] as number));
    expectNear([z * cos, z * sin, z], [unrounded.R, unrounded.X, unrounded.Z], 1e-7, 'ohm');
    expectNear(u, unrounded.u, 1e-7, 'ohm');
    expectNear([r(0, 1), r(0, 2), r(1, 2)], [unrounded.rRX, unrounded.rRZ, unrounded.rXZ], 1e-8, '');
    // as printed in the guide, from memory; its own table rounds twice
    expectNear(u, [printed.uR, printed.uX, printed.uZ], 6e-4, 'ohm');
    expectNear([r(0, 1), r(0, 2), r(1, 2)], [printed.rRX, printed.rRZ, printed.rXZ], 6e-4, '');
  });
});
