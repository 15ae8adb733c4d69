/**
 * Random machines for the tests: whole rig documents, healthy by construction. At mid-stick the ring is level and the blades
 * stand at zero pitch because every link's length is the one that closes that pose; the signs along each servo are
 * right; the mix values give about 10 degrees of collective and 5 of cyclic. No two numbers of a machine are equal by design,
 * every plane and place is off its round value, and all of it follows from the seed.
 * Frame and signs as in the rig document; `rotor frame` below is x along blade 1, y ahead in the direction of rotation, z up.
 */
import type { Flybar, Output, Point, Rig, RingBall, Rotor, Servo, Transmitter } from '../../packages/mixing/src/rig/rig.ts';
import { type Random, seededRandom } from './random.ts';
import { disturb } from './disturb.ts';
import { randomTail } from './tails.ts';
import { trimMix } from './trim-mix.ts';

export { extreme } from './extreme.ts';
export { spoil } from './spoil.ts';

export type Kind = 'direct' | 'lever' | 'flybar';
export const KINDS: readonly Kind[] = ['direct', 'lever', 'flybar'];

/** A rig document as a person would write it: what has a default may be left out. */
export type MachineDocument = Pick<Rig, 'format' | 'name' | 'servos' | 'swash' | 'rotor' | 'flybar' | 'tail'> & {
  transmitter: Partial<Transmitter> & Pick<Transmitter, 'mix' | 'outputs'>;
};

export interface MachineOptions {
  /** with a tail; as the seed decides where left out */
  tail?: boolean;
  /** set every adjustable value somewhat off, as machines are met: sub-trims, teeth, lengths, leads, limits (default false) */
  offNominal?: boolean;
}

const RAD = Math.PI / 180;

/** A healthy machine of this kind (or, with `offNominal`, one that has been set up carelessly). */
export function randomRig(seed: number, kind: Kind, options: MachineOptions = {}): MachineDocument {
  const random = seededRandom(seed * 8 + KINDS.indexOf(kind));
  const height = random.between(54, 70);
  const spread = random.pick([120, 135, 140, random.between(110, 150)]);
  const first = random.pick([0, 180, 0, 180, random.between(0, 360)]);
  const azimuths: [number, number, number] = [first, (first + spread) % 360, (first + 360 - spread) % 360];
  const meanRadius = random.between(20, 29);
  const ownRadii = random.chance(0.5);
  const radii = azimuths.map(() => (ownRadii ? meanRadius * random.between(0.88, 1.12) : meanRadius));
  const leverCount = kind === 'lever' ? random.whole(1, 3) : 0;
  const neutral = random.pick([1500, 1520]);
  const direction = random.chance(0.15) ? -1 : 1; // of all three servos, cured by negative mix values

  const built = azimuths.map((azimuth, i) => {
    const ball = { radius: radii[i] ?? meanRadius, azimuth, height: 0 };
    return randomServo(random, i, ball, height, neutral, direction, i < leverCount);
  });
  const meanGain = built.reduce((sum, { gain }) => sum + gain / 3, 0);
  const outputs = built.map(({ reverse, gain }) => {
    // Travel makes all three balls rise alike for one command, whatever horn and lever each has.
    const travel = (100 * meanGain) / gain;
    const output: Output = { neutral, span: 400, travel: [travel, travel], subtrim: 0, reverse };
    if (random.chance(0.3)) output.limits = [neutral - random.between(560, 640), neutral + random.between(560, 640)];
    return output;
  });

  const { rotor, flybar, lead } = kind === 'flybar' ? flybarHead(random, height) : plainHead(random, height);
  const perUnit = meanGain * 400 * RAD; // mm that a ball rises for a command of 1, to first order
  const ringRadius = flybar?.mixing.ring.radius ?? rotor.ring?.radius ?? Number.NaN;
  const armRatio = flybar ? flybar.mixing.bladeEnd.length / flybar.mixing.swashEnd.length : 1;
  const transmitter: MachineDocument['transmitter'] = {
    ...flightModesAndRates(random),
    mix: {
      azimuths,
      collective: direction * ((1000 * RAD * lead) / perUnit) * (flybar ? 1.4 : 1),
      elevator: direction * ((500 * RAD * lead * meanRadius) / (ringRadius * armRatio * perUnit)),
      aileron: direction * ((500 * RAD * lead * meanRadius) / (ringRadius * armRatio * perUnit)),
      phase: flybar ? 0 : (rotor.ring?.azimuth ?? 90) - 90,
    },
    outputs: outputs as [Output, Output, Output],
  };
  if (ownRadii) {
    const rows = azimuths.map((azimuth, i): Point => {
      const share = (radii[i] ?? meanRadius) / meanRadius;
      return [1, -share * Math.cos(azimuth * RAD), share * Math.sin(azimuth * RAD)];
    });
    transmitter.mix.weights = rows as [Point, Point, Point];
  }
  const document: MachineDocument = {
    format: 'swashtrue-rig/1',
    name: `${kind} ${Math.round(spread)}, seed ${seed}`,
    transmitter,
    servos: built.map(({ servo }) => servo) as [Servo, Servo, Servo],
    swash: { height, guide: random.pick([0, 90, 180, 270, random.between(0, 360)]) },
    rotor,
    ...(flybar ? { flybar } : {}),
  };
  if (options.tail ?? random.chance(0.4)) {
    const { tail, rudder } = randomTail(random);
    document.tail = tail;
    document.transmitter.rudder = rudder;
  }
  trimMix(document);
  if (options.offNominal) disturb(document, random);
  return document;
}

