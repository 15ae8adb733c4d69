/** What a cause says: words of the bench, the way it is off, and the record's value where it helps. */
import { expect, test } from 'vitest';
import { causeSays, NOTHING_SAYS } from '../../packages/mixing/src/diagnosis/cause-says.ts';
import { faultsOf } from '../../packages/mixing/src/diagnosis/faults.ts';
import type { CauseChange } from '../../packages/mixing/src/diagnosis/posterior.ts';
import { USUAL_PRIORS } from '../../packages/mixing/src/diagnosis/priors.ts';
import { examples } from '../../packages/mixing/src/examples/examples.ts';
import { valueAt } from '../../packages/mixing/src/rig/changes.ts';
import { unitAt } from '../../packages/mixing/src/rig/describe.ts';
import { readRig } from '../../packages/mixing/src/rig/read.ts';
import type { Rig } from '../../packages/mixing/src/rig/rig.ts';

function rigOf(name: string): Rig {
  const read = readRig(examples.find((one) => one.name === name)?.document);
  if (!read.ok) throw new Error(`${name} does not read`);
  return read.rig;
}

const plain = rigOf('bench-trainer');
const flybar = rigOf('flybar-trainer');

const change = (rig: Rig, path: string, machine: unknown, sd = 0): CauseChange =>
  ({ path, record: valueAt(rig, path), machine, sd, unit: unitAt(path) }) as CauseChange;
const says = (path: string, machine: unknown, sd = 0, rig = plain): string => causeSays(rig, [change(rig, path, machine, sd)]);

test.each([
  ['/servos/0/horn/offset', 7.21, 0.5, "Servo 1's horn (left front) stands 7.2° high (give or take 0.5°)"],
  ['/servos/1/horn/offset', -8, 0, "Servo 2's horn (tail) stands 8.0° low"],
  ['/servos/0/horn/tooth', -1, 0, "Servo 1's horn (left front) is one tooth too low"],
  ['/servos/0/horn/tooth', 2, 0, "Servo 1's horn (left front) is 2 teeth too high"],
  ['/servos/0/neutral', 1500, 0, 'Servo 1 (left front) is made for 1500 µs, and the record says 1520 µs'],
  ['/transmitter/outputs/0/subtrim', 59, 10, "Output 1's sub-trim still holds 59 µs (give or take 10 µs)"],
  [
    '/transmitter/outputs/1/reverse',
    !plain.transmitter.outputs[1]?.reverse,
    0,
    'Output 2 is reversed, and the record says that it is not',
  ],
  [
    '/transmitter/outputs/0/travel/0',
    75,
    3,
    'Output 1 travels too short below its middle: 75 % (give or take 3 %), and the record says 100 %',
  ],
  ['/transmitter/mix/aileron', -24, 0, 'The aileron mix value has the wrong sign: -24 %, and the record says 24 %'],
  ['/transmitter/mix/elevator', 32, 1, 'The elevator mix value is too large: 32 % (give or take 1 %), and the record says 24 %'],
  [
    '/transmitter/mix/elevator',
    32,
    0.3,
    'The elevator mix value is too large: 32 % (give or take under 1 %), and the record says 24 %',
  ],
  ['/transmitter/mix/phase', 20, 2, 'The mix phase is 20.0° (give or take 2.0°), and the record says 0.0°'],
])('%s at %s', (path, machine, sd, expected) => {
  expect(says(path, machine, sd)).toBe(expected);
});

test('lengths say how much too long or short, with the hundredth where it is small', () => {
  const link = valueAt(plain, '/rotor/links/1') as number;
  expect(says('/rotor/links/1', link + 0.6, 0.02)).toBe("Blade 2's link is 0.6 mm too long (give or take 0.02 mm)");
  const ring = valueAt(plain, '/servos/2/link') as number;
  expect(says('/servos/2/link', ring - 1.25)).toBe("Servo 3's link (right front) is 1.3 mm too short");
});

test('two leads are swapped, as a pair; nothing is nothing', () => {
  expect(causeSays(plain, [change(plain, '/servos/1/output', 3), change(plain, '/servos/2/output', 2)])).toBe(
    'The leads of servo 2 (tail) and servo 3 (right front) are swapped',
  );
  expect(causeSays(plain, [])).toBe(NOTHING_SAYS);
});

test('the tail’s horn goes aft or forward, and several causes are one sentence', () => {
  expect(says('/tail/servo/horn/tooth', 1, 0, flybar)).toBe("The tail servo's horn is one tooth too far aft");
  const two = causeSays(flybar, [change(flybar, '/tail/gyro/reverse', true), change(flybar, '/servos/0/horn/offset', 6, 0.4)]);
  expect(two).toMatch(/^The gyro is reversed, and the record says that it is not; and servo 1's horn .*stands 6\.0° high/);
});

test('no fault that is looked for is told by its path or as undefined', () => {
  for (const { name } of examples) {
    const rig = rigOf(name);
    for (const fault of faultsOf(rig, USUAL_PRIORS)) {
      const changes =
        fault.path === undefined
          ? fault.assignments.map(({ path, value }) => change(rig, path, value))
          : [change(rig, fault.path, (valueAt(rig, fault.path) as number) + (fault.branches[0]?.most ?? 1), 0.3)];
      const sentence = causeSays(rig, changes);
      if (process.env['SHOW']) console.log(fault.kind, '|', sentence);
      expect(sentence, fault.key).toMatch(/^[A-Z][^/]*$/);
      expect(sentence, fault.key).not.toMatch(/undefined|NaN|\[object/);
    }
  }
});
