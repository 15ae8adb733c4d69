/**
 * A random healthy tail with its rudder output, in the tail's own axes: horn square to the boom, lever and blades at zero with
 * the pulse at neutral, right rudder swings the nose right, both ends clear of the stops, and the gyro answers a
 * counter-clockwise turn as right rudder does.
 */
import type { Output, Tail } from '../../packages/mixing/src/rig/rig.ts';
import type { Random } from './random.ts';

const RAD = Math.PI / 180;

export function randomTail(random: Random): { tail: Tail; rudder: Output } {
  const neutral = random.pick([1500, 1520]);
  const sense = random.sign();
  const right = random.sign();
  // Horn's ball aft turns the lever down (b < 0), moves the slider in (s < 0) and takes the blade's t below zero.
  const reverse = sense * right > 0;
  const roll = random.pick([0, 90, random.between(0, 90)]);
  const hornLength = random.between(8, 11.5);
  const servoEnd = { length: random.between(13.5, 17.5), angle: 90 + random.between(-3, 3) };
  const sliderEnd = { length: random.between(8.5, 11.5), angle: random.between(-4, 4) };
  const pivot: [number, number, number] = [random.between(-1, 1), random.between(-7, -5), random.between(-1, 1)];
  const rod = random.between(280, 420);
  const endU = pivot[0] + servoEnd.length * Math.cos(servoEnd.angle * RAD);
  const endV = pivot[1] + servoEnd.length * Math.sin(servoEnd.angle * RAD);
  const aside = [random.between(-1, 1), random.between(-1, 1)] as const;
  const ball = [endU - Math.sqrt(rod ** 2 - aside[0] ** 2 - aside[1] ** 2), endV + aside[0], pivot[2] + aside[1]] as const;
  const lead = random.between(9, 12);
  const height = random.between(-1.2, 1.2);
  const gripLink = random.between(6, 10);
  const spiderX = lead + random.between(-0.4, 0.4);
  const tail: Tail = {
    servo: {
      neutral,
      sense,
      rate: random.between(0.078, 0.095),
      shaft: [ball[0], ball[1] - hornLength * Math.cos(roll * RAD), ball[2] - hornLength * Math.sin(roll * RAD)],
      horn: { length: hornLength, roll, teeth: random.pick([23, 24, 25]), tooth: 0, offset: 0 },
    },
    lever: { pivot, servoEnd, sliderEnd },
    rod,
    slider: { stops: [-random.between(5, 6.5), random.between(5, 6.5)] },
    grip: {
      lead,
      height,
      spider: [spiderX, height - Math.sqrt(gripLink ** 2 - (spiderX - lead) ** 2)],
      link: gripLink,
    },
    right,
    gyro: {
      gain: random.pick([0, 55, -60, random.between(20, 90)]),
      scale: 'signed',
      reverse,
      rate: 2,
      limit: random.between(105, 150),
      holdSide: random.sign(),
    },
  };
  if (random.chance(0.3) && tail.gyro) {
    tail.gyro.scale = 'centred';
    tail.gyro.gain = random.between(0, 100);
  }
  return { tail, rudder: { neutral, span: 400, travel: [100, 100], subtrim: 0, reverse } };
}
