/**
 * The fast quantities against the slow definitions: `predict` over 72 azimuths, `coupling` at mid-stick.
 */
import { describe, expect, it } from 'vitest';
import { coupling } from '../../packages/mixing/src/coupling/coupling.ts';
import { Judge, TARGET_NAMES } from '../../packages/mixing/src/plan/judge.ts';
import { layoutOf, TargetQuantities } from '../../packages/mixing/src/plan/target-quantities.ts';
import { defaultTargets } from '../../packages/mixing/src/plan/targets-document.ts';
import { predict } from '../../packages/mixing/src/rig/predict.ts';
import { prepare } from '../../packages/mixing/src/rig/prepare.ts';
import type { Case } from '../../packages/mixing/src/rig/rig.ts';
import { rigOf } from '../support/answer.ts';
import { expectNear } from '../support/expect-near.ts';
import { KINDS, type Kind, randomRig } from '../support/machines.ts';

function quantitiesOf(seed: number, kind: Kind) {
  const rig = rigOf(randomRig(seed, kind));
  rig.servos[0].link += 0.5; // a ring that is not level
  rig.rotor.links[1] = (rig.rotor.links[1] as number) + 0.3; // and blades that are not alike
  const prepared = prepare(rig);
  const quantities = new TargetQuantities(prepared, 0);
  const out = new Float64Array(quantities.layout.size);
  quantities.evaluate(prepared, out);
  return { rig, prepared, out, layout: quantities.layout };
}

describe.each(KINDS)('quantities of %s heads, seeds 1 to 20', (kind) => {
  it('are those of the definitions', () => {
    for (let seed = 1; seed <= 20; seed++) {
      const { prepared, out, layout } = quantitiesOf(seed, kind);
      const harmonics = (kase: Case) => {
        const got = predict(prepared, kase).harmonics;
        if (!got || 'unreachable' in got) throw new Error('got no pose, expected one that closes');
        return got;
      };
      const half = (stick: 'elevator' | 'aileron', of: 'longitudinal' | 'lateral') =>
        (harmonics({ [stick]: 1 })[of] - harmonics({ [stick]: -1 })[of]) / 2;
      const swash = predict(prepared, {}).swash;
      expectNear(
        Math.atan((out[0] as number) * (Math.PI / 180)) * (180 / Math.PI),
        swash?.foreAft as number,
        1e-9,
        'degree',
        'fore-aft tilt',
      );
      expectNear(
        Math.atan((out[1] as number) * (Math.PI / 180)) * (180 / Math.PI),
        swash?.side as number,
        1e-9,
        'degree',
        'side tilt',
      );
      expectNear(out[layout.zero], harmonics({}).collective, 1e-6, 'degree', 'zero');
      expectNear(out[layout.low], harmonics({ collective: -1 }).collective, 1e-5, 'degree', 'low end');
      expectNear(out[layout.high], harmonics({ collective: 1 }).collective, 1e-5, 'degree', 'high end');
      expectNear(out[layout.cyclic], half('elevator', 'longitudinal'), 5e-4, 'degree', 'longitudinal');
      expectNear(out[layout.cyclic + 1], half('aileron', 'lateral'), 5e-4, 'degree', 'lateral');
      const here = coupling(prepared);
      if ('unreachable' in here) throw new Error('got no coupling, expected a machine that moves');
      expectNear(out[layout.cross], here.cross.blade.elevator as number, 1e-3, 'percent', 'cross under elevator');
      expectNear(out[layout.cross + 1], here.cross.blade.aileron as number, 1e-3, 'percent', 'cross under aileron');
    }
  });

  it('say of every blade what it does over a revolution', () => {
    const { prepared, out, layout, rig } = quantitiesOf(4, kind);
    for (let k = 0; k < rig.rotor.blades; k++) {
      let sum = 0;
      for (let azimuth = 0; azimuth < 360; azimuth += 5)
        sum += predict(prepared, { collective: 1, azimuth }).blades?.[k]?.pitch ?? Number.NaN;
      expectNear(out[layout.high + k], sum / 72, 1e-5, 'degree', `blade ${k + 1}`);
    }
  });
});

