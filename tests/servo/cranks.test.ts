/**
 * Slider-cranks through the two closures of a link. The planar ones (sources, 4.1) lift the level ring on three horns
 * alike; the spatial one (4.2) turns a pitch arm: the slider is the ring's ball, the crank the arm, the rod the blade's
 * link.
 */
import { describe, it } from 'vitest';
import { SLIDER_CRANKS, SPATIAL_SLIDER_CRANK } from '../answers/sources.ts';
import { answerOf } from '../support/answer.ts';
import { expectNear } from '../support/expect-near.ts';
import { posedMachine } from '../support/posed-machine.ts';

const RAD = Math.PI / 180;

describe('planar slider-cranks', () => {
  it.each(SLIDER_CRANKS)('crank $a, rod $b, offset $c at $th2 degrees puts the slider at $x', ({ a, b, c, th2, x }) => {
    // The slider runs along the mast; across it is outward, so that th2 from the mast is a horn angle of 90 - th2.
    const machine = posedMachine({ horns: [90 - th2, 90 - th2, 90 - th2] });
    const scale = 40 / b;
    for (const servo of machine.servos) {
      const out = [Math.cos(servo.ball.azimuth * RAD), Math.sin(servo.ball.azimuth * RAD)] as const;
      const shaftRadius = servo.ball.radius - scale * c;
      servo.shaft = [shaftRadius * out[0], shaftRadius * out[1], 0];
      servo.horn.azimuth = servo.ball.azimuth;
      servo.horn.length = scale * a;
      servo.link = scale * b;
    }
    // Designed height near the answer: the same side of the crank as the row's.
    machine.swash.height = scale * Math.sqrt(b * b - (a - c) ** 2);
    const { swash } = answerOf(machine, {});
    expectNear([(swash?.height ?? Number.NaN) / scale, swash?.foreAft ?? 9, swash?.side ?? 9], [x, 0, 0], 6e-7, '');
    // And the closed form itself: x = a cos th2 + sqrt(b^2 - (a sin th2 - c)^2).
    const closed = a * Math.cos(th2 * RAD) + Math.sqrt(b * b - (a * Math.sin(th2 * RAD) - c) ** 2);
    expectNear((swash?.height ?? Number.NaN) / scale, closed, 1e-12, '');
  });
});

describe('the spatial slider-crank', () => {
  const { crank, rod, centre, positions, velocity, speed } = SPATIAL_SLIDER_CRANK;
  const MM = 1000;

  /** The arm's turn in degrees from where it stands at crank angle `from`, with the slider at x metres. */
  function turned(x: number, from: number): number {
    const machine = posedMachine({});
    const [aside, above] = [centre[0] * MM, centre[1] * MM];
    // In the rotor's axes (outward, ahead, up) the slider's axis runs outward, `aside` behind the feathering axis and
    // `above` below it.
    machine.rotor.ring = { radius: Math.hypot(x * MM, aside), azimuth: Math.atan2(-aside, x * MM) / RAD, height: 0 };
    machine.rotor.hubHeight = machine.swash.height + above;
    machine.rotor.pitchArm = { station: 0, lead: -crank * MM * Math.sin(from * RAD), height: crank * MM * Math.cos(from * RAD) };
    machine.rotor.links = [rod * MM, rod * MM];
    return answerOf(machine, { azimuth: 31 }).blades?.[0]?.pitch ?? Number.NaN;
  }

  it.each(positions)('crank at %s degrees, slider at %s m', (angle, x) => {
    // Ten printed decimals of a metre are 5e-8 mm, on an arm of 80 mm some 1e-7 degree.
    for (const away of [0, 4, -7]) {
      expectNear(turned(x, angle + away), -away, 3e-7, 'degree', `arm drawn at ${angle + away}`);
    }
    const closed = Math.sqrt(
      rod ** 2 - (centre[0] - crank * Math.sin(angle * RAD)) ** 2 - (centre[1] + crank * Math.cos(angle * RAD)) ** 2,
    );
    expectNear(turned(closed, angle), 0, 1e-11, 'degree');
  });

  it('moves the slider at 0.24 m/s at crank angle 0 and 6 rad/s', () => {
    const step = 1e-5; // metres of slider: central differences good to 1e-8
    const perMetre = (turned(0.2 + step, 0) - turned(0.2 - step, 0)) / (2 * step);
    expectNear(speed / (perMetre * RAD), velocity, 1e-6, 'm/s');
  });
});
