/**
 * Whole machines whose answers were worked out elsewhere, before this library was: six of each kind with their cases and coupling
 * (copied as they came into tests/answers/), and the worked values that the definition of the mechanism gives for the
 * level 120 degree machine. Their numbers are printed to 13 significant digits, so that a pulse of 1700 µs is itself
 * rounded by up to 5e-10.
 */
import { readFileSync } from 'node:fs';
import { describe, expect, it, vi } from 'vitest';
import { coupling } from '../../packages/mixing/src/coupling/coupling.ts';
import { predict } from '../../packages/mixing/src/rig/predict.ts';
import type { Case } from '../../packages/mixing/src/rig/rig.ts';
import { answerOf, preparedOf } from '../support/answer.ts';
import { type Worst, compareLeaves, worse } from '../support/compare.ts';
import { expectNear } from '../support/expect-near.ts';
import { KINDS, type MachineDocument } from '../support/machines.ts';

// A busy machine has been seen to take thirty times as long as a quiet one.
vi.setConfig({ testTimeout: 60_000 });

interface OutsideMachine {
  rig: MachineDocument;
  expected: ({ case: Case } & Record<string, unknown>)[];
  coupling: { swash: number[][]; blade: number[][] };
}

const answers = (name: string): unknown => JSON.parse(readFileSync(new URL(`../answers/${name}`, import.meta.url), 'utf8'));
const withoutPulses = (answer: unknown): unknown =>
  JSON.parse(JSON.stringify(answer, (key, value) => (key === 'pulse' ? undefined : value)));
const nothing: Worst = { difference: 0, where: '' };

describe.each(KINDS)('machines from outside, %s', (kind) => {
  const machines = answers(`predict-${kind}.json`) as OutsideMachine[];

  it('are six with all their cases', () => {
    expect(machines.length).toBe(6);
    for (const { expected } of machines) expect(expected.length).toBe(kind === 'flybar' ? 7 : 6);
  });

  it('answer every case to 1e-9 mm and degree held, 1e-7 settled', () => {
    let held = nothing;
    let settled = nothing;
    machines.forEach(({ rig, expected }, i) => {
      const prepared = preparedOf(rig);
      for (const { case: kase, ...answer } of expected) {
        const where = `machine ${i}, ${JSON.stringify(kase)}`;
        const worst = compareLeaves(predict(prepared, kase), answer, { default: kase.settled ? 1e-7 : 1e-9 }, where);
        // Pulses are checked above; their own rounding would hide the millimetres and degrees that are the point.
        const posed = compareLeaves(predict(prepared, kase), withoutPulses(answer), { default: worst.difference }, where);
        if (kase.settled) settled = worse(settled, posed);
        else held = worse(held, posed);
      }
    });
    console.log(`${kind}: worst held ${held.difference} mm or degree at ${held.where}`);
    if (kind === 'flybar') console.log(`${kind}: worst settled ${settled.difference} mm or degree at ${settled.where}`);
  });

  /**
   * The outside matrices are plain central differences over a stick step of 1e-4: ours of the same step must give the same
   * numbers (their rounding is about 1e-13 / 1e-4), and the derivative itself must lie as near as such a step can be to
   * it. At a corner (mid-stick of an output with unequal travel) that is first order in the step: a bend of 0.35 degree
   * per unit squared on both sides makes 1e-5.
   */
  it('have the coupling that their central differences give, and the derivative beside it', () => {
    let stepped = nothing;
    let exact = nothing;
    machines.forEach(({ rig, coupling: expected }, i) => {
      const prepared = preparedOf(rig);
      const six = (kase: Case) => {
        const { swash, harmonics } = predict(prepared, kase);
        if (!swash || !harmonics || 'unreachable' in harmonics) throw new Error(`machine ${i}: got unreachable, expected a pose`);
        return [swash.height, swash.foreAft, swash.side, harmonics.collective, harmonics.longitudinal, harmonics.lateral];
      };
      const columns = ['collective', 'elevator', 'aileron'].map((stick) => {
        const low = six({ [stick]: -1e-4 });
        return six({ [stick]: 1e-4 }).map((high, row) => (high - (low[row] ?? Number.NaN)) / 2e-4);
      });
      const rows = (first: number) => [0, 1, 2].map((row) => columns.map((column) => column[first + row] ?? Number.NaN));
      stepped = worse(stepped, compareLeaves({ swash: rows(0), blade: rows(3) }, expected, { default: 2e-8 }, `machine ${i}`));
      exact = worse(exact, compareLeaves(coupling(prepared), expected, { default: 2e-5 }, `machine ${i}`));
    });
    console.log(
      `${kind}: coupling, same step ${stepped.difference} at ${stepped.where}; derivative ${exact.difference} at ${exact.where}`,
    );
  });
});

