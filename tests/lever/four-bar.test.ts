/**
 * Horn, pushrod and lever in one plane are a four-bar: the rows of sources, section 3, through the code that closes a
 * pushrod. The ground line is set so that the horn stands 3 degrees from level at the row's input angle; that puts the
 * designed pose next to it, on the row's own branch.
 */
import { describe, expect, it } from 'vitest';
import type { Point } from '../../packages/mixing/src/rig/rig.ts';
import { FOUR_BARS, RSSR } from '../answers/sources.ts';
import { answerOf } from '../support/answer.ts';
import { expectNear } from '../support/expect-near.ts';
import { posedMachine } from '../support/posed-machine.ts';

const RAD = Math.PI / 180;
const HORN = 3; // degrees above level at the row's input angle
const ABOVE = 5; // degrees that the lever must then have turned from its designed place

/** Servo 2 of the posed machine with this lever, whose link does not matter here but must be there. */
function withLever(
  azimuth: number,
  shaft: Point,
  horn: { length: number; offset: number },
  lever: { pivot: Point; length: number; angle: number; azimuth: number },
  pushrod: number,
) {
  const machine = posedMachine({});
  const servo = machine.servos[1];
  servo.shaft = shaft;
  servo.horn = { ...servo.horn, ...horn, azimuth };
  servo.lever = {
    azimuth: lever.azimuth,
    pivot: lever.pivot,
    servoEnd: { length: lever.length, angle: lever.angle },
    swashEnd: { length: 15, angle: 0 },
  };
  servo.pushrod = pushrod;
  return machine;
}

function leverAngle(machine: object): number {
  const { servos } = answerOf(machine, {});
  return servos?.[1]?.lever ?? Number.NaN;
}

describe.each(FOUR_BARS)('four-bar, row $row', ({ d, a, b, c, th2, open, crossed }) => {
  const scale = 40 / d; // millimetres, so that no length is tiny

  it.each([
    ['open', open],
    ['crossed', crossed],
  ] as const)('%s', (_, [th3, th4]) => {
    const ground = HORN - th2; // elevation of the line from shaft to pivot
    for (const azimuth of [0, 77, 250]) {
      const along = (length: number, elevation: number): Point => {
        const flat = length * Math.cos(elevation * RAD);
        return [flat * Math.cos(azimuth * RAD), flat * Math.sin(azimuth * RAD), length * Math.sin(elevation * RAD)];
      };
      const lever = { pivot: along(scale * d, ground), length: scale * c, angle: ground + th4 - ABOVE, azimuth };
      const machine = withLever(azimuth, [0, 0, 0], { length: scale * a, offset: HORN }, lever, scale * b);
      // Printed to six decimals.
      expectNear(leverAngle(machine), ABOVE, 6e-7, 'degree', `azimuth ${azimuth}`);
    }
    // The row's own coupler angle closes the loop: what the source prints is consistent.
    const x = a * Math.cos(th2 * RAD) + b * Math.cos(th3 * RAD) - d - c * Math.cos(th4 * RAD);
    const y = a * Math.sin(th2 * RAD) + b * Math.sin(th3 * RAD) - c * Math.sin(th4 * RAD);
    expectNear([x, y], [0, 0], 3e-8 * (a + b + c + d), '');
  });

  it('closes to 1e-12 degree where Freudenstein says, on both branches', () => {
    // K1 cos th4 - K2 cos th2 + K3 = cos(th2 - th4), solved as A t^2 + B t + C = 0 for t = tan(th4 / 2).
    const [k1, k2, k3] = [d / a, d / c, (a * a - b * b + c * c + d * d) / (2 * a * c)];
    const cos2 = Math.cos(th2 * RAD);
    const [A, B, C] = [cos2 - k1 - k2 * cos2 + k3, -2 * Math.sin(th2 * RAD), k1 - (k2 + 1) * cos2 + k3];
    const root = Math.sqrt(B * B - 4 * A * C);
    for (const [sign, printed] of [
      [-1, open[1]],
      [1, crossed[1]],
    ] as const) {
      const th4 = (2 * Math.atan2(-B + sign * root, 2 * A)) / RAD;
      expectNear(Math.cos((th4 - printed) * RAD), 1, 1e-13, '', 'the printed branch');
      const ground = HORN - th2;
      const pivot: Point = [scale * d * Math.cos(ground * RAD), 0, scale * d * Math.sin(ground * RAD)];
      const machine = withLever(
        0,
        [0, 0, 0],
        { length: scale * a, offset: HORN },
        { pivot, length: scale * c, angle: ground + th4 - ABOVE, azimuth: 0 },
        scale * b,
      );
      expectNear(leverAngle(machine), ABOVE, 1e-11, 'degree');
    }
  });
});

describe('horn, link and rocker on skew axes', () => {
  it.each(RSSR)('horn at %s degrees turns the rocker to %s', (horn, rocker) => {
    const lever = { pivot: [0, 0, 0] as Point, length: 20, angle: 0, azimuth: 90 };
    const machine = withLever(0, [-12, 20, -40], { length: 12, offset: horn }, lever, 40);
    expectNear(leverAngle(machine), rocker, 6e-11, 'degree');
  });

  it('cannot reach with a link longer than both arms allow, and says by how much', () => {
    const lever = { pivot: [0, 0, 0] as Point, length: 20, angle: 0, azimuth: 90 };
    const machine = withLever(0, [-12, 20, -40], { length: 12, offset: 0 }, lever, 70);
    const { unreachable } = answerOf(machine, {});
    // Horn ball (0, 20, -40); the rocker's farthest ball points away from it: sqrt(20^2 + 40^2) + 20.
    expect(unreachable?.path).toBe('/servos/1/pushrod');
    expectNear(unreachable?.short, 70 - (Math.hypot(20, 40) + 20), 1e-12, 'mm');
  });
});
