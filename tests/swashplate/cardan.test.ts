/**
 * The joint relation (sources, section 2) where it appears in a swashplate: the yaw that a pin in a plane leaves to a
 * tilted plate, once for the stationary ring and its guide, once for the turning ring and its driver.
 */
import { describe, expect, it } from 'vitest';
import { figure } from '../../packages/mixing/src/rig/figure/figure.ts';
import { CARDAN, PIN_ORDER, PLATE_YAW } from '../answers/sources.ts';
import { preparedOf } from '../support/answer.ts';
import { expectNear } from '../support/expect-near.ts';
import { posedMachine } from '../support/posed-machine.ts';
import { type Mat, type Vec, apply, cross, dot, norm, rotation, sub, times, transpose } from '../support/second-model/vectors.ts';

const DEG = 180 / Math.PI;
const UP: Vec = [0, 0, 1];

/** Row-major nine numbers as a matrix. */
const matrixOf = (m: readonly number[]): Mat => [0, 3, 6].map((i) => [m[i], m[i + 1], m[i + 2]]) as Mat;

/** The yaw (degrees) by which a tilted plate is spun about its own normal, beyond tilting about a horizontal axis alone. */
function yawOf(turn: Mat): { yaw: number; tilt: number; toward: number } {
  const n = apply(turn, UP);
  const axis = cross(UP, n);
  const tilt = Math.atan2(norm(axis), n[2]);
  const untwisted = rotation(norm(axis) > 0 ? times(tilt / norm(axis), axis) : [0, 0, 0]);
  const spun = apply(transpose(untwisted), apply(turn, [1, 0, 0]));
  return { yaw: Math.atan2(spun[1], spun[0]) * DEG, tilt: tilt * DEG, toward: Math.atan2(n[1], n[0]) * DEG };
}

/** Pitch and roll about the guide's axes that tilt a plate by `tilt` toward `azimuth` from the guide. */
function pitchRoll(tilt: number, azimuth: number): [number, number] {
  const n: Vec = [
    Math.sin(tilt / DEG) * Math.cos(azimuth / DEG),
    Math.sin(tilt / DEG) * Math.sin(azimuth / DEG),
    Math.cos(tilt / DEG),
  ];
  return [Math.atan2(n[0], n[2]) * DEG, -Math.asin(n[1]) * DEG];
}

function halves(
  tilt: number,
  azimuth: number,
  guide: number,
  driver = 180,
  psi = 0,
  rotation_: 'clockwise' | 'counterclockwise' = 'counterclockwise',
) {
  const machine = posedMachine({ pose: [0.7, ...pitchRoll(tilt, azimuth)], guide, driver, rotation: rotation_ });
  const { swash } = figure(preparedOf(machine), { azimuth: psi });
  if (!swash) throw new Error('ring: got unreachable, expected a pose');
  return { stationary: matrixOf(swash.stationary), rotating: matrixOf(swash.rotating) };
}

describe("the stationary ring's yaw", () => {
  it.each(PLATE_YAW)('is $yaw degree at $tilt degree tilt toward $azimuth from the guide', ({ tilt, azimuth, yaw }) => {
    for (const guide of [0, 90, 180, 217]) {
      const found = yawOf(halves(tilt, azimuth, guide).stationary);
      expectNear([found.tilt, found.yaw], [tilt, yaw], 2e-12, 'degree', `guide ${guide}`);
    }
  });

  it('follows tan(out) = cos(tilt) tan(in) over the table, as far as it is printed', () => {
    for (const { tilt, outLessIn } of CARDAN.rows) {
      CARDAN.in.forEach((azimuth, i) => {
        const { yaw } = yawOf(halves(tilt, azimuth, 0).stationary);
        expectNear(-yaw, outLessIn[i] ?? Number.NaN, 6e-7, 'degree', `tilt ${tilt}, in ${azimuth}`);
      });
    }
  });

  it('follows the closed form to 1e-11 all round, with its sign, and peaks at sin(yaw) = tan(tilt/2)^2', () => {
    for (const { tilt, most, mostAt } of CARDAN.rows) {
      for (let azimuth = -170; azimuth < 190; azimuth += 37) {
        const [c, s] = [Math.cos(azimuth / DEG), Math.sin(azimuth / DEG)];
        const out = Math.atan2(Math.cos(tilt / DEG) * s, c) * DEG;
        const { yaw, toward } = yawOf(halves(tilt, azimuth, 0).stationary);
        expectNear([yaw, Math.sin((toward - azimuth) / DEG)], [azimuth - out, 0], 1e-11, 'degree', `tilt ${tilt}, in ${azimuth}`);
      }
      const peak = yawOf(halves(tilt, mostAt, 0).stationary).yaw;
      expectNear(peak, most, 6e-7, 'degree');
      // mostAt is printed to 1e-5 degree, where the peak is flat: its height is good to 1e-12.
      expectNear(Math.sin(peak / DEG), Math.tan(tilt / 2 / DEG) ** 2, 1e-11, '');
      for (const aside of [-3, 3]) expect(yawOf(halves(tilt, mostAt + aside, 0).stationary).yaw).toBeLessThan(peak);
    }
  });

  it('is Ry(pitch) Rx(roll) with the pin on x, and not the other order', () => {
    const { pitch, roll, normal, otherOrder } = PIN_ORDER;
    const machine = posedMachine({ pose: [0, pitch, roll] });
    const { swash } = figure(preparedOf(machine), {});
    expectNear(swash?.normal, normal, 1e-11, '');
    expectNear(swash?.stationary[3], 0, 1e-14, '', 'R21, the pin out of its plane');
    expect(norm(sub(otherOrder as unknown as Vec, normal as unknown as Vec))).toBeGreaterThan(1e-4);
  });
});

describe("the turning ring's yaw", () => {
  it('is the same relation with the driver in place of the guide, twice a revolution, either way round', () => {
    for (const { tilt, azimuth, yaw } of PLATE_YAW) {
      for (const rotation_ of ['clockwise', 'counterclockwise'] as const) {
        for (const driver of [0, 90, 214]) {
          // Put the driver `azimuth` behind the direction of tilt, which stands at 35 degrees: machine azimuth of the
          // driver is 180 +- (psi + driver).
          const sense = rotation_ === 'counterclockwise' ? 1 : -1;
          for (const half of [0, 180]) {
            const psi = sense * (35 - azimuth - 180) - driver + half;
            const { rotating } = halves(tilt, 35, 0, driver, psi, rotation_);
            // The level ring's own axes: along blade 1 and the way it goes. Undo where they stand to see the tilt alone.
            const along: Vec = [Math.cos((180 + sense * psi) / DEG), Math.sin((180 + sense * psi) / DEG), 0];
            const turned = apply(rotating, [1, 0, 0]);
            const n = apply(rotating, UP);
            expect(dot(n, [0, 0, 1])).toBeGreaterThan(0.9);
            const axis = cross(UP, n);
            const untwisted = rotation(times(Math.atan2(norm(axis), n[2]) / norm(axis), axis));
            const back = apply(transpose(untwisted), turned);
            const spun = Math.atan2(dot(cross(along, back), UP), dot(along, back)) * DEG;
            expectNear(spun, yaw, 2e-12, 'degree', `tilt ${tilt}, driver ${driver}, psi ${psi}, ${rotation_}`);
          }
        }
      }
    }
  });
});
