/**
 * The tail check, one thing at a time: which way stick and gyro go for every build of a tail, what each fault alone asks
 * for, what is left alone, what cannot be put right, and what it says. Signs are those of the mechanism's definition;
 * the order of the bench is common practice, no source.
 */
import { describe, expect, test } from 'vitest';
import { applyChanges, type Change } from '../../packages/mixing/src/rig/changes.ts';
import type { Gyro, LinkStep, Output, Rig, Tail } from '../../packages/mixing/src/rig/rig.ts';
import { NoTailError, tailCheck, tailIsWell } from '../../packages/mixing/src/tail/check.ts';
import { directMachine, tailOf } from '../rig/machines.ts';
import { rigOf } from '../support/answer.ts';
import { expectNear } from '../support/expect-near.ts';
import type { MachineDocument } from '../support/machines.ts';
import { closeTail } from '../support/second-model/tail.ts';

const DEG = Math.PI / 180;
const gyro: Gyro = { gain: 40, scale: 'signed', reverse: true, rate: 2, limit: 110, holdSide: 1 };

/**
 * Horn 10 square to the boom, rod 300 along it, lever 16 to 10: with sense +1 a longer pulse moves the rod aft, the slider in
 * and pitch down. So the rudder output and the gyro are both reversed, and the tail answers well.
 */
function machine(part: MachinePart = {}): Rig {
  const { transmitter, ...rest } = directMachine();
  return rigOf({
    ...rest,
    transmitter: { ...transmitter, rudder: { reverse: true, ...part.rudder }, rates: { rudder: { rate: part.rate ?? 100 } } },
    tail: {
      ...tailOf(),
      slider: { stops: [-4.5, 4.5] },
      ...(part.gyro === null ? {} : { gyro: { ...gyro, ...part.gyro } }),
      ...part.tail,
    },
    steps: part.steps ?? [],
  });
}

interface MachinePart {
  tail?: Partial<Tail>;
  rudder?: Partial<Output>;
  /** null: none */
  gyro?: Partial<Gyro> | null;
  rate?: number;
  steps?: LinkStep[];
}

/** The changes alone, for comparing. */
const turns = (rig: Rig): Change[] =>
  tailCheck(rig).adjustments.map(({ path, ...rest }) => ('by' in rest ? { path, by: rest.by as number } : { path, to: rest.to }));

const servo = (part: Partial<Tail['servo']>): Tail['servo'] => ({
  neutral: 1520,
  sense: 1,
  rate: 0.1,
  shaft: [-300, 0, 0],
  horn: { length: 10, roll: 0, teeth: 25, tooth: 0, offset: 0 },
  ...part,
});
const horn = (part: Partial<Tail['servo']['horn']>) => ({ servo: servo({ horn: { ...servo({}).horn, ...part } }) });

