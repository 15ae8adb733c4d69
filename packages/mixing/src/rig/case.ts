/**
 * A case checked before it is posed. A case is misuse where it asks for what the machine has not (a stick beyond its
 * end, a mode that the document lacks): an error, with where, what was got, what was expected, and the way out.
 */
import type { PreparedTransmitter } from '../transmitter/outputs.ts';
import { nearest, show } from './fault.ts';
import { formatPointer } from './pointer.ts';
import type { Case } from './rig.ts';

export class CaseError extends Error {
  override name = 'CaseError';
  constructor(
    readonly pointer: string,
    readonly got: string,
    readonly expected: string,
    readonly wayOut: string,
  ) {
    super(`${pointer}: got ${got}, expected ${expected}; ${wayOut}`);
  }
}

const STICKS = ['collective', 'elevator', 'aileron', 'rudder'] as const;
const FREE_NUMBERS = ['azimuth', 'teeter', 'yawRate'] as const;
const KEYS = new Set<string>([...STICKS, ...FREE_NUMBERS, 'mode', 'settled']);

/** Checks a case; gives the place of its flight mode. Costs some tens of nanoseconds. */
export function checkCase(transmitter: PreparedTransmitter, kase: Case): number {
  for (const stick of STICKS) {
    const value = kase[stick];
    if (value !== undefined && !(value >= -1 && value <= 1)) {
      throw new CaseError(
        `/${stick}`,
        shown(value),
        'a stick position from -1 to +1',
        'full stick is 1; change ranges in the transmitter',
      );
    }
  }
  for (const name of FREE_NUMBERS) {
    const value = kase[name];
    if (value !== undefined && !Number.isFinite(value)) {
      throw new CaseError(`/${name}`, shown(value), 'a finite number', 'leave it out for 0');
    }
  }
  if (kase.settled && kase.teeter !== undefined) {
    throw new CaseError(
      '/teeter',
      shown(kase.teeter),
      'no teeter beside settled: true',
      'a settled flybar finds its own teeter; leave one of the two out',
    );
  }
  if (kase.mode === undefined) return 0;
  const place = transmitter.modes.findIndex((mode) => mode.name === kase.mode);
  if (place < 0) {
    throw new CaseError(
      '/mode',
      shown(kase.mode),
      `one of the document's flight modes: ${transmitter.modes.map((mode) => JSON.stringify(mode.name)).join(', ')}`,
      'name one of these, or leave mode out for the first',
    );
  }
  return place;
}

/**
 * Reads a case from parsed JSON, refusing what is not one.
 * @throws CaseError
 */
export function readCase(value: unknown): Case {
  if (typeof value !== 'object' || value === null || Array.isArray(value)) {
    throw new CaseError('', shown(value), 'a case: an object with sticks', 'write {} for mid-stick');
  }
  for (const [key, part] of Object.entries(value)) {
    if (key.startsWith('x-')) continue;
    if (!KEYS.has(key)) {
      throw new CaseError(
        formatPointer([key]),
        `the unknown key ${show(key)}`,
        `one of ${[...KEYS].join(', ')}; the nearest is ${show(nearest(key, [...KEYS]))}`,
        'rename or remove it; a key of your own must begin with "x-"',
      );
    }
    const wanted = key === 'mode' ? 'string' : key === 'settled' ? 'boolean' : 'number';
    if (typeof part !== wanted) throw new CaseError(`/${key}`, shown(part), `a ${wanted}`, 'mend it or leave it out');
  }
  return value as Case;
}

function shown(value: unknown): string {
  return typeof value === 'number' ? String(value) : (JSON.stringify(value) ?? String(value));
}
