/** The mirror image of a machine (left for right), and a machine turned about its mast, as documents. Tails stay as they are. */
import type { Point } from '../../packages/mixing/src/rig/rig.ts';
import type { MachineDocument } from './machines.ts';

const RAD = Math.PI / 180;

/**
 * Left for right: y and every azimuth of the machine change sign, and the rotor turns the other way; azimuths relative to
 * blade 1 stay. The transmitter's azimuths mirror too (weights given outright mirror in their aileron column), so that
 * the mirrored stick gives the same pulses.
 */
export function mirrored(document: MachineDocument): MachineDocument {
  const copy = structuredClone(document);
  const flip = ([x, y, z]: Point): Point => [x, -y, z];
  for (const servo of copy.servos) {
    servo.shaft = flip(servo.shaft);
    servo.horn.azimuth *= -1;
    servo.ball.azimuth *= -1;
    if (servo.lever) {
      servo.lever.azimuth *= -1;
      servo.lever.pivot = flip(servo.lever.pivot);
    }
  }
  copy.swash.guide *= -1;
  copy.rotor.rotation = document.rotor.rotation === 'clockwise' ? 'counterclockwise' : 'clockwise';
  const { mix } = copy.transmitter;
  if (mix.azimuths) mix.azimuths = mix.azimuths.map((azimuth) => -azimuth) as Point;
  if (mix.weights) for (const row of mix.weights) row[2] *= -1;
  return copy;
}

/**
 * Turned about the mast by `angle` degrees, counter-clockwise from above: every azimuth and place of the machine. The
 * transmitter keeps its weights, so that the same sticks give the same pulses.
 */
export function turned(document: MachineDocument, angle: number): MachineDocument {
  const copy = structuredClone(document);
  const [c, s] = [Math.cos(angle * RAD), Math.sin(angle * RAD)];
  const turn = ([x, y, z]: Point): Point => [c * x - s * y, s * x + c * y, z];
  for (const servo of copy.servos) {
    servo.shaft = turn(servo.shaft);
    servo.horn.azimuth += angle;
    servo.ball.azimuth += angle;
    if (servo.lever) {
      servo.lever.azimuth += angle;
      servo.lever.pivot = turn(servo.lever.pivot);
    }
  }
  copy.swash.guide += angle;
  return copy;
}
