/**
 * Valid documents of machines that nobody would build: links far too long or short, horns near upright, tiny and huge
 * radii. Each must end in a pose or in `unreachable`; never in a refusal, never in NaN.
 */
import type { MachineDocument } from './machines.ts';
import { KINDS, randomRig } from './machines.ts';
import { type Random, seededRandom } from './random.ts';

export function extreme(seed: number): MachineDocument {
  const random = seededRandom(seed * 8 + 5);
  const document = randomRig(seed, random.pick(KINDS), { offNominal: random.chance(0.5) });
  const strains = [...STRAINS].filter(() => random.chance(0.18));
  for (const strain of strains.length > 0 ? strains : [random.pick(STRAINS)]) strain(document, random);
  document.name = `extreme, seed ${seed}`;
  return document;
}

/** A factor between 1/most and most, evenly spread in its logarithm. */
const scale = (random: Random, most: number) => most ** random.between(-1, 1);

const STRAINS: readonly ((document: MachineDocument, random: Random) => void)[] = [
  ({ servos }, random) => {
    random.pick(servos).link *= scale(random, 8);
  },
  ({ servos }, random) => {
    for (const servo of servos) servo.link = Math.max(0.5, servo.link + random.between(-12, 12));
  },
  ({ servos }, random) => {
    random.pick(servos).horn.offset = random.sign() * random.between(60, 90);
  },
  ({ servos }, random) => {
    for (const servo of servos) servo.horn.tooth = random.whole(-6, 6);
  },
  ({ servos }, random) => {
    random.pick(servos).horn.length *= scale(random, 30);
  },
  ({ servos }, random) => {
    for (const servo of servos) servo.ball.radius *= scale(random, 40);
  },
  ({ servos }, random) => {
    random.pick(servos).ball.height = random.between(-40, 40);
  },
  ({ servos }, random) => {
    const servo = random.pick(servos);
    if (servo.lever && servo.pushrod !== undefined) {
      servo.pushrod *= scale(random, 4);
      servo.lever.servoEnd.length *= scale(random, 10);
      servo.lever.swashEnd.angle = random.between(-180, 180);
    }
  },
  ({ servos }, random) => {
    const [x, y, z] = random.pick(servos).shaft;
    const away = [0, 0, 0].map(() => (random.chance(0.4) ? random.between(-60, 60) : 0));
    random.pick(servos).shaft = [x + (away[0] ?? 0), y + (away[1] ?? 0), z + (away[2] ?? 0)];
  },
  ({ transmitter }, random) => {
    transmitter.mix.collective *= scale(random, 6);
    transmitter.mix.elevator *= scale(random, 6);
    transmitter.mix.phase = random.between(-180, 180);
  },
  ({ transmitter }, random) => {
    for (const output of transmitter.outputs) output.subtrim = random.whole(-400, 400);
  },
  ({ swash }, random) => {
    swash.height *= scale(random, 3);
  },
  ({ rotor }, random) => {
    if (rotor.ring) rotor.ring.radius *= scale(random, 30);
    rotor.pitchArm.lead *= scale(random, 20);
  },
  ({ rotor }, random) => {
    const last = rotor.links.length - 1;
    rotor.links[last] = (rotor.links[last] ?? 1) * scale(random, 4);
  },
  ({ rotor }, random) => {
    rotor.hubHeight *= scale(random, 2);
    rotor.pitchArm.height = random.between(-20, 20);
  },
  ({ flybar }, random) => {
    if (!flybar) return;
    flybar.washout.rods[0] *= scale(random, 3);
    flybar.washout.links[1] *= scale(random, 3);
    flybar.arm.lead *= scale(random, 6);
  },
  ({ flybar }, random) => {
    if (!flybar) return;
    flybar.mixing.rods[1] *= scale(random, 3);
    flybar.mixing.swashEnd.length *= scale(random, 8);
    flybar.washout.azimuth = random.between(0, 360);
  },
  ({ tail }, random) => {
    if (!tail) return;
    tail.rod += random.between(-30, 30);
    tail.grip.link *= scale(random, 4);
    tail.servo.horn.length *= scale(random, 5);
  },
];