describe('as it stands', () => {
  test('a good tail: right way, corrects, equal, nothing to turn', () => {
    const check = tailCheck(machine());
    expect([check.rudder, check.gyro, check.equal, check.adjustments, tailIsWell(check)]).toEqual([
      'right way',
      'corrects',
      true,
      [],
      true,
    ]);
    expect(check.says.at(-1)).toBe('Nothing needs turning.');
    // Worked by hand: a rod 30 horns long stays along the boom, so that horn and lever ends go equally far along it, and
    // 10 sin 40 aft at the horn is 10/16 of it at the slider. What the rod's tilt of some 2 mm takes is 2^2/600 mm.
    expectNear(check.right.slider, (10 / 16) * 10 * Math.sin(40 * DEG), 0.01, 'mm', 'slider at full right');
    expectNear(check.left.slider, (-10 / 16) * 10 * Math.sin(40 * DEG), 0.01, 'mm', 'slider at full left');
    expectNear(
      [check.centre.horn, check.centre.slider, check.centre.pitch] as number[],
      [0, 0, 0],
      1e-9,
      'deg and mm',
      'mid-stick',
    );
    expect([check.left.past, check.right.past]).toEqual([0, 0]);
  });

  const signs = [1, -1] as const;
  const builds = signs.flatMap((sense) => signs.map((right) => ({ sense, right })));
  const all = builds.flatMap((build) => [true, false].flatMap((stick) => [true, false].map((yaw) => ({ ...build, stick, yaw }))));
  test.each(all)(
    'sense $sense, right $right, rudder reverse $stick, gyro reverse $yaw: each is judged by itself',
    ({ sense, right, stick, yaw }) => {
      // A longer pulse lowers pitch where sense and right agree; either reverse must then be on, and off where they do not.
      const mustReverse = sense * right > 0;
      const rig = machine({
        tail: { servo: servo({ sense }), right },
        rudder: { reverse: stick },
        gyro: { reverse: yaw },
      });
      const check = tailCheck(rig);
      expect(check.rudder).toBe(stick === mustReverse ? 'right way' : 'reversed');
      expect(check.gyro).toBe(yaw === mustReverse ? 'corrects' : 'worsens');
      const pitch = (kase: object) => (closeTail(rig as MachineDocument, kase) as { pitch: number }).pitch;
      expect(pitch({ rudder: 1 }) > pitch({}), 'the second model').toBe(check.rudder === 'right way');
      expect(pitch({ yawRate: 20 }) > pitch({}), 'the second model').toBe(check.gyro === 'corrects');
      expect(turns(rig)).toEqual([
        ...(stick === mustReverse ? [] : [{ path: '/transmitter/rudder/reverse', to: mustReverse }]),
        ...(yaw === mustReverse ? [] : [{ path: '/tail/gyro/reverse', to: mustReverse }]),
      ]);
    },
  );

  test('a gyro without gain, without rate, or none at all is off', () => {
    for (const part of [{ gain: 0 }, { gain: 50, scale: 'centred' as const }, { rate: 0 }, null]) {
      const check = tailCheck(machine({ gyro: part }));
      expect([check.gyro, check.gyroEnds, tailIsWell(check)]).toEqual(['off', undefined, true]);
    }
  });

  test('a tail held still at mid-stick by a stop or a limit is still told which way it goes', () => {
    const held = tailCheck(machine({ tail: { slider: { stops: [2, 5] } } }));
    expect([held.rudder, held.gyro, held.centre.slider, held.centre.past !== 0]).toEqual(['right way', 'corrects', 2, true]);
    const limited = tailCheck(machine({ gyro: { limit: 0, reverse: false }, rudder: { reverse: false } }));
    expect([limited.rudder, limited.gyro]).toEqual(['reversed', 'worsens']);
  });

  test('a stick that moves nothing is no answer, and not well', () => {
    const check = tailCheck(machine({ rate: 0 }));
    expect([check.rudder, tailIsWell(check), check.adjustments]).toEqual(['no answer', false, []]);
    expect(check.says.at(-1)).toMatch(/rate and the output’s travel/);
  });

  test('no stops, none act', () => {
    const check = tailCheck(machine({ tail: { slider: {} }, rudder: { travel: [140, 140] }, gyro: { limit: 150 } }));
    expect([check.left.past, check.right.past, check.equal, check.adjustments]).toEqual([0, 0, true, []]);
  });

  test('a machine without a tail is an error with its pointer', () => {
    expect(() => tailCheck(rigOf(directMachine()))).toThrow(NoTailError);
    expect(() => tailCheck(rigOf(directMachine()))).toThrow('this machine has no tail');
  });
});

