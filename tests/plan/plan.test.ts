/**
 * Plans from beliefs given by hand: each fault is cured at its right place, in steps that a hand can make, and machines that
 * are well are left alone.
 */
import { describe, expect, it } from 'vitest';
import type { ReadingsDocument } from '../../packages/mixing/src/diagnosis/readings.ts';
import { brokenRules, marksOf, ORDER_RULES } from '../../packages/mixing/src/plan/order.ts';
import { type Plan, planFrom } from '../../packages/mixing/src/plan/plan.ts';
import { defaultTargets, readTargets } from '../../packages/mixing/src/plan/targets-document.ts';
import { applyChanges, valueAt } from '../../packages/mixing/src/rig/changes.ts';
import { predict } from '../../packages/mixing/src/rig/predict.ts';
import { prepare } from '../../packages/mixing/src/rig/prepare.ts';
import type { Rig } from '../../packages/mixing/src/rig/rig.ts';
import { rigOf } from '../support/answer.ts';
import { type Believed, knownPosterior } from '../support/known-posterior.ts';
import { type Kind, randomRig } from '../support/machines.ts';

const NO_READINGS: ReadingsDocument = {
  format: 'swashtrue-readings/1',
  instruments: [],
  lean: { foreAftSd: 0, sideSd: 0 },
  readings: [],
};

const recordOf = (seed: number, kind: Kind = 'direct', tail = false): Rig => rigOf(randomRig(seed, kind, { tail }));

/** The plan for a machine that is known but for a tenth of every machine's scatter. */
function planOf(
  record: Rig,
  believed: Believed | Believed[],
  readings: Partial<ReadingsDocument> = {},
  targets = defaultTargets(),
): Plan {
  return planFrom(
    knownPosterior(record, Array.isArray(believed) ? believed : [believed], 0.1),
    { ...NO_READINGS, ...readings },
    targets,
  );
}

const paths = ({ adjustments }: Plan) => adjustments.map(({ path }) => path);

describe('a machine that is well', () => {
  it.each([2, 5, 9])('is left alone: healthy machine of seed %i', (seed) => {
    const plan = planOf(recordOf(seed), {});
    expect(plan.adjustments).toEqual([]);
    expect(plan.replace).toEqual([]);
    expect(plan.meets.chance).toBeGreaterThan(0.9);
    expect(plan.says).toMatch(/leave it alone/);
    expect(plan.after.length).toBeGreaterThan(5);
  });

  it('is left alone though it is not as recorded: a link too long and its horn as much lower (seed 4)', () => {
    const record = recordOf(4);
    const servo = record.servos[0];
    const byMm = 0.4;
    const lowDeg = (-byMm / servo.horn.length) * (180 / Math.PI);
    const plan = planOf(record, { off: { '/servos/0/link': byMm, '/servos/0/horn/offset': lowDeg } });
    expect(plan.adjustments).toEqual([]);
    expect(plan.meets.chance).toBeGreaterThan(0.9);
  });
});

