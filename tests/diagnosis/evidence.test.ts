/** The closed forms of the evidence against plain ways to the same numbers. */
import { describe, expect, it } from 'vitest';
import { columnOf, exactEvidence, sizedGain } from '../../packages/mixing/src/diagnosis/extend.ts';
import { type Model, modelOf } from '../../packages/mixing/src/diagnosis/model.ts';
import { assess, type FaultTaken, linearise, type Node, workOut } from '../../packages/mixing/src/diagnosis/node.ts';
import { USUAL_PRIORS } from '../../packages/mixing/src/diagnosis/priors.ts';
import { momentsUnder, propagateExpectations, type SizePrior } from '../../packages/mixing/src/diagnosis/size-prior.ts';
import { exactGain, normalGain } from '../../packages/mixing/src/diagnosis/next.ts';
import { HERMITE_POINTS, HERMITE_WEIGHTS } from '../../packages/mixing/src/numerics/gauss-hermite.ts';
import { logNormal } from '../../packages/mixing/src/numerics/normal.ts';
import { determinant, inverse, Matrix } from 'ml-matrix';
import { expectNear } from '../support/expect-near.ts';
import { documentOf, rigOf, standardReadings } from './seeded-readings.ts';

const record = rigOf(6, 'direct');
const model = modelOf(record, standardReadings(record, 9), USUAL_PRIORS);
const fault = (key: string) => {
  const found = model.faults.find((each) => each.key === key);
  if (!found) throw new Error(`no fault ${key}`);
  return found;
};

/** log of the evidence with every reading sound, and with each wild once in turn. */
function plainWithWild(node: Node, of: Model): number {
  const { chance } = USUAL_PRIORS.wild;
  const sound = plainEvidence(node, of);
  let sum = Math.exp(of.m * Math.log(1 - chance));
  for (let i = 0; i < of.m; i++) {
    const noise = Float64Array.from(node.noise);
    noise[i] = of.rows[i]?.wildVariance as number;
    sum += Math.exp(plainEvidence({ ...node, noise }, of) - sound + Math.log(chance) + (of.m - 1) * Math.log(1 - chance));
  }
  return sound + Math.log(sum);
}

/** S, r and log N(r; 0, S) by ml-matrix, for a node with no wild reading. */
function plainEvidence(node: Node, of: Model = model): number {
  const { m, n } = of;
  const j = Matrix.from1DArray(m, n, [...node.jacobian]);
  const s = Matrix.diag([...node.noise]).add(j.mmul(Matrix.diag([...node.variance])).mmul(j.transpose()));
  const r = Matrix.columnVector(
    of.rows.map(({ value }, i) => {
      let residual = value - (node.h[i] as number);
      for (let k = 0; k < n; k++)
        residual += (node.jacobian[i * n + k] as number) * ((node.deviation[k] as number) - (node.mean[k] as number));
      return residual;
    }),
  );
  const logDet = Math.log(determinant(s));
  return -0.5 * (r.transpose().mmul(inverse(s)).mmul(r).get(0, 0) + logDet + m * Math.log(2 * Math.PI));
}

