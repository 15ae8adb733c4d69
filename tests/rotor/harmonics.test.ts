/**
 * Blade pitch over a revolution, theta(psi) = theta0 + theta1c cos psi + theta1s sin psi + ... (sources, section 1; form
 * READ in S. Kumar, HeliAeroNotes, and in R. H. MacNeal, NASA CR-84460, 1967, as quoted by CMU: the sine term is
 * longitudinal, the cosine term lateral).
 */
import { describe, expect, it, vi } from 'vitest';
import { predict } from '../../packages/mixing/src/rig/predict.ts';
import type { Case } from '../../packages/mixing/src/rig/rig.ts';
import { preparedOf } from '../support/answer.ts';
import { expectNear } from '../support/expect-near.ts';
import { KINDS, type MachineDocument, randomRig } from '../support/machines.ts';
import { posedMachine } from '../support/posed-machine.ts';

// A busy machine has been seen to take thirty times as long as a quiet one.
vi.setConfig({ testTimeout: 60_000 });

const RAD = Math.PI / 180;

function harmonicsOf(machine: object, kase: Case) {
  const { harmonics } = predict(preparedOf(machine), kase);
  if (!harmonics || 'unreachable' in harmonics) throw new Error('harmonics: got unreachable, expected a pose');
  return harmonics;
}

/** theta0, theta1c, theta1s of blade 1's pitch by the discrete transform over n azimuths. */
function transform(machine: object, kase: Case, n: number) {
  const prepared = preparedOf(machine);
  const pitches = Array.from(
    { length: n },
    (_, i) => predict(prepared, { ...kase, azimuth: (360 * i) / n }).blades?.[0]?.pitch ?? Number.NaN,
  );
  const sum = (f: (psi: number) => number) => pitches.reduce((total, pitch, i) => total + pitch * f((2 * Math.PI * i) / n), 0);
  const [theta0, theta1c, theta1s] = [sum(() => 1) / n, (2 / n) * sum(Math.cos), (2 / n) * sum(Math.sin)];
  const left = pitches.map((pitch, i) => {
    const psi = (2 * Math.PI * i) / n;
    return pitch - theta0 - theta1c * Math.cos(psi) - theta1s * Math.sin(psi);
  });
  return { theta0, theta1c, theta1s, residual: Math.sqrt(left.reduce((total, x) => total + x * x, 0) / n) };
}

describe('harmonics', () => {
  it.each(KINDS)('are the discrete transform of the blade pitches one by one, %s (seeds 3000 to 3019)', (kind) => {
    for (let seed = 3000; seed < 3020; seed++) {
      const machine = randomRig(seed, kind, { offNominal: true });
      const kase: Case = { collective: 0.4, elevator: -0.7, aileron: 0.5, ...(kind === 'flybar' ? { teeter: 1.5 } : {}) };
      const { theta0, theta1c, theta1s, residual } = transform(machine, kase, 72);
      const clockwise = machine.rotor.rotation === 'clockwise';
      const found = harmonicsOf(machine, { ...kase, azimuth: 123.4 });
      const expected = [theta0, -theta1s, clockwise ? theta1c : -theta1c, residual];
      expectNear(
        [found.collective, found.longitudinal, found.lateral, found.residual],
        expected,
        1e-11,
        'degree',
        `seed ${seed}`,
      );
    }
  });

  it('are nearly told by three azimuths, the rest being the residual (seed 3001)', () => {
    const machine = randomRig(3001, 'direct');
    const kase = { elevator: 0.6, aileron: -0.3 };
    const { theta0, theta1c, theta1s } = transform(machine, kase, 3);
    const fine = transform(machine, kase, 72);
    const room = 4 * fine.residual;
    expect(room).toBeLessThan(0.1);
    expectNear([theta0, theta1c, theta1s], [fine.theta0, fine.theta1c, fine.theta1s], room, 'degree');
  });
});

describe('signs of cyclic', () => {
  // The disc answers a quarter turn later (READ: spinningwing.com; FAA-H-8083-21A p. 2-16): to lower the nose the pitch
  // is least at psi 90, to lower the psi 90 side it is least at psi 0.
  it.each(['clockwise', 'counterclockwise'] as const)(
    'forward is least pitch at psi 90, and right is toward psi 90 or 270 as the rotor turns, %s',
    (rotation) => {
      for (let seed = 3100; seed < 3110; seed++) {
        const machine = randomRig(seed, 'direct');
        // Leads and phase follow the rotation, so the machine stays a healthy one whichever way it turns.
        machine.rotor.rotation = rotation;
        const forward = transform(machine, { elevator: 1 }, 72);
        expect(forward.theta1s, `seed ${seed}`).toBeLessThan(-3);
        expect(harmonicsOf(machine, { elevator: 1 }).longitudinal).toBeGreaterThan(3);
        const right = transform(machine, { aileron: 1 }, 72);
        // psi 90 is the right side counter-clockwise, the left side clockwise.
        if (rotation === 'counterclockwise') expect(right.theta1c, `seed ${seed}`).toBeLessThan(-3);
        else expect(right.theta1c, `seed ${seed}`).toBeGreaterThan(3);
        expect(harmonicsOf(machine, { aileron: 1 }).lateral).toBeGreaterThan(3);
      }
    },
  );
});

describe('phase', () => {
  const pulses = (machine: MachineDocument, kase: Case) => predict(preparedOf(machine), kase).outputs.map(({ pulse }) => pulse);

  it('turns the commanded tilt in the direction of rotation: the pulses are those of the turned stick', () => {
    for (const rotation of ['clockwise', 'counterclockwise'] as const) {
      for (const phase of [-37, 20, 90, 180]) {
        const machine = posedMachine({ rotation });
        const turned = structuredClone(machine);
        turned.transmitter.mix.phase = phase;
        const [forward, right] = [0.5, -0.3];
        // Forward is x and right is -y; the direction of rotation is counter-clockwise from above or its opposite.
        const angle = (rotation === 'counterclockwise' ? 1 : -1) * phase * RAD;
        const x = forward * Math.cos(angle) + right * Math.sin(angle);
        const y = forward * Math.sin(angle) - right * Math.cos(angle);
        expectNear(
          pulses(turned, { collective: 0.2, elevator: forward, aileron: right }),
          pulses(machine, { collective: 0.2, elevator: x, aileron: -y }),
          1e-9,
          'us',
          `${rotation}, ${phase}`,
        );
      }
    }
  });

  it('keeps the size of the answer, and four quarter turns are none', () => {
    // A symmetric small-angle machine: what is left is the geometry's own second order.
    const answer = (phase: number) => {
      const machine = posedMachine({});
      machine.transmitter.mix.phase = phase;
      machine.transmitter.mix.elevator = machine.transmitter.mix.aileron = 4;
      const { longitudinal, lateral } = harmonicsOf(machine, { elevator: 0.8, aileron: 0.3 });
      return [longitudinal, lateral] as const;
    };
    const size = Math.hypot(...answer(0));
    for (const phase of [30, 90, 145, 270])
      expectNear(Math.hypot(...answer(phase)), size, 2e-3 * size, 'degree', `phase ${phase}`);
    expectNear(answer(360), answer(0), 1e-12, 'degree');
    // (x, y) = (longitudinal, -lateral) turns by the phase, counter-clockwise with this rotor.
    const [f, r] = answer(0);
    const [quarterF, quarterR] = answer(90);
    expectNear([quarterF, quarterR], [r, -f], 4e-3 * size, 'degree');
  });
});
