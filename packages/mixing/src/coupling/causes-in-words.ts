/**
 * Changes in words, as the cause of something: "servo 2's horn stands 8 degrees high", "the side servos' leads are
 * swapped". Changes that act as one (everything that stands one horn off; both ends of a swap) are one cause.
 */
import type { Change } from '../rig/changes.ts';
import { valueAt } from '../rig/changes.ts';
import { describePath, unitAt } from '../rig/describe.ts';
import type { Rig } from '../rig/rig.ts';

export interface Cause {
  changes: Change[];
  says: string;
}

/** How far each horn stands from its record at mid-stick, degrees; of no use where the machine cannot be posed. */
export type HornsOff = readonly number[] | undefined;

export function causesInWords(record: Rig, machine: Rig, changes: readonly Change[], hornsOff: HornsOff): Cause[] {
  const groups = new Map<string, Change[]>();
  for (const change of changes) {
    const key = groupOf(machine, change.path);
    groups.set(key, [...(groups.get(key) ?? []), change]);
  }
  return [...groups].map(([key, group]) => ({ changes: group, says: causeSays(record, machine, key, group, hornsOff) }));
}

function groupOf(machine: Rig, path: string): string {
  if (/^\/servos\/\d\/output$/.test(path)) return 'leads';
  const horn = /^\/servos\/(\d)\/(horn\/(tooth|offset)|neutral)$/.exec(path);
  if (horn) return `horn ${horn[1]}`;
  const subtrim = /^\/transmitter\/outputs\/(\d)\/(subtrim|neutral)$/.exec(path);
  if (subtrim) {
    const servo = machine.servos.findIndex(({ output }) => output === Number(subtrim[1]) + 1);
    if (servo >= 0) return `horn ${servo}`;
  }
  if (path.startsWith('/transmitter/mix/azimuths')) return 'layout';
  return path;
}

function causeSays(record: Rig, machine: Rig, key: string, group: Change[], hornsOff: HornsOff): string {
  if (key === 'leads') return leadsSay(record, machine);
  if (key.startsWith('horn ')) return hornSays(record, machine, Number(key.slice(5)), group, hornsOff);
  if (key === 'layout') {
    const believed = machine.transmitter.mix.azimuths?.map((azimuth) => number(azimuth, 1));
    return `the transmitter believes the balls at ${believed?.slice(0, 2).join(', ')} and ${believed?.[2]} degrees`;
  }
  return group.map((change) => singleSays(record, machine, change)).join(' and ');
}

function leadsSay(record: Rig, machine: Rig): string {
  const moved = machine.servos.flatMap((servo, i) => (servo.output === record.servos[i as 0].output ? [] : [i]));
  const [a, b] = moved;
  if (moved.length !== 2 || a === undefined || b === undefined) return 'the leads of all three servos have changed places';
  const mirrored = Math.abs(wrapDeg(record.servos[a as 0].ball.azimuth + record.servos[b as 0].ball.azimuth)) < 1;
  return mirrored ? "the side servos' leads are swapped" : `the leads of servos ${a + 1} and ${b + 1} are swapped`;
}

const HORN_REASONS: readonly [RegExp, (record: Rig, machine: Rig, path: string) => string][] = [
  [/tooth$/, (record, machine, path) => teeth(difference(record, machine, path))],
  [/subtrim$/, (record, machine, path) => `${number(Math.abs(difference(record, machine, path)), 0)} microseconds of sub-trim`],
  [/servos\/\d\/neutral$/, (_, machine, path) => `a servo made for ${number(Number(valueAt(machine, path)), 0)} microseconds`],
  [/outputs\/\d\/neutral$/, () => "the output's neutral"],
];

function hornSays(record: Rig, machine: Rig, i: number, group: Change[], hornsOff: HornsOff): string {
  const reasons = group.flatMap(({ path }) => {
    const known = HORN_REASONS.find(([pattern]) => pattern.test(path));
    return known ? [known[1](record, machine, path)] : [];
  });
  const why = reasons.length > 0 ? ` (${reasons.join(', ')})` : '';
  const off = hornsOff?.[i];
  if (off === undefined) return `servo ${i + 1}'s horn does not stand as recorded${why}`;
  return `servo ${i + 1}'s horn stands ${degrees(Math.abs(off))} ${off >= 0 ? 'high' : 'low'}${why}`;
}

function singleSays(record: Rig, machine: Rig, { path }: Change): string {
  const before = valueAt(record, path);
  const after = valueAt(machine, path);
  const reversed = /^\/transmitter\/outputs\/(\d)\/reverse$/.exec(path);
  if (reversed) {
    const servo = machine.servos.findIndex(({ output }) => output === Number(reversed[1]) + 1);
    return servo < 0 ? `output ${Number(reversed[1]) + 1} is reversed` : `servo ${servo + 1}'s output is reversed`;
  }
  if (typeof before !== 'number' || typeof after !== 'number') {
    return `${partName(record, path)} is ${inWords(after)} instead of ${inWords(before)}`;
  }
  const hole = /^\/servos\/(\d)\/horn\/length$/.exec(path);
  if (hole)
    return `servo ${Number(hole[1]) + 1}'s horn ball sits ${number(Math.abs(after - before), 1)} mm too far ${after > before ? 'out' : 'in'}`;
  const mix = /^\/transmitter\/mix\/(collective|elevator|aileron)$/.exec(path);
  if (mix && after === -before) return `the ${mix[1]} value has the wrong sign`;
  const unit = unitAt(path);
  if (unit === 'mm')
    return `${partName(record, path)} is ${number(Math.abs(after - before), 2)} mm ${after > before ? 'long' : 'short'}`;
  const words = mix ? `the ${mix[1]} value` : path === '/transmitter/mix/phase' ? 'the phase' : partName(record, path);
  const digits = unit === 'degree/us' ? 4 : 1;
  return `${words} is ${number(after, digits)}${unitWord(unit)} instead of ${number(before, digits)}`;
}

/** A part in a sentence: "servo 2's link", without the name that stands in brackets where a list tells servos apart. */
export function partName(rig: Rig, path: string): string {
  const blade = /^\/rotor\/links\/(\d+)$/.exec(path);
  return blade ? `blade ${Number(blade[1]) + 1}'s link` : describePath(rig, path).replace(/ \([^()]*\)(?='s)/, '');
}

const inWords = (value: unknown): string =>
  value === undefined ? 'nothing' : value === true ? 'on' : value === false ? 'off' : String(value);

const UNIT_WORDS: Readonly<Record<string, string>> = {
  degree: ' degrees',
  us: ' microseconds',
  percent: ' percent',
  mm: ' mm',
  'degree/us': ' degrees a microsecond',
};
const unitWord = (unit: string): string => UNIT_WORDS[unit] ?? '';

const teeth = (count: number): string => (Math.abs(count) === 1 ? 'one tooth' : `${Math.abs(count)} teeth`);

const difference = (record: Rig, machine: Rig, path: string): number =>
  Number(valueAt(machine, path)) - Number(valueAt(record, path));

/** A number as it is said: at most `digits` places, none that are zeros. */
export const number = (value: number, digits: number): string => String(Number(value.toFixed(digits)) + 0);

/** An angle as it is said: a tenth of a degree is what a gauge shows. */
export const degrees = (value: number): string => {
  const text = number(value, 1);
  return `${text} ${text === '1' ? 'degree' : 'degrees'}`;
};

export const wrapDeg = (deg: number): number => deg - 360 * Math.round(deg / 360);
