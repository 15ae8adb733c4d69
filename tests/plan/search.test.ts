/** The parts of the search: a fit that leaves knobs out, a climb in whole steps, cures, and drawn machines. */
import { describe, expect, it } from 'vitest';
import { climb, SINGLY } from '../../packages/mixing/src/plan/climb.ts';
import { curesOf } from '../../packages/mixing/src/plan/cures.ts';
import { fitKnobs } from '../../packages/mixing/src/plan/fit-knobs.ts';
import { Judge } from '../../packages/mixing/src/plan/judge.ts';
import { type Knob, knobsOf } from '../../packages/mixing/src/plan/knobs.ts';
import { drawMachines, errorsOf } from '../../packages/mixing/src/plan/machines.ts';
import { layoutOf, TargetQuantities } from '../../packages/mixing/src/plan/target-quantities.ts';
import { defaultTargets } from '../../packages/mixing/src/plan/targets-document.ts';
import { valueAt } from '../../packages/mixing/src/rig/changes.ts';
import { prepare } from '../../packages/mixing/src/rig/prepare.ts';
import type { Rig } from '../../packages/mixing/src/rig/rig.ts';
import { rigOf } from '../support/answer.ts';
import { expectNear } from '../support/expect-near.ts';
import { knownPosterior } from '../support/known-posterior.ts';
import { randomRig } from '../support/machines.ts';

describe('the fit', () => {
  const slopes = [Float64Array.of(1, 0, 0), Float64Array.of(0, 2, 0), Float64Array.of(0.5, 0.5, 0)];
  const problem = { slopes, widths: Float64Array.of(0.1, 0.1, 0.1), reach: [10, 10, 10], costs: [1, 1, 1] };

  it('turns the cheaper of two that do the same', () => {
    const alike = {
      ...problem,
      slopes: [Float64Array.of(1, 0.5), Float64Array.of(1, 0.5)],
      widths: Float64Array.of(0.1, 0.1),
      reach: [10, 10],
      errors: Float64Array.of(-2, -1),
    };
    expectNear([...fitKnobs({ ...alike, costs: [1, 1.4] })], [2, 0], 0.01, 'steps');
    expectNear([...fitKnobs({ ...alike, costs: [1.4, 1] })], [0, 2], 0.01, 'steps');
  });

  it('turns two where one is not enough', () => {
    const steps = fitKnobs({ ...problem, errors: Float64Array.of(-3, 4, 0) });
    expectNear([...steps], [3, -2, 0], 0.01, 'steps');
  });

  it('turns nothing for what no knob moves, nor for what is small', () => {
    expect([...fitKnobs({ ...problem, errors: Float64Array.of(0, 0, 5) })]).toEqual([0, 0, 0]);
    expect([...fitKnobs({ ...problem, errors: Float64Array.of(0.01, -0.01, 0) })]).toEqual([0, 0, 0]);
  });

  it('leaves out what is out of reach', () => {
    expectNear([...fitKnobs({ ...problem, errors: Float64Array.of(-3, 4, Number.NaN) })], [3, -2, 0], 0.01, 'steps');
  });
});

describe('the climb', () => {
  const layout = layoutOf(2);
  const judge = new Judge(layout, defaultTargets());
  const knob = (path: string, more: Partial<Knob> = {}): Knob => ({
    path,
    kind: 'link',
    step: 0.2,
    strides: [1],
    cost: 1,
    costPerStep: 0,
    reach: 6,
    ...more,
  });
  const column = (entries: Record<number, number>) => Float64Array.from({ length: layout.size }, (_, k) => entries[k] ?? 0);
  const tilting = [knob('/servos/0/link'), knob('/servos/1/link')];
  const slopes = [
    column({ 0: 0.3, [layout.zero]: 0.1, [layout.zero + 1]: 0.1 }),
    column({ 0: -0.3, [layout.zero]: 0.1, [layout.zero + 1]: 0.1 }),
  ];
  const machinesAt = (...tilts: number[]) => Float64Array.from(tilts.flatMap((tilt) => [...column({ 0: tilt })]));

  it('levels by two links at once and leaves the blades where they are', () => {
    const { steps } = climb(judge, machinesAt(1.2, 1.15, 1.25), slopes, tilting, Int32Array.of(0, 0));
    expect([...steps]).toEqual([-2, 2]);
  });

  it('turns nothing where all is well', () => {
    expect([...climb(judge, machinesAt(0.02, -0.01), slopes, tilting, Int32Array.of(0, 0)).steps]).toEqual([0, 0]);
  });

  it('puts back what was turned for nothing', () => {
    expect([...climb(judge, machinesAt(0.02, -0.01), slopes, tilting, Int32Array.of(1, 1)).steps]).toEqual([0, 0]);
  });

  it('serves the many where it cannot serve all', () => {
    const { steps, worth } = climb(judge, machinesAt(1.2, 1.2, 1.2, -1.2), slopes, tilting, Int32Array.of(0, 0));
    expect([...steps]).toEqual([-2, 2]);
    // three of four, and of the fourth five targets of six
    expectNear(worth, 0.75 + SINGLY * (1 - 1 / 24), 0.03, 'worth', 'worth of serving three of four');
  });

  it('goes no further than a knob may', () => {
    const bounded = [knob('a', { most: 1 }), knob('b', { most: 1 })];
    expect(
      [...climb(judge, machinesAt(3, 3), slopes, bounded, Int32Array.of(0, 0)).steps].every((step) => Math.abs(step) <= 1),
    ).toBe(true);
  });
});

