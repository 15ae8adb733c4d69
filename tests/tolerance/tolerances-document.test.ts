import { expect, test } from 'vitest';
import { readRig } from '../../packages/mixing/src/rig/read.ts';
import { readTolerances, tolerancesDocument } from '../../packages/mixing/src/tolerance/tolerances-document.ts';
import { readWritten } from '../../packages/mixing/src/units/read-document.ts';
import { directMachine } from '../rig/machines.ts';

const record = readRig(directMachine());
if (!record.ok) throw new Error('the machine does not read');
const document = (...items: unknown[]) => ({ format: 'swashtrue-tolerances/1', items });
const faults = (...items: unknown[]) => {
  const read = readTolerances(document(...items), record.rig);
  return read.ok ? [] : read.faults.map((fault) => fault.pointer);
};

test('each item has one of sd and plusMinus, in its value’s own unit, as a number or a text', () => {
  const items = [
    { path: '/servos/0/link', sd: 0.1 },
    { path: '/servos/0/horn/offset', plusMinus: '0.5 deg' },
  ];
  const read = readWritten(tolerancesDocument(record.rig), document(...items));
  expect(read.ok && read.value.items).toEqual([items[0], { path: '/servos/0/horn/offset', plusMinus: 0.5 }]);
});

test('refusals carry their pointers', () => {
  expect(faults({ path: '/servos/0/link' })).toEqual(['/items/0']);
  expect(faults({ path: '/servos/0/link', sd: 1, plusMinus: 1 })).toEqual(['/items/0']);
  expect(faults({ path: '/servos/0/link', sd: -1 })).toEqual(['/items/0/sd']);
  expect(faults({ path: '/servos/0/lnk', sd: 1 })).toEqual(['/items/0/path']);
  expect(faults({ path: '/servos/3/link', sd: 1 })).toEqual(['/items/0/path']);
  expect(faults({ path: '/servos/0', sd: 1 })).toEqual(['/items/0/path']);
  expect(faults({ path: '/tail/rod', sd: 1 })).toEqual(['/items/0/path']);
  expect(faults({ path: '/servos/0/link', sd: 1 }, { path: '/servos/0/link', sd: 2 })).toEqual(['/items/1/path']);
});