describe('what is plainly set wrong is put right where it is wrong', () => {
  it('one horn against the others under collective: the reverse of its output', () => {
    const record = recordOf(2);
    const path = '/transmitter/outputs/1/reverse';
    const right = record.transmitter.outputs[1].reverse;
    const plan = planOf(record, { settings: { [path]: !right } });
    expect(plan.adjustments).toMatchObject([{ path, to: right }]);
    expect(plan.adjustments[0]).not.toHaveProperty('by');
    expect(plan.meets.chance).toBeGreaterThan(0.9);
  });

  it.each(['collective', 'elevator', 'aileron'] as const)('the sign of the %s value, and no servo for it', (stick) => {
    const record = recordOf(2);
    const path = `/transmitter/mix/${stick}`;
    const value = record.transmitter.mix[stick];
    const plan = planOf(record, { settings: { [path]: -value } });
    expect(paths(plan)).toEqual([path]);
    expect(Math.sign(plan.adjustments[0]?.to as number)).toBe(Math.sign(value));
    expect(plan.meets.chance).toBeGreaterThan(0.9);
  });

  it('leads as a pair, one right after the other', () => {
    const record = recordOf(2);
    const plan = planOf(record, {
      settings: { '/servos/0/output': record.servos[2].output, '/servos/2/output': record.servos[0].output },
    });
    expect(plan.adjustments.slice(0, 2)).toMatchObject([
      { path: '/servos/0/output', to: record.servos[0].output },
      { path: '/servos/2/output', to: record.servos[2].output },
    ]);
    expect(plan.adjustments[0]?.after).toEqual(plan.adjustments[1]?.after);
    expect(plan.meets.chance).toBeGreaterThan(0.9);
  });

  it('a tooth by a tooth, not by sub-trim or a link', () => {
    const record = recordOf(5);
    const plan = planOf(record, { settings: { '/servos/1/horn/tooth': 1 } });
    expect(plan.adjustments).toMatchObject([{ path: '/servos/1/horn/tooth', by: -1 }]);
    expect(plan.adjustments[0]?.says).toMatch(/one tooth further down.*To undo, one tooth up/);
  });

  it('a ball in the wrong hole by a whole hole', () => {
    const record = recordOf(5);
    const plan = planOf(record, { settings: { '/servos/2/horn/length': record.servos[2].horn.length + record.holeStep } });
    expect(plan.adjustments).toMatchObject([{ path: '/servos/2/horn/length', by: -record.holeStep }]);
    expect(plan.adjustments[0]?.says).toMatch(/next hole in to the shaft/);
  });

  it('a servo of another make, far from its neutral, by the neutral of its output', () => {
    const record = recordOf(5);
    const plan = planOf(record, { settings: { '/servos/0/neutral': 760 } });
    expect(plan.adjustments).toMatchObject([{ path: '/transmitter/outputs/0/neutral', to: 760 }]);
  });

  it('a horn that stands off by more than half a tooth by a tooth and what is left over by a link', () => {
    const record = recordOf(5);
    const half = 180 / record.servos[1].horn.teeth;
    const plan = planOf(record, { off: { '/servos/1/horn/offset': 1.5 * half } });
    expect(plan.adjustments[0]).toMatchObject({ path: '/servos/1/horn/tooth', by: -1 });
    expect(plan.meets.chance).toBeGreaterThan(0.9);
  });
});