describe('the worked machine: level 120 degrees, ring balls leading by 70', () => {
  const worked = answers('rigs/worked-120.rig.json') as MachineDocument;
  const horns = (machine: MachineDocument, kase: Case) => answerOf(machine, kase).servos?.map(({ horn }) => horn);
  const ring = (machine: MachineDocument, kase: Case) => {
    const { height, foreAft, side } = answerOf(machine, kase).swash ?? {};
    return [height ?? Number.NaN, foreAft ?? Number.NaN, side ?? Number.NaN];
  };
  const pitchAt = (kase: Case, azimuth: number) => answerOf(worked, { ...kase, azimuth }).blades?.[0]?.pitch;

  // Printed to six decimals, so half of the last is the room.
  it('answers full collective and full elevator as worked', () => {
    expectNear(horns(worked, { collective: 1 }), [20, 20, 20], 1e-9, 'degree');
    expectNear(ring(worked, { collective: 1 }), [64.779795, 0, 0], 5e-7, 'mm and degree');
    for (const azimuth of [90, 270]) expectNear(pitchAt({ collective: 1 }, azimuth), 13.358449, 5e-7, 'degree');
    expectNear(horns(worked, { elevator: 1 }), [-16, 8, 8], 1e-9, 'degree');
    expectNear(ring(worked, { elevator: 1 }), [60.010825, 8.569544, 0.001061], 5e-7, 'mm and degree');
    expectNear(pitchAt({ elevator: 1 }, 90), -8.675023, 5e-7, 'degree');
    expectNear(pitchAt({ elevator: 1 }, 270), 8.463314, 5e-7, 'degree');
  });

  it('leans at mid-stick already with one horn set 8 degrees high', () => {
    const machine = structuredClone(worked);
    machine.servos[1].horn.offset = 8;
    expectNear(ring(machine, { elevator: 1 }).slice(1), [9.9925, 2.5058], 5e-5, 'degree');
    expectNear(ring(machine, {})[2], 2.4811, 5e-5, 'degree');
  });

  it('answers in line once phase makes up for the missing lead', () => {
    const machine = structuredClone(worked);
    machine.transmitter.mix.phase = -20;
    const { cross } = coupling(preparedOf(machine)) as { cross: { blade: { elevator: number; aileron: number } } };
    // The definition says that phase cures it without a figure; a hundredth of the tangent of 20 degrees (36 percent) is
    // left by the geometry.
    expectNear([cross.blade.elevator, cross.blade.aileron], [0, 0], 0.4, 'percent');
    const before = coupling(preparedOf(worked)) as { cross: { blade: { elevator: number; aileron: number } } };
    expect(Math.abs(before.cross.blade.elevator)).toBeGreaterThan(30);
  });
});

describe('the whole machines beside the answers', () => {
  it.each(['plain-direct', 'plain-lever', 'plain-flybar', 'worked-120'])(
    '%s stands level at its designed height with blades at zero',
    (name) => {
      const machine = answers(`rigs/${name}.rig.json`) as MachineDocument;
      const { swash, blades } = answerOf(machine, {});
      // Their lengths are printed to 13 digits: 5e-12 mm of a link is 1e-11 degree of a blade.
      expectNear(
        [swash?.height ?? 0, swash?.foreAft ?? 9, swash?.side ?? 9],
        [machine.swash.height, 0, 0],
        1e-9,
        'mm and degree',
      );
      expectNear(
        blades?.map(({ pitch }) => pitch),
        machine.rotor.links.map(() => 0),
        1e-9,
        'degree',
      );
    },
  );
});
