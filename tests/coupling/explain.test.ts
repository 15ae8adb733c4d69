/**
 * The sentences about a machine that is not as recorded. Their figures for the worked machine are those of the two
 * worked values that the model states (ring tilt 2.4811 degrees right at mid-stick with servo 2's horn 8 degrees high,
 * 2.5058 under full elevator); the directions follow from the frame (azimuths counter-clockwise from the nose).
 */
import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { explain } from '../../packages/mixing/src/coupling/explain.ts';
import { examples } from '../../packages/mixing/src/examples/examples.ts';
import { applyChanges, type Change } from '../../packages/mixing/src/rig/changes.ts';
import { readRig } from '../../packages/mixing/src/rig/read.ts';
import type { Rig } from '../../packages/mixing/src/rig/rig.ts';
import { KINDS, randomRig } from '../support/machines.ts';

function rigOf(document: unknown): Rig {
  const read = readRig(document);
  if (!read.ok) throw new Error(`refused: ${JSON.stringify(read.faults)}`);
  return read.rig;
}

const worked = rigOf(JSON.parse(readFileSync(new URL('../answers/rigs/worked-120.rig.json', import.meta.url), 'utf8')));
/** The worked machine with the phase that cures its blades' own 20 degrees, so that only what is changed is told. */
const trued = applyChanges(worked, [{ path: '/transmitter/mix/phase', to: -20 }]);
const demo = rigOf(examples[0].document);

const said = (record: Rig, ...changes: Change[]) => explain(record, applyChanges(record, changes), changes);
const swap = (a: number, b: number): Change[] => [
  { path: `/servos/${a}/output`, to: b + 1 },
  { path: `/servos/${b}/output`, to: a + 1 },
];

test('a horn 8 degrees high: the lean that stands, the horn and the way, and what elevator itself adds', () => {
  expect(said(worked, { path: '/servos/1/horn/offset', by: 8 }).headline).toBe(
    "Before the stick moves the swashplate leans 2.5 degrees right and 1.4 forward: servo 2's horn stands 8 degrees high; elevator itself adds 0.02.",
  );
});

test('a horn set low leans the other way, and a tooth is called a tooth', () => {
  expect(said(worked, { path: '/servos/1/horn/offset', by: -8 }).headline).toMatch(
    /leans 2\.\d degrees left .* horn stands 8 degrees low/,
  );
  expect(said(worked, { path: '/servos/1/horn/tooth', to: 1 }).headline).toMatch(/horn stands 14\.4 degrees high \(one tooth\)/);
});

test('leads swapped: of the side servos aileron turns round, of front and side elevator rolls', () => {
  expect(said(trued, ...swap(1, 2)).headline).toBe("Right aileron rolls the machine left: the side servos' leads are swapped.");
  // With a phase in the mix a mirrored tilt is turned by twice the phase, 40 degrees here: elevator rolls the machine too.
  expect(said(trued, ...swap(1, 2)).more).toContain(
    "Forward elevator rolls the machine right: the side servos' leads are swapped.",
  );
  expect(said(demo, ...swap(0, 1)).headline).toBe(
    'Forward elevator rolls the machine right: the leads of servos 1 and 2 are swapped.',
  );
});

test('a wrong sign is named as one', () => {
  expect(said(demo, { path: '/transmitter/mix/elevator', to: -24 }).headline).toBe(
    'Forward elevator tips the machine back: the elevator value has the wrong sign.',
  );
  expect(said(demo, { path: '/transmitter/mix/collective', to: -43 }).headline).toBe(
    'More collective takes pitch off the blades: the collective value has the wrong sign.',
  );
});

