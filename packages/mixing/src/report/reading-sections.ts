/** What the sheet says of the readings: what was read, what is believed of them, what is still to be turned. */
import type { Diagnosis } from '../diagnosis/diagnosis.ts';
import type { Item, ReadingPlace, ReadingsDocument } from '../diagnosis/readings.ts';
import { unitOfMeasure } from '../diagnosis/readings-schema.ts';
import type { Plan } from '../plan/plan.ts';
import { type Block, block, rows, section } from './html.ts';

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

/** "pitch of blade 1, blade 1 at psi 90°, collective +1" */
export function placeInWords({ measure, of, sticks, azimuth, teeter, yawRate, flipped }: ReadingPlace): string {
  const words = [MEASURE_WORDS[measure] + (NUMBERED.has(measure) ? ` ${of}` : '')];
  const stick = (['collective', 'elevator', 'aileron', 'rudder'] as const).flatMap((name) =>
    sticks[name] === 0 ? [] : [`${name} ${sticks[name] > 0 ? '+' : ''}${Math.round(sticks[name] * 100)} %`],
  );
  words.push(stick.length === 0 ? 'mid-stick' : stick.join(', '));
  if (measure === 'blade-pitch' || measure === 'blade-play' || measure === 'paddle-pitch') {
    words.push(`blade 1 ${degreesAround(azimuth)}° round from the tail`);
  }
  if (teeter !== 0) words.push(`flybar tipped ${teeter}°`);
  if (yawRate !== 0) words.push(`turning at ${yawRate}°/s`);
  if (flipped) words.push('gauge turned end for end');
  return words.join(', ');
}

const unitOf = (measure: ReadingPlace['measure']): string => (unitOfMeasure(measure) === 'mm' ? ' mm' : '°');
const signed = (value: number, decimals = 2): string => (value > 0 ? '+' : '') + value.toFixed(decimals);

function itemRow(item: Item, i: number): string[] {
  const n = String(i + 1);
  switch (item.kind) {
    case 'reading': {
      const { reading } = item;
      return [n, placeInWords(reading), signed(reading.value) + unitOf(reading.measure), `± ${reading.sd.toFixed(2)}`];
    }
    case 'adjusted':
      return [n, `turned: ${item.path}`, item.by === undefined ? `to ${JSON.stringify(item.to)}` : `by ${signed(item.by)}`, ''];
    case 'seen':
      return [n, `looked at: ${item.path}`, JSON.stringify(item.value), ''];
    case 'moves':
      return [n, `moved: ${item.moves.part} ${item.moves.of}`, item.moves.way, ''];
    case 'felt':
      return [n, `felt${item.part === undefined ? '' : `: ${item.part}`}`, item.binds ? 'binds' : 'free', ''];
    case 'inspected':
      return [n, `inspected: ${item.part}`, item.found, ''];
    case 'flight':
      return [n, `flown${item.note === undefined ? '' : `: ${item.note}`}`, item.highBlade === undefined ? '' : `blade ${item.highBlade} high`, ''];
  }
}

export function readingsSection({ readings }: ReadingsDocument): Block {
  if (readings.length === 0) return section('Readings', block`<p>None were taken.</p>`);
  return section('Readings', rows(['', 'where', 'read|n', 'sd|n'], readings.map(itemRow)));
}

const chance = (probability: number): string => `${Math.round(probability * 100)} %`;

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
      causes.slice(0, SHOWN_CAUSES).map(({ says, probability }, i) => [String(i + 1), says, chance(probability)]),
    ),
    ...notes.map((note) => block`<p>${note}</p>`),
  );
}

export function planSection({ replace, adjustments, after, meets }: Plan): Block {
  const foretold = after
    .slice(0, SHOWN_FORETOLD)
    .map((place) => [placeInWords(place), `${signed(place.value)}${unitOf(place.measure)}`, `± ${(1.96 * place.sd).toFixed(2)}`]);
  return section(
    'Still to be turned',
    ...replace.map(({ part, says }) => block`<p><b>Replace ${part}.</b> ${says}</p>`),
    adjustments.length === 0
      ? block`<p class="verdict">Nothing: leave it alone.</p>`
      : block`<ul class="boxes">${adjustments.map(({ says }) => block`<li>${says}</li>`)}</ul>`,
    block`<p class="soft">Chance that every target is then met: ${chance(meets.chance)}.</p>`,
    foretold.length === 0 ? block`` : rows(['the gauge should then show', 'about|n', '19 times in 20|n'], foretold),
  );
}
