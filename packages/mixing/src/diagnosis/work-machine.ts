/**
 * One rig that is set to be this machine and then that one, some thousands of times a call: values are written into a
 * private copy at places found once, and nothing is checked. What comes out of it goes through `prepare` as any rig.
 */
import { parsePointer } from '../rig/pointer.ts';
import type { Rig } from '../rig/rig.ts';

/** A value put in place of the record's. */
export interface Assignment {
  path: string;
  value: unknown;
}

/** A place in the working copy: where it is held, and under which key. */
export interface Slot {
  holder: Record<string, unknown>;
  key: string;
  path: string;
  /** what stands there in the record */
  record: unknown;
}

export class WorkMachine {
  readonly rig: Rig;
  private readonly slots = new Map<string, Slot>();
  private readonly touched = new Set<Slot>();

  constructor(record: Rig) {
    this.rig = structuredClone(record);
  }

  slot(path: string): Slot {
    const known = this.slots.get(path);
    if (known) return known;
    const tokens = parsePointer(path) ?? [];
    const key = tokens.at(-1);
    let holder: unknown = this.rig;
    for (const token of tokens.slice(0, -1)) holder = (holder as Record<string, unknown> | undefined)?.[token];
    if (key === undefined || typeof holder !== 'object' || holder === null) {
      throw new RangeError(`${path}: got no such place, expected a value of the rig document; name it by its JSON Pointer`);
    }
    if (typeof (holder as Record<string, unknown>)[key] === 'object') {
      throw new RangeError(`${path}: got a whole part, expected a single value; set its values one by one`);
    }
    const slot = { holder: holder as Record<string, unknown>, key, path, record: (holder as Record<string, unknown>)[key] };
    this.slots.set(path, slot);
    return slot;
  }

  get(path: string): unknown {
    const slot = this.slot(path);
    return slot.holder[slot.key];
  }

  set(slot: Slot, value: unknown): void {
    slot.holder[slot.key] = value;
    this.touched.add(slot);
  }

  assign(assignments: readonly Assignment[]): void {
    for (const { path, value } of assignments) this.set(this.slot(path), value);
  }

  /** Back to the record. */
  restore(): void {
    for (const { holder, key, record } of this.touched) {
      if (record === undefined) delete holder[key];
      else holder[key] = record;
    }
    this.touched.clear();
  }
}

/** A change of a whole list or part as changes of the single values in it. */
export function singleValues({ path, value }: Assignment): Assignment[] {
  if (typeof value !== 'object' || value === null) return [{ path, value }];
  return Object.entries(value).flatMap(([key, part]) => singleValues({ path: `${path}/${key}`, value: part }));
}
