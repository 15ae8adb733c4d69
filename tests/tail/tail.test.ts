/** The tail: bell-crank beside outside numbers (sources, 4.4; COMP), the rest worked by hand from the definition of the tail. */
import { describe, expect, it } from 'vitest';
import type { Case, Tail } from '../../packages/mixing/src/rig/rig.ts';
import { type PredictedTail, predict } from '../../packages/mixing/src/rig/predict.ts';
import { BELL_CRANK } from '../answers/sources.ts';
import { preparedOf } from '../support/answer.ts';
import { expectNear } from '../support/expect-near.ts';
import { posedMachine } from '../support/posed-machine.ts';

const RAD = Math.PI / 180;
const ROD = 60;

/** Two arms of 10 at right angles on a pivot at (3, -6, 0); the rod comes from ahead, square to its arm. */
function tailWith(change: (tail: Tail) => void = () => {}) {
  const tail: Tail = {
    servo: {
      neutral: 1520,
      sense: 1,
      rate: 0.1,
      shaft: [3 - ROD, -6 + 10 - 9, 0],
      horn: { length: 9, roll: 0, teeth: 25, tooth: 0, offset: 0 },
    },
    lever: { pivot: [3, -6, 0], servoEnd: { length: 10, angle: 90 }, sliderEnd: { length: 10, angle: 0 } },
    rod: ROD,
    slider: {},
    grip: { lead: 11, height: 0, spider: [11, -8], link: 8 },
    right: 1,
  };
  change(tail);
  return { ...posedMachine({}), tail };
}

function tailOf(machine: object, kase: Case = {}) {
  const { tail } = predict(preparedOf(machine), kase);
  if (!tail || 'unreachable' in tail) throw new Error(`tail: got ${JSON.stringify(tail)}, expected a pose`);
  return tail as Required<PredictedTail>;
}

describe('the bell-crank', () => {
  it.each(BELL_CRANK)('input %s mm turns the arms by %s degrees, and a second rod moves as far the other way', (input, angle) => {
    const machine = tailWith((tail) => {
      tail.servo.shaft[0] += input;
    });
    const { lever, slider } = tailOf(machine);
    // Pushing aft turns v back from u: our lever angle is the other way about.
    expectNear(lever, -angle, 6e-11, 'degree');
    expectNear(slider, -10 * Math.sin(angle * RAD), 2e-12 * 10, 'mm', 'the slider end moves along v');
    const output = slider + Math.sqrt(ROD ** 2 - (10 - 10 * Math.cos(lever * RAD)) ** 2) - ROD;
    expectNear(output, -input, 1e-11, 'mm');
  });
});

describe('the tail by hand', () => {
  it('takes the rudder pulse to the horn, with sense, tooth and offset', () => {
    const machine = tailWith((tail) => {
      Object.assign(tail.servo, { sense: -1, rate: 0.08, horn: { ...tail.servo.horn, tooth: 1, offset: -14 } });
    });
    const { pulse, horn } = tailOf(machine, { rudder: 0.25 });
    expectNear([pulse, horn], [1620, -100 * 0.08 + 360 / 25 - 14], 1e-12, 'us and degree');
  });

  it('rolls the horn plane from the tail plane (0) to upright (90) without changing its fore and aft', () => {
    // With the rod very long, only the ball's place along u matters: the same answer for any roll, to the rod's slant of
    // 9^2 / (2 x 1e6).
    const at = (roll: number) =>
      tailOf(
        tailWith((tail) => {
          tail.servo.horn.roll = roll;
          tail.servo.shaft = [3 - 1e6, 4 - 9 * Math.cos(roll * RAD), -9 * Math.sin(roll * RAD)];
          tail.rod = 1e6;
        }),
        { rudder: 0.5 },
      ).slider;
    const expected = -9 * Math.sin(20 * RAD);
    for (const roll of [0, 35, 90]) expectNear(at(roll), expected, 1e-4, 'mm', `roll ${roll}`);
  });

  it('turns the grip until the spider ball and the arm ball are a link apart, nearest to zero', () => {
    // The spider stands straight under the arm: a rise s lifts the arm by exactly s only if it could go straight; on its
    // circle it satisfies this.
    const { slider, pitch } = tailOf(tailWith(), { rudder: -0.5 });
    expect(slider).toBeGreaterThan(2);
    const t = pitch * RAD;
    expectNear(Math.hypot(11 * Math.cos(t) - 11, 11 * Math.sin(t) - (-8 + slider)), 8, 1e-12, 'mm');
    expect(Math.abs(pitch)).toBeLessThan(40);
    const left = tailWith((tail) => {
      tail.right = -1;
    });
    expectNear(tailOf(left, { rudder: -0.5 }).pitch, -pitch, 1e-12, 'degree', 'right -1 changes the sign of pitch alone');
  });

  it('binds at a stop: the slider stays, horn and lever are as commanded, past says how far with its sign', () => {
    const free = { right: tailOf(tailWith(), { rudder: 1 }), left: tailOf(tailWith(), { rudder: -1 }) };
    const stopped = tailWith((tail) => {
      tail.slider.stops = [-2, 2.5];
    });
    const right = tailOf(stopped, { rudder: 1 });
    const left = tailOf(stopped, { rudder: -1 });
    expectNear([right.slider, left.slider], [-2, 2.5], 0, 'mm');
    expectNear([right.past, left.past], [free.right.slider + 2, free.left.slider - 2.5], 1e-13, 'mm');
    expect(right.past).toBeLessThan(-1);
    expect(left.past).toBeGreaterThan(1);
    expectNear([right.horn, right.lever], [free.right.horn, free.right.lever], 0, 'degree');
    expect([right.saturated, tailOf(stopped, {}).past]).toEqual([false, 0]);
    expect(Math.abs(right.pitch)).toBeLessThan(Math.abs(free.right.pitch));
  });
});

