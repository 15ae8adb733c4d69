/**
 * Causes and next steps in words of the trade, for the bench.
 */
import { describePath } from '../rig/describe.ts';
import type { Rig } from '../rig/rig.ts';
import type { CauseChange } from './posterior.ts';

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
  if (Array.isArray(machine)) return `${what} of another layout: ${machine.map((v) => (typeof v === 'number' ? shown(v, unit) : '')).join(' ').trim()}`.trim();
  return `${what}: ${String(machine)}, the record says ${String(record)}`;
}

const UNITS: Record<string, string> = { degree: ' degrees', mm: ' mm', us: ' microseconds', percent: ' percent' };

function shown(value: number, unit: string): string {
  const digits = unit === 'mm' ? 2 : unit === 'us' || unit === '' ? 0 : 1;
  return `${value.toFixed(digits)}${UNITS[unit] ?? (unit === '' ? '' : ` ${unit}`)}`;
}

const spread = (sd: number, unit: string): string => (sd > 0 ? ` (give or take ${shown(sd, unit)})` : '');
