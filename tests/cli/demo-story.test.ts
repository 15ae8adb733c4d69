/** The demo's story is computed: edit the demo document and its figures change; and they are the library's own. */
import { expect, test } from 'vitest';
import { demoStory } from '../../packages/mixing/src/cli/demo-story.ts';
import { examples } from '../../packages/mixing/src/examples/examples.ts';
import { signed } from '../../packages/mixing/src/cli/words.ts';
import { answerOf, rigOf } from '../support/answer.ts';

interface Editable {
  name: string;
  transmitter: { mix: Record<'elevator' | 'phase', number> };
  servos: { link: number; ball: { radius: number } }[];
  rotor: { rotation: string; links: number[]; pitchArm: { lead: number } };
}

const demo = () => structuredClone(examples[0].document) as Editable;
const storyOf = (document: unknown) => demoStory(rigOf(document));

/** The table's rows by their last words ("side tilt" occurs twice, so by place), cells left to right. */
function rowsOf(story: string): string[][] {
  return story
    .split('\n')
    .filter((line) => /\s(deg|mm|%)$/.test(line))
    .map((line) =>
      line
        .trim()
        .split(/\s{2,}/)
        .filter((cell) => /^[+-]?\d|^none|^out of reach/.test(cell)),
    );
}

const FORE_AFT_STANDING = 0;
const FORE_AFT_ADDED = 2;
const NOSE = 5;

test('it tells of four machines in figures and words', () => {
  const story = storyOf(demo());
  const rows = rowsOf(story);
  expect(rows).toHaveLength(13);
  for (const row of rows) expect(row).toHaveLength(4);
  expect(story).not.toMatch(/NaN|undefined|Infinity|-0\.00\b/);
  for (const title of ['As recorded', 'One horn mis-set', 'A sign wrong at one servo', 'A sign wrong for all three'])
    expect(story).toContain(title);
});

test('its figures are those of the library', () => {
  const document = demo();
  const rows = rowsOf(storyOf(document));
  const mid = answerOf(document, {}).swash;
  const held = answerOf(document, { elevator: 1 });
  if (!mid || !held.swash) throw new Error('the demo machine: got no pose at full elevator, expected one');
  expect(rows[FORE_AFT_STANDING]?.[0]).toBe(signed(mid.foreAft, 2));
  expect(rows[FORE_AFT_ADDED]?.[0]).toBe(signed(held.swash.foreAft - mid.foreAft, 2));
  // On a clockwise rotor as on the other, blade 1 points to the nose at psi 180.
  expect(rows[NOSE]?.[0]).toBe(signed(answerOf(document, { elevator: 1, azimuth: 180 }).blades?.[0]?.pitch ?? Number.NaN, 2));
  document.transmitter.mix.elevator *= -1;
  const backwards = answerOf(document, { elevator: 1 }).swash;
  expect(rows[FORE_AFT_ADDED]?.[3]).toBe(signed((backwards?.foreAft ?? Number.NaN) - mid.foreAft, 2));
});

test('a horn mis-set stands before the stick moves, a wrong sign only acts under it', () => {
  const [standing, side, added] = rowsOf(storyOf(demo())).map((row) => row.map(Number)) as [number[], number[], number[]];
  const lean = (i: number) => Math.hypot(standing[i] as number, side[i] as number);
  expect(lean(0)).toBeLessThan(0.01);
  expect(lean(1)).toBeGreaterThan(1);
  expect(lean(2)).toBeLessThan(0.01);
  expect(added[3]).toBeLessThan(0);
  expect(added[0]).toBeGreaterThan(0);
});

const edits: [string, (document: Editable) => void, number[]][] = [
  ['the elevator value', (document) => (document.transmitter.mix.elevator = 17), [FORE_AFT_ADDED, NOSE]],
  ['a servo link', (document) => ((document.servos[0] as { link: number }).link += 1), [FORE_AFT_STANDING, NOSE]],
  ['the pitch arm', (document) => (document.rotor.pitchArm.lead += 2), [NOSE]],
  ['the phase', (document) => (document.transmitter.mix.phase = 20), [FORE_AFT_ADDED, 3, 11]],
];

test.each(edits)('edit %s of the demo document and the figures change', (_what, edit, changed) => {
  const document = demo();
  const before = storyOf(document).split('\n');
  edit(document);
  const after = storyOf(document).split('\n');
  for (const row of changed) expect(rowsOf(after.join('\n'))[row], `row ${row}`).not.toEqual(rowsOf(before.join('\n'))[row]);
  expect(after.filter((line) => line.startsWith('  Before'))).not.toEqual([]);
  expect(after.at(-2)).not.toBe(before.at(-2));
});

test('its name is the one in the document', () => {
  expect(storyOf({ ...demo(), name: 'Something Else' })).toContain('"Something Else"');
});

test('a machine that cannot be posed has a story too', () => {
  const document = demo();
  (document.servos[0] as { link: number }).link = 5;
  const story = storyOf(document);
  expect(story).toContain('out of reach');
  expect(story).toMatch(/misses by \d+(\.\d+)? mm/);
});
