/**
 * A settled flybar is a rotor of its own that follows its paddles: beta'' + (gamma / 8) beta' + nu^2 beta = (gamma / 8)
 * theta per revolution, whose lag is atan2(gamma / 8, nu^2 - 1) (sources, 1.3 and 1.4; MEM: Johnson, Helicopter Theory;
 * numbers COMP). Hinged at the mast nu is 1 and the lag a quarter turn whatever gamma is.
 */
import { describe, expect, it, vi } from 'vitest';
import { predict } from '../../packages/mixing/src/rig/predict.ts';
import { FLAP_LAG } from '../answers/sources.ts';
import { preparedOf } from '../support/answer.ts';
import { expectNear } from '../support/expect-near.ts';
import { randomRig } from '../support/machines.ts';
import { posedMachine } from '../support/posed-machine.ts';

// A busy machine has been seen to take thirty times as long as a quiet one.
vi.setConfig({ testTimeout: 60_000 });

const RAD = Math.PI / 180;

/**
 * The steady wave (cosine, sine) that answers a forcing wave: (nu^2 - 1 + i gamma / 8) beta = (gamma / 8) theta, a wave c
 * cos + s sin being c - i s.
 */
function flapping(gamma: number, nu: number, [c, s]: readonly [number, number]): [number, number] {
  const [re, im] = [nu * nu - 1, gamma / 8];
  const share = im / (re * re + im * im);
  return [share * (c * re - s * im), share * (c * im + s * re)];
}

describe('flapping', () => {
  it('lags by the table', () => {
    for (const { gamma, nu, lag } of FLAP_LAG) {
      nu.forEach((frequency, i) => {
        const [c, s] = flapping(gamma, frequency, [1, 0]);
        expectNear(Math.atan2(s, c) / RAD, lag[i] ?? Number.NaN, 6e-5, 'degree', `gamma ${gamma}, nu ${frequency}`);
      });
    }
  });
});

describe('the settled flybar', () => {
  it('teeters as a hinged rotor does under its own paddle pitch, at every azimuth (seeds 3200 to 3207)', () => {
    for (let seed = 3200; seed < 3208; seed++) {
      const prepared = preparedOf(randomRig(seed, 'flybar', { offNominal: seed % 2 === 0 }));
      const poses = Array.from({ length: 72 }, (_, i) => {
        const { flybar } = predict(prepared, { collective: 0.3, elevator: 0.7, aileron: -0.4, azimuth: 5 * i, settled: true });
        return flybar ?? { paddle: Number.NaN, teeter: Number.NaN };
      });
      const wave = (f: (psi: number) => number) =>
        (2 / 72) * poses.reduce((sum, { paddle }, i) => sum + paddle * f(5 * i * RAD), 0);
      for (const gamma of [4, 8]) {
        const [c, s] = flapping(gamma, 1, [wave(Math.cos), wave(Math.sin)]);
        poses.forEach(({ teeter }, i) => {
          const psi = 5 * i * RAD;
          expectNear(teeter, c * Math.cos(psi) + s * Math.sin(psi), 1e-8, 'degree', `seed ${seed}, psi ${5 * i}`);
        });
      }
    }
  });

  it('with teeter held where it settles gives the same head as settled does (seed 3210)', () => {
    const prepared = preparedOf(randomRig(3210, 'flybar', { offNominal: true }));
    const kase = { collective: -0.2, elevator: 0.5, aileron: 0.6, azimuth: 77 };
    const settled = predict(prepared, { ...kase, settled: true });
    const held = predict(prepared, { ...kase, teeter: settled.flybar?.teeter ?? Number.NaN });
    const parts = ({ blades, flybar }: typeof held) => [
      ...(blades ?? []).map(({ pitch }) => pitch),
      ...(flybar ? [flybar.washout, flybar.paddle, ...flybar.washoutArms, ...flybar.mixingArms] : []),
    ];
    expectNear(parts(settled), parts(held), 1e-10, 'mm and degree');
  });

  it('washes collective out: the base slides, the paddles of a square head stay where they are, and cyclic moves them', () => {
    const machine = posedMachine({});
    const { swash, rotor } = machine;
    const height = swash.height + 66; // of the flybar
    const base = swash.height + 24;
    const rod = height - base;
    const link = Math.hypot(base - swash.height - 4, 6);
    const { ring: _, ...bare } = rotor;
    machine.rotor = { ...bare, hubHeight: swash.height + 58, pitchArm: { station: 0, lead: 16, height: 0 }, links: [11, 11] };
    machine.flybar = {
      azimuth: 90,
      height,
      arm: { station: 6, lead: 13, height: 0 },
      washout: {
        height: base,
        pivot: { radius: 6, azimuth: 90, height: 0 },
        azimuth: 180,
        flybarEnd: { length: 13, angle: 0 },
        swashEnd: { length: 11, angle: 180 },
        ring: { radius: 11, azimuth: 0, height: 4 },
        links: [link, link],
        rods: [rod, rod],
      },
      mixing: {
        pivot: { radius: 8, azimuth: 90, height: swash.height + 47 },
        azimuth: 90,
        swashEnd: { length: 12, angle: 0 },
        bladeEnd: { length: 8, angle: 0 },
        ring: { radius: 20, azimuth: 90, height: 4 },
        rods: [43, 43],
      },
    };
    const prepared = preparedOf(machine);
    const at = (kase: object) => {
      const { flybar, swash: ring } = predict(prepared, kase);
      const { paddle = 9, washout = 0, washoutArms = [9, -9] } = flybar ?? {};
      return { paddle, rise: washout - base, arms: washoutArms, ringRise: (ring?.height ?? 0) - swash.height };
    };
    for (const collective of [-1, 0.4, 1]) {
      const { paddle, arms, rise, ringRise } = at({ collective });
      // Both arms turn alike about ends that the paddles hold, so that the base goes about half the ring's way (13 of 11 + 13).
      expectNear([paddle, arms[0] - arms[1]], [0, 0], 1e-10, 'degree', `collective ${collective}`);
      expect(rise / ringRise).toBeGreaterThan(0.45);
      expect(rise / ringRise).toBeLessThan(0.6);
      expect(Math.abs(arms[0])).toBeGreaterThan(2);
    }
    expect(Math.abs(at({ elevator: 0.5, azimuth: 90 }).paddle)).toBeLessThan(1);
    expect(Math.abs(at({ elevator: 0.5, azimuth: 0 }).paddle)).toBeGreaterThan(2);
  });
});
