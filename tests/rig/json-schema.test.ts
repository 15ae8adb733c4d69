import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, test } from 'vitest';
import { readingsSchema } from '../../packages/mixing/src/diagnosis/readings-schema.ts';
import { targetsSchema } from '../../packages/mixing/src/plan/targets-document.ts';
import { jsonSchemaOf } from '../../packages/mixing/src/rig/json-schema.ts';
import { readRig } from '../../packages/mixing/src/rig/read.ts';
import { rigSchema } from '../../packages/mixing/src/rig/schema.ts';
import { tolerancesSchema } from '../../packages/mixing/src/tolerance/tolerances-document.ts';
import { directMachine, spoiled, tailOf } from './machines.ts';

const ajv = new Ajv2020({ allErrors: true, strict: true, strictTypes: false, strictRequired: false });
const validates = (schema: Parameters<typeof jsonSchemaOf>[0]) => ajv.compile(jsonSchemaOf(schema, 'a document'));

describe('the printed JSON Schema of a rig', () => {
  const valid = validates(rigSchema);
  const check = (document: unknown) => (valid(document) ? [] : (valid.errors ?? []).map((error) => error.instancePath));

  test('is of 2020-12, by its own words and by a validator of that draft in strict mode', () => {
    expect(jsonSchemaOf(rigSchema, 'rig')).toMatchObject({
      $schema: 'https://json-schema.org/draft/2020-12/schema',
      title: 'rig',
    });
  });

  test('accepts what readRig accepts: as written, with texts, with keys of one’s own, and as read', () => {
    const document = { ...directMachine(), tail: { ...tailOf(), gyro: {} }, 'x-note': [1] };
    expect(check(document)).toEqual([]);
    expect(check(spoiled(document, ['servos', 0, 'horn', 'length'], '0.55 in'))).toEqual([]);
    expect(check(spoiled(document, ['servos', 0, 'horn', 'x-colour'], 'red'))).toEqual([]);
    const read = readRig(document);
    expect(read.ok && check(read.rig)).toEqual([]);
  });

  test.each<[string, (string | number)[], unknown, string]>([
    ['a length of zero', ['servos', 1, 'link'], 0, '/servos/1/link'],
    ['a missing value', ['swash', 'height'], undefined, '/swash'],
    ['an unknown key', ['servos', 2, 'hron'], {}, '/servos/2'],
    ['two servos', ['servos'], directMachine().servos.slice(1), '/servos'],
    ['an unknown word', ['rotor', 'rotation'], 'ccw', '/rotor/rotation'],
    ['a text for a switch', ['transmitter', 'outputs'], [{ reverse: 'yes' }, {}, {}], '/transmitter/outputs/0/reverse'],
    ['a text without a number for a quantity', ['swash', 'guide'], 'left', '/swash/guide'],
    ['a text for a count', ['rotor', 'blades'], '2', '/rotor/blades'],
    ['a newer format', ['format'], 'swashtrue-rig/2', '/format'],
  ])('refuses %s', (_, path, value, pointer) => {
    expect(check(spoiled(directMachine(), path, value))).toContain(pointer);
  });

  test('says each quantity in words with its unit, and its default', () => {
    const printed = JSON.stringify(jsonSchemaOf(rigSchema, 'rig'));
    expect(printed).toContain('"description":"link: mm, eye to eye, from the horn\'s or the lever\'s ball to the ring\'s"');
    expect(printed).toContain('"description":"rate: degrees a microsecond"');
    expect(printed).toContain('"default":1520');
  });
});

describe('the other schemas', () => {
  test('readings', () => {
    const valid = validates(readingsSchema);
    const readings = (...items: unknown[]) => ({ format: 'swashtrue-readings/1', readings: items });
    expect(
      valid(
        readings(
          { measure: 'blade-pitch', value: 1 },
          { adjusted: { path: '/rotor/links/0', by: 0.4 } },
          { inspected: { part: 'mast', found: 'bent' } },
        ),
      ),
    ).toBe(true);
    expect(valid(readings({ measure: 'blade-pitch' }))).toBe(false);
    expect(valid(readings({ measure: 'blade-pitch', value: 1, adjusted: { path: '/a', by: 1 } }))).toBe(false);
    expect(valid(readings({ adjusted: { path: '/rotor/links/0' } }))).toBe(false);
  });

  test('targets', () => {
    const valid = validates(targetsSchema);
    expect(valid({ format: 'swashtrue-targets/1', collective: [-8, '11 deg'], within: { corners: true } })).toBe(true);
    expect(valid({ format: 'swashtrue-targets/1', within: { levle: 1 } })).toBe(false);
  });

  test('tolerances', () => {
    const valid = validates(tolerancesSchema);
    expect(valid({ format: 'swashtrue-tolerances/1', items: [{ path: '/servos/0/link', plusMinus: '0.1 mm' }] })).toBe(true);
    expect(valid({ format: 'swashtrue-tolerances/1', items: [{ path: '/servos/0/link' }] })).toBe(false);
  });
});
