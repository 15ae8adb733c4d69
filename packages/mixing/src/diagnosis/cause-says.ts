/**
 * Causes in the words of a bench: which part, which way, how much, and what the record says where that helps.
 */
import { describePath } from '../rig/describe.ts';
import type { Rig } from '../rig/rig.ts';
import type { CauseChange } from './posterior.ts';

export const SOMETHING_ELSE_SAYS =
  'None of the faults that are looked for here, but something else: check the record against the machine, and read again';

export const NOTHING_SAYS = 'Nothing beyond the usual scatter: the machine is as the record says';

export function causeSays(rig: Rig, changes: readonly CauseChange[]): string {
  if (changes.length === 0) return NOTHING_SAYS;
  const leads = changes.filter(({ path }) => LEAD.test(path));
  const others = changes.filter((change) => !leads.includes(change)).map((change) => changeSays(rig, change));
  const words = [...(leads.length > 0 ? [leadsSay(rig, leads)] : []), ...others].join('; and ');
  return words.charAt(0).toUpperCase() + words.slice(1);
}

const LEAD = /^\/servos\/(\d)\/output$/;
const LENGTH = /\/(link|links\/\d|rods\/\d|pushrod|rod)$/;

function leadsSay(rig: Rig, leads: readonly CauseChange[]): string {
  const servos = leads.map(({ path }) => describePath(rig, path.replace('/output', '')));
  if (leads.length === 2) return `the leads of ${servos.join(' and ')} are swapped`;
  return `the leads are in one another's outputs: ${leads.map(({ machine }, i) => `${servos[i]} in output ${String(machine)}`).join(', ')}`;
}

function changeSays(rig: Rig, change: CauseChange): string {
  const { path, record, machine } = change;
  if (change.document === 'readings') return instrumentSays(change);
  if (typeof machine === 'boolean')
    return `${ownerOf(rig, path)} is ${machine ? 'reversed, and the record says that it is not' : 'not reversed, and the record says that it is'}`;
  if (path === '/transmitter/mix/azimuths')
    return `the mix is set for another layout: balls at ${listed(machine)}°, and the record says ${listed(record)}°`;
  if (path === '/transmitter/mix/weights')
    return 'the mix is set for another layout: its weights are for balls that sit elsewhere';
  if (typeof record !== 'number' || typeof machine !== 'number') {
    return `${describePath(rig, path)} is ${String(machine)}, and the record says ${String(record)}`;
  }
  return numberSays(rig, change, record, machine);
}

function numberSays(rig: Rig, { path, sd, unit }: CauseChange, record: number, machine: number): string {
  const by = machine - record;
  const size = shown(Math.abs(by), unit);
  const about = sd > 0 ? ` (give or take ${shownSpread(sd, unit)})` : '';
  const recorded = `and the record says ${shown(record, unit)}`;
  const [key] = path.split('/').slice(-1);
  if (path.endsWith('/horn/offset')) {
    return `${hornOf(rig, path)} stands ${size} ${hornWay(path, by)}${about}${record === 0 ? '' : `, against the ${shown(record, unit)} of the record`}`;
  }
  if (path.endsWith('/horn/tooth')) {
    const teeth = Math.abs(by) === 1 ? 'one tooth' : `${Math.abs(by)} teeth`;
    return `${hornOf(rig, path)} is ${teeth} too ${path.startsWith('/tail/') ? `far ${hornWay(path, by)}` : hornWay(path, by)}`;
  }
  if (path.endsWith('/horn/length')) {
    return `the ball on ${hornOf(rig, path)} is in a hole too far ${by > 0 ? 'out' : 'in'}: ${shown(machine, unit)} from the shaft, ${recorded}`;
  }
  if (LENGTH.test(path)) return `${partOf(rig, path)} is ${size} too ${by > 0 ? 'long' : 'short'}${about}`;
  if (key === 'neutral') return `${ownerOf(rig, path)} is made for ${shown(machine, unit)}, ${recorded}`;
  if (key === 'subtrim') {
    return `${describePath(rig, path)} ${record === 0 ? `still holds ${shown(machine, unit)}${about}` : `is ${shown(machine, unit)}${about}, ${recorded}`}`;
  }
  const travel = /\/travel\/([01])$/.exec(path);
  if (travel) {
    const side = travel[1] === '0' ? 'below' : 'above';
    return `${describePath(rig, path.replace(/\/travel\/[01]$/, ''))} travels too ${by > 0 ? 'far' : 'short'} ${side} its middle: ${shown(machine, unit)}${about}, ${recorded}`;
  }
  const grown = Math.abs(machine) > Math.abs(record);
  if (path === '/transmitter/mix/phase') return `the mix phase is ${shown(machine, unit)}${about}, ${recorded}`;
  if (path.startsWith('/transmitter/mix/')) {
    if (sd === 0 && machine === -record)
      return `the ${describePath(rig, path)} has the wrong sign: ${shown(machine, unit)}, ${recorded}`;
    return `the ${describePath(rig, path)} is too ${grown ? 'large' : 'small'}: ${shown(machine, unit)}${about}, ${recorded}`;
  }
  return `${describePath(rig, path)} is ${shown(machine, unit)}${about}, ${recorded}`;
}