describe('what is off by some amount is turned in whole steps', () => {
  it('a link too long is made shorter by whole steps of the record, with its turns', () => {
    const record = recordOf(5);
    const plan = planOf(record, { off: { '/servos/1/link': 1.2 } });
    expect(plan.adjustments).toMatchObject([{ path: '/servos/1/link', by: -1.2, turns: -3, unit: 'mm' }]);
    expect(plan.adjustments[0]?.says).toMatch(/1\.2 mm shorter: three turns in .*To undo, three turns out/);
    expect(plan.meets.chance).toBeGreaterThan(0.9);
  });

  it('a link with a step of its own turns in that step, a moulded one not at all', () => {
    const record = recordOf(5);
    const own: Rig = {
      ...record,
      steps: [
        { path: '/servos/1/link', step: 0.5 },
        { path: '/servos/0/link', fixed: true },
      ],
    };
    const longer = planOf(own, { off: { '/servos/1/link': 1.1 } });
    const turned = longer.adjustments.find(({ path }) => path === '/servos/1/link');
    expect(turned?.by).toBe(-1);
    const moulded = planOf(own, { off: { '/servos/0/link': 0.9 } });
    expect(paths(moulded)).not.toContain('/servos/0/link');
    expect(moulded.meets.chance).toBeGreaterThan(0.9);
  });

  it('tilt out of line is cured by phase', () => {
    const record = recordOf(5);
    const plan = planOf(record, { off: { '/transmitter/mix/phase': 14.4 } });
    expect(paths(plan)).toEqual(['/transmitter/mix/phase']);
    expect(plan.adjustments[0]?.by).toBeCloseTo(-14, 0);
    expect(plan.adjustments[0]?.unit).toBe('degree');
  });

  it('cyclic too large by its mix value, in whole percent', () => {
    const record = recordOf(5);
    const plan = planOf(record, { off: { '/transmitter/mix/elevator': 0.3 * record.transmitter.mix.elevator } });
    expect(paths(plan)).toEqual(['/transmitter/mix/elevator']);
    expect(Number.isInteger(plan.adjustments[0]?.by)).toBe(true);
    expect(plan.adjustments[0]?.says).toMatch(/less far/);
  });

  it('blade against blade by the link of the blade that is off', () => {
    const record = recordOf(5);
    const plan = planOf(record, { off: { '/rotor/links/1': 0.6 } });
    expect(plan.adjustments).toMatchObject([{ path: '/rotor/links/1', by: -0.6 }]);
  });

  it.each(['direct', 'lever', 'flybar'] as const)(
    'keeps to what a hand can turn, in its steps and its order: %s, seeds 1 to 6',
    (kind) => {
      for (let seed = 1; seed <= 6; seed++) {
        const record = recordOf(seed, kind, seed % 2 === 0);
        const believed = {
          off: { '/servos/0/horn/offset': 6, '/servos/2/link': -0.9, '/transmitter/mix/collective': 6, '/rotor/links/0': 0.4 },
          settings: { '/servos/1/horn/tooth': -1 },
        };
        const plan = planOf(record, believed);
        for (const { path, by, unit, says, after } of plan.adjustments) {
          expect(path).not.toMatch(/ball|pivot|shaft|rate$|sense|azimuth$|servos\/\d\/neutral|offset/);
          expect(says.length).toBeGreaterThan(20);
          expect(says).toMatch(/undo/);
          expect(after.length).toBeGreaterThan(0);
          if (by === undefined) continue;
          const step = /link|rod/.test(path) ? 0.2 : /horn\/length/.test(path) ? record.holeStep : 1;
          expect(Math.abs(by / step - Math.round(by / step)), `${path} by ${by}`).toBeLessThan(1e-6);
          expect(by).not.toBe(0);
          expect(unit).toBe({ 0.2: 'mm', [record.holeStep]: 'mm', 1: unit }[step]);
        }
        const own = ORDER_RULES.filter(({ needs }) => needs === undefined);
        expect(
          brokenRules(
            plan.adjustments.map((change) => ({ name: change.path, marks: marksOf(change) })),
            own,
          ),
        ).toEqual([]);
      }
    },
  );
});

describe('over everything that is believed', () => {
  it('cures what is the same in all of it, though the cause is in doubt', () => {
    const record = recordOf(5);
    // an offset of the horn or as long a link: one quantity at the ring
    const lowDeg = (-1 / record.servos[1].horn.length) * (180 / Math.PI);
    const plan = planOf(record, [
      { weight: 0.5, off: { '/servos/1/link': -1 } },
      { weight: 0.5, off: { '/servos/1/horn/offset': lowDeg } },
    ]);
    expect(plan.adjustments).toMatchObject([{ path: '/servos/1/link', by: 1 }]);
    expect(plan.meets.chance).toBeGreaterThan(0.9);
  });

  it('goes with the weightier of two beliefs that contradict each other, and says how likely it is to help', () => {
    const record = recordOf(5);
    const plan = planOf(record, [
      { weight: 0.8, off: { '/servos/1/link': -1.2 } },
      { weight: 0.2, off: { '/servos/1/link': 1.2 } },
    ]);
    expect(plan.adjustments).toMatchObject([{ path: '/servos/1/link', by: 1.2 }]);
    expect(plan.meets.chance).toBeGreaterThan(0.7);
    expect(plan.meets.chance).toBeLessThan(0.9);
  });

  it('does not risk a machine that is probably well for one that is perhaps not', () => {
    const record = recordOf(5);
    const plan = planOf(record, [
      { weight: 0.85, off: {} },
      { weight: 0.15, off: { '/servos/1/link': 1.2 } },
    ]);
    expect(plan.adjustments).toEqual([]);
  });

  it('turns nothing on a guess where no known fault fits', () => {
    const record = recordOf(5);
    const believed = { ...knownPosterior(record, [{ off: { '/servos/1/link': -1.2 } }], 0.1), somethingElse: 0.9 };
    const plan = planFrom(believed, NO_READINGS);
    expect(plan.adjustments).toEqual([]);
    expect(plan.meets.chance).toBeLessThan(0.1);
    expect(plan.says).toMatch(/nothing is turned on a guess/);
  });

  it('meets what can be met where one target cannot be: blades that no whole step brings together, and phase (seed 3)', () => {
    const record = recordOf(3);
    const step = 20 * (record.rotor.links.length > 1 ? 0.2 : 1);
    const coarse: Rig = { ...record, steps: record.rotor.links.map((_, k) => ({ path: `/rotor/links/${k}`, step })) };
    const plan = planOf(coarse, { off: { '/rotor/links/0': 0.15, '/transmitter/mix/phase': 12 } });
    expect(plan.meets.match).toBeLessThan(0.2);
    expect(paths(plan)).toContain('/transmitter/mix/phase');
    expect(plan.meets.cross).toBeGreaterThan(0.9);
  });

  it('is the same for the same seed, and for another as likely to help', () => {
    const record = recordOf(5);
    const believed = knownPosterior(record, [{ off: { '/servos/0/link': 0.8, '/transmitter/mix/aileron': 5 } }], 0.3);
    const [one, same, other] = [3, 3, 4].map((seed) => planFrom(believed, NO_READINGS, defaultTargets(), { seed }));
    expect(same).toEqual(one);
    expect(Math.abs((other as Plan).meets.chance - (one as Plan).meets.chance)).toBeLessThan(0.06);
  });
});

