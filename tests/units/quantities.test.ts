import { describe, expect, test } from 'vitest';
import { rigDocument } from '../../packages/mixing/src/rig/read.ts';
import type { Unit } from '../../packages/mixing/src/rig/quantity.ts';
import { holdsTextQuantity } from '../../packages/mixing/src/rig/walk.ts';
import { numberIn } from '../../packages/mixing/src/units/quantities.ts';
import { readWritten } from '../../packages/mixing/src/units/read-document.ts';
import { directMachine, spoiled, tailOf } from '../rig/machines.ts';

describe('a text as a number', () => {
  // The inch is 25.4 mm and the turn 360 degrees by definition (NIST SP 811, appendix B, from memory); the rest are SI.
  test.each<[string, Exclude<Unit, ''>, number]>([
    ['14 mm', 'mm', 14],
    ['1.4cm', 'mm', 14],
    ['0.55 in', 'mm', 13.97],
    ['-3 mm', 'mm', -3],
    ['.5 inch', 'mm', 12.7],
    ['1.2 ms', 'us', 1200],
    ['1520 us', 'us', 1520],
    ['1520 µs', 'us', 1520],
    ['10 deg', 'degree', 10],
    ['10°', 'degree', 10],
    ['-90 degrees', 'degree', -90],
    ['50 %', 'percent', 50],
    ['-50%', 'percent', -50],
    ['0.1 deg/us', 'degree/us', 0.1],
    ['100 deg/ms', 'degree/us', 0.1],
    ['2 us/(deg/s)', 'us/(degree/s)', 2],
    ['60 deg/s', 'degree/s', 60],
  ])('%s is %s', (text, unit, value) => {
    expect(numberIn(unit, text)).toEqual({ ok: true, value });
  });

  test('0.2 rad is 0.2 x 180 / pi degrees', () => {
    const read = numberIn('degree', '0.2 rad');
    expect(read.ok && Math.abs(read.value - 36 / Math.PI) < 1e-13).toBe(true);
  });

  test.each<[string, Exclude<Unit, ''>, RegExp]>([
    ['14 kg', 'mm', /another kind/],
    ['10 deg', 'mm', /another kind/],
    ['14 mm', 'degree', /another kind/],
    ['14', 'mm', /without a unit/],
    ['mm', 'mm', /another kind/],
    ['14 mm mm', 'mm', /another kind/],
    ['1,5 mm', 'mm', /no quantity/],
    ['3 + 4 mm', 'mm', /no quantity/],
    ['14 ells', 'mm', /no quantity/],
    ['1e999 mm', 'mm', /no finite/],
    ['', 'mm', /no quantity|another kind/],
    ['0.5', 'percent', /without a unit/],
  ])('%j is refused as %s', (text, unit, got) => {
    const read = numberIn(unit, text);
    expect(read.ok ? '' : read.got).toMatch(got);
  });
});

describe('a document with texts', () => {
  const written = () => {
    let document: unknown = { ...directMachine(), tail: { ...tailOf(), gyro: { rate: '2 us/(deg/s)' } } };
    const texts: [(string | number)[], string][] = [
      [['servos', 0, 'link'], '1.61417322834645669 in'],
      [['servos', 0, 'shaft', 0], '2.5 cm'],
      [['servos', 1, 'neutral'], '1.52 ms'],
      [['servos', 1, 'rate'], '0.1 deg/us'],
      [['transmitter', 'mix', 'elevator'], '40 %'],
      [['transmitter', 'mix', 'azimuths', 1], '120 deg'],
      [['rotor', 'links', 1], '50.5 mm'],
      [
        ['known'],
        [
          { path: '/servos/0/link', sd: '0.05 cm' },
          { path: '/servos/0/horn/offset', sd: '2 deg' },
        ] as unknown as string,
      ],
    ];
    for (const [path, text] of texts) document = spoiled(document, path, text);
    return document;
  };

  test('reads as the same machine in plain numbers', () => {
    const read = readWritten(rigDocument, written());
    if (!read.ok) throw new Error(JSON.stringify(read.faults));
    const plain = readWritten(rigDocument, {
      ...directMachine(),
      tail: { ...tailOf(), gyro: { rate: 2 } },
      known: [
        { path: '/servos/0/link', sd: 0.5 },
        { path: '/servos/0/horn/offset', sd: 2 },
      ],
    });
    expect(plain.ok && plain.value).toEqual(read.value);
  });

  test('the document itself is left as it was', () => {
    const document = written();
    readWritten(rigDocument, document);
    expect(document).toEqual(written());
  });

  test('every wrong text is told once, beside the other faults', () => {
    let document = spoiled(written(), ['servos', 2, 'link'], '14 kg');
    document = spoiled(document, ['swash', 'guide'], 'left');
    document = spoiled(document, ['rotor', 'hubHeight'], true);
    document = spoiled(document, ['known', 0, 'sd'], '1 deg');
    const read = readWritten(rigDocument, document);
    const faults = read.ok ? [] : read.faults;
    expect(faults.map((fault) => fault.pointer).toSorted()).toEqual([
      '/known/0/sd',
      '/rotor/hubHeight',
      '/servos/2/link',
      '/swash/guide',
    ]);
    expect(faults.find((fault) => fault.pointer === '/servos/2/link')?.wayOut).toContain('"14 mm"');
  });

  test('texts are read only where a quantity is expected', () => {
    const document = {
      ...(spoiled(directMachine(), ['servos', 0, 'horn', 'tooth'], '1 deg') as object),
      name: '14 mm',
      'x-size': '3 in',
    };
    const read = readWritten(rigDocument, document);
    expect(read.ok ? [] : read.faults.map((fault) => fault.pointer)).toEqual(['/servos/0/horn/tooth']);
    const kept = readWritten(rigDocument, { ...directMachine(), name: '14 mm', 'x-size': '3 in' });
    expect(kept.ok && kept.value).toMatchObject({ name: '14 mm', 'x-size': '3 in' });
  });

  test('the units are needed only where a text stands for a quantity', () => {
    expect(holdsTextQuantity(rigDocument.schema, directMachine())).toBe(false);
    expect(holdsTextQuantity(rigDocument.schema, { ...directMachine(), 'x-size': '3 in' })).toBe(false);
    expect(holdsTextQuantity(rigDocument.schema, written())).toBe(true);
  });
});