describe('the gyro', () => {
  const gyro = { gain: 50, scale: 'signed', reverse: false, rate: 2, limit: 110, holdSide: 1 } as const;
  const withGyro = (change: object, rudder: object = {}) => {
    const machine = tailWith((tail) => {
      tail.gyro = { ...gyro, ...change };
    });
    const output = { neutral: 1520, span: 400, travel: [100, 100] as [number, number], subtrim: 0, reverse: false, ...rudder };
    return { ...machine, transmitter: { ...machine.transmitter, rudder: output } };
  };
  const pulse = (machine: object, kase: Case) => {
    const { pulse: found, saturated } = tailOf(machine, kase);
    return { pulse: found, saturated };
  };

  it('adds |gain| x rate x yaw rate, its own way round, whichever side of zero the gain stands', () => {
    const turning = { yawRate: 60 };
    expect(pulse(withGyro({}), turning)).toEqual({ pulse: 1580, saturated: false });
    expect(pulse(withGyro({ reverse: true }), turning)).toEqual({ pulse: 1460, saturated: false });
    expect(pulse(withGyro({ gain: -50 }), turning)).toEqual({ pulse: 1580, saturated: false });
    expect(pulse(withGyro({ gain: 0 }), turning)).toEqual({ pulse: 1520, saturated: false });
    expect(pulse(withGyro({}), { yawRate: -60 })).toEqual({ pulse: 1460, saturated: false });
  });

  it('reads a centred scale: 75 and 25 are gains of 50 on either side, 50 is off', () => {
    for (const [shown, expected] of [
      [75, 1580],
      [25, 1580],
      [50, 1520],
      [100, 1640],
    ] as const) {
      expect(pulse(withGyro({ scale: 'centred', gain: shown }), { yawRate: 60 }).pulse).toBe(expected);
    }
  });

  it('is held within its own limit, and says that it was', () => {
    expect(pulse(withGyro({}), { rudder: 1, yawRate: 60 })).toEqual({ pulse: 1960, saturated: true });
    expect(pulse(withGyro({}), { rudder: 1, yawRate: 40 })).toEqual({ pulse: 1960, saturated: false });
    expect(pulse(withGyro({ limit: 50 }), { rudder: -1 })).toEqual({ pulse: 1320, saturated: true });
    // Without a gyro neither it nor its hold acts.
    const { tail, ...rest } = withGyro({ limit: 50 });
    const { gyro: _, ...bare } = tail;
    expect(pulse({ ...rest, tail: bare }, { rudder: -1 })).toEqual({ pulse: 1120, saturated: false });
  });

  it("acts after the output's own limits, which it may leave, and what they bound stays saturated", () => {
    const limited = withGyro({}, { limits: [1200, 1800] });
    expect(pulse(limited, { rudder: 1, yawRate: 60 })).toEqual({ pulse: 1860, saturated: true });
    expect(pulse(limited, { rudder: 0.7, yawRate: 60 })).toEqual({ pulse: 1860, saturated: false });
  });

  it('answers before the stops: a pulse can be saturated and bind at once', () => {
    const machine = withGyro({ limit: 60 });
    machine.tail.slider.stops = [-1, 1];
    const { saturated, past } = tailOf(machine, { rudder: 1 });
    expect(saturated).toBe(true);
    expect(past).toBeLessThan(-0.5);
  });
});
