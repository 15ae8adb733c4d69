/**
 * The demo's story: what elevator and nothing else does to a machine as recorded, with one horn mis-set, and with a sign
 * wrong, in a table and in words. Every figure is the library's answer for the record given; none is written here.
 */
import { coupling } from '../coupling/coupling.ts';
import { unreachableSays } from '../coupling/explain.ts';
import { sinDeg } from '../quantities/angles.ts';
import { applyChanges, type Change } from '../rig/changes.ts';
import { type Prediction, predict } from '../rig/predict.ts';
import { prepare } from '../rig/prepare.ts';
import type { Rig } from '../rig/rig.ts';
import { signed, table } from './words.ts';

/** About half a tooth of 25: plain in the figures, and yet easily overlooked at the bench. */
const HORN_OFF_DEG = 8;

/** Parts of full stick to try, so that a machine that binds at full stick still has a story. */
const STICKS = [1, 0.5, 0.25] as const;

/** Where blade 1 points: its psi on a counter-clockwise rotor; on a clockwise one left and right change places. */
const PLACES = [
  ['nose', 180],
  ['left', 270],
  ['tail', 0],
  ['right', 90],
] as const;

interface Told {
  /** heads the column */
  column: string;
  /** heads the words */
  title: string;
  machine: Rig;
}

/** The whole story of a record, as lines of text. */
export function demoStory(record: Rig): string {
  const machines = machinesOf(record);
  const stick = STICKS.find((part) => machines.every(({ machine }) => isPosed(at(machine, part)))) ?? STICKS[2];
  const amount = stick === 1 ? 'Full' : `${stick * 100} percent of`;
  const columns = machines.map(({ machine }) => columnOf(machine, stick));
  const rows = ROWS.map(([words, unit], i) => [words, ...columns.map((column) => column[i] ?? ''), unit]);
  return [
    `${amount} forward elevator, and nothing else, on the demo machine "${record.name}"`,
    '',
    table([['', ...machines.map(({ column }) => column), ''], ...rows]),
    '',
    '  Tilt is + with the front (the right side) of the swashplate down; blade pitch + with the leading edge up;',
    '  longitudinal and lateral are + where the blades command a disc tilted forward and to the right.',
    '',
    ...machines.flatMap(({ title, machine }) => wordsOf(title, machine, stick)),
  ].join('\n');
}

function machinesOf(record: Rig): Told[] {
  const place = sideServo(record);
  const { output } = record.servos[place];
  const servo = `servo ${place + 1}`;
  const told = (column: string, title: string, ...changes: Change[]): Told => ({
    column,
    title,
    machine: applyChanges(record, changes),
  });
  return [
    told('as recorded', 'As recorded'),
    told('horn mis-set', `One horn mis-set: ${servo}'s stands ${HORN_OFF_DEG} degrees high`, {
      path: `/servos/${place}/horn/offset`,
      by: HORN_OFF_DEG,
    }),
    told('output reversed', `A sign wrong at one servo: the output of ${servo} reversed`, {
      path: `/transmitter/outputs/${output - 1}/reverse`,
      to: !record.transmitter.outputs[(output - 1) as 0 | 1 | 2].reverse,
    }),
    told('mix sign wrong', 'A sign wrong for all three: that of the elevator value', {
      path: '/transmitter/mix/elevator',
      to: -record.transmitter.mix.elevator,
    }),
  ];
}

/** The first of the servos that stand farthest to a side: one on the fore-aft line would tip nothing sideways. */
function sideServo({ servos }: Rig): 0 | 1 | 2 {
  const aside = servos.map(({ ball }) => Math.abs(ball.radius * sinDeg(ball.azimuth)));
  return aside.findIndex((mm) => mm > Math.max(...aside) - 1e-6) as 0 | 1 | 2;
}

const at = (machine: Rig, elevator: number): Prediction => predict(prepare(machine), { elevator });
const isPosed = ({ swash, blades }: Prediction): boolean => swash !== undefined && blades !== undefined;

const ROWS: [words: string, unit: string][] = [
  ['swashplate at mid-stick: fore-aft tilt', 'deg'],
  ['                         side tilt', 'deg'],
  ['elevator adds:           fore-aft tilt', 'deg'],
  ['                         side tilt', 'deg'],
  ['                         height', 'mm'],
  ...PLACES.map(([place], i): [string, string] => [
    `${(i === 0 ? "stick held: blade 1's pitch at" : '').padEnd(30)} ${place}`,
    'deg',
  ]),
  ['            blades longitudinal', 'deg'],
  ['            blades lateral', 'deg'],
  ['cross-axis coupling:     swashplate', '%'],
  ['                         blades', '%'],
];

