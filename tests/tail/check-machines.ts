/** Machines for the tail check: a random healthy tail on a small machine, and the ways in which tails are met set wrong. */
import type { LinkStep, Output, Rig, StickRate, Tail } from '../../packages/mixing/src/rig/rig.ts';
import { directMachine } from '../rig/machines.ts';
import { rigOf } from '../support/answer.ts';
import { type Random, seededRandom } from '../support/random.ts';
import { randomTail } from '../support/tails.ts';

export interface TailSetting {
  tail: Tail;
  rudder: Output;
  rate?: StickRate;
  steps?: LinkStep[];
}

export function machineWith({ tail, rudder, rate, steps }: TailSetting): Rig {
  const machine = directMachine();
  return rigOf({
    ...machine,
    transmitter: { ...machine.transmitter, rudder, ...(rate ? { rates: { rudder: rate } } : {}) },
    tail,
    ...(steps ? { steps } : {}),
  });
}

/** A healthy tail whose gyro, where on, drives no further than the stick, so that it too stays clear of the stops. */
export function healthyTail(seed: number): TailSetting {
  const setting = randomTail(seededRandom(seed));
  setting.tail.gyro = { ...(setting.tail.gyro as NonNullable<Tail['gyro']>), limit: 100 };
  return setting;
}

type Spoil = (setting: TailSetting, random: Random) => void;

/** Each way by name; what a hand can set right. */
export const SPOILS: Record<string, Spoil> = {
  'rod long or short by up to 2 mm': (s, r) => {
    s.tail.rod += r.between(-2, 2);
  },
  'rod that takes whole turns': (s, r) => {
    s.tail.rod += r.between(-2, 2);
    s.steps = [{ path: '/tail/rod', step: 0.4 }];
  },
  'horn a tooth over': (s, r) => {
    s.tail.servo.horn.tooth += r.sign();
  },
  'horn two teeth over': (s, r) => {
    s.tail.servo.horn.tooth += 2 * r.sign();
  },
  'horn a tooth over, counted the long way': (s) => {
    s.tail.servo.horn.tooth = s.tail.servo.horn.teeth - 1;
  },
  'horn off its tooth': (s, r) => {
    s.tail.servo.horn.offset = r.between(-7, 7);
  },
  'rudder reversed': (s) => {
    s.rudder.reverse = !s.rudder.reverse;
  },
  'gyro reversed': ({ tail: { gyro } }) => {
    if (gyro) gyro.reverse = !gyro.reverse;
  },
  'gyro that drives far': ({ tail: { gyro } }) => {
    if (gyro) Object.assign(gyro, { gain: 60, scale: 'signed', limit: 150 });
  },
  'gyro on the centred scale': ({ tail: { gyro } }, r) =>
    void (gyro && Object.assign(gyro, { gain: r.between(0, 100), scale: 'centred' })),
  'no gyro': (s) => {
    delete s.tail.gyro;
  },
  'no stops': (s) => {
    s.tail.slider = {};
  },
  'stops close and unlike': (s, r) => {
    s.tail.slider.stops = [-r.between(2, 4), r.between(2, 4)];
  },
  'sub-trim left over': (s, r) => {
    s.rudder.subtrim = r.whole(-60, 60);
  },
  'sub-trim in place of a tooth': (s, r) => {
    s.rudder.subtrim = r.sign() * r.whole(110, 170);
  },
  'travel unlike': (s, r) => {
    s.rudder.travel = [r.between(60, 140), r.between(60, 140)];
  },
  'a limit on one side': (s, r) => {
    s.rudder.limits = [s.rudder.neutral - r.between(250, 320), s.rudder.neutral + 500];
  },
  'rate and expo': (s, r) => {
    s.rate = { rate: r.between(70, 110), expo: r.between(-40, 60) };
  },
  'negative rate': (s) => {
    s.rate = { rate: -90, expo: 10 };
  },
  'another neutral': (s) => {
    s.tail.servo.neutral = s.tail.servo.neutral === 1520 ? 1500 : 1520;
  },
};

/** The tail of a seed with one to four things wrong, and which. */
export function spoiledTail(seed: number): { setting: TailSetting; names: string[] } {
  const random = seededRandom(seed);
  const setting = healthyTail(seed);
  const names = Array.from({ length: random.whole(1, 4) }, () => random.pick(Object.keys(SPOILS)));
  for (const name of names) SPOILS[name]?.(setting, random);
  return { setting, names };
}
