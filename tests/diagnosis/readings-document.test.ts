import { describe, expect, test } from 'vitest';
import { readingsDocument, readReadings } from '../../packages/mixing/src/diagnosis/readings-document.ts';
import { readRig } from '../../packages/mixing/src/rig/read.ts';
import { readWritten } from '../../packages/mixing/src/units/read-document.ts';
import { directMachine, tailOf } from '../rig/machines.ts';

const record = readRig({
  ...directMachine(),
  transmitter: { ...directMachine().transmitter, flightModes: [{ name: 'normal' }, { name: 'stunt' }] },
});
if (!record.ok) throw new Error(JSON.stringify(record.faults));
const { rig } = record;

const document = (items: unknown[], rest: object = {}) => ({ format: 'swashtrue-readings/1', ...rest, readings: items });
const faultsOf = (written: unknown, on = rig) => {
  const read = readReadings(written, on);
  return read.ok ? [] : read.faults;
};

describe('a readings document', () => {
  test('fills in what a reading leaves out, with the usual standard deviation of its measure', () => {
    // Model, "Readings and changes": the usual sds; caliper 0.2 mm, leveller 0.3, gauge 0.25, horn by eye 1.5 degree.
    const read = readReadings(
      document([
        { measure: 'blade-pitch', value: 1.5 },
        { measure: 'swash-height', value: 58 },
        { measure: 'side-tilt', value: 0 },
        { measure: 'horn-angle', of: 3, value: 2 },
      ]),
    );
    if (!read.ok) throw new Error(JSON.stringify(read.faults));
    const sticks = { collective: 0, elevator: 0, aileron: 0, rudder: 0 };
    const rest = { sticks, azimuth: 0, teeter: 0, yawRate: 0, flipped: false };
    expect(read.readings).toEqual({
      format: 'swashtrue-readings/1',
      instruments: [],
      lean: { foreAftSd: 0, sideSd: 0 },
      readings: [
        { kind: 'reading', reading: { measure: 'blade-pitch', value: 1.5, sd: 0.25, of: 1, ...rest } },
        { kind: 'reading', reading: { measure: 'swash-height', value: 58, sd: 0.2, of: 1, ...rest } },
        { kind: 'reading', reading: { measure: 'side-tilt', value: 0, sd: 0.3, of: 1, ...rest } },
        { kind: 'reading', reading: { measure: 'horn-angle', value: 2, sd: 1.5, of: 3, ...rest } },
      ],
    });
  });

  test('a reading’s own sd goes before its instrument’s, and that before the usual', () => {
    const instruments = [
      { name: 'gauge', reference: 'gravity', zeroSd: 0.5, sd: 0.1 },
      { name: 'leveller', reference: 'shaft' },
    ];
    const read = readReadings(
      document(
        [
          { measure: 'blade-pitch', value: 1, instrument: 'gauge' },
          { measure: 'blade-pitch', value: 1, instrument: 'gauge', sd: 0.4, flipped: true },
          { measure: 'side-tilt', value: 1, instrument: 'leveller' },
        ],
        { instruments, lean: { sideSd: 1 } },
      ),
    );
    if (!read.ok) throw new Error(JSON.stringify(read.faults));
    expect(read.readings.instruments).toEqual([
      { name: 'gauge', reference: 'gravity', zeroSd: 0.5, step: 0, sd: 0.1 },
      { name: 'leveller', reference: 'shaft', zeroSd: 0, step: 0 },
    ]);
    expect(read.readings.lean).toEqual({ foreAftSd: 0, sideSd: 1 });
    expect(
      read.readings.readings.map(
        (item) => item.kind === 'reading' && [item.reading.sd, item.reading.instrument, item.reading.flipped],
      ),
    ).toEqual([
      [0.1, 0, false],
      [0.4, 0, true],
      [0.3, 1, false],
    ]);
  });

  test('an instrument named where none is listed is a gauge without a zero of its own', () => {
    const read = readReadings(document([{ measure: 'blade-pitch', value: 1, instrument: 'gauge' }]));
    expect(
      read.ok && read.readings.readings[0]?.kind === 'reading' && read.readings.readings[0].reading.instrument,
    ).toBeUndefined();
  });

  test('every other kind of item, in the order of the bench', () => {
    const read = readReadings(
      document([
        { adjusted: { path: '/servos/0/link', by: 0.4, unit: 'mm', turns: 2 }, taken: '2025-05-01T10:30' },
        { seen: { path: '/transmitter/outputs/0/reverse', value: false } },
        { moves: { sticks: { elevator: 1 }, part: 'servo', of: 2, way: 'up' } },
        { felt: { sticks: { collective: 1 }, binds: true, part: 'lever' }, stabilised: true },
        { inspected: { part: 'spindle', found: 'bent' } },
        { flight: { highBlade: 2, apart: 10, trims: { aileron: 12 }, note: 'left hand circuit' } },
      ]),
      rig,
    );
    if (!read.ok) throw new Error(JSON.stringify(read.faults));
    const sticks = { collective: 0, elevator: 0, aileron: 0, rudder: 0 };
    expect(read.readings.readings).toEqual([
      { kind: 'adjusted', path: '/servos/0/link', by: 0.4, taken: '2025-05-01T10:30' },
      { kind: 'seen', path: '/transmitter/outputs/0/reverse', value: false },
      { kind: 'moves', moves: { sticks: { ...sticks, elevator: 1 }, part: 'servo', of: 2, way: 'up', azimuth: 0, yawRate: 0 } },
      { kind: 'felt', sticks: { ...sticks, collective: 1 }, binds: true, part: 'lever' },
      { kind: 'inspected', part: 'spindle', found: 'bent' },
      { kind: 'flight', highBlade: 2, apart: 10, trims: { aileron: 12 }, note: 'left hand circuit' },
    ]);
  });

  test('texts in the unit of the measure or of the path', () => {
    const read = readWritten(
      readingsDocument(rig),
      document([
        { measure: 'swash-height', value: '5.8 cm', sd: '0.1 mm' },
        { measure: 'blade-pitch', value: '0.1 rad' },
        { adjusted: { path: '/servos/0/link', by: '0.4 mm' } },
        { seen: { path: '/servos/0/neutral', value: '1.52 ms' } },
        { seen: { path: '/transmitter/mix/cyclicLimit', value: '80 %' } },
      ]),
    );
    if (!read.ok) throw new Error(JSON.stringify(read.faults));
    expect(read.value.readings.slice(2)).toEqual([
      { kind: 'adjusted', path: '/servos/0/link', by: 0.4 },
      { kind: 'seen', path: '/servos/0/neutral', value: 1520 },
      { kind: 'seen', path: '/transmitter/mix/cyclicLimit', value: 80 },
    ]);
    expect(read.value.readings[0]).toMatchObject({ reading: { value: 58, sd: 0.1 } });
    const wrong = readWritten(readingsDocument(rig), document([{ measure: 'swash-height', value: '5 deg' }]));
    expect(wrong.ok ? [] : wrong.faults.map((fault) => fault.pointer)).toEqual(['/readings/0/value']);
  });

  test('readings while a stabiliser moved the swashplate are refused, with the reason', () => {
    const faults = faultsOf(
      document([
        { measure: 'blade-pitch', value: 1, stabilised: true },
        { measure: 'blade-pitch', value: 1, stabilised: false },
      ]),
    );
    expect(faults.map((fault) => fault.pointer)).toEqual(['/readings/0/stabilised']);
    expect(faults[0]?.wayOut).toMatch(/moves the servos by itself/);
  });

  test.each<[string, unknown, string]>([
    ['an item of no kind', {}, '/readings/0'],
    ['two kinds in one item', { measure: 'side-tilt', value: 1, felt: { binds: true } }, '/readings/0'],
    ['a reading without a value', { measure: 'blade-pitch' }, '/readings/0/value'],
    ['a value without a measure', { value: 3 }, '/readings/0/measure'],
    ['an unknown measure', { measure: 'blade-ptch', value: 1 }, '/readings/0/measure'],
    [
      'a stick beyond its end',
      { measure: 'blade-pitch', value: 1, sticks: { collective: 1.2 } },
      '/readings/0/sticks/collective',
    ],
    ['a misspelt stick', { measure: 'blade-pitch', value: 1, sticks: { colective: 1 } }, '/readings/0/sticks/colective'],
    ['an sd of 0', { measure: 'blade-pitch', value: 1, sd: 0 }, '/readings/0/sd'],
    ['a third blade of two', { measure: 'blade-pitch', value: 1, of: 3 }, '/readings/0/of'],
    ['a tail that the machine lacks', { measure: 'slider', value: 1 }, '/readings/0/measure'],
    ['a lever that the machine lacks', { measure: 'lever-angle', value: 1 }, '/readings/0/measure'],
    ['a flybar that the machine lacks', { measure: 'washout-arm', value: 1 }, '/readings/0/measure'],
    ['a mode that the machine lacks', { measure: 'blade-pitch', value: 1, mode: 'hover' }, '/readings/0/mode'],
    ['a moving tail that the machine lacks', { moves: { part: 'tail', way: 'left' } }, '/readings/0/moves/part'],
    ['neither by nor to', { adjusted: { path: '/servos/0/link' } }, '/readings/0/adjusted'],
    ['a change that cannot be made', { adjusted: { path: '/servos/0/link', by: -100 } }, '/readings/0/adjusted/by'],
    ['a change of what is not there', { adjusted: { path: '/servos/0/lnk', to: 3 } }, '/readings/0/adjusted/to'],
    ['a look at what is not there', { seen: { path: '/tail/rod', value: 3 } }, '/readings/0/seen/path'],
    ['a look at a place beyond a list', { seen: { path: '/servos/3', value: 3 } }, '/readings/0/seen/path'],
    ['found as nothing known', { inspected: { part: 'mast', found: 'fine' } }, '/readings/0/inspected/found'],
  ])('refuses %s', (_, item, pointer) => {
    expect(faultsOf(document([item])).map((fault) => fault.pointer)).toEqual([pointer]);
  });

  test('refuses an instrument that is not listed, naming the nearest, and two of one name', () => {
    const faults = faultsOf(
      document([{ measure: 'blade-pitch', value: 1, instrument: 'guage' }], {
        instruments: [{ name: 'leveller' }, { name: 'gauge' }, { name: 'gauge' }],
      }),
    );
    expect(faults.map((fault) => fault.pointer)).toEqual(['/instruments/2/name', '/readings/0/instrument']);
    expect(faults[1]?.expected).toContain('"gauge"');
  });

  test('changes are tried on the machine as the ones before left it', () => {
    const halves = [{ adjusted: { path: '/servos/0/link', by: -30 } }, { adjusted: { path: '/servos/0/link', by: -30 } }];
    expect(faultsOf(document(halves)).map((fault) => fault.pointer)).toEqual(['/readings/1/adjusted/by']);
  });

  test('a machine with a tail has one', () => {
    const tailed = readRig({ ...directMachine(), tail: tailOf() });
    if (!tailed.ok) throw new Error('the machine does not read');
    expect(faultsOf(document([{ measure: 'slider', value: 1 }]), tailed.rig)).toEqual([]);
    expect(faultsOf(document([{ measure: 'slider', value: 1, of: 2 }]), tailed.rig).map((fault) => fault.pointer)).toEqual([
      '/readings/0/of',
    ]);
  });

  test('what would be passed over in silence is refused: a value, a way, a part or a blade that cannot be', () => {
    const pointers = (items: unknown[]) => faultsOf(document(items)).map(({ pointer }) => pointer);
    expect(
      pointers([
        { seen: { path: '/servos/0/output', value: 'two' } },
        { seen: { path: '/servos/0/output', value: 7 } },
        { seen: { path: '/transmitter/outputs/0/reverse', value: 'yes' } },
        { moves: { sticks: { collective: 1 }, part: 'servo', way: 'left' } },
        { moves: { sticks: { elevator: 1 }, part: 'fore-aft', way: 'up' } },
        { inspected: { part: '/servos/9/link', found: 'bent' } },
        { flight: { highBlade: rig.rotor.blades + 1 } },
      ]).toSorted(),
    ).toEqual([
      '/readings/0/seen/value',
      '/readings/1/seen/value',
      '/readings/2/seen/value',
      '/readings/3/moves/way',
      '/readings/4/moves/way',
      '/readings/5/inspected/part',
      '/readings/6/flight/highBlade',
    ]);
    expect(
      pointers([
        { seen: { path: '/servos/0/output', value: 2 } },
        { seen: { path: '/transmitter/outputs/0/reverse', value: true } },
        { moves: { sticks: { elevator: 1 }, part: 'swash', way: 'aft' } },
        { moves: { sticks: { elevator: 1 }, part: 'servo', way: 'none' } },
        { inspected: { part: 'mast', found: 'straight' } },
        { inspected: { part: '/rotor/links/0', found: 'straight' } },
        { flight: { highBlade: rig.rotor.blades } },
      ]),
    ).toEqual([]);
  });
});