/**
 * A servo whose horn (or lever) and link close the level ring; `gain` is mm of ball a degree-free unit of pulse, always
 * positive.
 */
function randomServo(
  random: Random,
  index: number,
  ball: RingBall,
  swashHeight: number,
  neutral: number,
  direction: 1 | -1,
  withLever: boolean,
): { servo: Servo; reverse: boolean; gain: number } {
  const rate = random.between(0.085, 0.112);
  const horn = {
    length: random.between(11, 17),
    azimuth: random.between(0, 360),
    teeth: random.pick([23, 24, 25]),
    tooth: 0,
    offset: 0,
  };
  const ringBall: Point = [...alongAzimuth(ball.radius, ball.azimuth), swashHeight + ball.height];
  const lower = below(random, ringBall, random.between(35, 55));
  const inverted = withLever && random.chance(0.5);
  const sense = random.sign();
  const servo: Servo = {
    name: `servo ${index + 1}`,
    output: index + 1,
    neutral,
    sense,
    rate,
    shaft: shaftOf(lower, horn),
    horn,
    link: distance(lower, ringBall),
    ball,
  };
  let ratio = 1;
  if (withLever) {
    const azimuth = random.between(0, 360);
    const swashEnd = { length: random.between(16, 24), angle: random.between(-6, 6) };
    const servoEnd = { length: random.between(13, 18), angle: (inverted ? 180 : 0) + random.between(-6, 6) };
    const [x, y] = alongAzimuth(swashEnd.length * Math.cos(swashEnd.angle * RAD), azimuth);
    const pivot: Point = [lower[0] - x, lower[1] - y, lower[2] - swashEnd.length * Math.sin(swashEnd.angle * RAD)];
    const [u, v] = alongAzimuth(servoEnd.length * Math.cos(servoEnd.angle * RAD), azimuth);
    const upper: Point = [pivot[0] + u, pivot[1] + v, pivot[2] + servoEnd.length * Math.sin(servoEnd.angle * RAD)];
    const hornBall = below(random, upper, random.between(30, 50));
    servo.lever = { azimuth, pivot, servoEnd, swashEnd };
    servo.pushrod = distance(hornBall, upper);
    servo.shaft = shaftOf(hornBall, horn);
    ratio = (swashEnd.length * Math.cos(swashEnd.angle * RAD)) / Math.abs(servoEnd.length * Math.cos(servoEnd.angle * RAD));
  }
  // A longer command must raise the ball (or lower it on all three, with negative mix values).
  const reverse = sense * (inverted ? -1 : 1) * direction < 0;
  return { servo, reverse, gain: horn.length * rate * ratio };
}

function plainHead(random: Random, swashHeight: number): { rotor: Rotor; flybar?: Flybar; lead: number } {
  const ring = { radius: random.between(16, 24), azimuth: random.between(60, 93), height: random.between(2, 6) };
  const lead = ring.radius * Math.sin(ring.azimuth * RAD) + random.between(-0.8, 0.8);
  const station = ring.radius * Math.cos(ring.azimuth * RAD) + random.between(-0.8, 0.8);
  const pitchArm = { station, lead, height: random.between(-1.5, 1.5) };
  const hubHeight = swashHeight + ring.height - pitchArm.height + random.between(40, 56);
  const link = distance(
    [...alongAzimuth(ring.radius, ring.azimuth), swashHeight + ring.height],
    [station, lead, hubHeight + pitchArm.height],
  );
  const blades = random.whole(2, 5);
  return {
    lead,
    rotor: {
      rotation: random.pick(['clockwise', 'counterclockwise']),
      blades,
      hubHeight,
      driver: random.pick([0, 90, 180, random.between(0, 360)]),
      ring,
      pitchArm,
      links: new Array<number>(blades).fill(link),
    },
  };
}

