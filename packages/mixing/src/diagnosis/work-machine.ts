/**
 * One rig that is set to be this machine and then that one, some thousands of times a call: values are written into a
 * private copy at places found once, and nothing is checked. It is prepared as any rig is, but for what has not changed
 * since the last time.
 */
import { parsePointer } from '../rig/pointer.ts';
import { prepare, type PreparedRig } from '../rig/prepare.ts';
import { prepareAgain, type Stages, stagesOf } from '../rig/prepare-again.ts';
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
  stages: Stages;
  /** what stood there when the machine was last prepared */
  prepared: unknown;
}

export class WorkMachine {
  readonly rig: Rig;
  private readonly slots = new Map<string, Slot>();
  private readonly touched = new Set<Slot>();
  /** written since the machine was last prepared */
  private readonly written: Slot[] = [];
  private lastPrepared: PreparedRig | undefined;

  constructor(record: Rig) {
    this.rig = copyOf(record);
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
    const record = (holder as Record<string, unknown>)[key];
    const slot: Slot = { holder: holder as Record<string, unknown>, key, path, record, stages: stagesOf(path), prepared: record };
    this.slots.set(path, slot);
    return slot;
  }

  get(path: string): unknown {
    const slot = this.slot(path);
    return slot.holder[slot.key];
  }

  set(slot: Slot, value: unknown): void {
    this.write(slot, value);
    this.touched.add(slot);
  }

  /** The same, where the caller puts back what stood there. */
  write(slot: Slot, value: unknown): void {
    if (value === undefined) delete slot.holder[slot.key];
    else slot.holder[slot.key] = value;
    this.written.push(slot);
  }

  assign(assignments: readonly Assignment[]): void {
    for (const { path, value } of assignments) this.set(this.slot(path), value);
  }

  /** Back to the record. */
  restore(): void {
    for (const slot of this.touched) this.write(slot, slot.record);
    this.touched.clear();
  }

  /** The machine as it is set, prepared. */
  prepare(): PreparedRig {
    let stages: Stages = 0;
    for (const slot of this.written) {
      const value = slot.holder[slot.key];
      if (value === slot.prepared) continue;
      slot.prepared = value;
      stages |= slot.stages;
    }
    this.written.length = 0;
    this.lastPrepared = this.lastPrepared === undefined ? prepare(this.rig) : prepareAgain(this.lastPrepared, this.rig, stages);
    return this.lastPrepared;
  }
}

/** A deep copy of what a JSON document holds, in a tenth of the time that `structuredClone` takes. */
function copyOf<T>(value: T): T {
  if (typeof value !== 'object' || value === null) return value;
  if (Array.isArray(value)) return value.map(copyOf) as T;
  const copy: Record<string, unknown> = {};
  for (const key in value) copy[key] = copyOf(value[key]);
  return copy as T;
}

/** A change of a whole list or part as changes of the single values in it. */
export function singleValues({ path, value }: Assignment): Assignment[] {
  if (typeof value !== 'object' || value === null) return [{ path, value }];
  return Object.entries(value).flatMap(([key, part]) => singleValues({ path: `${path}/${key}`, value: part }));
}
