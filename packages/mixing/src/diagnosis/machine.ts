/**
 * A believed machine as a rig document: the record with a hypothesis' settings and values, and then all that was done on
 * the bench.
 */
import type { Rig } from '../rig/rig.ts';
import type { UnknownValue } from './posterior.ts';
import type { ReadingsDocument } from './readings.ts';
import { type Assignment, singleValues, WorkMachine } from './work-machine.ts';

/** The record with these settings and values (at `unknowns`; zeros and lean are no part of the machine). A fresh rig. */
export function machineAsFound(
  record: Rig,
  unknowns: readonly UnknownValue[],
  settings: readonly Assignment[],
  values: ArrayLike<number>,
): Rig {
  const machine = new WorkMachine(record);
  machine.assign(settings);
  unknowns.forEach(({ path, document }, k) => {
    if (document === 'rig') machine.set(machine.slot(path), values[k]);
  });
  return machine.rig;
}

/** A machine as found with every `adjusted` item of the readings made to it, in their order; itself where there is none. */
export function machineNow(asFound: Rig, readings: ReadingsDocument): Rig {
  if (!readings.readings.some(({ kind }) => kind === 'adjusted')) return asFound;
  const machine = new WorkMachine(asFound);
  for (const item of readings.readings) {
    if (item.kind !== 'adjusted') continue;
    if (item.by !== undefined) {
      const slot = machine.slot(item.path);
      machine.set(slot, (slot.holder[slot.key] as number) + item.by);
    } else machine.assign(singleValues({ path: item.path, value: item.to }));
  }
  return machine.rig;
}
