/** What a prediction says about its own pose: its status, the condition of the ring's closure, parts close to dead centre. */
import { Matrix, SingularValueDecomposition } from 'ml-matrix';
import { describe, expect, it, test } from 'vitest';
import { figure } from '../../packages/mixing/src/rig/figure/figure.ts';
import { type Prediction, predict } from '../../packages/mixing/src/rig/predict.ts';
import { type PreparedRig, prepare } from '../../packages/mixing/src/rig/prepare.ts';
import type { Case, Point, Rig } from '../../packages/mixing/src/rig/rig.ts';
import { rigOf } from '../support/answer.ts';
import { disturb } from '../support/disturb.ts';
import { expectNear } from '../support/expect-near.ts';
import { extreme, KINDS, randomRig } from '../support/machines.ts';
import { type Random, seededRandom } from '../support/random.ts';

const DEG = 180 / Math.PI;

function randomCase(random: Random): Case {
  const stick = () => random.between(-1, 1);
  return { collective: stick(), elevator: stick(), aileron: stick(), rudder: stick(), azimuth: random.between(0, 360) };
}

/** Every number of an answer; throws at one that is none. */
function numbersOf(value: unknown, path = ''): number[] {
  if (typeof value === 'number') {
    if (!Number.isFinite(value)) throw new Error(`${path}: got ${value}, expected a finite number`);
    return [value];
  }
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, part]) => numbersOf(part, `${path}/${key}`));
}

function expectHonest(prediction: Prediction, what: string): void {
  numbersOf(prediction, what);
  const { status, condition, overCentre, swash, blades, unreachable } = prediction;
  const reached = status !== 'cannot-reach' && status !== 'singular';
  expect([unreachable === undefined, blades !== undefined], what).toEqual([reached, reached]);
  expect(condition !== undefined, what).toBe(swash !== undefined);
  if (condition !== undefined) expect(condition, what).toBeGreaterThan(1 - 1e-12);
  if (status === 'closed') expect([overCentre, (condition as number) <= 10], what).toEqual([undefined, true]);
  if (status === 'near-over-centre') expect(overCentre, what).toBeDefined();
}

describe('every answer is honest about itself', () => {
  it.each(KINDS)('%s: 1,000 random machines, most of them carelessly set, seeds 0 to 99', (kind) => {
    const seen = new Set<string>();
    for (let seed = 0; seed < 100; seed++) {
      const random = seededRandom(seed);
      const sound = rigOf(randomRig(seed, kind));
      for (let setting = 0; setting < 10; setting++) {
        const rig = structuredClone(sound);
        if (setting > 0) disturb(rig, random);
        const prediction = predict(prepare(rig), randomCase(random));
        expectHonest(prediction, `seed ${seed}, setting ${setting}`);
        seen.add(prediction.status);
      }
    }
    expect([...seen]).toEqual(['closed']);
  });

  it('500 extreme machines, seeds 0 to 499: closed, close to dead centre, badly held or unreachable, never NaN', () => {
    const seen = new Set<string>();
    for (let seed = 0; seed < 500; seed++) {
      const prediction = predict(prepare(rigOf(extreme(seed))), randomCase(seededRandom(seed)));
      expectHonest(prediction, `seed ${seed}`);
      seen.add(prediction.status);
    }
    for (const status of ['closed', 'near-over-centre', 'near-singular', 'cannot-reach']) expect([...seen]).toContain(status);
  });
});

/** The condition by another way: differences of link lengths between drawn balls, singular values of those. */
function conditionByDifferences(rig: Rig, kase: Case): number {
  const drawn = figure(prepare(rig), kase);
  const lower = drawn.servos.map(({ lever, hornBall }) => lever?.swashEnd ?? hornBall);
  const upper = drawn.servos.map(({ ringBall }) => ringBall as Point);
  const centre = drawn.swash?.centre as Point;
  const guide = rig.swash.guide / DEG;
  const reach = Math.max(...rig.servos.map(({ ball }) => Math.hypot(ball.radius, ball.height)));
  // The tilts are turns about the horizontal axis across the guide, and about the ring's own axis along it.
  const across: Point = [-Math.sin(guide), Math.cos(guide), 0];
  const along = drawn.swash?.stationary as number[];
  const ownAxis = [0, 3, 6].map(
    (row) => (along[row] as number) * Math.cos(guide) + (along[row + 1] as number) * Math.sin(guide),
  ) as Point;
  const step = 1e-5;
  const moved = (point: Point, k: number, by: number): Point => {
    if (k === 0) return [point[0], point[1], point[2] + by];
    const [x, y, z] = k === 1 ? across : ownAxis;
    const [px, py, pz] = [point[0] - centre[0], point[1] - centre[1], point[2] - centre[2]];
    const [c, s] = [Math.cos(by / reach), Math.sin(by / reach)];
    const dot = x * px + y * py + z * pz;
    return [
      centre[0] + px * c + (y * pz - z * py) * s + x * dot * (1 - c),
      centre[1] + py * c + (z * px - x * pz) * s + y * dot * (1 - c),
      centre[2] + pz * c + (x * py - y * px) * s + z * dot * (1 - c),
    ];
  };
  const length = (a: Point, b: Point) => Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);
  const rows = upper.map((point, i) =>
    [0, 1, 2].map(
      (k) => (length(moved(point, k, step), lower[i] as Point) - length(moved(point, k, -step), lower[i] as Point)) / (2 * step),
    ),
  );
  const values = new SingularValueDecomposition(new Matrix(rows)).diagonal;
  const frobenius = (powers: number[]) => Math.sqrt(powers.reduce((sum, one) => sum + one * one, 0));
  return (frobenius(values) * frobenius(values.map((one) => 1 / one))) / 3;
}