describe('a machine that cannot reach an end', () => {
  it('has no number for that end and keeps the others (direct, seed 3)', () => {
    const rig = rigOf(randomRig(3, 'direct'));
    // a short pitch arm, its ball at the same place at zero pitch: the ring rises further than it is long
    rig.rotor.pitchArm.lead = 4;
    const ring = rig.rotor.ring as { radius: number; azimuth: number; height: number };
    const rad = (ring.azimuth * Math.PI) / 180;
    const out3 = [
      ring.radius * Math.cos(rad) - rig.rotor.pitchArm.station,
      ring.radius * Math.sin(rad) - 4,
      rig.rotor.hubHeight + rig.rotor.pitchArm.height - rig.swash.height - ring.height,
    ];
    rig.rotor.links.fill(Math.hypot(...out3));
    rig.transmitter.mix.collective *= 3;
    const prepared = prepare(rig);
    const quantities = new TargetQuantities(prepared, 0);
    const { layout } = quantities;
    const out = new Float64Array(layout.size);
    quantities.evaluate(prepared, out);
    expect(out[layout.high]).toBeNaN();
    expect(out[layout.zero]).not.toBeNaN();
    const judge = new Judge(layout, defaultTargets());
    expect(judge.worst(out, 0, judge.still())).toBeNaN();
  });
});

describe('the judge', () => {
  const layout = layoutOf(3);
  const judge = new Judge(layout, defaultTargets());
  const errorsWith = (entries: Record<number, number>) => {
    const errors = new Float64Array(layout.size);
    for (const [k, value] of Object.entries(entries)) errors[Number(k)] = value;
    return errors;
  };

  it.each([
    ['level', { 0: 0.3, 1: -0.4 }, 1],
    ['zero', { [layout.zero]: -0.3, [layout.zero + 1]: -0.3, [layout.zero + 2]: -0.3 }, 0.75],
    ['match', { [layout.zero]: 0.1, [layout.zero + 2]: -0.2 }, 0.75],
    ['ends', { [layout.low + 2]: -0.9 }, 1.5],
    ['ends', { [layout.high]: 0.3 }, 0.5],
    ['cyclic', { [layout.cyclic + 1]: 0.25 }, 0.5],
    ['cross', { [layout.cross]: -6 }, 1.2],
  ] as const)('%s', (name, entries, ratio) => {
    const ratios = judge.ratiosOf(errorsWith(entries), 0);
    expectNear(ratios[TARGET_NAMES.indexOf(name)], ratio, 1e-12, 'of what is near enough', name);
  });

  it('finds the same worst ratio in one pass, with errors moved', () => {
    for (let trial = 0; trial < 200; trial++) {
      const errors = Float64Array.from({ length: 2 * layout.size }, (_, k) => Math.sin(12.9898 * k + 78.233 * trial));
      const moved = Float64Array.from({ length: layout.size }, (_, k) => Math.cos(3.7 * k + trial));
      const sum = errors.map((e, k) => (k < layout.size ? e : e + (moved[k - layout.size] as number)));
      expectNear(judge.worst(errors, layout.size, moved), Math.max(...judge.ratiosOf(sum, layout.size)), 1e-12, 'ratio', 'worst');
    }
  });

  it('aims at the targets of the document', () => {
    const targets = { ...defaultTargets(), collective: [-8, 12] as [number, number], cyclic: 6 };
    const aims = new Judge(layout, targets).aims();
    expect([...aims.subarray(layout.low, layout.low + 3)]).toEqual([-8, -8, -8]);
    expect([...aims.subarray(layout.high, layout.high + 3)]).toEqual([12, 12, 12]);
    expect([...aims.subarray(layout.cyclic)]).toEqual([6, 6, 0, 0]);
  });
});
