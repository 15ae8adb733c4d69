/**
 * The list of values that are not known exactly: what scatters on every machine, what a fault of a size can move, each
 * instrument's zero, and the lean of the bench. Every array of the diagnosis that has `n` entries follows this list.
 */
import { valueAt } from '../rig/changes.ts';
import { unitAt } from '../rig/describe.ts';
import type { Rig } from '../rig/rig.ts';
import type { Fault } from './faults.ts';
import type { UnknownValue } from './posterior.ts';
import type { ReadingsDocument } from './readings.ts';
import { scatterOf } from './scatter.ts';

/** What a part that was found bent or worn may be off by: mm, and degrees for an angle. No source. */
const BENT_SD = { mm: 1.5, degree: 3 } as const;

export function unknownsOf(rig: Rig, readings: ReadingsDocument, faults: readonly Fault[]): UnknownValue[] {
  const scatter = scatterOf(rig);
  for (const fault of faults) if (fault.path !== undefined && !scatter.has(fault.path)) scatter.set(fault.path, 0);
  for (const item of readings.readings) {
    if (item.kind !== 'inspected' || (item.found !== 'bent' && item.found !== 'worn')) continue;
    const usual = scatter.get(item.part);
    if (usual === undefined) continue;
    scatter.set(item.part, Math.max(usual, unitAt(item.part) === 'degree' ? BENT_SD.degree : BENT_SD.mm));
  }
  const values = [...scatter].flatMap(([path, sd]): UnknownValue[] => {
    const record = valueAt(rig, path);
    return typeof record === 'number' ? [{ path, document: 'rig', record, sd, unit: unitAt(path) }] : [];
  });
  readings.instruments.forEach(({ zeroSd }, i) => {
    values.push({ path: `/instruments/${i}/zero`, document: 'readings', record: 0, sd: zeroSd, unit: 'degree' });
  });
  values.push(
    { path: '/lean/foreAft', document: 'readings', record: 0, sd: readings.lean.foreAftSd, unit: 'degree' },
    { path: '/lean/side', document: 'readings', record: 0, sd: readings.lean.sideSd, unit: 'degree' },
  );
  return values;
}