test('the condition is that of lengths differenced between drawn balls, 100 machines, seeds 300 to 349', () => {
  let compared = 0;
  for (let seed = 300; seed < 350; seed++) {
    for (const document of [randomRig(seed, 'lever', { offNominal: true }), extreme(seed)]) {
      const rig = rigOf(document);
      const kase = randomCase(seededRandom(seed));
      const { condition } = predict(prepare(rig), kase);
      if (condition === undefined) continue;
      const expected = conditionByDifferences(rig, kase);
      expectNear(condition, expected, 1e-6 * expected, '(1)', document.name);
      compared++;
    }
  }
  expect(compared).toBeGreaterThan(70);
});

function without(rig: Rig, change: (rig: Rig) => void): PreparedRig {
  const changed = structuredClone(rig);
  change(changed);
  return prepare(changed);
}

test('a machine whose links lie flat at its designed pose holds no ring: singular, and said so', () => {
  const prepared = without(rigOf(randomRig(4, 'direct', { tail: false })), (rig) => {
    for (const servo of rig.servos) {
      const [x, y] = servo.shaft;
      servo.shaft = [2 * x, 2 * y, rig.swash.height + servo.ball.height];
    }
  });
  for (const kase of [{}, { collective: 0.5 }, { elevator: -0.7, aileron: 0.2 }]) {
    const prediction = predict(prepared, kase);
    numbersOf(prediction);
    expect(prediction.status).toBe('singular');
    expect(prediction.unreachable?.path).toMatch(/^\/servos\/[012]\/link$/);
    expect([prediction.swash, prediction.condition]).toEqual([undefined, undefined]);
  }
});

test('a pushrod shortened until its lever meets dead centre: closed, near over centre, then unreachable, in that order', () => {
  const sound = rigOf(randomRig(12, 'lever', { tail: false }));
  const words: string[] = [];
  let lastAngle = 90;
  for (let shorter = 0; shorter < 40; shorter += 0.25) {
    const prediction = predict(
      without(sound, (rig) => {
        rig.servos[0].pushrod = (rig.servos[0].pushrod as number) - shorter;
        // its link grows as the lever sinks, so that the ring is not what fails first
        rig.servos[0].link += shorter * 0.9;
      }),
      {},
    );
    numbersOf(prediction);
    if (words.at(-1) !== prediction.status) words.push(prediction.status);
    if (prediction.status === 'near-over-centre') {
      expect(prediction.overCentre?.path).toBe('/servos/0/pushrod');
      expect(prediction.overCentre?.angle).toBeLessThan(Math.min(10, lastAngle));
      lastAngle = prediction.overCentre?.angle as number;
    }
  }
  expect(words).toEqual(['closed', 'near-over-centre', 'cannot-reach']);
});

test('a blade link shortened until its pitch arm meets dead centre: closed, near over centre, then unreachable, in that order', () => {
  const sound = rigOf(randomRig(3, 'direct', { tail: false }));
  const words: string[] = [];
  for (let shorter = 0; shorter < 60; shorter += 0.25) {
    const prediction = predict(
      without(sound, (rig) => {
        rig.rotor.links[1] = (rig.rotor.links[1] as number) - shorter;
      }),
      {},
    );
    numbersOf(prediction);
    if (words.at(-1) !== prediction.status) words.push(prediction.status);
    if (prediction.status === 'near-over-centre') expect(prediction.overCentre?.path).toBe('/rotor/links/1');
    if (prediction.status === 'cannot-reach') expect(prediction.unreachable?.path).toBe('/rotor/links/1');
  }
  expect(words).toEqual(['closed', 'near-over-centre', 'cannot-reach']);
});
