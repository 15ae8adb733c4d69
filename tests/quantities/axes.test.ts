/**
 * The machine's axes are REP-103's (Tully Foote, 2010; public domain; READ): "All systems are right handed"; "x forward,
 * y left, z up"; fixed-axis roll, pitch, yaw about X, Y, Z. So positive pitch about +y is nose down, positive roll about
 * +x is left side up. Azimuth is measured from the rear in the rotation sense of the rotor (EASA learning objectives,
 * quoted on atpforum.eu; READ).
 */
import { describe, expect, it } from 'vitest';
import { figure } from '../../packages/mixing/src/rig/figure/figure.ts';
import { answerOf, preparedOf } from '../support/answer.ts';
import { expectNear } from '../support/expect-near.ts';
import { NEUTRAL_HEIGHT, posedMachine } from '../support/posed-machine.ts';

const RAD = Math.PI / 180;

function drawn(machine: object, kase = {}) {
  const made = figure(preparedOf(machine), kase);
  if (!made.swash || !made.blades) throw new Error('figure: got unreachable, expected a pose');
  return { ...made, swash: made.swash, blades: made.blades };
}

describe('axes', () => {
  it('an azimuth of the machine runs from the nose over the left', () => {
    for (const [azimuth, place] of [
      [0, [20, 0]],
      [90, [0, 20]],
      [180, [-20, 0]],
      [270, [0, -20]],
    ] as const) {
      const machine = posedMachine({});
      machine.servos.forEach((servo, i) => {
        servo.ball.azimuth = azimuth + 120 * i;
        servo.horn.azimuth = servo.ball.azimuth + 90;
        const [c, s] = [Math.cos(servo.ball.azimuth * RAD), Math.sin(servo.ball.azimuth * RAD)];
        servo.shaft = [20 * c + 12 * s, 20 * s - 12 * c, 20];
      });
      expectNear(drawn(machine).servos[0]?.ringBall, [...place, NEUTRAL_HEIGHT], 1e-12, 'mm', `azimuth ${azimuth}`);
      // The horn reaches the way its own azimuth says.
      expectNear(drawn(machine).servos[0]?.hornBall, [...place, 20], 1e-12, 'mm', `azimuth ${azimuth}`);
    }
  });

  it('pitch about +y puts the front edge down and counts as forward; roll about +x puts the right edge down and counts as right', () => {
    const forward = drawn(posedMachine({ pose: [0, 5, 0] })).swash;
    const right = drawn(posedMachine({ pose: [0, 0, 4] })).swash;
    const height = (m: readonly number[], x: number, y: number) => (m[6] ?? Number.NaN) * x + (m[7] ?? Number.NaN) * y;
    expectNear(height(forward.stationary, 1, 0), -Math.sin(5 * RAD), 1e-12, '', 'front edge');
    expectNear(height(right.stationary, 0, -1), -Math.sin(4 * RAD), 1e-12, '', 'right edge');
    const tilts = (machine: object) => [answerOf(machine, {}).swash?.foreAft ?? 9, answerOf(machine, {}).swash?.side ?? 9];
    expectNear(tilts(posedMachine({ pose: [0, 5, 0] })), [5, 0], 1e-12, 'degree');
    expectNear(tilts(posedMachine({ pose: [0, 0, 4] })), [0, 4], 1e-12, 'degree');
  });

  it('the ring is Rz(yaw) Ry(pitch) Rx(roll) with no yaw where the guide stands at the nose', () => {
    const [p, r] = [6 * RAD, -3 * RAD];
    const expected = [
      Math.cos(p),
      Math.sin(p) * Math.sin(r),
      Math.sin(p) * Math.cos(r),
      0,
      Math.cos(r),
      -Math.sin(r),
      -Math.sin(p),
      Math.cos(p) * Math.sin(r),
      Math.cos(p) * Math.cos(r),
    ];
    expectNear(drawn(posedMachine({ pose: [1.5, 6, -3] })).swash.stationary, expected, 1e-13, '');
  });

  it('psi runs from the tail the way the rotor turns: 90 is the right side counter-clockwise, the left side clockwise', () => {
    for (const [rotation, side] of [
      ['counterclockwise', -1],
      ['clockwise', 1],
    ] as const) {
      const machine = posedMachine({ rotation });
      const blade = (azimuth: number) => drawn(machine, { azimuth }).blades[0];
      expectNear(blade(0)?.direction, [-1, 0, 0], 1e-14, '', `${rotation}, psi 0`);
      expectNear(blade(90)?.direction, [0, side, 0], 1e-14, '', `${rotation}, psi 90`);
      expectNear(blade(180)?.direction, [1, 0, 0], 1e-14, '', `${rotation}, psi 180`);
      // At the tail a counter-clockwise blade goes to the right.
      expectNear(blade(0)?.leading, [0, side, 0], 1e-14, '', `${rotation}, leading at psi 0`);
    }
  });

  it('sticks move the ring their own way: up, forward, right', () => {
    const machine = posedMachine({});
    const ring = (kase: object) => answerOf(machine, kase).swash ?? { height: 0, foreAft: 0, side: 0 };
    expect(ring({ collective: 1 }).height).toBeGreaterThan(NEUTRAL_HEIGHT + 3);
    expect(ring({ elevator: 1 }).foreAft).toBeGreaterThan(5);
    expect(ring({ aileron: 1 }).side).toBeGreaterThan(5);
  });
});
