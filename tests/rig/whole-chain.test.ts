/**
 * The whole chain, horn angles to blade pitch, beside numbers worked out by others without sight of this code (sources,
 * 5.6; COMP).
 */
import { describe, it } from 'vitest';
import { WHOLE_CHAIN } from '../answers/sources.ts';
import { answerOf } from '../support/answer.ts';
import { expectNear } from '../support/expect-near.ts';
import { NEUTRAL_HEIGHT, posedMachine } from '../support/posed-machine.ts';

const DEG = 180 / Math.PI;

function ringOf(machine: object) {
  const { swash } = answerOf(machine, {});
  if (!swash) throw new Error('ring: got unreachable, expected a pose');
  // With the pin on the x axis R = Ry(pitch) Rx(roll), so n = (sin p cos r, -sin r, cos p cos r).
  const [x, y] = [Math.tan(swash.foreAft / DEG), Math.tan(swash.side / DEG)];
  const nz = 1 / Math.hypot(x, y, 1);
  return {
    height: swash.height - NEUTRAL_HEIGHT,
    pitch: swash.foreAft,
    roll: Math.asin(y * nz) * DEG,
    tilt: Math.acos(nz) * DEG,
  };
}

describe('the whole chain', () => {
  it.each(WHOLE_CHAIN.forward)(
    'horns $horns give the ring height $height, pitch $pitch, roll $roll',
    ({ horns, height, pitch, roll, tilt }) => {
      const ring = ringOf(posedMachine({ horns }));
      // Printed to ten decimals; acos of a level ring's unit normal resolves no better than 1e-6 degree.
      expectNear([ring.height, ring.pitch, ring.roll], [height, pitch, roll], 1e-10, 'mm and degree');
      expectNear(ring.tilt, tilt, tilt === 0 ? 2e-6 : 1e-10, 'degree');
    },
  );

  it.each(WHOLE_CHAIN.inverse)('the horns worked out backwards for pose $pose give that pose', ({ pose, horns }) => {
    const ring = ringOf(posedMachine({ horns }));
    expectNear([ring.height, ring.pitch, ring.roll], pose, 1e-10, 'mm and degree');
  });

  it.each(WHOLE_CHAIN.blade)('pose $pose gives the blades $at at psi 0, 90, 180, 270', ({ pose, harmonics, at }) => {
    const machine = posedMachine({ pose });
    const found = answerOf(machine, {}).harmonics;
    if (!found || 'unreachable' in found) throw new Error('harmonics: got unreachable, expected a pose');
    // Counter-clockwise: longitudinal is -theta1s, lateral -theta1c. Printed to eight decimals.
    expectNear([found.collective, -found.lateral, -found.longitudinal], harmonics, 6e-9, 'degree');
    at.forEach((pitch, i) => {
      expectNear(answerOf(machine, { azimuth: 90 * i }).blades?.[0]?.pitch, pitch, 6e-9, 'degree', `psi ${90 * i}`);
    });
  });

  it('has the second harmonic of the tilted and raised row, and a residual that is all harmonics from the second on', () => {
    const machine = posedMachine({ pose: [2, 6, -4] });
    const pitches = Array.from({ length: 72 }, (_, i) => answerOf(machine, { azimuth: 5 * i }).blades?.[0]?.pitch ?? Number.NaN);
    const wave = (f: (psi: number) => number) =>
      (2 / 72) * pitches.reduce((sum, pitch, i) => sum + pitch * f((2 * Math.PI * i) / 36), 0);
    expectNear([wave(Math.cos), wave(Math.sin)], WHOLE_CHAIN.second, 6e-9, 'degree');
    // Parseval: what is left has the energy of all harmonics from the second to the last that 72 samples hold.
    const { residual } = answerOf(machine, {}).harmonics as { residual: number };
    const part = (n: number) => {
      const sum = (f: (x: number) => number) =>
        pitches.reduce((total, pitch, i) => total + pitch * f((2 * Math.PI * n * i) / 72), 0);
      return (sum(Math.cos) ** 2 + sum(Math.sin) ** 2) * (n === 36 ? 1 : 2);
    };
    const energy = Array.from({ length: 35 }, (_, i) => part(i + 2)).reduce((total, share) => total + share, 0) / 72 ** 2;
    expectNear(residual, Math.sqrt(energy), 1e-12, 'degree');
  });

  it.each(WHOLE_CHAIN.clockwise)(
    'pose $pose under a clockwise rotor gives theta1c, theta1s $harmonics',
    ({ pose, harmonics }) => {
      const { longitudinal, lateral } = answerOf(posedMachine({ pose, rotation: 'clockwise' }), {}).harmonics as {
        longitudinal: number;
        lateral: number;
      };
      expectNear([lateral, -longitudinal], harmonics, 6e-9, 'degree');
    },
  );
});
