/** What the sheet says of the readings: what was read, what is believed of them, what is still to be turned. */
import type { Diagnosis } from '../diagnosis/diagnosis.ts';
import type { Item, ReadingPlace, ReadingsDocument, Sticks } from '../diagnosis/readings.ts';
import { azimuthFor, type Pointing } from '../diagnosis/standard-set.ts';
import { unitOfMeasure } from '../diagnosis/readings-schema.ts';
import type { Plan } from '../plan/plan.ts';
import { chanceInWords } from '../plan/words.ts';
import { describePath, unitAt } from '../rig/describe.ts';
import type { Rig } from '../rig/rig.ts';
import { type Block, block, rows, section } from './html.ts';
import { valueInWords } from './machine-sections.ts';

const SHOWN_CAUSES = 3;
const SHOWN_FORETOLD = 8;

const MEASURE_WORDS: Readonly<Record<string, string>> = {
  'horn-angle': 'horn angle, servo',
  'lever-angle': 'lever angle, servo',
  'swash-height': 'swashplate height',
  'fore-aft-tilt': 'swashplate fore-aft tilt',
  'side-tilt': 'swashplate side tilt',
  'blade-pitch': 'pitch of blade',
  'blade-play': 'play of blade',
  'washout-height': 'washout height',
  'washout-arm': 'washout arm',
  'mixing-arm': 'mixing arm',
  'paddle-pitch': 'paddle pitch',
  'tail-horn-angle': 'tail horn angle',
  slider: 'tail slider',
  'tail-pitch': 'tail pitch',
};
const NUMBERED = new Set(['horn-angle', 'lever-angle', 'blade-pitch', 'blade-play', 'washout-arm', 'mixing-arm']);

/** Degrees round from the tail, 0 to 360. */
function degreesAround(azimuth: number): number {
  return ((azimuth % 360) + 360) % 360;
}

const POINTINGS: readonly Pointing[] = ['tail', 'left', 'nose', 'right'];

/** Where the blade (or paddle) under the gauge points; degrees round from the tail, as it turns, where it is none of the four. */
function bladeInWords(rig: Rig, { measure, of, azimuth }: ReadingPlace): string {
  const who = measure === 'paddle-pitch' ? 'paddle 1' : `blade ${of}`;
  const pointing = POINTINGS.find((one) => Math.abs(degreesAround(azimuth - azimuthFor(rig, one, of, measure) + 180) - 180) < 1);
  return pointing === undefined
    ? `blade 1 ${degreesAround(azimuth)}° round from the tail as it turns`
    : `${who} pointing to the ${pointing}`;
}

/** "pitch of blade 1, collective +100 %, blade 1 pointing to the tail" */
export function placeInWords(rig: Rig, place: ReadingPlace): string {
  const { measure, of, sticks, teeter, yawRate, flipped } = place;
  const words = [MEASURE_WORDS[measure] + (NUMBERED.has(measure) ? ` ${of}` : '')];
  words.push(sticksInWords(sticks));
  if (measure === 'blade-pitch' || measure === 'blade-play' || measure === 'paddle-pitch') {
    words.push(bladeInWords(rig, place));
  }
  if (teeter !== 0) words.push(`flybar tipped ${teeter}°`);
  if (yawRate !== 0) words.push(`turning at ${yawRate}°/s`);
  if (flipped) words.push('gauge turned end for end');
  return words.join(', ');
}

const unitOf = (measure: ReadingPlace['measure']): string => (unitOfMeasure(measure) === 'mm' ? ' mm' : '°');
const signed = (value: number, decimals = 2): string => (value > 0 ? '+' : '') + value.toFixed(decimals);

const WAY_WORDS: Readonly<Record<string, string>> = { none: 'stays', aft: 'back' };
const PART_WORDS: Readonly<Record<string, string>> = {
  swash: 'swashplate',
  'fore-aft': 'swashplate',
  side: 'swashplate',
  tail: 'tail blades',
};

function sticksInWords(sticks: Sticks): string {
  const words = (['collective', 'elevator', 'aileron', 'rudder'] as const).flatMap((name) =>
    sticks[name] === 0 ? [] : [`${name} ${sticks[name] > 0 ? '+' : ''}${Math.round(sticks[name] * 100)} %`],
  );
  return words.length === 0 ? 'mid-stick' : words.join(', ');
}

