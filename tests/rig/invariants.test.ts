/**
 * What must hold for any answer, whatever the numbers are: links keep their length, rings stay rigid, the mirrored machine gives
 * the mirrored answer, and turning every azimuth of the machine turns the answer. Seeds and cases come from fast-check,
 * itself seeded.
 */
import fc from 'fast-check';
import { describe, expect, it, vi } from 'vitest';
import { type Figure, figure } from '../../packages/mixing/src/rig/figure/figure.ts';
import { predict } from '../../packages/mixing/src/rig/predict.ts';
import type { Case, Point } from '../../packages/mixing/src/rig/rig.ts';
import { preparedOf } from '../support/answer.ts';
import { expectNear } from '../support/expect-near.ts';
import { KINDS, type MachineDocument, randomRig } from '../support/machines.ts';
import { mirrored, turned } from '../support/symmetries.ts';

// A busy machine has been seen to take thirty times as long as a quiet one.
vi.setConfig({ testTimeout: 60_000 });

const SEED = 20261125;
const RUNS = { seed: SEED, numRuns: 120 };
const DEG = 180 / Math.PI;

const stick = fc.double({ min: -1, max: 1, noNaN: true });
const anyCase = fc.record({
  collective: stick,
  elevator: stick,
  aileron: stick,
  rudder: stick,
  azimuth: fc.double({ min: -720, max: 720, noNaN: true }),
  teeter: fc.double({ min: -4, max: 4, noNaN: true }),
});
const anyMachine = fc
  .record({ seed: fc.integer({ min: 0, max: 1_000_000 }), kind: fc.constantFrom(...KINDS), offNominal: fc.boolean() })
  .map(({ seed, kind, offNominal }) => randomRig(seed, kind, { offNominal }));

/** Teeter is asked only of a head that has a flybar. */
function caseFor(machine: MachineDocument, { teeter, ...kase }: Case & { teeter: number }): Case {
  return machine.flybar ? { ...kase, teeter } : kase;
}

const apart = (a: Point | undefined, b: Point | undefined): number =>
  a && b ? Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]) : Number.NaN;

/** Every link and rod of the head as [path, length in the document, distance between its drawn balls]. */
function links(machine: MachineDocument, drawn: Figure): [string, number, number][] {
  const found: [string, number, number][] = [];
  machine.servos.forEach(({ link, pushrod }, i) => {
    const servo = drawn.servos[i];
    if (pushrod !== undefined) found.push([`/servos/${i}/pushrod`, pushrod, apart(servo?.hornBall, servo?.lever?.servoEnd)]);
    found.push([`/servos/${i}/link`, link, apart(servo?.lever?.swashEnd ?? servo?.hornBall, servo?.ringBall)]);
  });
  machine.rotor.links.forEach((link, k) => {
    const blade = drawn.blades?.[k];
    found.push([`/rotor/links/${k}`, link, apart(blade?.lowerEye, blade?.armBall)]);
  });
  const { flybar } = machine;
  for (const k of flybar ? ([0, 1] as const) : []) {
    const washout = drawn.flybar?.washout[k];
    const mixing = drawn.flybar?.mixing[k];
    found.push([`/flybar/washout/rods/${k}`, flybar?.washout.rods[k] ?? 0, apart(washout?.flybarEnd, drawn.flybar?.armBalls[k])]);
    found.push([`/flybar/washout/links/${k}`, flybar?.washout.links[k] ?? 0, apart(washout?.swashEnd, washout?.ringBall)]);
    found.push([`/flybar/mixing/rods/${k}`, flybar?.mixing.rods[k] ?? 0, apart(mixing?.swashEnd, mixing?.ringBall)]);
  }
  return found;
}

