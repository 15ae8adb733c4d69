/**
 * Readings of a machine for the tests: exact, or with seeded noise, at the standard set's places.
 */
import type { Item, Reading, ReadingPlace, ReadingsDocument } from '../../packages/mixing/src/diagnosis/readings.ts';
import { USUAL_SD } from '../../packages/mixing/src/diagnosis/readings.ts';
import { standardSet } from '../../packages/mixing/src/diagnosis/standard-set.ts';
import { prepare } from '../../packages/mixing/src/rig/prepare.ts';
import { readRig } from '../../packages/mixing/src/rig/read.ts';
import type { Rig } from '../../packages/mixing/src/rig/rig.ts';
import { normal, trueValue } from '../../bench/diagnosis/draw.ts';
import { type Kind, randomRig } from '../support/machines.ts';
import { type Random, seededRandom } from '../support/random.ts';

export function rigOf(seed: number, kind: Kind, tail = false): Rig {
  const read = readRig(randomRig(seed, kind, { tail }));
  if (!read.ok) throw new Error(JSON.stringify(read.faults));
  return read.rig;
}

/** Items at these places, `noise` standard deviations of noise on each (0: exact, and not rounded). */
export function itemsOf(machine: Rig, places: readonly ReadingPlace[], random?: Random): Item[] {
  const prepared = prepare(machine);
  return places.map((place) => {
    const exact = trueValue(prepared, place);
    if (exact === undefined) throw new Error(`${place.measure} cannot be read on this machine`);
    const sd = USUAL_SD[place.measure];
    const value = random ? Math.round((exact + sd * normal(random)) * 10) / 10 : exact;
    const reading: Reading = { ...place, value, sd };
    return { kind: 'reading', reading };
  });
}

export function documentOf(items: Item[], more: Partial<ReadingsDocument> = {}): ReadingsDocument {
  return { format: 'swashtrue-readings/1', instruments: [], lean: { foreAftSd: 0, sideSd: 0 }, readings: items, ...more };
}

export const standardReadings = (machine: Rig, seed?: number): ReadingsDocument =>
  documentOf(itemsOf(machine, standardSet(machine), seed === undefined ? undefined : seededRandom(seed)));
