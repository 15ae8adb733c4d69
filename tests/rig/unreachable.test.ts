/**
 * What cannot be reached: which part, by how many millimetres, and that what lies before it is still told. One length of
 * a healthy machine is made far too long or short; the second model finds the pose of least squares its own way.
 */
import { describe, expect, it } from 'vitest';
import { predict } from '../../packages/mixing/src/rig/predict.ts';
import type { Unreachable } from '../../packages/mixing/src/rig/rig.ts';
import { preparedOf } from '../support/answer.ts';
import { expectNear } from '../support/expect-near.ts';
import { KINDS, type Kind, type MachineDocument, randomRig } from '../support/machines.ts';
import { type Random, seededRandom } from '../support/random.ts';
import { secondPredict } from '../support/second-model.ts';

/** The part's owner, its key there, and the power of the factor by which it is off. */
type Lengthen = (machine: MachineDocument, random: Random) => [owner: object | undefined, key: string | number, power: number];

/** One length of the machine, found by the same words in every kind: its owner and key. */
const PARTS: [string, readonly Kind[], Lengthen][] = [
  // Less than the others: a ring link or a washout's off by half its length has several poses of least squares, some turned over.
  ['a ring link', KINDS, ({ servos }, random) => [random.pick(servos), 'link', 0.6]],
  ['a pushrod', ['lever'], ({ servos }) => [servos[0], 'pushrod', 1]],
  ['a blade link', KINDS, ({ rotor }) => [rotor.links, 1, 1]],
  ['a washout rod', ['flybar'], ({ flybar }, random) => [flybar?.washout.rods, random.whole(0, 1), 0.7]],
  ['a washout link', ['flybar'], ({ flybar }, random) => [flybar?.washout.links, random.whole(0, 1), 0.9]],
  ['a mixing rod', ['flybar'], ({ flybar }, random) => [flybar?.mixing.rods, random.whole(0, 1), 1]],
  ["the tail's rod", KINDS, ({ tail }) => [tail, 'rod', 1]],
  ["the tail grip's link", KINDS, ({ tail }) => [tail?.grip, 'link', 1]],
];

/** The part that fails in either answer, be it of the head or of the tail alone. */
function missOf(answer: { unreachable?: Unreachable; tail?: object }): Unreachable | undefined {
  const tail = answer.tail as { unreachable?: Unreachable } | undefined;
  return answer.unreachable ?? tail?.unreachable;
}

describe.each(PARTS)('%s far too long or short', (part, kinds, lengthOf) => {
  it('is told as the second model finds it, to 1e-6 mm (seeds 8000 to 8029)', { timeout: 120_000 }, () => {
    let told = 0;
    for (let seed = 8000; seed < 8030; seed++) {
      const random = seededRandom(seed);
      const machine = randomRig(seed, random.pick(kinds), { tail: true });
      const [owner, key, power] = lengthOf(machine, random);
      const factor = random.chance(0.5) ? random.between(1.5, 2.2) : random.between(0.2, 0.5);
      const lengths = owner as Record<string, number>;
      lengths[key] = (lengths[key] ?? Number.NaN) * factor ** power;
      const stick = () => random.between(-1, 1);
      const kase = {
        collective: stick(),
        elevator: stick(),
        aileron: stick(),
        rudder: stick(),
        azimuth: random.between(-180, 180),
      };
      const expected = secondPredict(machine, kase);
      const answer = predict(preparedOf(machine), kase);
      const [miss, expectedMiss] = [missOf(answer), missOf(expected)];
      // A ring tipped past upright and a way that is barred though a pose exists are not what is asked here.
      if (expected.turnedOver || (expectedMiss && expectedMiss.short < 1e-3)) continue;
      expect(miss === undefined, `seed ${seed}: ${JSON.stringify([miss, expectedMiss])}`).toBe(expectedMiss === undefined);
      if (!miss || !expectedMiss) continue;
      expect(miss.path, `seed ${seed}: ${JSON.stringify([miss, expectedMiss])}`).toBe(expectedMiss.path);
      expectNear(miss.short, expectedMiss.short, 1e-6, 'mm', `${part}, seed ${seed}`);
      told++;
    }
    expect(told, `${part} out of reach`).toBeGreaterThan(3);
  });
});

describe('what lies before the part that fails is still there, and nothing after it', () => {
  const has = (machine: MachineDocument) => {
    const { outputs, servos, swash, blades, harmonics, flybar, tail } = predict(preparedOf(machine), { collective: 0.2 });
    return Object.entries({ outputs, servos, swash, blades, harmonics, flybar, tail }).flatMap(([key, value]) =>
      value ? [key] : [],
    );
  };

  it('the ring: outputs and servos; a blade: the ring too; the tail stands beside either (seed 8100)', () => {
    const ring = randomRig(8100, 'direct', { tail: true });
    ring.servos[1].link *= 3;
    expect(has(ring)).toEqual(['outputs', 'servos', 'tail']);
    const blade = randomRig(8100, 'direct', { tail: true });
    blade.rotor.links[0] = 5;
    expect(has(blade)).toEqual(['outputs', 'servos', 'swash', 'tail']);
  });

  it('a tail that cannot close fails alone, with pulse and horn told (seed 8101)', () => {
    const machine = randomRig(8101, 'flybar', { tail: true });
    if (machine.tail) machine.tail.rod *= 1.4;
    expect(has(machine)).toEqual(['outputs', 'servos', 'swash', 'blades', 'harmonics', 'flybar', 'tail']);
    const { tail, unreachable } = predict(preparedOf(machine), { rudder: 0.3 });
    expect(unreachable).toBeUndefined();
    expect(Object.keys(tail ?? {}).sort()).toEqual(['horn', 'pulse', 'saturated', 'unreachable']);
  });

  it('harmonics fail alone where another azimuth cannot close', () => {
    // Links so long that a blade closes only where the tilted ring holds its ball low: some azimuths are out of reach,
    // some are not.
    const machine = randomRig(8102, 'direct', { tail: false });
    machine.rotor.blades = 2;
    const [link = Number.NaN] = machine.rotor.links;
    machine.rotor.links = [link + 25, link];
    const prepared = preparedOf(machine);
    const answers = Array.from({ length: 72 }, (_, i) => predict(prepared, { elevator: 1, azimuth: 5 * i }));
    const some = answers.find(({ unreachable }) => !unreachable);
    const other = answers.find(({ unreachable }) => unreachable);
    if (!some || !other) throw new Error('got all azimuths alike, expected some within reach and some not');
    expect(some.blades?.length).toBe(machine.rotor.blades);
    expect(Object.keys(some.harmonics ?? {})).toEqual(['unreachable']);
  });
});