/** A gauge's own zero, or how the mast leans: no part of the machine. */
function instrumentSays({ path, machine, unit }: CauseChange): string {
  const value = Number(machine);
  const size = shown(Math.abs(value), unit);
  if (path.endsWith('/zero')) return `the gauge shows ${size} too ${value > 0 ? 'much' : 'little'}`;
  const way = path.endsWith('/foreAft') ? (value > 0 ? 'nose down' : 'tail down') : value > 0 ? 'right' : 'left';
  return `the mast leans ${size} ${way} on the bench`;
}

/** "servo 1's horn (left front)": the name after the part, so that it reads as one sentence. */
function partOf(rig: Rig, path: string): string {
  const words = describePath(rig, path);
  const named = /^(.*?)( \([^)]*\))'s (.*)$/.exec(words);
  if (named) return `${named[1]}'s ${named[3]}${named[2]}`;
  const blade = /^(blade \d+) link$/.exec(words);
  if (blade) return `${blade[1]}'s link`;
  return /^(servo|washout|mixing) /.test(words) ? words : `the ${words}`;
}

const hornOf = (rig: Rig, path: string): string => partOf(rig, path.replace(/(\/horn)\/\w+$/, '$1'));

/** The tail's horn has no up: its ball goes aft or forward. */
function hornWay(path: string, by: number): string {
  if (path.startsWith('/tail/')) return by > 0 ? 'aft' : 'forward';
  return by > 0 ? 'high' : 'low';
}

function ownerOf(rig: Rig, path: string): string {
  const words = describePath(rig, path.replace(/\/\w+$/, ''));
  return /^(output|servo) \d/.test(words) ? words : `the ${words}`;
}

const listed = (value: unknown): string =>
  Array.isArray(value) ? value.map((one) => Number(one).toFixed(0)).join(', ') : String(value);

const UNITS: Record<string, string> = { degree: '°', mm: ' mm', us: ' µs', percent: ' %' };

function shown(value: number, unit: string): string {
  const digits = unit === 'us' || unit === 'percent' || unit === '' ? 0 : 1;
  // A blade link is a matter of hundredths.
  const text = value.toFixed(unit === 'mm' && Math.abs(value) < 0.1 ? 2 : digits);
  return `${text}${UNITS[unit] ?? (unit === '' ? '' : ` ${unit}`)}`;
}

function shownSpread(sd: number, unit: string): string {
  const text = shown(sd, unit);
  return Number.parseFloat(text) === 0 ? `under ${text.replace('0.0', '0.1').replace(/^0 /, '1 ')}` : text;
}
