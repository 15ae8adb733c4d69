/**
 * Sets a healthy machine off nominal, as machines are met on the bench: sub-trims, travels and limits, horn teeth and
 * angles, link lengths, ball places, leads swapped, phase, weights, curves. Everything still moves; little is level.
 */
import type { MachineDocument } from './machines.ts';
import type { Random } from './random.ts';

export function disturb(document: MachineDocument, random: Random): void {
  const { transmitter, servos, rotor, flybar, tail } = document;
  const off = (spread: number) => random.between(-spread, spread);
  for (const output of transmitter.outputs) {
    output.travel = [output.travel[0] * (1 + off(0.1)), output.travel[1] * (1 + off(0.1))];
    output.subtrim = random.whole(-40, 40);
    if (random.chance(0.3))
      output.limits = [output.neutral - random.between(120, 320), output.neutral + random.between(120, 320)];
  }
  if (random.chance(0.3)) [servos[1].output, servos[2].output] = [servos[2].output, servos[1].output];
  if (random.chance(0.3)) transmitter.mix.cyclicLimit = random.between(80, 120);
  if (random.chance(0.5)) transmitter.mix.phase += off(18);
  if (transmitter.mix.weights) {
    for (const row of transmitter.mix.weights) row.forEach((weight, i) => (row[i] = weight + off(0.1)));
  }
  if (random.chance(0.3)) {
    transmitter.flightModes = [{ name: 'bent', pitchCurve: [-100, -60, off(20), 50, 100] }, ...(transmitter.flightModes ?? [])];
  }
  for (const servo of servos) {
    servo.horn.offset = off(3);
    if (random.chance(0.2)) {
      servo.horn.tooth = random.sign();
      servo.horn.offset -= (servo.horn.tooth * 360) / servo.horn.teeth;
    }
    servo.link += off(0.4);
    if (servo.pushrod !== undefined) servo.pushrod += off(0.3);
    servo.ball.azimuth += off(0.9);
    servo.ball.height = off(2);
    servo.horn.azimuth += off(1.5);
  }
  rotor.links = rotor.links.map((link) => link + off(0.3));
  if (flybar) {
    const two = (pair: [number, number]): [number, number] => [pair[0] + off(0.2), pair[1] + off(0.2)];
    flybar.washout.links = two(flybar.washout.links);
    flybar.washout.rods = two(flybar.washout.rods);
    flybar.mixing.rods = two(flybar.mixing.rods);
  }
  if (tail) {
    tail.servo.horn.offset = off(3);
    tail.rod += off(0.3);
    tail.grip.link += off(0.15);
    tail.slider.stops = [-random.between(2.5, 5), random.between(2.5, 5)];
    const rudder = transmitter.rudder;
    if (rudder) {
      rudder.travel = [100 + off(8), 100 + off(8)];
      rudder.subtrim = random.whole(-30, 30);
      if (random.chance(0.3))
        rudder.limits = [rudder.neutral - random.between(300, 390), rudder.neutral + random.between(300, 390)];
    }
    if (tail.gyro && random.chance(0.4)) tail.gyro.reverse = !tail.gyro.reverse;
  }
}