describe('the evidence of a hypothesis', () => {
  it('is that of the normal distribution, with every reading wild once in turn summed over', () => {
    const node = workOut(model, [], 1);
    expect(node.wild.every((wild) => wild === 0)).toBe(true);
    expectNear(node.logEvidence, plainWithWild(node, model), 1e-8, '');
  });

  it('is the same with more readings than unknowns, which are then inverted by the unknowns', () => {
    const sets = [9, 10, 11].flatMap((seed) => standardReadings(record, seed).readings);
    const many = modelOf(record, documentOf(sets), USUAL_PRIORS);
    expect(many.m).toBeGreaterThan(60);
    const node = workOut(many, [], 1);
    expect(node.wild.every((wild) => wild === 0)).toBe(true);
    expectNear(node.logEvidence, plainWithWild(node, many), 1e-7, '');
  });

  it('finds a wild reading, and is the evidence without it', () => {
    const document = standardReadings(record, 9);
    const wildAt = 12;
    const item = document.readings[wildAt];
    if (item?.kind === 'reading') item.reading.value += 9;
    const spoilt = modelOf(record, document, USUAL_PRIORS);
    const node = workOut(spoilt, [], 2);
    expect([...node.wild].flatMap((wild, i) => (wild ? [i] : []))).toEqual([wildAt]);
    expect(node.wildOdds[wildAt]).toBeGreaterThan(1e3);
    const clean = workOut(model, [], 2);
    // one reading less, and the price of calling it wild: some ten of log, not the hundreds that 9 degrees would cost
    expect(clean.logEvidence - node.logEvidence).toBeLessThan(13);
  });

  it('by one more fault of a size is what working that fault out gives, at the same linearisation', () => {
    const root = workOut(model, [], 1);
    for (const key of ['horn-offset /servos/1/horn/offset', 'link-length /servos/0/link', 'blade-link /rotor/links/1']) {
      const added = fault(key);
      const k = model.placeOf.get(added.path as string) as number;
      for (const branch of added.branches) {
        const gain = sizedGain(model, root, columnOf(model, root, k), branch);
        // the same readings, the same slopes: only the prior of that one value is another
        const full = workOut(model, [{ fault: added, branch }], 1);
        full.deviation.set(root.deviation);
        full.h.set(root.h);
        full.jacobian.set(root.jacobian);
        assess(model, full);
        if (full.wild.some((wild) => wild === 1)) continue;
        expectNear(root.logEvidence + gain, full.logEvidence, 0.02, '', key);
      }
    }
  });

  it("by an exact fault is what its own readings give with the parent's spread", () => {
    const root = workOut(model, [], 1);
    const taken: FaultTaken[] = [{ fault: fault('servo-neutral 1 1500') ?? fault('servo-neutral 1 1520') }];
    const full = workOut(model, taken, 1);
    const copied: Node = { ...full, jacobian: root.jacobian };
    assess(model, copied);
    expectNear(exactEvidence(model, root, full.h), copied.logEvidence, 0.02, '');
    linearise(model, root);
  });
});

describe('the prior of a size', () => {
  const prior: SizePrior = {
    pieces: [
      { least: 5, most: 12, weight: 0.9 },
      { least: 2.5, most: 18, weight: 0.1 },
    ],
    blur: 1,
  };
  const density = (x: number) => {
    let sum = 0;
    const step = 0.01;
    for (const { least, most, weight } of prior.pieces) {
      for (let u = least + step / 2; u < most; u += step)
        sum += (weight / (most - least)) * step * Math.exp(logNormal(x - u, prior.blur));
    }
    return sum;
  };

  it('has the moments that a sum gives', () => {
    for (const [m, v] of [
      [9, 0.3],
      [4, 2],
      [13, 5],
      [8, 400],
    ] as const) {
      let mass = 0;
      let first = 0;
      let second = 0;
      const step = 0.05;
      for (let x = -10; x < 32; x += step) {
        const w = step * density(x) * Math.exp(logNormal(x - m, v));
        mass += w;
        first += w * x;
        second += w * x * x;
      }
      const moments = momentsUnder(prior, m, v);
      expectNear(moments.log, Math.log(mass), 2e-3, '', `mass at ${m}`);
      expectNear(moments.mean, first / mass, 5e-3, 'degree', `mean at ${m}`);
      expectNear(moments.variance, second / mass - (first / mass) ** 2, 2e-2, 'degree squared', `variance at ${m}`);
    }
  });

  it('for two sizes at once is near what a sum over both gives', () => {
    const wide: SizePrior = { pieces: [{ least: 0.4, most: 2, weight: 1 }], blur: 0.01 };
    const sites = [
      { mean: 8.5, variance: 5, log: 0 },
      { mean: 1.2, variance: 0.22, log: 0 },
    ];
    // The readings say N(m, v) of both, strongly tied; with the stand-ins that makes the joint given to the function.
    const m = [6, 1.7];
    const v = [
      [4, 0.9],
      [0.9, 0.4],
    ];
    const said = inverse(new Matrix(v));
    const joint = inverse(Matrix.add(said, Matrix.diag(sites.map(({ variance }) => 1 / variance))));
    const mean = joint.mmul(
      Matrix.add(said.mmul(Matrix.columnVector(m)), Matrix.columnVector(sites.map((site) => site.mean / site.variance))),
    );
    const out = propagateExpectations(
      [prior, wide],
      sites,
      Float64Array.from(mean.to1DArray()),
      Float64Array.from(joint.to1DArray()),
    );
    const found = inverse(Matrix.add(said, Matrix.diag(out.map(({ variance }) => 1 / variance))));
    const foundMean = found
      .mmul(Matrix.add(said.mmul(Matrix.columnVector(m)), Matrix.columnVector(out.map((site) => site.mean / site.variance))))
      .to1DArray();
    let mass = 0;
    const sum = [0, 0];
    for (let x = 0; x < 22; x += 0.1) {
      const px = density(x);
      for (let y = 0; y < 3; y += 0.02) {
        const dx = x - (m[0] as number);
        const dy = y - (m[1] as number);
        const q = dx * dx * said.get(0, 0) + 2 * dx * dy * said.get(0, 1) + dy * dy * said.get(1, 1);
        const w = px * Math.exp(momentsUnder(wide, y, 1e-9).log - 0.5 * q);
        mass += w;
        sum[0] = (sum[0] as number) + w * x;
        sum[1] = (sum[1] as number) + w * y;
      }
    }
    expectNear(
      foundMean,
      sum.map((s) => s / mass),
      0.08,
      '',
    );
  });
});

