/**
 * What to read or to look at next in words of the trade, for the bench.
 */
import { describePath } from '../rig/describe.ts';
import type { Rig } from '../rig/rig.ts';
import type { Measure, Sticks } from './readings.ts';
import type { SetPlace } from './standard-set.ts';

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
  if (path !== undefined)
    return `Look at ${describePath(rig, /\/mix\/(azimuths|weights)\//.test(path) ? path.replace(/\/(azimuths|weights)\/.*$/, '/$1') : path)}`;
  if (!place) return '';
  const what = MEASURE_WORDS[place.measure].replace('{n}', String(place.of));
  const pointing =
    place.pointing === undefined
      ? ''
      : `, the ${place.measure === 'paddle-pitch' ? 'paddle' : 'blade'} pointing to the ${place.pointing}`;
  const flipped = place.flipped ? ', the gauge turned end for end' : '';
  const turning = place.yawRate === 0 ? '' : `, the nose swung ${place.yawRate > 0 ? 'left' : 'right'} by hand`;
  return `Read ${what}${pointing}${flipped}, ${sticksSay(place.sticks)}${turning}`;
}
