import { describe, expect, test } from 'vitest';
import { applyChange, applyChanges, ChangeError, setAt, valueAt, type Change } from '../../packages/mixing/src/rig/changes.ts';
import { describePath, unitAt } from '../../packages/mixing/src/rig/describe.ts';
import { readRig } from '../../packages/mixing/src/rig/read.ts';
import { directMachine, tailOf } from './machines.ts';

const read = readRig({ ...directMachine(), tail: { ...tailOf(), slider: { stops: [-5, 5] }, gyro: {} } });
if (!read.ok) throw new Error(JSON.stringify(read.faults));
const { rig } = read;

describe('a change', () => {
  test('by adds to the number, to replaces it, and the old rig stays as it was', () => {
    const before = structuredClone(rig);
    const changed = applyChange(rig, { path: '/servos/1/horn/offset', by: 7.5 });
    expect(changed.servos[1].horn.offset).toBe(7.5);
    expect(applyChange(changed, { path: '/servos/1/horn/offset', by: -2 }).servos[1].horn.offset).toBe(5.5);
    expect(applyChange(rig, { path: '/transmitter/outputs/2/reverse', to: true }).transmitter.outputs[2].reverse).toBe(true);
    expect(applyChange(rig, { path: '/transmitter/mix/azimuths', to: [0, 135, 225] }).transmitter.mix.azimuths).toEqual([
      0, 135, 225,
    ]);
    expect(rig).toEqual(before);
  });

  test('what did not change is shared', () => {
    const changed = applyChange(rig, { path: '/rotor/links/1', by: 0.4 });
    expect(changed.rotor.links).toEqual([50, 50.9]);
    expect(changed.servos).toBe(rig.servos);
    expect(changed.rotor.pitchArm).toBe(rig.rotor.pitchArm);
  });

  test('a value that the document left out can be put there', () => {
    expect(applyChange(rig, { path: '/transmitter/mix/cyclicLimit', to: 80 }).transmitter.mix.cyclicLimit).toBe(80);
    const gyro = applyChange(rig, { path: '/tail/gyro', to: { gain: 40 } }).tail?.gyro;
    expect(gyro).toEqual({ gain: 40, scale: 'signed', reverse: false, rate: 2, limit: 150, holdSide: 1 });
  });

  test('several, in any order where only the end agrees', () => {
    const stops: Change[] = [
      { path: '/tail/slider/stops/0', to: 7 },
      { path: '/tail/slider/stops/1', to: 9 },
    ];
    expect(applyChanges(rig, stops).tail?.slider.stops).toEqual([7, 9]);
    expect(applyChanges(rig, [])).toBe(rig);
  });

  const refused: [string, Change, string, RegExp][] = [
    ['an unknown key', { path: '/servos/1/horn/ofset', by: 1 }, '/servos/1/horn/ofset', /nearest key is "offset"/],
    ['a place beyond the list', { path: '/servos/3/link', to: 1 }, '/servos/3/link', /a place from 0 to 2/],
    ['a part that is not there', { path: '/servos/0/lever/azimuth', by: 1 }, '/servos/0/lever/azimuth', /a number to add to/],
    [
      'a value inside a part that is not there',
      { path: '/servos/0/lever/azimuth', to: 1 },
      '/servos/0/lever/azimuth',
      /whose parent is there/,
    ],
    ['a link wound to nothing', { path: '/servos/0/link', by: -41 }, '/servos/0/link', /a length in mm, more than 0/],
    ['half a tooth', { path: '/servos/0/horn/tooth', by: 0.5 }, '/servos/0/horn/tooth', /a whole number/],
    ['by on a choice', { path: '/transmitter/outputs/0/reverse', by: 1 }, '/transmitter/outputs/0/reverse', /a number to add to/],
    ['by NaN', { path: '/servos/0/link', by: NaN }, '/servos/0/link', /a number/],
    ['to undefined', { path: '/tail/slider/stops', to: undefined }, '/tail/slider/stops', /a value/],
    ['a breach of a rule', { path: '/tail/slider/stops/0', to: 6 }, '/tail/slider/stops', /least first/],
    ['one link too few', { path: '/rotor/links', to: [50] }, '/rotor/links', /as many blade links as blades/],
    ['an unknown key inside what is put there', { path: '/tail/gyro', to: { gian: 3 } }, '/tail/gyro/gian', /nearest is "gain"/],
    ['another format', { path: '/format', to: 'swashtrue-rig/1' }, '/format', /a value of the machine/],
    ['the whole document', { path: '', to: {} }, '', /./],
    ['no pointer', { path: 'servos', to: {} }, 'servos', /JSON Pointer/],
  ];
  test.each(refused)('is refused: %s', (_, change, path, expected) => {
    let error: unknown;
    try {
      applyChange(rig, change);
    } catch (thrown) {
      error = thrown;
    }
    expect(error).toBeInstanceOf(ChangeError);
    const told = error as ChangeError;
    expect(told.path).toBe(path);
    expect(told.expected).toMatch(expected);
    expect(told.got.length * told.wayOut.length).toBeGreaterThan(0);
  });

  test('setAt leaves the checking to its caller', () => {
    expect(setAt(rig, '/servos/0/link', -1).servos[0].link).toBe(-1);
    expect(() => setAt(rig, '/servos/7/link', 1)).toThrow(ChangeError);
  });

  test('valueAt', () => {
    expect(valueAt(rig, '/servos/2/ball/azimuth')).toBe(240);
    expect(valueAt(rig, '/flybar')).toBeUndefined();
  });
});

describe('units and words of a path', () => {
  test.each([
    ['/servos/1/horn/offset', 'degree', "servo 2's horn offset"],
    ['/servos/0/link', 'mm', "servo 1's link"],
    ['/servos/0/rate', 'degree/us', "servo 1's rate"],
    ['/rotor/links/1', 'mm', 'blade 2 link'],
    ['/transmitter/outputs/2/subtrim', 'us', "output 3's sub-trim"],
    ['/transmitter/outputs/0/travel/1', 'percent', "output 1's travel above neutral"],
    ['/transmitter/mix/elevator', 'percent', 'elevator mix value'],
    ['/transmitter/mix/azimuths/2', 'degree', 'mix azimuth of output 3'],
    ['/transmitter/rudder/reverse', '', "rudder output's reverse"],
    ['/flybar/washout/links/0', 'mm', 'washout link 1'],
    ['/flybar/washout/flybarEnd/angle', 'degree', 'washout arm flybar end angle'],
    ['/tail/servo/horn/tooth', '', "tail servo's horn tooth"],
    ['/tail/gyro/rate', 'us/(degree/s)', "gyro's rate"],
    ['/nowhere', '', '/nowhere'],
  ])('%s', (path, unit, words) => {
    expect(unitAt(path)).toBe(unit);
    expect(describePath(rig, path)).toBe(words);
  });

  test('a servo with a name of its own is told by both', () => {
    const named = applyChange(rig, { path: '/servos/1/name', to: 'left rear' });
    expect(describePath(named, '/servos/1/horn/offset')).toBe("servo 2 (left rear)'s horn offset");
  });
});
