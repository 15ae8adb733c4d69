import { describe, expect, test } from 'vitest';
import { coupling } from '../../packages/mixing/src/coupling/coupling.ts';
import { readReadings } from '../../packages/mixing/src/diagnosis/readings-document.ts';
import { benchExamples, examples } from '../../packages/mixing/src/examples/examples.ts';
import { readTargets } from '../../packages/mixing/src/plan/targets-document.ts';
import { applyChange } from '../../packages/mixing/src/rig/changes.ts';
import { isUnreachable, predict } from '../../packages/mixing/src/rig/predict.ts';
import { prepare } from '../../packages/mixing/src/rig/prepare.ts';
import { readRig } from '../../packages/mixing/src/rig/read.ts';
import type { Case } from '../../packages/mixing/src/rig/rig.ts';
import { tolerancesDocument } from '../../packages/mixing/src/tolerance/tolerances-document.ts';
import { readWritten } from '../../packages/mixing/src/units/read-document.ts';
import { expectNear } from '../support/expect-near.ts';

// The default targets of the model: level 0.5, zero 0.4, ends 0.6, cyclic 0.5 degree, cross 5 percent.
describe.each(examples.map(({ name, document }) => ({ name, document })))('the demo machine $name', ({ document }) => {
  const read = readRig(document);
  if (!read.ok) throw new Error(JSON.stringify(read.faults));
  const prepared = prepare(read.rig);
  const at = (kase: Case) => {
    const prediction = predict(prepared, kase);
    expect(isUnreachable(prediction)).toBe(false);
    const { harmonics, swash, blades, outputs } = prediction;
    if (swash === undefined || blades === undefined || harmonics === undefined || 'unreachable' in harmonics)
      throw new Error('not reached');
    return { swash, blades, harmonics, outputs, tail: prediction.tail };
  };

  test('stands level and at zero pitch at mid-stick', () => {
    const { swash, blades } = at({});
    expectNear(swash.foreAft, 0, 0.01, 'degree');
    expectNear(swash.side, 0, 0.01, 'degree');
    for (const blade of blades) expectNear(blade.pitch, 0, 0.01, 'degree');
  });

  test('has about 10 degrees of collective either way and 5 of cyclic, each stick alone', () => {
    expectNear(at({ collective: 1 }).harmonics.collective, 10, 0.6, 'degree');
    expectNear(at({ collective: -1 }).harmonics.collective, -10, 0.6, 'degree');
    const half = (stick: 'elevator' | 'aileron', part: 'longitudinal' | 'lateral') =>
      (at({ [stick]: 1 }).harmonics[part] - at({ [stick]: -1 }).harmonics[part]) / 2;
    expectNear(half('elevator', 'longitudinal'), 5, 0.5, 'degree');
    expectNear(half('aileron', 'lateral'), 5, 0.5, 'degree');
  });

  test('is healthy, and no stick moves what it should not', () => {
    const found = coupling(prepared, {});
    if ('unreachable' in found) throw new Error('not reached');
    expect(found.healthy).toBe(true);
    expectNear(found.cross.blade.elevator ?? NaN, 0, 1, 'percent');
    expectNear(found.cross.blade.aileron ?? NaN, 0, 1, 'percent');
  });

  test('is free at every corner of the sticks, and no output is at its limit', () => {
    for (const collective of [-1, 1]) {
      for (const [elevator, aileron] of [
        [1, 1],
        [1, -1],
        [-1, 1],
        [-1, -1],
        [1, 0],
        [0, 1],
        [-1, 0],
        [0, -1],
      ]) {
        for (const rudder of [-1, 1]) {
          const { outputs, tail } = at({ collective, elevator: elevator ?? 0, aileron: aileron ?? 0, rudder });
          expect(outputs.some((output) => output.saturated)).toBe(false);
          expect(tail?.past ?? 0).toBe(0);
        }
      }
    }
  });

  test('its tail, where it has one, goes right on right rudder and answers a swing of the nose to the left alike', () => {
    const right = at({ rudder: 1 }).tail?.pitch;
    const answered = at({ yawRate: 100 }).tail?.pitch;
    if (right === undefined || answered === undefined) expect(read.rig.tail).toBeUndefined();
    else {
      expect(right).toBeGreaterThan(10);
      expect(answered).toBeGreaterThan(1);
    }
  });
});

test('there is one of each kind', () => {
  const rigs = examples.map(({ document }) => readRig(document)).map((read) => (read.ok ? read.rig : undefined));
  expect(rigs[0]?.servos.every((servo) => servo.lever === undefined) && rigs[0]?.flybar === undefined).toBe(true);
  expect(rigs.some((rig) => rig?.servos.some((servo) => servo.lever !== undefined))).toBe(true);
  expect(rigs.some((rig) => rig?.flybar !== undefined && rig.tail?.gyro !== undefined)).toBe(true);
  expect(new Set(examples.map(({ name }) => name)).size).toBe(examples.length);
});

test('what goes with the first machine reads, on that machine', () => {
  const machine = readRig(examples[0].document);
  if (!machine.ok) throw new Error('the demo machine does not read');
  const documents = benchExamples.map(({ document }) => document);
  const [readings, targets, tolerances] = documents;
  expect(readReadings(readings, machine.rig)).toMatchObject({ ok: true });
  expect(readTargets(targets, machine.rig)).toMatchObject({ ok: true });
  expect(readWritten(tolerancesDocument(machine.rig), tolerances)).toMatchObject({ ok: true });
  expect(documents).toHaveLength(3);
});

test('the readings are of the bench trainer with its left front horn 7 degrees high, read with a gauge of 0.4 degree zero', () => {
  const machine = readRig(examples[0].document);
  if (!machine.ok) throw new Error('the demo machine does not read');
  const read = readReadings(benchExamples[0]?.document, machine.rig);
  if (!read.ok) throw new Error(JSON.stringify(read.faults));
  const high = prepare(applyChange(machine.rig, { path: '/servos/0/horn/offset', by: 7 }));
  for (const item of read.readings.readings) {
    if (item.kind !== 'reading') continue;
    const { measure, of, sticks, azimuth, value, flipped, sd } = item.reading;
    const { servos, swash, blades } = predict(high, { ...sticks, azimuth });
    const pitch = blades?.[of - 1]?.pitch ?? NaN;
    const shown: Partial<Record<typeof measure, number>> = {
      'horn-angle': servos[of - 1]?.horn ?? NaN,
      'fore-aft-tilt': swash?.foreAft ?? NaN,
      'side-tilt': swash?.side ?? NaN,
      'blade-pitch': flipped ? 0.4 - pitch : 0.4 + pitch,
    };
    // Three of its own standard deviations, and what the other parts' scatter adds.
    expectNear(value, shown[measure] ?? NaN, 3 * sd + 0.5, `degree of ${measure} ${of}`);
  }
});
