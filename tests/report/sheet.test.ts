/** The sheet: what it must hold, that it follows the documents, and that nothing a person wrote becomes a part of the page. */
import { expect, test } from 'vitest';
import { diagnosisOf } from '../../packages/mixing/src/diagnosis/index.ts';
import { posterior } from '../../packages/mixing/src/diagnosis/posterior.ts';
import { readReadings } from '../../packages/mixing/src/diagnosis/readings-document.ts';
import { benchReadings } from '../../packages/mixing/src/examples/bench-readings.ts';
import { examples } from '../../packages/mixing/src/examples/examples.ts';
import { planFrom } from '../../packages/mixing/src/plan/plan.ts';
import { CAUTIONS, changesMade, HAND_TESTS, LAST_LOOKS, reportHtml } from '../../packages/mixing/src/report/report.ts';
import { placeInWords } from '../../packages/mixing/src/report/reading-sections.ts';
import { readRig } from '../../packages/mixing/src/rig/read.ts';
import type { Rig } from '../../packages/mixing/src/rig/rig.ts';

function rigOf(document: unknown): Rig {
  const read = readRig(document);
  if (!read.ok) throw new Error(JSON.stringify(read.faults));
  return read.rig;
}

const rig = rigOf(examples[0].document);
const MADE = '2026-05-04 18:20';

function readingsOf(record: Rig, items: readonly unknown[]) {
  const read = readReadings({ ...benchReadings, readings: items }, record);
  if (!read.ok) throw new Error(JSON.stringify(read.faults));
  return read.readings;
}

/** The text of a table row that begins with these words. */
function rowOf(html: string, words: string): string {
  const rows = html.split('<tr>').map((row) =>
    row
      .replaceAll(/<[^>]+>/g, ' ')
      .replaceAll(/\s+/g, ' ')
      .trim(),
  );
  return rows.find((row) => row.replace(/^\d+ /, '').startsWith(words)) ?? `no row begins with ${words}`;
}