describe('one thing wrong asks for one thing', () => {
  test.each<[string, Rig, Change[]]>([
    // By the rod's own length, 1.23 mm off is six steps of 0.2; what is left over moves the slider by less than 0.05 mm.
    ['rod 1.23 mm long', machine({ tail: { rod: 301.23 } }), [{ path: '/tail/rod', by: -1.2 }]],
    ['rod 1.23 mm short', machine({ tail: { rod: 298.77 } }), [{ path: '/tail/rod', by: 1.2 }]],
    ['horn a tooth aft', machine({ tail: horn({ tooth: 1 }) }), [{ path: '/tail/servo/horn/tooth', by: -1 }]],
    [
      'horn a tooth forward on 23',
      machine({ tail: horn({ tooth: -1, teeth: 23 }) }),
      [{ path: '/tail/servo/horn/tooth', by: 1 }],
    ],
    ['horn at tooth 24 of 25', machine({ tail: horn({ tooth: 24 }) }), [{ path: '/tail/servo/horn/tooth', by: -24 }]],
    [
      'sub-trim that does more than a tooth’s work',
      machine({ rudder: { subtrim: -120 } }),
      [{ path: '/transmitter/rudder/subtrim', to: 0 }],
    ],
    // With stops at 3.5: (10/16) 10 sin(a) = 3.5 at a = 34.06 degrees, 340 microseconds, 85 percent.
    [
      'stops at 3.5, no gyro',
      machine({ tail: { slider: { stops: [-3.5, 3.5] } }, gyro: null }),
      [
        { path: '/transmitter/rudder/travel/1', to: 85 },
        { path: '/transmitter/rudder/travel/0', to: 85 },
      ],
    ],
    ['stops at 3.5, a gyro on', machine({ tail: { slider: { stops: [-3.5, 3.5] } } }), [{ path: '/tail/gyro/limit', to: 85 }]],
    [
      'a limit that only the gyro reaches',
      machine({ tail: { slider: { stops: [-4.1, 4.1] } } }),
      [{ path: '/tail/gyro/limit', to: 102 }],
    ],
  ])('%s', (_what, rig, expected) => {
    const sorted = (changes: readonly Change[]) => [...changes].sort((a, b) => a.path.localeCompare(b.path));
    expect(sorted(turns(rig))).toEqual(sorted(expected));
    expect(tailIsWell(tailCheck(rig))).toBe(false);
    expect(tailIsWell(tailCheck(applyChanges(rig, expected)))).toBe(true);
  });

  test('a gyro that is off asks for travel, a side each, and its limit is left alone', () => {
    const rig = machine({ tail: { slider: { stops: [-4.5, 3] } }, gyro: { gain: 0 } });
    // Right rudder moves the slider out (+): it meets the stop at 3 mm, and the other side follows it.
    expect(new Set(turns(rig).map(({ path }) => path))).toEqual(
      new Set(['/transmitter/rudder/travel/0', '/transmitter/rudder/travel/1']),
    );
  });

  test('of one limit for both sides, the side that meets its stop first decides', () => {
    const check = tailCheck(machine({ tail: { slider: { stops: [-4.5, 3] } } }));
    const [limit] = check.adjustments;
    // (10/16) 10 sin(a) = 3 at a = 28.69 degrees, 71 percent.
    expect([limit?.path, limit && 'to' in limit ? limit.to : 0]).toEqual(['/tail/gyro/limit', 71]);
    expectNear([limit?.after.left.slider, limit?.after.right.slider] as number[], [-2.97, 2.97], 0.02, 'mm', 'both ends');
  });

  test('a limit that is no whole percent becomes one', () => {
    expect(turns(machine({ tail: { slider: { stops: [-4.1, 4.1] } }, gyro: { limit: 110.4 } }))).toEqual([
      { path: '/tail/gyro/limit', to: 102 },
    ]);
  });

  test('what whole turns of a rod leave over goes to sub-trim, a few microseconds of it', () => {
    // 0.7 mm in turns of 0.4 is two, which leaves it 0.1 mm short: 0.1/10 rad of horn aft, 0.57 degrees, 5.7 microseconds.
    const rig = machine({ tail: { rod: 300.7 }, steps: [{ path: '/tail/rod', step: 0.4 }] });
    expect(turns(rig)).toEqual([
      { path: '/tail/rod', by: -0.8 },
      { path: '/transmitter/rudder/subtrim', by: 6 },
    ]);
    expectNear(tailCheck(applyChanges(rig, turns(rig))).centre.slider, 0, 0.005, 'mm', 'slider at mid-stick');
  });

  test('a horn a whole turn of teeth over stands square, and stays', () => {
    const rig = machine({ tail: { ...horn({ tooth: 25 }), slider: { stops: [-3.5, 3.5] } } });
    expect(turns(rig)).toEqual([{ path: '/tail/gyro/limit', to: 85 }]);
    expect(tailCheck(rig).says.join(' ')).toContain('the horn stands square');
  });

  test('a side short by little makes the other one follow; a side short by much is given more', () => {
    expect(turns(machine({ rudder: { travel: [95, 100] } }))).toEqual([{ path: '/transmitter/rudder/travel/1', to: 95 }]);
    expect(turns(machine({ rudder: { travel: [50, 100] } }))).toEqual([{ path: '/transmitter/rudder/travel/0', to: 100 }]);
  });

  test('more travel is no use beyond a limit of the output: there the longer side gives way', () => {
    const rig = machine({ rudder: { limits: [1300, 1920] } });
    // Reversed, right rudder shortens the pulse: 220 microseconds of 400, 55 percent, are all that the limit leaves it.
    expect(turns(rig)).toEqual([{ path: '/transmitter/rudder/travel/0', to: 55 }]);
    expect(tailCheck(applyChanges(rig, turns(rig))).equal).toBe(true);
  });

  test('`turns` counts a thread whose half turn is the document’s link step, and `after` is what is then there', () => {
    const rig = machine({ tail: { rod: 301.23 } });
    const [rod] = tailCheck(rig).adjustments;
    expectNear(rod?.turns, -3, 1e-9, 'turns');
    expect(rod?.unit).toBe('mm');
    const then = tailCheck(applyChanges(rig, turns(rig)));
    expect(rod?.after).toEqual({ centre: then.centre, left: then.left, right: then.right });
  });
});

