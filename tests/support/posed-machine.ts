/**
 * A plain machine whose ring can be put into any pose that a test wants: its horns stand level and its links are as long
 * as that pose needs. The layout is that of the whole-chain answers from outside: servo balls at 60, 180 and 300 degrees,
 * radius 20; horns 12 long and square to the radius; links 40 and upright when level; rotor with its ring balls under the
 * pitch arms.
 */
import type { Point, Servo } from '../../packages/mixing/src/rig/rig.ts';
import type { MachineDocument } from './machines.ts';

const RAD = Math.PI / 180;

export interface PosedMachine {
  /** degrees each horn stands above level */
  horns?: readonly number[];
  /** the ring's height above neutral (mm), pitch (front down) and roll (left up), degrees: Rz(guide) Ry Rx Rz(-guide) */
  pose?: readonly number[];
  guide?: number;
  driver?: number;
  rotation?: 'clockwise' | 'counterclockwise';
}

export const NEUTRAL_HEIGHT = 60;
const RADIUS = 20;
const HORN = 12;
const LINK = 40;
const ARM = 18;
const LEAD = 12;

export function posedMachine({
  horns = [0, 0, 0],
  pose,
  guide = 0,
  driver = 180,
  rotation = 'counterclockwise',
}: PosedMachine): MachineDocument {
  const servos = [60, 180, 300].map((azimuth, i): Servo => {
    const [cos, sin] = [Math.cos(azimuth * RAD), Math.sin(azimuth * RAD)];
    const shaft: Point = [RADIUS * cos + HORN * sin, RADIUS * sin - HORN * cos, NEUTRAL_HEIGHT - LINK];
    const servo: Servo = {
      name: `servo ${i + 1}`,
      output: i + 1,
      neutral: 1520,
      sense: 1,
      rate: 0.1,
      shaft,
      horn: { length: HORN, azimuth: azimuth + 90, teeth: 25, tooth: 0, offset: horns[i] ?? 0 },
      link: LINK,
      ball: { radius: RADIUS, azimuth, height: 0 },
    };
    if (pose) {
      const level: Point = [RADIUS * cos, RADIUS * sin, NEUTRAL_HEIGHT - LINK];
      const ball = onTiltedRing([RADIUS * cos, RADIUS * sin, 0], pose, guide);
      servo.link = Math.hypot(ball[0] - level[0], ball[1] - level[1], ball[2] - level[2]);
    }
    return servo;
  });
  const station = Math.sqrt(ARM ** 2 - LEAD ** 2);
  return {
    format: 'swashtrue-rig/1',
    name: 'posed machine',
    transmitter: {
      mix: { azimuths: [60, 180, 300], collective: 50, elevator: 40, aileron: 40, phase: 0 },
      outputs: [output(), output(), output()],
    },
    servos: servos as [Servo, Servo, Servo],
    swash: { height: NEUTRAL_HEIGHT, guide },
    rotor: {
      rotation,
      blades: 2,
      hubHeight: NEUTRAL_HEIGHT + 30,
      driver,
      ring: { radius: ARM, azimuth: Math.atan2(LEAD, station) / RAD, height: 0 },
      pitchArm: { station, lead: LEAD, height: 0 },
      links: [30, 30],
    },
  };
}

const output = () => ({ neutral: 1520, span: 400, travel: [100, 100] as [number, number], subtrim: 0, reverse: false });

/** Where a ring point goes: first about the guide's own direction, then about the horizontal across it, then up the mast. */
function onTiltedRing(point: Point, [height = 0, pitch = 0, roll = 0]: readonly number[], guide: number): Point {
  const [x, y, z] = aboutZ(point, -guide);
  const [cr, sr] = [Math.cos(roll * RAD), Math.sin(roll * RAD)];
  const rolled: Point = [x, cr * y - sr * z, sr * y + cr * z];
  const [cp, sp] = [Math.cos(pitch * RAD), Math.sin(pitch * RAD)];
  const pitched: Point = [cp * rolled[0] + sp * rolled[2], rolled[1], -sp * rolled[0] + cp * rolled[2]];
  const [u, v, w] = aboutZ(pitched, guide);
  return [u, v, w + NEUTRAL_HEIGHT + height];
}

function aboutZ([x, y, z]: Point, angle: number): Point {
  const [c, s] = [Math.cos(angle * RAD), Math.sin(angle * RAD)];
  return [c * x - s * y, s * x + c * y, z];
}
