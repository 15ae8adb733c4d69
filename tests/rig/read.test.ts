import { readdirSync, readFileSync, existsSync } from 'node:fs';
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
