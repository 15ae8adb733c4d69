import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import type { DocumentFault } from '../../packages/mixing/src/rig/fault.ts';
import { readRig } from '../../packages/mixing/src/rig/read.ts';
import { directMachine, spoiled, tailOf } from './machines.ts';

const faultsOf = (document: unknown): DocumentFault[] => {
  const read = readRig(document);
  return read.ok ? [] : read.faults;
};
const pointersOf = (document: unknown) => faultsOf(document).map((fault) => fault.pointer);

describe('readRig fills in the defaults of the model', () => {
  test('of a direct machine', () => {
    const read = readRig(directMachine());
    if (!read.ok) throw new Error(JSON.stringify(read.faults));
    const output = { neutral: 1520, span: 400, travel: [100, 100], subtrim: 0, reverse: false };
    const { rig } = read;
    expect(rig.transmitter).toEqual({
      flightModes: [{ name: 'normal', pitchCurve: [-100, 100] }],
      rates: { elevator: { rate: 100, expo: 0 }, aileron: { rate: 100, expo: 0 }, rudder: { rate: 100, expo: 0 } },
      mix: { azimuths: [0, 120, 240], collective: 50, elevator: 40, aileron: 41, phase: 0 },
      outputs: [output, output, output],
      rudder: output,
    });
    expect(rig.servos[1]).toEqual({
      name: 'servo 2',
      output: 2,
      neutral: 1520,
      sense: 1,
      rate: 0.1,
      shaft: [-1, 28, 16],
      horn: { length: 13.5, azimuth: 210, teeth: 25, tooth: 0, offset: 0 },
      link: 42,
      ball: { radius: 25, azimuth: 120, height: 0 },
    });
    expect(rig.rotor.driver).toBe(0);
    expect(rig.rotor.ring).toEqual({ radius: 21, azimuth: 75, height: 0 });
    expect(rig.rotor.pitchArm.height).toBe(0);
    expect([rig.linkStep, rig.holeStep, rig.neutrals, rig.steps, rig.known]).toEqual([0.2, 2.5, [1500, 1520], [], []]);
    expect('tail' in rig || 'flybar' in rig).toBe(false);
  });

  test('of a tail and its gyro', () => {
    const read = readRig({ ...directMachine(), tail: { ...tailOf(), gyro: {} } });
    if (!read.ok) throw new Error(JSON.stringify(read.faults));
    const { tail } = read.rig;
    expect(tail?.servo.horn).toEqual({ length: 10, roll: 0, teeth: 25, tooth: 0, offset: 0 });
    expect(tail?.gyro).toEqual({ gain: 0, scale: 'signed', reverse: false, rate: 2, limit: 150, holdSide: 1 });
    expect([tail?.right, tail?.slider, tail?.grip.height]).toEqual([1, {}, 0]);
  });

  test('a gain left out is off on either scale', () => {
    const read = readRig({ ...directMachine(), tail: { ...tailOf(), gyro: { scale: 'centred' } } });
    expect(read.ok && read.rig.tail?.gyro?.gain).toBe(50);
  });

  test('the document itself is left as it was', () => {
    const document = directMachine();
    readRig(document);
    expect(document).toEqual(directMachine());
  });
});

describe('what readRig accepts', () => {
  test('keys beginning x- anywhere, kept', () => {
    const document = spoiled({ ...directMachine(), 'x-note': { any: ['thing'] } }, ['servos', 0, 'horn', 'x-colour'], 'red');
    const read = readRig(document);
    expect(read.ok && (read.rig as unknown as Record<string, unknown>)['x-note']).toEqual({ any: ['thing'] });
    expect(read.ok && (read.rig.servos[0].horn as unknown as Record<string, unknown>)['x-colour']).toBe('red');
  });

  test('any finite azimuth, and two servos on one output', () => {
    expect(faultsOf(spoiled(directMachine(), ['servos', 0, 'horn', 'azimuth'], -97))).toEqual([]);
    expect(faultsOf(spoiled(directMachine(), ['servos', 0, 'horn', 'azimuth'], 390.9))).toEqual([]);
    expect(faultsOf(spoiled(directMachine(), ['servos', 0, 'output'], 2))).toEqual([]);
  });

  test('a station or lead of 0, and weights in place of azimuths', () => {
    expect(faultsOf(spoiled(directMachine(), ['rotor', 'pitchArm'], { station: 0, lead: 0, height: 20 }))).toEqual([]);
    const mix = {
      weights: [
        [1, 1, 0],
        [1, -0.5, 0.9],
        [1, -0.5, -0.9],
      ],
      collective: 50,
      elevator: 40,
      aileron: 40,
    };
    expect(faultsOf(spoiled(directMachine(), ['transmitter', 'mix'], mix))).toEqual([]);
  });

  test('every document that came with the model', () => {
    const answers = new URL('../answers/', import.meta.url);
    const json = (file: string): unknown => JSON.parse(readFileSync(new URL(file, answers), 'utf8'));
    const rigs = readdirSync(new URL('rigs', answers)).map((file) => json(`rigs/${file}`));
    const checks = ['direct', 'lever', 'flybar'].flatMap((kind) =>
      (json(`predict-${kind}.json`) as { rig: unknown }[]).map((entry) => entry.rig),
    );
    expect(rigs.length + checks.length).toBeGreaterThan(10);
    for (const document of [...rigs, ...checks]) expect(faultsOf(document)).toEqual([]);
  });
});