describe(`any answer (fast-check seed ${SEED})`, () => {
  it('keeps every link and rod as long as the document says, to 1e-9 mm', () => {
    fc.assert(
      fc.property(anyMachine, anyCase, (machine, any) => {
        const drawn = figure(preparedOf(machine), caseFor(machine, any));
        for (const [path, length, distance] of links(machine, drawn)) expectNear(distance, length, 1e-9, 'mm', path);
      }),
      RUNS,
    );
  });

  it('keeps both rings rigid, sharing centre and normal, with guide and driver in their planes', () => {
    fc.assert(
      fc.property(anyMachine, anyCase, (machine, any) => {
        const kase = caseFor(machine, any);
        const { swash, servos } = figure(preparedOf(machine), kase);
        if (!swash) throw new Error('ring: got unreachable, expected a pose');
        const { stationary, rotating, normal, centre } = swash;
        const column = (m: readonly number[], j: number): Point => [
          m[j] ?? Number.NaN,
          m[j + 3] ?? Number.NaN,
          m[j + 6] ?? Number.NaN,
        ];
        const dot = (a: Point, b: Point) => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
        for (const m of [stationary, rotating]) {
          const products = [0, 1, 2].map((i) => [0, 1, 2].map((j) => dot(column(m, i), column(m, j))));
          expectNear(products, [[1, 0, 0], [0, 1, 0], [0, 0, 1]], 1e-13, '', 'columns of a ring'); // biome-ignore format: a matrix
          expectNear(column(m, 2), normal, 1e-13, '', 'normal');
        }
        // Balls of the stationary ring: their places on it, not only their distances.
        machine.servos.forEach(({ ball }, i) => {
          const there = servos[i]?.ringBall ?? [Number.NaN, Number.NaN, Number.NaN];
          const local: Point = [there[0] - centre[0], there[1] - centre[1], there[2] - centre[2]];
          const [x, y] = [ball.radius * Math.cos(ball.azimuth / DEG), ball.radius * Math.sin(ball.azimuth / DEG)];
          const onRing = [0, 1, 2].map((j) => dot(column(stationary, j), local));
          expectNear(onRing, [x, y, ball.height], 1e-11, 'mm', `ball ${i + 1}`);
        });
        const outOfPlane = (direction: Point, azimuth: number) =>
          -Math.sin(azimuth) * direction[0] + Math.cos(azimuth) * direction[1];
        const guide = machine.swash.guide / DEG;
        const along = (m: readonly number[], c: number, s: number): Point => {
          const [p, q] = [column(m, 0), column(m, 1)];
          return [c * p[0] + s * q[0], c * p[1] + s * q[1], c * p[2] + s * q[2]];
        };
        expectNear(outOfPlane(along(stationary, Math.cos(guide), Math.sin(guide)), guide), 0, 1e-13, '', 'guide');
        const sense = machine.rotor.rotation === 'counterclockwise' ? 1 : -1;
        const driver = machine.rotor.driver / DEG;
        const place = (180 + sense * ((kase.azimuth ?? 0) + machine.rotor.driver)) / DEG;
        expectNear(outOfPlane(along(rotating, Math.cos(driver), Math.sin(driver)), place), 0, 1e-13, '', 'driver');
      }),
      RUNS,
    );
  });

  it('of the mirrored machine is the mirrored answer', () => {
    fc.assert(
      fc.property(anyMachine, anyCase, (machine, any) => {
        const kase = caseFor(machine, any);
        const answer = predict(preparedOf(machine), kase);
        const mirror = predict(preparedOf(mirrored(machine)), { ...kase, aileron: -(kase.aileron ?? 0) });
        const { swash, blades, harmonics, flybar } = answer;
        fc.pre(harmonics !== undefined && !('unreachable' in harmonics));
        if (!swash || !harmonics || 'unreachable' in harmonics) throw new Error('got unreachable, expected a pose');
        expectNear(
          mirror.outputs.map(({ pulse }) => pulse),
          answer.outputs.map(({ pulse }) => pulse),
          1e-9,
          'us',
          'pulses',
        );
        expectNear(
          [mirror.swash?.height ?? 0, mirror.swash?.foreAft ?? 0, mirror.swash?.side ?? 0],
          [swash.height, swash.foreAft, -swash.side],
          1e-10,
          'mm and degree',
          'ring',
        );
        expectNear(
          mirror.blades?.map(({ pitch }) => pitch),
          (blades ?? []).map(({ pitch }) => pitch),
          1e-9,
          'degree',
          'blades',
        );
        const found = mirror.harmonics as typeof harmonics;
        // Both lateral signs turn: the mirror rolls the other way, theta1c stays.
        expectNear(
          [found.collective, found.longitudinal, found.lateral],
          [harmonics.collective, harmonics.longitudinal, -harmonics.lateral],
          1e-9,
          'degree',
        );
        if (flybar)
          expectNear(
            [mirror.flybar?.paddle ?? 9, ...(mirror.flybar?.washoutArms ?? [])],
            [flybar.paddle, ...flybar.washoutArms],
            1e-9,
            'degree',
          );
      }),
      RUNS,
    );
  });

  it('turns with the machine: every azimuth and shaft turned, the same pulses, the ring leans the turned way and the blades are the same', () => {
    fc.assert(
      fc.property(anyMachine, anyCase, fc.double({ min: -180, max: 180, noNaN: true }), (machine, any, angle) => {
        const kase = caseFor(machine, any);
        const answer = predict(preparedOf(machine), kase);
        const sense = machine.rotor.rotation === 'counterclockwise' ? 1 : -1;
        const other = predict(preparedOf(turned(machine, angle)), { ...kase, azimuth: (kase.azimuth ?? 0) + sense * angle });
        if (!answer.swash || !answer.blades) throw new Error('got unreachable, expected a pose');
        const normal = (swash: { foreAft: number; side: number } | undefined): [number, number] => {
          const [x, y] = [Math.tan((swash?.foreAft ?? Number.NaN) / DEG), -Math.tan((swash?.side ?? Number.NaN) / DEG)];
          return [x, y];
        };
        const [x, y] = normal(answer.swash);
        const [c, s] = [Math.cos(angle / DEG), Math.sin(angle / DEG)];
        expectNear(other.swash?.height, answer.swash.height, 1e-10, 'mm', 'height');
        expectNear(normal(other.swash), [c * x - s * y, s * x + c * y], 1e-11, '', 'slope of the ring');
        expectNear(
          other.blades?.map(({ pitch }) => pitch),
          answer.blades.map(({ pitch }) => pitch),
          1e-9,
          'degree',
          'blades',
        );
        expect(other.outputs).toEqual(answer.outputs);
      }),
      RUNS,
    );
  });

  it('repeats itself: the same case again, and after other cases, gives the same bits', () => {
    fc.assert(
      fc.property(anyMachine, anyCase, anyCase, (machine, any, other) => {
        const prepared = preparedOf(machine);
        const first = JSON.stringify(predict(prepared, caseFor(machine, any)));
        predict(prepared, caseFor(machine, other));
        expect(JSON.stringify(predict(prepared, caseFor(machine, any)))).toBe(first);
      }),
      RUNS,
    );
  });
});