/** The second of each pair of parts is the first turned half round, so that one closure gives both lengths. */
function flybarHead(random: Random, swashHeight: number): { rotor: Rotor; flybar: Flybar; lead: number } {
  const lead = random.between(15.5, 18);
  const pitchArm = { station: random.between(-0.7, 0.7), lead, height: random.between(-1.1, 1.1) };
  const hubHeight = swashHeight + random.between(48, 66);
  const ringHeight = random.between(2.5, 5);
  const armStation = random.between(5, 8);
  const arm = { station: armStation, lead: random.between(12, 15), height: random.between(-0.6, 0.6) };
  const flybarHeight = hubHeight + random.between(0.5, 6);
  const washoutHeight = swashHeight + random.between(18, 24);
  const flybarAzimuth = 90 + random.between(-3, 3);
  const washout = {
    height: washoutHeight,
    pivot: {
      radius: armStation + random.between(-0.4, 0.4),
      azimuth: 90 + random.between(-3, 3),
      height: random.between(-1.5, 1.5),
    },
    azimuth: 180 + random.between(-3, 3),
    flybarEnd: { length: arm.lead + random.between(-0.5, 0.5), angle: random.between(-6, 6) },
    swashEnd: { length: random.between(10, 12.5), angle: 180 + random.between(-5, 5) },
    ring: { radius: random.between(10, 12.5), azimuth: (360 + random.between(-4, 4)) % 360, height: ringHeight },
  };
  const pivotRadius = random.between(7, 9);
  const mixing = {
    pivot: { radius: pivotRadius, azimuth: 90 + random.between(-2, 2), height: hubHeight - random.between(8.5, 12) },
    azimuth: 90 + random.between(-3, 3),
    swashEnd: { length: random.between(11, 14), angle: random.between(-5, 5) },
    bladeEnd: { length: lead - pivotRadius + random.between(-0.4, 0.4), angle: random.between(-5, 5) },
  };
  const mixingRing = {
    radius: pivotRadius + mixing.swashEnd.length + random.between(-0.4, 0.4),
    azimuth: 90 + random.between(-2, 2),
    height: ringHeight,
  };

  const onRing = (ball: RingBall): Point => [...alongAzimuth(ball.radius, ball.azimuth), swashHeight + ball.height];
  const end = (pivot: Point, azimuth: number, { length, angle }: { length: number; angle: number }): Point => {
    const [x, y] = alongAzimuth(length * Math.cos(angle * RAD), azimuth);
    return [pivot[0] + x, pivot[1] + y, pivot[2] + length * Math.sin(angle * RAD)];
  };
  const [fx, fy] = alongAzimuth(1, flybarAzimuth);
  const armBall: Point = [arm.station * fx - arm.lead * fy, arm.station * fy + arm.lead * fx, flybarHeight + arm.height];
  const washoutPivot: Point = [
    ...alongAzimuth(washout.pivot.radius, washout.pivot.azimuth),
    washoutHeight + washout.pivot.height,
  ];
  const mixingPivot: Point = [...alongAzimuth(mixing.pivot.radius, mixing.pivot.azimuth), mixing.pivot.height];
  const rod = distance(end(washoutPivot, washout.azimuth, washout.flybarEnd), armBall);
  const washoutLink = distance(end(washoutPivot, washout.azimuth, washout.swashEnd), onRing(washout.ring));
  const mixingRod = distance(end(mixingPivot, mixing.azimuth, mixing.swashEnd), onRing(mixingRing));
  const bladeLink = distance(end(mixingPivot, mixing.azimuth, mixing.bladeEnd), [
    pitchArm.station,
    lead,
    hubHeight + pitchArm.height,
  ]);
  return {
    lead,
    rotor: {
      rotation: random.pick(['clockwise', 'counterclockwise']),
      blades: 2,
      hubHeight,
      driver: random.pick([0, 180, random.between(0, 360)]),
      pitchArm,
      links: [bladeLink, bladeLink],
    },
    flybar: {
      azimuth: flybarAzimuth,
      height: flybarHeight,
      arm,
      washout: { ...washout, links: [washoutLink, washoutLink], rods: [rod, rod] },
      mixing: { ...mixing, ring: mixingRing, rods: [mixingRod, mixingRod] },
    },
  };
}

/** Curves that answer mid-stick with zero and the ends with full, so that the healthy machine stays healthy in its first mode. */
function flightModesAndRates(random: Random): Partial<Transmitter> {
  const made: Partial<Transmitter> = {};
  if (random.chance(0.5)) {
    made.flightModes = [
      {
        name: 'stunt',
        pitchCurve: random.pick([
          [-100, 100],
          [-100, 0, 100],
          [-100, random.between(-70, -50), 0, random.between(45, 65), 100],
        ]),
      },
      { name: 'normal', pitchCurve: [random.between(-40, -20), random.between(-15, 10), 100] },
    ];
  }
  if (random.chance(0.5)) {
    const rate = () => ({ rate: random.between(70, 100), expo: random.between(-10, 35) });
    made.rates = { elevator: rate(), aileron: rate(), rudder: { rate: 100, expo: random.between(0, 30) } };
  }
  return made;
}

/** [x, y] at this distance from the mast and azimuth (degrees). */
function alongAzimuth(radius: number, azimuth: number): [number, number] {
  return [radius * Math.cos(azimuth * RAD), radius * Math.sin(azimuth * RAD)];
}

/** A point this far below another, and a little aside, so that no link stands exactly upright. */
function below(random: Random, point: Point, drop: number): Point {
  return [point[0] + random.between(-1, 1), point[1] + random.between(-1, 1), point[2] - drop];
}

/** Where the shaft must be for a level horn's ball to be at `ball`. */
function shaftOf(ball: Point, horn: { length: number; azimuth: number }): Point {
  const [x, y] = alongAzimuth(horn.length, horn.azimuth);
  return [ball[0] - x, ball[1] - y, ball[2]];
}

function distance(a: Point, b: Point): number {
  return Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);
}