describe('what readRig refuses, each with its pointer', () => {
  const cases: [string, (string | number)[], unknown, string, RegExp][] = [
    ['a length of zero', ['servos', 1, 'link'], 0, '/servos/1/link', /^0, a length of zero$/],
    ['a negative length', ['servos', 1, 'horn', 'length'], -3, '/servos/1/horn/length', /^-3$/],
    ['a text for a number', ['swash', 'height'], 'high', '/swash/height', /^"high"$/],
    ['a number for a text', ['name'], 5, '/name', /^5$/],
    ['a missing value', ['rotor', 'hubHeight'], undefined, '/rotor/hubHeight', /^nothing$/],
    ['a misspelt key', ['servos', 2, 'hron'], {}, '/servos/2/hron', /unknown key "hron"/],
    ['a key with a slash in it', ['a/b~c'], 1, '/a~1b~0c', /unknown key "a\/b~c"/],
    ['a word that is none of ours', ['rotor', 'rotation'], 'counter-clockwise', '/rotor/rotation', /counter-clockwise/],
    ['two servos', ['servos'], directMachine().servos.slice(1), '/servos', /^a list of 2$/],
    ['four servos', ['servos'], [...directMachine().servos, directMachine().servos[0]], '/servos', /^a list of 4$/],
    ['more links than blades', ['rotor', 'links'], [50, 50, 50], '/rotor/links', /^3 of them, with 2 blades$/],
    ['two outputs', ['transmitter', 'outputs'], [{}, {}], '/transmitter/outputs', /^a list of 2$/],
    ['a lead to a fourth output', ['servos', 0, 'output'], 4, '/servos/0/output', /^4$/],
    [
      'a curve of one value',
      ['transmitter', 'flightModes'],
      [{ name: 'a', pitchCurve: [0] }],
      '/transmitter/flightModes/0/pitchCurve',
      /^\[0\]$/,
    ],
    [
      'a curve of 18 values',
      ['transmitter', 'flightModes'],
      [{ name: 'a', pitchCurve: Array(18).fill(0) }],
      '/transmitter/flightModes/0/pitchCurve',
      /^a list of 18$/,
    ],
    [
      'two modes of one name',
      ['transmitter', 'flightModes'],
      [{ name: 'a' }, { name: 'a' }],
      '/transmitter/flightModes/1/name',
      /^"a"$/,
    ],
    ['three balls in one line', ['servos', 2, 'ball'], { radius: 12.5, azimuth: 60 }, '/servos', /one line/],
    ['two balls in one place', ['servos', 2, 'ball', 'azimuth'], 480, '/servos', /one line/],
    [
      'limits the wrong way round',
      ['transmitter', 'rudder'],
      { limits: [2000, 1000] },
      '/transmitter/rudder/limits',
      /^\[2000, 1000\]$/,
    ],
    ['a pushrod without its lever', ['servos', 0, 'pushrod'], 30, '/servos/0/lever', /^nothing$/],
    ['neither layout nor weights', ['transmitter', 'mix', 'azimuths'], undefined, '/transmitter/mix/azimuths', /^nothing/],
    ['no ring ball on a direct head', ['rotor', 'ring'], undefined, '/rotor/ring', /^nothing$/],
    ['a pitch arm of no length', ['rotor', 'pitchArm', 'lead'], 0, '/rotor/pitchArm/lead', /^0, with a height of 0$/],
    ['a number beyond any machine', ['swash', 'guide'], 1e300, '/swash/guide', /^1e\+300$/],
    ['half a tooth', ['servos', 0, 'horn', 'tooth'], 0.5, '/servos/0/horn/tooth', /^0.5$/],
    ['a sense of 0', ['servos', 0, 'sense'], 0, '/servos/0/sense', /^0$/],
    ['a step for what is no length', ['steps'], [{ path: '/servos/0/horn/offset', step: 1 }], '/steps/0/path', /offset/],
    ['a step that says nothing', ['steps'], [{ path: '/servos/0/link' }], '/steps/0', /^neither/],
    ['a known value that is not there', ['known'], [{ path: '/servos/3/link', sd: 1 }], '/known/0/path', /servos\/3/],
    ['a known value of a part that is not there', ['known'], [{ path: '/tail/rod', sd: 1 }], '/known/0/path', /tail/],
    ['a newer format', ['format'], 'swashtrue-rig/2', '/format', /rig\/2/],
    ['an unknown format', ['format'], 'rig', '/format', /^"rig"$/],
  ];
  test.each(cases)('%s', (_, path, value, pointer, got) => {
    const faults = faultsOf(spoiled(directMachine(), path, value));
    expect(faults.map((fault) => fault.pointer)).toEqual([pointer]);
    expect(faults[0]?.got).toMatch(got);
    expect(faults[0]?.expected).toMatch(/\w/);
    expect(faults[0]?.wayOut).toMatch(/\w/);
  });

  test('a lever without its pushrod, stops the wrong way round and a gain off its scale', () => {
    const lever = { azimuth: 0, pivot: [0, 0, 0], servoEnd: { length: 9, angle: 0 }, swashEnd: { length: 9, angle: 0 } };
    expect(pointersOf(spoiled(directMachine(), ['servos', 0, 'lever'], lever))).toEqual(['/servos/0/pushrod']);
    const tail = { ...tailOf(), slider: { stops: [4, -4] }, gyro: { scale: 'centred', gain: -20 } };
    expect(pointersOf({ ...directMachine(), tail })).toEqual(['/tail/slider/stops', '/tail/gyro/gain']);
  });

  test('a misspelt key is told with the nearest known one, whatever else is written', () => {
    expect(faultsOf(spoiled(directMachine(), ['servos', 2, 'hron'], {}))[0]?.expected).toContain('"horn"');
    expect(faultsOf(spoiled(directMachine(), ['rotor', 'hubheight'], 1))[0]?.expected).toContain('"hubHeight"');
    expect(faultsOf(spoiled(directMachine(), ['rotor', 'rotation'], 'counter-clockwise'))[0]?.wayOut).toContain(
      '"counterclockwise"',
    );
  });

  test('a newer document is refused as newer, and nothing else is said of it', () => {
    const faults = faultsOf({ format: 'swashtrue-rig/12', whatever: true });
    expect(faults).toHaveLength(1);
    expect(faults[0]?.wayOut).toContain('newer than this program reads');
  });

  test.each([[null], [[]], ['text'], [7], [undefined]])('no object: %j', (document) => {
    expect(faultsOf(document).map((fault) => fault.pointer)).toEqual(['']);
  });

  test('a key named __proto__ is an unknown key like any other', () => {
    const document: unknown = JSON.parse(JSON.stringify(directMachine()).replace('{', '{"__proto__":{"x":1},'));
    expect(pointersOf(document)).toEqual(['/__proto__']);
  });

  test('every fault of a document at once', () => {
    let document: unknown = directMachine();
    const places: [(string | number)[], unknown, string][] = [
      [['swash', 'height'], undefined, '/swash/height'],
      [['servos', 0, 'link'], 0, '/servos/0/link'],
      [['servos', 1, 'horn', 'azimut'], 3, '/servos/1/horn/azimut'],
      [['rotor', 'links'], [50], '/rotor/links'],
      [['servos', 2, 'sense'], 2, '/servos/2/sense'],
      [['transmitter', 'outputs'], [{ limits: [2, 1] }, {}, { subtrim: 'much' }], '/transmitter/outputs/0/limits'],
    ];
    for (const [path, value] of places) document = spoiled(document, path, value);
    expect(pointersOf(document).toSorted()).toEqual(
      [...places.map((entry) => entry[2]), '/transmitter/outputs/2/subtrim'].toSorted(),
    );
  });
});
