/**
 * A value's place in one machine, held open: read and written some hundred thousand times a plan, nothing checked.
 */
import { parsePointer } from '../rig/pointer.ts';
import type { Rig } from '../rig/rig.ts';

export interface Place {
  holder: Record<string, unknown>;
  key: string;
}

const places = new WeakMap<Rig, Map<string, Place>>();

/** Throws RangeError where the machine has no holder for the path. Found once a rig and path. */
export function placeOf(rig: Rig, path: string): Place {
  let known = places.get(rig);
  if (known === undefined) {
    known = new Map();
    places.set(rig, known);
  }
  let place = known.get(path);
  if (place === undefined) {
    place = findPlace(rig, path);
    known.set(path, place);
  }
  return place;
}

function findPlace(rig: Rig, path: string): Place {
  const tokens = parsePointer(path) ?? [];
  const key = tokens.at(-1);
  let holder: unknown = rig;
  for (const token of tokens.slice(0, -1)) holder = (holder as Record<string, unknown> | undefined)?.[token];
  if (key === undefined || typeof holder !== 'object' || holder === null) {
    throw new RangeError(`${path}: got no such place, expected a value of the rig document; name it by its JSON Pointer`);
  }
  return { holder: holder as Record<string, unknown>, key };
}

export const readPlace = ({ holder, key }: Place): unknown => holder[key];

export function writePlace({ holder, key }: Place, value: unknown): void {
  if (value === undefined) delete holder[key];
  else holder[key] = value;
}

/** Makes changes to a machine in place, in their order, and returns what undoes them. */
export function makeChanges(rig: Rig, changes: readonly Alteration[]): () => void {
  const before = changes.map((change): [Place, unknown] => {
    const place = placeOf(rig, change.path);
    const was = readPlace(place);
    writePlace(place, change.by === undefined ? change.to : (was as number) + change.by);
    return [place, was];
  });
  return () => {
    for (let i = before.length - 1; i >= 0; i--) {
      const [place, was] = before[i] as [Place, unknown];
      writePlace(place, was);
    }
  };
}

/** `by` is added to a machine's own number; `to` takes the place of what stands there. */
export type Alteration = { path: string; by: number; to?: undefined } | { path: string; to: unknown; by?: undefined };

/** Whether it moves a lead. Leads are moved in pairs or not at all, and nothing is read before all of them are in their places. */
export const isLead = ({ path }: { path: string }): boolean => /^\/servos\/\d+\/output$/.test(path);