describe('parts', () => {
  const inspected = (part: string, found: 'bent' | 'straight' | 'worn'): Partial<ReadingsDocument> => ({
    readings: [{ kind: 'inspected', part, found }],
  });

  it('found bent are replaced and not adjusted around', () => {
    const record = recordOf(5);
    const plan = planOf(record, { off: { '/servos/1/link': 1.2 } }, inspected('/servos/1/link', 'bent'));
    expect(plan.replace).toMatchObject([{ part: '/servos/1/link' }]);
    expect(plan.replace[0]?.says).toMatch(/Replace servo 2's link: found bent/);
    // a new link is as the record says, so that nothing is left to turn
    expect(plan.adjustments).toEqual([]);
  });

  it('are known in words too, and one that the record does not know stops every turning of lengths', () => {
    const record = recordOf(5);
    expect(planOf(record, { off: { '/servos/1/link': 1.2 } }, inspected("servo 2's link", 'worn')).adjustments).toEqual([]);
    const plan = planOf(record, { off: { '/servos/1/link': 1.2 } }, inspected('spindle', 'bent'));
    expect(plan.replace).toMatchObject([{ part: 'spindle' }]);
    expect(plan.adjustments).toEqual([]);
    expect(plan.says).toMatch(/replace it and read again/);
  });

  it('that are straight change nothing', () => {
    const record = recordOf(5);
    const plan = planOf(record, { off: { '/servos/1/link': 1.2 } }, inspected('/servos/1/link', 'straight'));
    expect(plan.replace).toEqual([]);
    expect(paths(plan)).toEqual(['/servos/1/link']);
  });

  it('a blade link more than a millimetre off asks to be looked at first, until it was', () => {
    const record = recordOf(5);
    const believed = { off: { '/rotor/links/1': 1.6 } };
    expect(planOf(record, believed).replace).toMatchObject([
      { part: '/rotor/links/1', says: expect.stringMatching(/^Inspect blade 2 link/) as string },
    ]);
    expect(planOf(record, believed, inspected('/rotor/links/1', 'straight')).replace).toEqual([]);
    expect(planOf(record, { off: { '/rotor/links/1': 0.6 } }).replace).toEqual([]);
  });
});

describe('targets', () => {
  const targetsWith = (more: object) => {
    const read = readTargets({ format: 'swashtrue-targets/1', ...more });
    if (!read.ok) throw new Error('targets');
    return read.targets;
  };

  it('of the document are aimed at, not the record', () => {
    const record = recordOf(5);
    const plan = planOf(record, {}, {}, targetsWith({ collective: [-12, 12], cyclic: 6 }));
    expect(paths(plan).sort()).toEqual(['/transmitter/mix/aileron', '/transmitter/mix/collective', '/transmitter/mix/elevator']);
    expect(plan.meets.chance).toBeGreaterThan(0.9);
  });

  it('report sub-trim and corners, which count only where asked for', () => {
    const record = recordOf(5);
    const believed = {
      off: {
        '/transmitter/outputs/0/subtrim': 55,
        '/servos/0/horn/offset': -55 * record.servos[0].sense * record.servos[0].rate,
      },
    };
    const plan = planOf(record, believed);
    expect(plan.adjustments).toEqual([]);
    const asked = planOf(record, believed, {}, targetsWith({ within: { subtrim: 20 } }));
    const machine = applyChanges(
      applyChanges(record, [{ path: '/transmitter/outputs/0/subtrim', by: 55 }]),
      asked.adjustments.filter(({ path }) => path.endsWith('subtrim')).map(({ path, by }) => ({ path, by: by as number })),
    );
    expect(Math.abs(valueAt(machine, '/transmitter/outputs/0/subtrim') as number)).toBeLessThanOrEqual(20);
    expect(asked.meets.subtrim).toBe(1);
    expect(asked.meets.chance).toBeGreaterThan(0.9);
  });

  it('free corners, where asked for, are got by the cyclic limit', () => {
    const record = recordOf(5);
    // outputs that just reach as far as the corners ask with a cyclic limit of 110 percent
    const limited = prepare({
      ...record,
      transmitter: { ...record.transmitter, mix: { ...record.transmitter.mix, cyclicLimit: 110 } },
    });
    const corners = [-1, 1].flatMap((collective) =>
      [-1, 1].flatMap((elevator) => [-1, 1].map((aileron) => ({ collective, elevator, aileron }))),
    );
    const outputs = record.transmitter.outputs.map((output, j) => {
      const far =
        Math.max(...corners.map((corner) => Math.abs((predict(limited, corner).outputs[j]?.pulse ?? 0) - output.neutral))) + 0.5;
      return { ...output, limits: [output.neutral - far, output.neutral + far] };
    });
    const tight: Rig = { ...record, transmitter: { ...record.transmitter, outputs: outputs as Rig['transmitter']['outputs'] } };
    const free = planOf(tight, {});
    expect(free.meets.corners).toBe(0);
    expect(free.adjustments).toEqual([]);
    const asked = planOf(tight, {}, {}, targetsWith({ within: { corners: true } }));
    expect(paths(asked)).toEqual(['/transmitter/mix/cyclicLimit']);
    expect(asked.adjustments[0]?.to).toBeGreaterThanOrEqual(100);
    expect(asked.adjustments[0]?.to).toBeLessThanOrEqual(110);
    expect(asked.meets.corners).toBeGreaterThan(0.8);
  });
});

describe('the tail', () => {
  it('with its rod off and its rudder reversed is put right, way before range, and says what the slider then shows (seed 6)', () => {
    const record = recordOf(6, 'direct', true);
    const reverse = '/transmitter/rudder/reverse';
    const right = record.transmitter.rudder.reverse;
    const plan = planOf(record, { off: { '/tail/rod': 1.2 }, settings: { [reverse]: !right } });
    expect(plan.adjustments).toMatchObject([
      { path: reverse, to: right },
      { path: '/tail/rod', by: -1.2 },
    ]);
    const shown = plan.adjustments[1]?.after[0];
    expect(shown?.measure).toMatch(/slider|tail/);
    for (const { says } of plan.adjustments) expect(says).toMatch(/\. To undo, .+\.$/);
  });

  it('that is well is left alone', () => {
    expect(planOf(recordOf(6, 'direct', true), {}).adjustments).toEqual([]);
  });
});

describe('washout', () => {
  it('with one rod too long is brought back to level paddles by that rod (seed 3)', () => {
    const record = recordOf(3, 'flybar');
    const plan = planOf(record, { off: { '/flybar/washout/rods/1': 1.4 } });
    expect(plan.adjustments).toMatchObject([{ path: '/flybar/washout/rods/1', by: -1.4 }]);
    expect(plan.adjustments[0]?.after[0]?.measure).toMatch(/paddle-pitch|washout-arm/);
  });
});
