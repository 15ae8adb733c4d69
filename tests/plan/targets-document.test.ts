import { expect, test } from 'vitest';
import { defaultTargets, readTargets } from '../../packages/mixing/src/plan/targets-document.ts';
import { readRig } from '../../packages/mixing/src/rig/read.ts';
import { directMachine } from '../rig/machines.ts';

const faults = (document: object, rig?: Parameters<typeof readTargets>[1]) => {
  const read = readTargets({ format: 'swashtrue-targets/1', ...document }, rig);
  return read.ok ? [] : read.faults.map((fault) => fault.pointer);
};

test('the default targets are the model’s: +-10 collective, 5 cyclic, and how near is near enough', () => {
  const defaults = {
    format: 'swashtrue-targets/1',
    collective: [-10, 10],
    cyclic: 5,
    within: { level: 0.5, zero: 0.4, match: 0.4, ends: 0.6, cyclic: 0.5, cross: 5 },
  };
  expect(defaultTargets()).toEqual(defaults);
  const read = readTargets({ format: 'swashtrue-targets/1' });
  expect(read.ok && read.targets).toEqual(defaults);
});

test('what the document says goes before the defaults', () => {
  const read = readTargets({ format: 'swashtrue-targets/1', collective: [-3, 11], within: { zero: 1, corners: true } });
  expect(read.ok && read.targets).toMatchObject({
    collective: [-3, 11],
    cyclic: 5,
    within: { zero: 1, level: 0.5, corners: true },
  });
});

test('refusals carry their pointers', () => {
  expect(faults({ collective: [10, -10] })).toEqual(['/collective']);
  expect(faults({ collective: [10] })).toEqual(['/collective']);
  expect(faults({ within: { levle: 0.5, zero: -1 } }).toSorted()).toEqual(['/within/levle', '/within/zero']);
  expect(faults({ cyclic: 'plenty' })).toEqual(['/cyclic']);
  expect(faults({ format: 'swashtrue-targets/2' })).toEqual(['/format']);
  const record = readRig(directMachine());
  if (!record.ok) throw new Error('the machine does not read');
  expect(faults({ mode: 'hover' }, record.rig)).toEqual(['/mode']);
  expect(faults({ mode: 'normal' }, record.rig)).toEqual([]);
});
