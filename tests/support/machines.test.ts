import { describe, expect, it, vi } from 'vitest';
import { readRig } from '../../packages/mixing/src/rig/read.ts';
import { answerOf } from './answer.ts';
import { expectNear } from './expect-near.ts';
import { KINDS, extreme, randomRig, spoil } from './machines.ts';

// A busy machine has been seen to take thirty times as long as a quiet one.
vi.setConfig({ testTimeout: 60_000 });

const SEEDS = Array.from({ length: 60 }, (_, i) => i);

describe.each(KINDS)('randomRig, %s (seeds 0 to 59)', (kind) => {
  const machines = SEEDS.map((seed) => randomRig(seed, kind));

  it('is level, at zero pitch and at its designed height at mid-stick', () => {
    machines.forEach((machine) => {
      const { swash, blades } = answerOf(machine, {});
      expectNear(swash?.height, machine.swash.height, 1e-9, 'mm', machine.name);
      expectNear([swash?.foreAft ?? Number.NaN, swash?.side ?? Number.NaN], [0, 0], 1e-9, 'degree', machine.name);
      expectNear(
        blades?.map(({ pitch }) => pitch),
        machine.rotor.links.map(() => 0),
        1e-9,
        'degree',
        machine.name,
      );
    });
  });

  it('answers every stick the right way and by the right amount', () => {
    machines.forEach((machine) => {
      const at = (kase: object) => {
        const { harmonics } = answerOf(machine, kase);
        if (!harmonics || 'unreachable' in harmonics) throw new Error(`${machine.name}: got unreachable, expected a pose`);
        return harmonics;
      };
      const half = (stick: string, of: 'collective' | 'longitudinal' | 'lateral') =>
        (at({ [stick]: 1 })[of] - at({ [stick]: -1 })[of]) / 2;
      expectNear(half('collective', 'collective'), 10, 0.05, 'degree', `${machine.name}, collective`);
      expectNear(half('elevator', 'longitudinal'), 5, 0.1, 'degree', `${machine.name}, elevator`);
      expectNear(half('aileron', 'lateral'), 5, 0.1, 'degree', `${machine.name}, aileron`);
      expectNear(half('elevator', 'lateral'), 0, 0.4, 'degree', `${machine.name}, elevator to the side`);
    });
  });

  it('has a tail that swings the nose the right way, clear of its stops, with a gyro that helps', () => {
    SEEDS.forEach((seed) => {
      const machine = randomRig(seed, kind, { tail: true });
      const at = (kase: object) => {
        const { tail } = answerOf(machine, kase);
        if (!tail || 'unreachable' in tail) throw new Error(`${machine.name}: got no tail pose, expected one`);
        return tail;
      };
      expectNear(at({}).pitch, 0, 1e-8, 'degree', machine.name);
      const [right, left] = [at({ rudder: 1 }), at({ rudder: -1 })];
      expect(right.pitch).toBeGreaterThan(10);
      expect(left.pitch).toBeLessThan(-10);
      expect([right.past, left.past]).toEqual([0, 0]);
      const gyro = machine.tail?.gyro;
      const gain = gyro?.scale === 'centred' ? 2 * (gyro.gain - 50) : (gyro?.gain ?? 0);
      if (gain === 0) expectNear(at({ yawRate: 60 }).pitch, 0, 1e-8, 'degree', machine.name);
      else expect(at({ yawRate: 60 }).pitch, machine.name).toBeGreaterThan(0);
    });
  });
});

describe('machines', () => {
  it('differ from seed to seed and cover every layout, rotation and number of blades (seeds 0 to 59)', () => {
    const made = SEEDS.map((seed) => randomRig(seed, 'direct'));
    expect(new Set(made.map((machine) => machine.swash.height)).size).toBe(SEEDS.length);
    expect([...new Set(made.map(({ rotor }) => rotor.blades))].sort()).toEqual([2, 3, 4, 5]);
    expect(new Set(made.map(({ rotor }) => rotor.rotation)).size).toBe(2);
    for (const spread of ['120', '135', '140']) expect(made.some(({ name }) => name.startsWith(`direct ${spread}`))).toBe(true);
    expect(made.some(({ tail }) => tail)).toBe(true);
    expect(made.some(({ transmitter }) => transmitter.mix.weights)).toBe(true);
    expect(randomRig(3, 'lever')).toEqual(randomRig(3, 'lever'));
  });

  it('are off nominal where asked for (seeds 0 to 59)', () => {
    const lean = SEEDS.map((seed) => {
      const { swash } = answerOf(randomRig(seed, 'direct', { offNominal: true }), {});
      return Math.hypot(swash?.foreAft ?? 0, swash?.side ?? 0);
    });
    expect(lean.filter((tilt) => tilt > 0.5).length).toBeGreaterThan(40);
  });

  it('spoilt are refused and extreme are accepted (seeds 0 to 149)', { timeout: 60_000 }, () => {
    for (let seed = 0; seed < 150; seed++) {
      const { document, damage } = spoil(randomRig(seed % 20, KINDS[seed % 3] ?? 'direct', { tail: true }), seed);
      expect(readRig(document).ok, `${damage.pointer}: ${damage.what}, seed ${seed}`).toBe(false);
      const read = readRig(extreme(seed));
      expect(read.ok ? [] : read.faults, `seed ${seed}`).toEqual([]);
    }
  });
});
