/**
 * What an instrument adds to a reading: against model.md's words, and against a mast that is leant over in three dimensions.
 */
import { describe, expect, it } from 'vitest';
import type { Instrument, Measure, ReadingPlace } from '../../packages/mixing/src/diagnosis/readings.ts';
import { instrumentTerms, readingVariance } from '../../packages/mixing/src/diagnosis/rows.ts';
import { azimuthFor } from '../../packages/mixing/src/diagnosis/standard-set.ts';
import type { Rig } from '../../packages/mixing/src/rig/rig.ts';
import { expectNear } from '../support/expect-near.ts';
import { rigOf } from './seeded-readings.ts';

const RAD = Math.PI / 180;
const place = (measure: Measure, more: Partial<ReadingPlace> = {}): ReadingPlace => ({
  measure,
  of: 1,
  sticks: { collective: 0, elevator: 0, aileron: 0, rudder: 0 },
  azimuth: 0,
  teeter: 0,
  yawRate: 0,
  flipped: false,
  instrument: 0,
  ...more,
});
const withGauge = (reference: Instrument['reference'], step = 0) => ({
  instruments: [{ name: 'gauge', reference, zeroSd: 0.5, step }],
  lean: { foreAftSd: 1, sideSd: 1 },
});
const rotating = (rotation: Rig['rotor']['rotation']): Rig => {
  const rig = rigOf(2, 'direct');
  return { ...rig, rotor: { ...rig.rotor, rotation } };
};

/** The angle above the horizontal of a blade's chord at zero pitch, the mast leant by f nose-down and s right-down (degrees). */
function leantChord(machineAzimuthDeg: number, rotation: 1 | -1, f: number, s: number): number {
  // leading edge: the way the blade goes, a quarter turn ahead of it
  const ahead = (machineAzimuthDeg + rotation * 90) * RAD;
  const x = Math.cos(ahead);
  const y = Math.sin(ahead);
  // nose-down f lowers x = 1 by sin f; right-down s raises the left, y = 1, by sin s
  return Math.asin(-x * Math.sin(f * RAD) + y * Math.sin(s * RAD)) / RAD;
}

describe('a gauge on gravity', () => {
  it('sees the lean as the blade does, whichever way the rotor turns', () => {
    for (const rotation of ['clockwise', 'counterclockwise'] as const) {
      const sign = rotation === 'counterclockwise' ? 1 : -1;
      for (const psi of [0, 30, 90, 200, 270]) {
        const { leanForeAft, leanSide } = instrumentTerms(
          rotating(rotation),
          withGauge('gravity'),
          place('blade-pitch', { azimuth: psi }),
        );
        const machine = 180 + sign * psi;
        expectNear(
          leanForeAft * 0.8 + leanSide * -0.5,
          leantChord(machine, sign, 0.8, -0.5),
          1e-4,
          'degree',
          `${rotation} psi ${psi}`,
        );
      }
    }
  });

  it('sees it on another blade where that blade is', () => {
    const rig = rotating('counterclockwise');
    const { blades } = rig.rotor;
    const second = instrumentTerms(rig, withGauge('gravity'), place('blade-pitch', { of: 2, azimuth: 20 }));
    const first = instrumentTerms(rig, withGauge('gravity'), place('blade-pitch', { azimuth: 20 + 360 / blades }));
    expectNear([second.leanForeAft, second.leanSide], [first.leanForeAft, first.leanSide], 1e-12, '');
  });

  it('on the head or the shaft sees none of it, and a leveller on gravity all of its own axis', () => {
    const rig = rotating('clockwise');
    for (const reference of ['shaft', 'head'] as const) {
      expect(instrumentTerms(rig, withGauge(reference), place('blade-pitch', { azimuth: 33 }))).toEqual({
        way: 1,
        leanForeAft: 0,
        leanSide: 0,
      });
    }
    expect(instrumentTerms(rig, withGauge('gravity'), place('fore-aft-tilt'))).toEqual({ way: 1, leanForeAft: 1, leanSide: 0 });
    expect(instrumentTerms(rig, withGauge('gravity'), place('side-tilt'))).toEqual({ way: 1, leanForeAft: 0, leanSide: 1 });
    expect(instrumentTerms(rig, withGauge('shaft'), place('side-tilt')).leanSide).toBe(0);
    expect(instrumentTerms(rig, withGauge('gravity'), place('horn-angle')).leanSide).toBe(0);
  });

  it('turned end for end reads the other way', () => {
    expect(instrumentTerms(rotating('clockwise'), withGauge('gravity'), place('blade-pitch', { flipped: true })).way).toBe(-1);
  });
});

describe('the spread of a reading', () => {
  it('is its own, the step it was rounded to, and the play that was felt there', () => {
    const reading = { ...place('blade-pitch'), value: 3, sd: 0.25 };
    expectNear(readingVariance(withGauge('gravity', 0.5), reading, new Map()), 0.0625 + 0.25 / 12, 1e-12, 'degree squared');
    expectNear(
      readingVariance(withGauge('gravity', 0.5), reading, new Map([[1, 1.2]])),
      0.0625 + 0.25 / 12 + 1.44 / 12,
      1e-12,
      'degree squared',
    );
    expectNear(
      readingVariance(withGauge('gravity', 0.5), { ...reading, of: 2 }, new Map([[1, 1.2]])),
      0.0625 + 0.25 / 12,
      1e-12,
      'degree squared',
    );
  });
});

describe('the blade under the gauge points to', () => {
  it('tail, left, nose or right, seen from behind, both ways round', () => {
    for (const rotation of ['clockwise', 'counterclockwise'] as const) {
      const sign = rotation === 'counterclockwise' ? 1 : -1;
      const rig = rotating(rotation);
      // machine azimuths, counter-clockwise from the nose
      for (const [pointing, machine] of [
        ['nose', 0],
        ['left', 90],
        ['tail', 180],
        ['right', 270],
      ] as const) {
        for (const of of [1, 2]) {
          const psi = azimuthFor(rig, pointing, of) + (360 / rig.rotor.blades) * (of - 1);
          expectNear((((180 + sign * psi) % 360) + 360) % 360, machine, 1e-9, 'degree', `${rotation} blade ${of} ${pointing}`);
        }
      }
    }
  });
});