/** One machine's figures, in the order of `ROWS`. */
function columnOf(machine: Rig, elevator: number): string[] {
  const prepared = prepare(machine);
  const mid = predict(prepared, {}).swash;
  const held = predict(prepared, { elevator });
  const { swash, harmonics } = held;
  const none = 'out of reach';
  const number = (value: number | undefined, decimals = 2): string => (value === undefined ? none : signed(value, decimals));
  const added = (key: 'foreAft' | 'side' | 'height'): string => number(mid && swash ? swash[key] - mid[key] : undefined);
  const disc = harmonics && 'longitudinal' in harmonics ? harmonics : undefined;
  const cross = coupling(prepared, {});
  const percent = (value: number | null): string => (value === null ? 'none' : signed(value, 1));
  return [
    number(mid?.foreAft),
    number(mid?.side),
    added('foreAft'),
    added('side'),
    added('height'),
    ...PLACES.map(([, psi]) => number(predict(prepared, { elevator, azimuth: psiOf(machine, psi) }).blades?.[0]?.pitch)),
    number(disc?.longitudinal),
    number(disc?.lateral),
    ...('unreachable' in cross ? [none, none] : [percent(cross.cross.swash.elevator), percent(cross.cross.blade.elevator)]),
  ];
}

const psiOf = ({ rotor }: Rig, psi: number): number => (rotor.rotation === 'counterclockwise' ? psi : (360 - psi) % 360);

function wordsOf(title: string, machine: Rig, elevator: number): string[] {
  const prepared = prepare(machine);
  const mid = predict(prepared, {});
  const held = predict(prepared, { elevator });
  const missing = [mid, held].find((one) => !isPosed(one))?.unreachable;
  if (missing || !mid.swash || !held.swash)
    return [`${title}.`, `  ${missing ? unreachableSays(machine, missing) : 'It cannot be posed'}.`];
  const lean = tiltWords(mid.swash.foreAft, mid.swash.side);
  const added = tiltWords(held.swash.foreAft - mid.swash.foreAft, held.swash.side - mid.swash.side);
  const lines = [
    `Before the stick moves the swashplate ${lean === undefined ? 'stands level' : `leans ${lean}`}; elevator ${added === undefined ? 'adds nothing' : `then adds ${added}`}.`,
  ];
  const { harmonics } = held;
  if (harmonics && 'longitudinal' in harmonics) {
    lines.push(
      `With the stick held the blades command the disc ${tiltWords(harmonics.longitudinal, harmonics.lateral) ?? 'level'}.`,
    );
  }
  const found = coupling(prepared, {});
  if (!('unreachable' in found)) lines.push(crossWords(found.cross.blade.elevator, found.blade[1][1]));
  return [`${title}.`, ...lines.map((line) => `  ${line}`)];
}

/** What elevator does in flight, from the blades' own coupling: how much goes across, and whether it goes the right way. */
function crossWords(percent: number | null, longitudinalPerStick: number): string {
  if (percent === null) return 'Elevator does not tilt the disc fore and aft at all.';
  const way = longitudinalPerStick > 0 ? 'the right way' : 'backwards';
  const across = Math.abs(percent).toFixed(0);
  const side = percent * longitudinalPerStick > 0 ? 'right' : 'left';
  return across === '0'
    ? `Forward elevator acts ${way}, and next to nothing of it goes across.`
    : `Forward elevator acts ${way}, and ${across} percent of it goes across, to the ${side}.`;
}

/** "2.48 degrees right and 1.43 forward", the larger first; nothing where neither shows in the second decimal. */
function tiltWords(foreAftDeg: number, sideDeg: number): string | undefined {
  const parts = [
    { size: Math.abs(foreAftDeg), way: foreAftDeg > 0 ? 'forward' : 'back' },
    { size: Math.abs(sideDeg), way: sideDeg > 0 ? 'right' : 'left' },
  ].filter(({ size }) => size >= 0.005);
  const [first, second] = parts.sort((a, b) => b.size - a.size);
  if (first === undefined) return undefined;
  return `${first.size.toFixed(2)} degrees ${first.way}${second === undefined ? '' : ` and ${second.size.toFixed(2)} ${second.way}`}`;
}