const partInWords = (record: Rig, part: string): string => (part.startsWith('/') ? describePath(record, part) : part);

/** An item in four cells: its number, where, what, how sure. `record` gives the parts their names. */
function itemRow(record: Rig, item: Item, i: number): string[] {
  const n = String(i + 1);
  switch (item.kind) {
    case 'reading': {
      const { reading } = item;
      return [n, placeInWords(record, reading), signed(reading.value) + unitOf(reading.measure), `± ${reading.sd.toFixed(2)}`];
    }
    case 'adjusted': {
      const unit = unitAt(item.path);
      const what =
        item.by === undefined
          ? `to ${valueInWords(item.to, unit)}`
          : `by ${item.by > 0 ? '+' : ''}${valueInWords(item.by, unit)}`;
      return [n, `turned: ${describePath(record, item.path)}`, what, ''];
    }
    case 'seen':
      return [n, `looked at: ${describePath(record, item.path)}`, valueInWords(item.value, unitAt(item.path)), ''];
    case 'moves': {
      const { part, of, way, yawRate } = item.moves;
      const name = PART_WORDS[part] ?? `${part} ${of}`;
      const turning = yawRate === 0 ? '' : `, nose swung ${yawRate > 0 ? 'left' : 'right'} by hand`;
      return [n, `moves: ${name}, ${sticksInWords(item.moves.sticks)}${turning}`, WAY_WORDS[way] ?? way, ''];
    }
    case 'felt':
      return [
        n,
        `felt${item.part === undefined ? '' : `: ${item.part}`}, ${sticksInWords(item.sticks)}`,
        item.binds ? 'binds' : 'free',
        '',
      ];
    case 'inspected':
      return [n, `inspected: ${partInWords(record, item.part)}`, item.found, ''];
    case 'flight':
      return [
        n,
        `flown${item.note === undefined ? '' : `: ${item.note}`}`,
        item.highBlade === undefined ? '' : `blade ${item.highBlade} high`,
        '',
      ];
  }
}

export function readingsSection(record: Rig, { readings }: ReadingsDocument): Block {
  if (readings.length === 0) return section('Readings', block`<p>None were taken.</p>`);
  return section(
    'Readings',
    rows(
      ['', 'where', 'read|n', 'sd|n'],
      readings.map((item, i) => itemRow(record, item, i)),
    ),
  );
}

export function believedSection({ causes, alike, outliers }: Diagnosis): Block {
  const together = alike.filter((group) => group.length > 1 && group.some((i) => i < SHOWN_CAUSES));
  const notes = [
    ...together.map((group) => `No reading so far tells causes ${group.map((i) => i + 1).join(', ')} apart.`),
    ...outliers.map((i) => `Reading ${i + 1} fits nothing and was taken for wrong.`),
  ];
  return section(
    'What the readings say was wrong',
    rows(
      ['', 'cause', 'how sure|n'],
      causes.slice(0, SHOWN_CAUSES).map(({ says, probability }, i) => [String(i + 1), says, chanceInWords(probability)]),
    ),
    ...notes.map((note) => block`<p>${note}</p>`),
  );
}

export function planSection(record: Rig, { replace, adjustments, after, meets }: Plan): Block {
  const foretold = after
    .slice(0, SHOWN_FORETOLD)
    .map((place) => [
      placeInWords(record, place),
      `${signed(place.value)}${unitOf(place.measure)}`,
      `± ${(1.96 * place.sd).toFixed(2)}`,
    ]);
  return section(
    'Still to be turned',
    ...replace.map(({ says }) => block`<p><b>${says}</b></p>`),
    adjustments.length === 0
      ? replace.length > 0
        ? block``
        : block`<p class="verdict">Nothing: leave it alone.</p>`
      : block`<ul class="boxes">${adjustments.map(({ says }) => block`<li>${says}</li>`)}</ul>`,
    block`<p class="soft">Chance that every target is then met: ${chanceInWords(meets.chance)}.</p>`,
    foretold.length === 0 ? block`` : rows(['the gauge should then show', 'about|n', '19 times in 20|n'], foretold),
  );
}