test('each of two faults is given what it does, and no other', () => {
  const { headline, more } = said(trued, ...swap(1, 2), { path: '/servos/1/horn/offset', by: 8 });
  expect(headline).toBe("Right aileron rolls the machine left: the side servos' leads are swapped.");
  const lean = more.find((one) => one.startsWith('Before the stick moves'));
  expect(lean).toMatch(/: servo 2's horn stands 8 degrees high/);
  expect(lean).not.toMatch(/leads/);
});

test('what the record has already is said of the record, after what was changed', () => {
  const { headline, more } = said(worked, { path: '/servos/1/horn/offset', by: 8 });
  expect(headline).not.toMatch(/As recorded/);
  expect(more.filter((one) => one.startsWith('As recorded, '))).toHaveLength(2);
  expect(more.at(-1)).toMatch(/20 degrees out of line, which phase would cure\.$/);
});

/** The worked machine's own: ring balls that lead by 70 degrees instead of 90; 37 percent is the tangent of the 20 between. */
const OWN = {
  elevator:
    'As recorded, forward elevator also rolls the machine right, by 37 percent: its disc answers 20 degrees out of line, which phase would cure.',
  aileron:
    'As recorded, right aileron also tips the machine back, by 37 percent: its disc answers 20 degrees out of line, which phase would cure.',
};

test('a wrong sign of one stick is not blamed for what the record does under the other', () => {
  expect(said(worked, { path: '/transmitter/mix/elevator', to: -40 })).toEqual({
    state: 'off',
    headline: 'Forward elevator tips the machine back: the elevator value has the wrong sign.',
    more: [OWN.aileron],
  });
  expect(said(worked, { path: '/transmitter/mix/aileron', to: -40 })).toEqual({
    state: 'off',
    headline: 'Right aileron rolls the machine left: the aileron value has the wrong sign.',
    more: [OWN.elevator],
  });
  const { headline, more } = said(worked, { path: '/transmitter/mix/collective', to: -50 });
  expect(headline).toBe('More collective takes pitch off the blades: the collective value has the wrong sign.');
  expect(more.toSorted()).toEqual([OWN.elevator, OWN.aileron]);
});

test('60 random machines recorded 15 degrees out of line: a wrong sign is blamed for its own stick alone (seeds 1 to 60)', () => {
  for (let seed = 1; seed <= 60; seed++) {
    const rig = rigOf(randomRig(seed, KINDS[seed % KINDS.length] ?? 'direct'));
    const record = applyChanges(rig, [{ path: '/transmitter/mix/phase', by: seed % 2 === 0 ? 15 : -15 }]);
    const [own, other, words] =
      seed % 4 < 2 ? (['elevator', 'aileron', 'ight aileron'] as const) : (['aileron', 'elevator', 'orward elevator'] as const);
    const { headline, more } = said(record, { path: `/transmitter/mix/${own}`, to: -record.transmitter.mix[own] });
    expect(headline, `seed ${seed}`).toMatch(new RegExp(`: the ${own} value has the wrong sign\\.$`));
    const others = more.filter((one) => one.includes(words));
    expect(others.length, `seed ${seed}, ${other}: ${more}`).toBe(1);
    expect(others[0], `seed ${seed}`).toMatch(/^As recorded, .* degrees out of line/);
  }
});

test('what a change adds to the record is told apart from what stood there, and what it turns round is its own', () => {
  const phase = (to: number) => said(worked, { path: '/transmitter/mix/phase', to });
  // 20 degrees stand in the record. 10 more make 30, whose tangent is 58 percent.
  expect(phase(10).headline).toBe(
    'Forward elevator also rolls the machine right, by 58 percent: the phase is 10 degrees instead of 0; 37 percent as recorded.',
  );
  expect(phase(30).headline).toBe(
    'Forward elevator rolls the machine right: the phase is 30 degrees instead of 0; 20 degrees out of line as recorded.',
  );
  // 10 less leave 10, and 30 less turn it 10 the other way.
  expect(phase(-10).headline).toBe(
    'Less than recorded, right aileron also tips the machine back, by 18 percent: its disc answers 10 degrees out of line, which phase would cure.',
  );
  expect(phase(-30).headline).toBe(
    'Forward elevator also rolls the machine left, by 18 percent: the phase is -30 degrees instead of 0.',
  );
});

test('a lean, a pitch or a blade that stands the other way than in the record is the work of what was changed', () => {
  const horn = (offset: number): Change => ({ path: '/servos/1/horn/offset', to: offset });
  const record = applyChanges(worked, [horn(8)]);
  const lean = said(record, horn(-8)).headline;
  expect(lean).toMatch(/leans 2\.\d degrees left and 1\.\d back: servo 2's horn stands 1[56](\.\d)? degrees low/);
  expect(lean).not.toMatch(/recorded/);
  expect(said(record, horn(16)).headline).toMatch(
    /servo 2's horn stands 8 degrees high; elevator itself adds [\d.]+; 2\.5 degrees right and 1\.4 forward as recorded\.$/,
  );
  const pitch = said(record, horn(-8)).more.find((one) => one.startsWith('At mid-stick'));
  expect(pitch).toMatch(/stands at -1\.\d degrees of pitch: servo 2's horn stands/);
  const link = (by: number): Change => ({ path: '/rotor/links/1', by });
  expect(said(applyChanges(demo, [link(0.4)]), link(-0.8)).headline).toMatch(
    /^Blade 1 stands 1\.\d degrees higher than blade 2: blade 2's link is 0\.8 mm short\.$/,
  );
});

test('of two changes the one that turned a fault round is named, not one that has no part in it', () => {
  const { headline, more } = said(worked, { path: '/transmitter/mix/phase', to: -30 }, { path: '/servos/1/horn/offset', by: 8 });
  const elevator = [headline, ...more].find((one) => one.includes('orward elevator'));
  expect(elevator).toMatch(
    /^Forward elevator also rolls the machine left, by \d+ percent: the phase is -30 degrees instead of 0\.$/,
  );
});

test("a servo's rate is told in the thousandths in which it differs", () => {
  const rate = worked.servos[0].rate * 1.12;
  const { headline, more } = said(worked, { path: '/servos/0/rate', to: rate });
  expect([headline, ...more].join(' ')).toMatch(/servo 1's rate is 0\.112 degrees a microsecond instead of 0\.1[;.]/);
});

test('phase is called a cure only where both sticks are turned alike', () => {
  // Its disc answers elevator 5.8 degrees to the left of it and aileron 2.2 behind it: seen from above, opposite ways round.
  const apart = rigOf(JSON.parse(readFileSync(new URL('../answers/rigs/plain-flybar.rig.json', import.meta.url), 'utf8')));
  const own = explain(apart, apart, []);
  expect([own.headline, ...own.more]).toContain(
    'As recorded, forward elevator also rolls the machine left, by 10 percent: its disc answers 6 degrees out of line.',
  );
});

test('a machine that answers true is said to, with its figures', () => {
  expect(explain(demo, demo, [])).toEqual({
    state: 'true',
    headline:
      'Full forward elevator tilts the swashplate 5 degrees forward and not at all to the side: the machine answers true.',
    more: [],
  });
});

test('a machine that cannot be posed says which part, by how much, and what was changed', () => {
  const { state, headline } = said(worked, { path: '/servos/1/link', by: 30 });
  expect(state).toBe('unreachable');
  expect(headline).toMatch(/^The machine cannot be posed here, for .* misses by [\d.]+ mm: servo 2's link is 30 mm long\.$/);
});

test('blades apart: the link that does it, by which blade', () => {
  expect(said(demo, { path: '/rotor/links/1', by: 0.4 }).headline).toMatch(
    /^Blade 2 stands 1\.\d degrees higher than blade 1: blade 2's link is 0\.4 mm long\.$/,
  );
});

test('60 healthy random machines of every kind are called true or blame their record, never a change (seeds 1 to 60)', () => {
  for (let seed = 1; seed <= 60; seed++) {
    const rig = rigOf(randomRig(seed, KINDS[seed % KINDS.length] ?? 'direct'));
    const { state, headline } = explain(rig, rig, []);
    expect(state === 'true' || headline.startsWith('As recorded, '), `seed ${seed}: ${headline}`).toBe(true);
  }
});

test('60 random machines with one horn 8 degrees off name that horn (seeds 1 to 60)', () => {
  let named = 0;
  for (let seed = 1; seed <= 60; seed++) {
    const rig = rigOf(randomRig(seed, KINDS[seed % KINDS.length] ?? 'direct'));
    const i = seed % 3;
    const { state, headline } = said(rig, { path: `/servos/${i}/horn/offset`, by: 8 });
    if (state === 'off' && headline.includes(`servo ${i + 1}'s horn stands 8 degrees high`)) named++;
  }
  expect(named).toBe(60);
});

test('where only the tail was changed, the head is called true and the tail is not called harmless', () => {
  const rig = rigOf(examples[2]?.document);
  expect(said(rig, { path: '/transmitter/rudder/reverse', to: true }).headline).toMatch(
    /the head answers true, for only the tail was changed\.$/,
  );
});