describe('expected information', () => {
  it('seven points give the moments of the normal distribution up to the 13th', () => {
    const moment = (p: number) => HERMITE_POINTS.reduce((sum, x, i) => sum + (HERMITE_WEIGHTS[i] as number) * x ** p, 0);
    [1, 0, 1, 0, 3, 0, 15, 0, 105, 0, 945, 0, 10395, 0].forEach((expected, p) => {
      expectNear(moment(p), expected, 1e-9 * Math.max(1, expected), '', `moment ${p}`);
    });
  });

  it('is one bit where two like causes foretell far apart, none where they foretell alike, and never more than there is', () => {
    expectNear(normalGain([0.5, 0.5], [0, 1], [0, 50], [1, 1]), 1, 1e-9, 'bit');
    expectNear(normalGain([0.5, 0.5], [0, 1], [3, 3], [1, 1]), 0, 1e-12, 'bit');
    expectNear(normalGain([0.9, 0.1], [0, 1], [0, 50], [1, 1]), 0.4689955935892812, 1e-9, 'bit'); // entropy of 0.1
    // two branches of one cause are one thing to know
    expectNear(normalGain([0.5, 0.5], [0, 0], [0, 50], [1, 1]), 0, 1e-12, 'bit');
    // two readings 2 sd apart: 0.4860 bit, by summing over a fine grid
    let sum = 0;
    for (let y = -12; y < 14; y += 0.001) {
      const a = Math.exp(logNormal(y, 1));
      const b = Math.exp(logNormal(y - 2, 1));
      for (const p of [a, b]) if (p > 0) sum += 0.001 * 0.5 * p * Math.log2(p / (0.5 * (a + b)));
    }
    expectNear(normalGain([0.5, 0.5], [0, 1], [0, 2], [1, 1]), sum, 0.01, 'bit');
  });

  it('of a look falls with the chance of a mistake', () => {
    expectNear(exactGain([0.5, 0.5], [0, 1], ['true', 'false'], 0), 1, 1e-12, 'bit');
    // a channel that errs once in ten: 1 - H(0.1)
    expectNear(exactGain([0.5, 0.5], [0, 1], ['true', 'false'], 0.1), 1 - 0.4689955935892812, 1e-12, 'bit');
    expectNear(exactGain([0.5, 0.5], [0, 1], ['true', 'true'], 0), 0, 1e-12, 'bit');
  });
});