test('every caution, hand test and last look stands on it, cautions before all else, and no script', () => {
  for (const { document } of examples) {
    const html = reportHtml({ record: rigOf(document), made: MADE });
    for (const line of [...CAUTIONS, ...HAND_TESTS, ...LAST_LOOKS]) expect(html).toContain(line.replaceAll("'", '&#39;'));
    expect(html.indexOf(CAUTIONS[0] as string)).toBeLessThan(html.indexOf('What was turned'));
    expect(html).not.toMatch(/<script|javascript:|<link|<img|https?:/i);
    expect(html).not.toMatch(/undefined|NaN|\[object/);
  }
});

test('a hostile name, note or part stays text', () => {
  const hostile = '</title><script>alert(1)</script><img src=x onerror=alert(1)> "quoted" & co';
  const record: Rig = {
    ...rig,
    name: hostile,
    servos: rig.servos.map((servo) => ({ ...servo, name: hostile })) as unknown as Rig['servos'],
  };
  const readings = readingsOf(record, [
    { inspected: { part: hostile, found: 'bent' } },
    { flight: { note: hostile } },
    { felt: { binds: true, part: hostile } },
    { adjusted: { path: '/servos/0/link', by: 0.2 } },
  ]);
  const html = reportHtml({ record, readings, made: hostile });
  expect(html).not.toMatch(/<script|<img|onerror=alert\(1\)>/);
  expect(html.match(/&lt;script&gt;/g)?.length).toBeGreaterThanOrEqual(5);
  expect(html).toContain('&quot;quoted&quot; &amp; co');
  expect(html.match(/<\/title>/g)).toHaveLength(1);
});

test('as found and as left follow the changes of the readings document', () => {
  const link = rig.servos[0].link;
  const readings = readingsOf(rig, [
    { adjusted: { path: '/servos/0/link', by: 0.4 } },
    { adjusted: { path: '/transmitter/mix/elevator', to: 31 } },
    { adjusted: { path: '/transmitter/outputs/1/reverse', to: true } },
  ]);
  expect(changesMade(readings)).toHaveLength(3);
  const html = reportHtml({ record: rig, readings, made: MADE });
  expect(rowOf(html, 'servo 1 (left front)&#39;s link')).toBe(`servo 1 (left front)&#39;s link ${link} mm ${link + 0.4} mm`);
  expect(rowOf(html, 'turned: elevator mix value')).toBe('2 turned: elevator mix value to 31 %');
  expect(html).toMatch(/elevator mix value<\/td><td class="n">24 %<\/td><td class="n">31 %/);
  expect(html).toMatch(/output 2&#39;s reverse<\/td><td class="n">no<\/td><td class="n">yes/);
  expect(html).toMatch(/aileron mix value<\/td><td class="n">24 %<\/td><td class="n">the same/);
  // Coupling is of the machine as left: a larger elevator value tilts it further.
  expect(html).not.toBe(reportHtml({ record: rig, made: MADE }));
});

test('what was turned back to the record was found otherwise: as it was seen, or else as it is believed to have been', () => {
  const turned = { adjusted: { path: '/transmitter/mix/elevator', to: 24 } };
  const row = (html: string) => html.match(/elevator mix value<\/td><td class="n">([^<]*)<\/td><td class="n">([^<]*)/)?.slice(1);
  const seen = readingsOf(rig, [{ seen: { path: '/transmitter/mix/elevator', value: -24 } }, turned]);
  expect(row(reportHtml({ record: rig, readings: seen, made: MADE }))).toEqual(['-24 %', '24 %']);
  const tips = { moves: { sticks: { elevator: 0.6 }, part: 'fore-aft', way: 'aft' } };
  const readings = readingsOf(rig, [
    tips,
    { measure: 'fore-aft-tilt', sticks: { elevator: 1 }, value: -5 },
    { measure: 'fore-aft-tilt', sticks: { elevator: -1 }, value: 5 },
    { seen: { path: '/servos/0/output', value: 3 } },
    { seen: { path: '/servos/2/output', value: 1 } },
    turned,
    { adjusted: { path: '/servos/0/output', to: 1 } },
    { adjusted: { path: '/servos/2/output', to: 3 } },
  ]);
  const diagnosis = diagnosisOf(posterior(rig, readings), readings);
  expect(diagnosis.causes[0]?.changes).toContainEqual(
    expect.objectContaining({ path: '/transmitter/mix/elevator', machine: -24 }),
  );
  const html = reportHtml({ record: rig, readings, diagnosis, made: MADE });
  expect(row(html)).toEqual(['-24 %', '24 %']);
  expect(html).toMatch(/servo 1 \(left front\)&#39;s lead<\/td><td class="n">3<\/td><td class="n">1/);
});

test('notes are told in words, not by their path', () => {
  const readings = readingsOf(rig, [
    { seen: { path: '/transmitter/outputs/0/subtrim', value: 12 } },
    { moves: { sticks: { collective: 0.5 }, part: 'servo', of: 2, way: 'down' } },
    { moves: { sticks: { elevator: 0.6 }, part: 'side', way: 'none' } },
    { inspected: { part: '/rotor/links/1', found: 'worn' } },
    { measure: 'blade-pitch', of: 2, azimuth: 180, value: -3.25, sticks: { aileron: -1 } },
  ]);
  const html = reportHtml({ record: rig, readings, made: MADE });
  expect(rowOf(html, 'looked at')).toBe('1 looked at: output 1&#39;s sub-trim 12 µs');
  expect(rowOf(html, 'moves: servo')).toBe('2 moves: servo 2, collective +50 % down');
  expect(rowOf(html, 'moves: swashplate')).toBe('3 moves: swashplate, elevator +60 % stays');
  expect(rowOf(html, 'inspected')).toBe('4 inspected: blade 2 link worn');
  expect(rowOf(html, 'pitch of blade 2')).toMatch(
    /^5 pitch of blade 2, aileron -100 %, blade 2 pointing to the tail -3.25° ± 0\.25/,
  );
  expect(html).not.toMatch(/>[^<]*\/(servos|transmitter|rotor)\//);
});

test('causes and plan stand on it as they were found, and a part that is bent is not left alone', () => {
  const readings = readingsOf(rig, benchReadings.readings);
  const believed = posterior(rig, readings);
  const diagnosis = diagnosisOf(believed, readings);
  const plan = planFrom(believed, readings);
  const html = reportHtml({ record: rig, readings, diagnosis, plan, made: MADE });
  const text = (words: string) => words.replaceAll("'", '&#39;');
  expect(html).toContain(text(diagnosis.causes[0]?.says as string));
  for (const { says } of plan.adjustments) expect(html).toContain(text(says));
  const bent = {
    replace: [{ part: 'mast', says: 'Replace mast: found bent.' }],
    adjustments: [],
    after: [],
    meets: plan.meets,
    causes: [],
    asItStands: 0,
    says: '',
  };
  const sheet = reportHtml({ record: rig, readings, plan: bent, made: MADE });
  expect(sheet).toContain('Replace mast: found bent.');
  expect(sheet).not.toContain('leave it alone');
});

test('a change that no longer fits the record is said to, and the rest still prints', () => {
  const readings = readingsOf(rig, [{ adjusted: { path: '/servos/0/link', by: 0.2 } }]);
  const other: Rig = { ...rig, servos: rig.servos.map((servo) => ({ ...servo, link: 0.1 })) as unknown as Rig['servos'] };
  const item = readings.readings[0];
  if (item?.kind !== 'adjusted') throw new Error('not an adjustment');
  const html = reportHtml({ record: other, readings: { ...readings, readings: [{ ...item, by: -0.2 }] }, made: MADE });
  expect(html).toContain('no longer fits the record');
});

test('a place says sticks, where the blade is, and how the gauge sits', () => {
  // model.md: on a clockwise rotor the point at psi has machine azimuth 180 - psi; 270 is right.
  const place = {
    measure: 'blade-pitch',
    of: 1,
    sticks: { collective: 0, elevator: 0, aileron: 0, rudder: 0 },
    azimuth: -90,
    teeter: 0,
    yawRate: 0,
    flipped: true,
  } as const;
  expect(placeInWords(rig, place)).toBe('pitch of blade 1, mid-stick, blade 1 pointing to the right, gauge turned end for end');
  expect(placeInWords(rig, { ...place, azimuth: 45 })).toContain('blade 1 45° round from the tail as it turns');
  expect(placeInWords(rig, { ...place, measure: 'slider', flipped: false, yawRate: 90 })).toBe(
    'tail slider, mid-stick, turning at 90°/s',
  );
});
