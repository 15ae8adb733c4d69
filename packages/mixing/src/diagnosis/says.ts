/**
 * Causes and next steps in words of the trade, for the bench.
 */
import { describePath } from '../rig/describe.ts';
import type { Rig } from '../rig/rig.ts';
import type { CauseChange } from './posterior.ts';
import type { Measure, Sticks } from './readings.ts';
import type { SetPlace } from './standard-set.ts';

export const SOMETHING_ELSE_SAYS =
  'something else: no fault that is known here, nor three together, fits these readings; read again, and check the record';

export const NOTHING_SAYS = 'as the record says: nothing but the scatter that every machine has';

export function causeSays(rig: Rig, changes: readonly CauseChange[]): string {
  if (changes.length === 0) return NOTHING_SAYS;
  const leads = changes.filter(({ path }) => /^\/servos\/\d\/output$/.test(path));
  const others = changes.filter((change) => !leads.includes(change));
  const words = others.map((change) => changeSays(rig, change));
  if (leads.length > 0) {
    const who = leads.map(({ path, machine }) => `${describePath(rig, path.replace('/output', ''))} in output ${String(machine)}`);
    words.unshift(`leads swapped: ${who.join(', ')}`);
  }
  return words.join('; and ');
}

function changeSays(rig: Rig, { path, record, machine, sd, unit }: CauseChange): string {
  const what = describePath(rig, path);
  if (typeof record === 'number' && typeof machine === 'number') {
    const by = machine - record;
    if (path.startsWith('/transmitter/mix/') && sd === 0 && machine === -record) return `${what} has the wrong sign: ${shown(machine, unit)}`;
    if (path.endsWith('/tooth')) return `${what}: ${Math.abs(by) === 1 ? 'one tooth' : `${Math.abs(by)} teeth`} ${by > 0 ? 'up' : 'down'}`;
    if (path.endsWith('/horn/length')) return `${what}: the ball in the next hole ${by > 0 ? 'out' : 'in'}`;
    if (path.endsWith('/neutral')) return `${what}: made for ${shown(machine, unit)}, the record says ${shown(record, unit)}`;
    if (/\/(link|links\/\d|rods\/\d|pushrod|rod)$/.test(path)) {
      return `${what} too ${by > 0 ? 'long' : 'short'} by ${shown(Math.abs(by), unit)}${spread(sd, unit)}`;
    }
    return `${what} ${by > 0 ? 'more' : 'less'} by ${shown(Math.abs(by), unit)}${spread(sd, unit)}: ${shown(machine, unit)} against ${shown(record, unit)}`;
  }
  if (typeof machine === 'boolean') return `${what}: ${machine ? 'reversed' : 'not reversed'}, against the record`;
  if (path === '/transmitter/mix/azimuths') return `mix set for another layout: balls at ${(machine as number[]).map((v) => v.toFixed(0)).join(', ')} degrees`;
  if (path === '/transmitter/mix/weights') return 'mix set for another layout: its weights belong to balls that are elsewhere';
  return `${what}: ${String(machine)}, the record says ${String(record)}`;
}

const UNITS: Record<string, string> = { degree: ' degrees', mm: ' mm', us: ' microseconds', percent: ' percent' };

function shown(value: number, unit: string): string {
  const digits = unit === 'mm' ? 2 : unit === 'us' || unit === '' ? 0 : 1;
  return `${value.toFixed(digits)}${UNITS[unit] ?? (unit === '' ? '' : ` ${unit}`)}`;
}

const spread = (sd: number, unit: string): string => (sd > 0 ? ` (give or take ${shown(sd, unit)})` : '');

const STICK_WORDS: Record<string, [positive: string, negative: string]> = {
  collective: ['full collective up', 'full collective down'],
  elevator: ['full elevator forward', 'full elevator back'],
  aileron: ['full aileron right', 'full aileron left'],
  rudder: ['full rudder right', 'full rudder left'],
};

/** Where the sticks are, in words. */
export function sticksSay(sticks: Sticks): string {
  const words = Object.entries(STICK_WORDS).flatMap(([stick, [positive, negative]]) => {
    const value = sticks[stick as keyof Sticks];
    if (value === 0) return [];
    if (value === 1) return [positive];
    if (value === -1) return [negative];
    return [`${stick} at ${value > 0 ? '+' : ''}${value}`];
  });
  return words.length === 0 ? 'sticks in the middle' : words.join(', ');
}

const MEASURE_WORDS: Record<Measure, string> = {
  'horn-angle': "servo {n}'s horn angle",
  'lever-angle': "servo {n}'s lever angle",
  'swash-height': 'the height of the swashplate',
  'fore-aft-tilt': 'the swashplate front to back',
  'side-tilt': 'the swashplate side to side',
  'blade-pitch': "blade {n}'s pitch",
  'blade-play': "blade {n}'s play",
  'washout-height': 'the height of the washout base',
  'washout-arm': 'washout arm {n}',
  'mixing-arm': 'mixing arm {n}',
  'paddle-pitch': "paddle 1's pitch",
  'tail-horn-angle': "the tail servo's horn angle",
  slider: 'the travel of the tail slider',
  'tail-pitch': 'the pitch of a tail blade',
};

/** One thing to read or to look at, in words. */
export function nextSays(rig: Rig, { place, path }: { place?: SetPlace; path?: string }): string {
  if (path !== undefined) return `look at ${describePath(rig, /\/mix\/(azimuths|weights)\//.test(path) ? path.replace(/\/(azimuths|weights)\/.*$/, '/$1') : path)}`;
  if (!place) return '';
  const what = MEASURE_WORDS[place.measure].replace('{n}', String(place.of));
  const pointing = place.pointing === undefined ? '' : `, the ${place.measure === 'paddle-pitch' ? 'paddle' : 'blade'} pointing to the ${place.pointing}`;
  const flipped = place.flipped ? ', the gauge turned end for end' : '';
  const turning = place.yawRate === 0 ? '' : `, the nose swung ${place.yawRate > 0 ? 'left' : 'right'} by hand`;
  return `read ${what}${pointing}${flipped}, ${sticksSay(place.sticks)}${turning}`;
}