describe('cures', () => {
  const record = rigOf(randomRig(5, 'direct'));
  const cures = (settings: Record<string, unknown>, off: Record<string, number> = {}) => {
    const believed = knownPosterior(record, [{ settings, off }]);
    return curesOf(believed, believed.hypotheses[0] as (typeof believed.hypotheses)[0]);
  };

  it('are none for what is only off by some amount', () => {
    expect(cures({}, { '/servos/0/link': 2, '/servos/0/horn/offset': 3 })).toEqual([]);
  });

  it('turn round the output of a servo of the other sense, never the servo', () => {
    const path = '/transmitter/outputs/1/reverse';
    expect(cures({ '/servos/1/sense': -record.servos[1].sense })).toEqual([{ path, to: !valueAt(record, path) }]);
  });

  it('leave a servo of the other sense behind an output that is reversed for it', () => {
    const path = '/transmitter/outputs/1/reverse';
    expect(cures({ '/servos/1/sense': -record.servos[1].sense, [path]: !valueAt(record, path) })).toEqual([]);
  });

  it('put a layout back whole', () => {
    const path = '/transmitter/mix/azimuths';
    expect(cures({ [`${path}/1`]: 90, [`${path}/2`]: 270 })).toEqual([{ path, to: record.transmitter.mix.azimuths }]);
  });

  it('move whole teeth, to the nearest', () => {
    const tooth = 360 / record.servos[0].horn.teeth;
    expect(cures({}, { '/servos/0/horn/offset': 1.4 * tooth })).toEqual([{ path: '/servos/0/horn/tooth', by: -1 }]);
    expect(cures({ '/servos/0/horn/tooth': 2 }, { '/servos/0/horn/offset': -0.6 * tooth })).toEqual([
      { path: '/servos/0/horn/tooth', by: -1 },
    ]);
  });

  it('leave two microseconds of neutral to the links, and 760 to the output', () => {
    const other = record.servos[0].neutral === 1500 ? 1520 : 1500;
    expect(cures({ '/servos/0/neutral': other })).toEqual([]);
    expect(cures({ '/servos/0/neutral': 760 })).toEqual([{ path: '/transmitter/outputs/0/neutral', to: 760 }]);
  });
});

describe('drawn machines', () => {
  const record = rigOf(randomRig(5, 'direct'));
  const believed = knownPosterior(record, [
    { weight: 0.7, off: { '/servos/0/link': 1 } },
    { weight: 0.3, settings: { '/servos/1/horn/tooth': 1 } },
  ]);

  it('are the machines that the belief draws, though they share one document', () => {
    const machines = drawMachines(believed, 7, 40);
    const draw = believed.sampler(7);
    const copies = machines.map((machine) => structuredClone(machine.stand()));
    for (const copy of copies) expect(copy).toEqual(believed.now(draw()));
  });

  it('are the same machines for one seed, and about as often of each belief as believed', () => {
    const machines = drawMachines(believed, 11, 400);
    expect(machines.map(({ values }) => values[0])).toEqual(drawMachines(believed, 11, 400).map(({ values }) => values[0]));
    const share = machines.filter(({ hypothesis }) => hypothesis.settings.length === 0).length / 400;
    expectNear(share, 0.7, 0.07, 'share', 'machines of the weightier belief');
  });

  it('have new parts where parts are replaced', () => {
    const renewed = [{ path: '/servos/0/link', record: record.servos[0].link, sd: 0.1 }];
    const links = drawMachines(believed, 3, 200, renewed).map(
      (machine) => machine.stand().servos[0].link - record.servos[0].link,
    );
    const mean = links.reduce((sum, by) => sum + by, 0) / links.length;
    expectNear(mean, 0, 0.03, 'mm', 'mean of new links');
    expectNear(Math.sqrt(links.reduce((sum, by) => sum + by * by, 0) / links.length), 0.1, 0.02, 'mm', 'spread of new links');
  });

  it('are as they were after changes were tried on them', () => {
    const quantities = new TargetQuantities(prepare(record), 0);
    const judge = new Judge(quantities.layout, defaultTargets());
    const machines = drawMachines(believed, 5, 10);
    const before = errorsOf(machines, [], quantities, judge.aims());
    const tried = errorsOf(
      machines,
      [
        { path: '/servos/2/link', by: 0.4 },
        { path: '/transmitter/mix/cyclicLimit', to: 90 },
      ],
      quantities,
      judge.aims(),
    );
    expect(tried).not.toEqual(before);
    expect(errorsOf(machines, [], quantities, judge.aims())).toEqual(before);
    expect(machines[0]?.stand().transmitter.mix).not.toHaveProperty('cyclicLimit', 90);
  });
});

describe('knobs', () => {
  it('are what a hand can turn, in the steps of the document', () => {
    const rig: Rig = {
      ...rigOf(randomRig(2, 'lever')),
      linkStep: 0.25,
      steps: [
        { path: '/servos/0/link', fixed: true },
        { path: '/rotor/links/0', step: 0.1 },
      ],
    };
    const knobs = knobsOf(rig, 0);
    const stepOf = (path: string) => knobs.find((knob) => knob.path === path)?.step;
    expect(stepOf('/servos/0/link')).toBeUndefined();
    expect(stepOf('/servos/0/pushrod')).toBe(0.25);
    expect(stepOf('/rotor/links/0')).toBe(0.1);
    expect(stepOf('/transmitter/mix/phase')).toBe(1);
    expect(knobs.every(({ path }) => typeof valueAt(rig, path) === 'number')).toBe(true);
    expect(knobsOf(rig, 0, { without: new Set(['/rotor/links/0']) }).some(({ path }) => path === '/rotor/links/0')).toBe(false);
  });
});