describe('what a hand cannot do', () => {
  test('a fixed rod: sub-trim within half a tooth, the ends evened by travel, and the reason said', () => {
    const rig = machine({ tail: { rod: 301.5 }, steps: [{ path: '/tail/rod', fixed: true }] });
    const paths = turns(rig).map(({ path }) => path);
    expect(paths).not.toContain('/tail/rod');
    const then = tailCheck(applyChanges(rig, turns(rig)));
    expect([then.equal, then.left.past, then.right.past]).toEqual([true, 0, 0]);
    const trims = applyChanges(rig, turns(rig)).transmitter.rudder.subtrim;
    // The rod asks for 1.5 mm at the horn, 8.6 degrees; it gets what it may.
    expect(trims).toBe(-72); // half of 14.4 degrees at 0.1 degree a microsecond
  });

  test('a rod that does not reach: unreachable inside, no turning it by 40 mm, and the senses all the same', () => {
    const rig = machine({ tail: { rod: 340 }, rudder: { reverse: false } });
    const check = tailCheck(rig);
    expect([check.rudder, check.gyro, check.equal]).toEqual(['reversed', 'corrects', false]);
    for (const end of [check.centre, check.left, check.right]) {
      expect([end.unreachable?.path, end.slider, end.pitch]).toEqual(['/tail/rod', undefined, undefined]);
    }
    expect(turns(rig)).toEqual([{ path: '/transmitter/rudder/reverse', to: true }]);
    expect(check.says.at(-1)).toMatch(/the rod is 40 mm too long, more than its ends can be turned/);
  });

  test('a rod that does not reach by a few millimetres is turned until it does', () => {
    // Horn three teeth aft, 10 sin 43.2 = 6.8 mm: the lever's end is then 300.4 - 6.8 + 16 = 309.6 mm away at the most.
    const rig = machine({ tail: { ...horn({ tooth: 3 }), rod: 309.8 } });
    expect(tailCheck(rig).centre.unreachable).toBeDefined();
    expect(tailIsWell(tailCheck(applyChanges(rig, turns(rig))))).toBe(true);
  });

  test('a grip whose link does not close', () => {
    const check = tailCheck(machine({ tail: { grip: { lead: 9.5, height: 0, spider: [9.5, -7], link: 45 } } }));
    expect([check.rudder, check.centre.unreachable?.path, tailIsWell(check)]).toEqual(['no answer', '/tail/grip/link', false]);
    expect(check.says.join(' ')).toMatch(/the grip’s link does not close/);
  });
});

describe('what it says', () => {
  const says = (part: Parameters<typeof machine>[0]) => tailCheck(machine(part)).says.join('\n');

  test('a gain is read on both scales, and by the side that holds heading', () => {
    const signed = says({ gyro: { gain: 55 } });
    expect(signed).toContain('+55 on a scale from -100 to 100 with 0 off, 77.5 on one from 0 to 100 with 50 off (the first is');
    expect(signed).toContain('55 percent on the side that holds heading');
    const centred = says({ gyro: { gain: 77.5, scale: 'centred' } });
    expect(centred).toContain('+55 on a scale from -100 to 100 with 0 off, 77.5 on one from 0 to 100 with 50 off (the second is');
    expect(says({ gyro: { gain: 20, scale: 'centred' } })).toContain('60 percent on the side of plain rate damping');
    expect(says({ gyro: { gain: -60, holdSide: -1 } })).toContain('60 percent on the side that holds heading');
    expect(says({ gyro: { gain: 50, scale: 'centred' } })).toContain('Its gain reads 0 on');
  });

  test('a reversed gyro, by hand and in flight; an idle one that waits reversed', () => {
    expect(says({ gyro: { reverse: false } })).toMatch(
      /Swing the nose to the left by hand, motor unplugged: tail pitch falls.*spins the moment it lifts/,
    );
    expect(says({})).toMatch(
      /Swing the nose to the left by hand, motor unplugged: tail pitch rises, as it is to with right rudder,/,
    );
    expect(says({ rudder: { reverse: false } })).toMatch(/right rudder \(once the stick is cured; as it is, the other way\)/);
    expect(says({ gyro: { gain: 0, reverse: false } })).toMatch(/With its gain turned up it would worsen every swing/);
    expect(says({ gyro: { gain: 0 } })).toMatch(/With its gain turned up it would correct/);
    expect(says({ gyro: null })).toMatch(/The record has no gyro/);
  });

  test('where the ends bind and by how much; unequal pitch is no fault', () => {
    const text = says({ tail: { slider: { stops: [-4.5, 3] } } });
    expect(text).toContain('Full right rudder binds: it asks for 1.02 mm past the stop at 3 mm.');
    expect(text).not.toContain('Full left rudder binds');
    expect(text).toMatch(/Travel is not equal: .*one side goes 1\.02 mm further/);
    expect(text).toContain('unequal pitch is no fault');
    // 44 degrees at the limit: (10/16) 10 sin 44 = 4.34 mm.
    expect(text).toMatch(/The gyro's limit of 110 percent lets it drive 1\.34 mm past a stop/);
  });
});
