import { readFileSync, symlinkSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { diagnose } from '../../packages/mixing/src/diagnosis/index.ts';
import { measuringUp } from '../../packages/mixing/src/diagnosis/measuring-up.ts';
import { readReadings } from '../../packages/mixing/src/diagnosis/readings-document.ts';
import { benchReadings } from '../../packages/mixing/src/examples/bench-readings.ts';
import { benchTrainer } from '../../packages/mixing/src/examples/bench-trainer.ts';
import { flybarTrainer } from '../../packages/mixing/src/examples/flybar-trainer.ts';
import { readRig } from '../../packages/mixing/src/rig/read.ts';
import { tailCheck } from '../../packages/mixing/src/tail/check.ts';
import { spoiled } from '../rig/machines.ts';
import { realProgram } from './program.ts';

const program = realProgram();
const rigOf = (document: unknown) => {
  const read = readRig(document);
  if (!read.ok) throw new Error(JSON.stringify(read.faults));
  return read.rig;
};

describe('tail', () => {
  test('--json prints the library’s own answer; a tail that is well is exit status 0', async () => {
    const { status, out } = await program.run(['tail', '-', '--json'], JSON.stringify(flybarTrainer));
    expect([status, out]).toEqual([0, `${JSON.stringify(tailCheck(rigOf(flybarTrainer)))}\n`]);
  });

  test('in words: cautions first, then the ends in a table, then what it means', async () => {
    const { status, out } = await program.run(['tail', '-'], JSON.stringify(flybarTrainer));
    expect(status).toBe(0);
    expect(out.indexOf('motor leads')).toBeLessThan(out.indexOf('full left rudder'));
    expect(out).toMatch(/full right rudder +1920\.0 +-40\.00 +\+4\.02 +0\.00 +\+24\.67/);
  });

  test('a reversed gyro is exit status 1', async () => {
    const reversed = JSON.stringify(spoiled(flybarTrainer, ['tail', 'gyro', 'reverse'], true));
    const { status, out } = await program.run(['tail', '-', '--json'], reversed);
    expect([status, (JSON.parse(out) as { gyro: string }).gyro]).toEqual([1, 'worsens']);
  });

  test('a machine without a tail is refused, with the pointer', async () => {
    const { status, out, err } = await program.run(['tail', '-'], JSON.stringify(benchTrainer));
    expect([status, out]).toEqual([2, '']);
    expect(err).toMatch(/^standard input: \/tail: got nothing.*, expected .*; /);
  });
});

describe('diagnose', () => {
  const rig = () => program.save('rig.json', benchTrainer);

  test('--json prints the library’s own answer, and finds the horn that stands high', async () => {
    const { status, out, err } = await program.run(['diagnose', rig(), '-', '--json'], JSON.stringify(benchReadings));
    expect([status, err]).toEqual([0, '']);
    const record = rigOf(benchTrainer);
    const read = readReadings(benchReadings, record);
    if (!read.ok) throw new Error(JSON.stringify(read.faults));
    expect(JSON.parse(out)).toEqual(JSON.parse(JSON.stringify(diagnose(record, read.readings))));
    const { causes } = JSON.parse(out) as { causes: { changes: { path: string }[] }[] };
    expect(causes[0]?.changes.map(({ path }) => path)).toEqual(['/servos/0/horn/offset']);
  }, 30_000);

  test('in words: causes with how sure, which are alike, what to read or look at next', async () => {
    const { status, out } = await program.run(['diagnose', rig(), '-'], JSON.stringify(benchReadings));
    expect(status).toBe(0);
    expect(out).toMatch(
      /^Likeliest first:\n +1 +\d+ % {2}Servo 1's horn \(left front\) stands \d\.\d° high \(give or take \d\.\d°\)/,
    );
    expect(out).toMatch(/No reading so far tells .* apart\./);
    expect(out).toMatch(/What would tell most:\n {2}\w/);
  }, 30_000);

  test('a wild reading is told by its place and what it was', async () => {
    const wild = {
      ...benchReadings,
      readings: benchReadings.readings.map((item, i) => (i === 10 ? { ...item, value: 9 } : item)),
    };
    const { out } = await program.run(['diagnose', rig(), '-'], JSON.stringify(wild));
    expect(out).toMatch(
      /Item 11 fits nothing and is taken for wrong: pitch of blade 2, mid-stick, blade 2 pointing to the tail, \+9\.0\./,
    );
  }, 30_000);

  test.each<[string, (string | number)[], unknown, string]>([
    ['a reading of what the machine lacks', ['readings', 3], { measure: 'slider', value: 1 }, '/readings/3/measure'],
    ['a misspelt key', ['readings', 3], { measure: 'side-tilt', vaule: 1 }, '/readings/3/vaule'],
    [
      'a reading while a stabiliser was on',
      ['readings', 3],
      { measure: 'side-tilt', value: 1, stabilised: true },
      '/readings/3/stabilised',
    ],
  ])('refuses %s', async (_, path, value, pointer) => {
    const { status, out, err } = await program.run(
      ['diagnose', rig(), '-', '--json'],
      JSON.stringify(spoiled(benchReadings, path, value)),
    );
    expect([status, out]).toEqual([2, '']);
    expect(err).toContain(`standard input: ${pointer}: got `);
  });

  test('nothing is sure where nothing was read that would show a fault, and that is said', async () => {
    const looked = { format: 'swashtrue-readings/1', readings: [{ seen: { path: '/servos/0/output', value: 1 } }] };
    const { status, out } = await program.run(['diagnose', rig(), '-'], JSON.stringify(looked));
    expect(status).toBe(0);
    expect(out).toMatch(/^ +1 +over 99 % +Nothing beyond the usual scatter/m);
    expect(out).toMatch(/^Not ruled out, for nothing noted so far would show it: .+, and \d+ more\.$/m);
  });

  test('tells which of the two documents is at fault', async () => {
    const bad = program.save('bad.json', spoiled(benchTrainer, ['servos', 0, 'link'], 0));
    const { status, err } = await program.run(['diagnose', bad, '-'], JSON.stringify(benchReadings));
    expect([status, err]).toEqual([2, expect.stringMatching(/bad\.json: \/servos\/0\/link: got 0, a length of zero/)]);
    const swapped = await program.run(['diagnose', rig(), rig()]);
    expect([swapped.status, swapped.err]).toEqual([
      2,
      expect.stringMatching(/rig\.json: \/format: got "swashtrue-rig\/1", expected "swashtrue-readings\/1"/),
    ]);
  });
});

describe('plan', () => {
  const rig = () => program.save('rig.json', benchTrainer);

  test('--json gives adjustments, what the gauge then shows and the chance, the same each time', async () => {
    const first = await program.run(['plan', rig(), '-', '--json'], JSON.stringify(benchReadings));
    expect([first.status, first.err]).toEqual([0, '']);
    const plan = JSON.parse(first.out) as {
      adjustments: { path: string; after: object[] }[];
      after: object[];
      meets: { chance: number };
    };
    expect(plan.adjustments.length).toBeGreaterThan(0);
    expect(plan.after.length).toBeGreaterThan(0);
    expect(plan.meets.chance).toBeGreaterThan(0.5);
    expect(first).toEqual(await program.run(['plan', rig(), '-', '--json'], JSON.stringify(benchReadings)));
  }, 60_000);

  test('in words: cautions before the first thing that is turned', async () => {
    const { status, out } = await program.run(['plan', rig(), '-'], JSON.stringify(benchReadings));
    expect(status).toBe(0);
    expect(out).toMatch(/^! Motor leads unplugged/);
    expect(out.indexOf('1. ')).toBeGreaterThan(out.lastIndexOf('! '));
    expect(out).toMatch(/Chance that all targets are then met: (over )?\d+ % \(level /);
  }, 60_000);

  test('targets that cannot be met are exit status 1; targets that cannot be used, 2', async () => {
    const readings = program.save('readings.json', benchReadings);
    const hopeless = { format: 'swashtrue-targets/1', collective: [-40, 40], cyclic: 30 };
    const far = await program.run(['plan', rig(), readings, '--targets', '-', '--json'], JSON.stringify(hopeless));
    expect(far.status).toBe(1);
    const bad = await program.run(['plan', rig(), readings, '--targets', '-'], JSON.stringify({ ...hopeless, mode: 'stunt' }));
    expect([bad.status, bad.out]).toEqual([2, '']);
    expect(bad.err).toMatch(/^standard input: \/mode: got "stunt", expected one of the flight modes "normal", "hover"; /);
  }, 60_000);
});

describe('measure', () => {
  test('--json prints the library’s own answer', async () => {
    const { status, out } = await program.run(['measure', '-', '--json'], JSON.stringify(flybarTrainer));
    expect([status, out]).toEqual([0, `${JSON.stringify(measuringUp(rigOf(flybarTrainer)))}\n`]);
  });

  test('in words: safe first, then how well and what each costs, best first', async () => {
    const { status, out } = await program.run(['measure', '-'], JSON.stringify(benchTrainer));
    expect(status).toBe(0);
    expect(out.indexOf('Motor leads unplugged')).toBe(0);
    expect(out).toMatch(/1 {2}\S.*: .* mm +\d+\.\d\d deg +\d+\.\d\d deg +\d+\.\d\d deg/);
    expect(out).toMatch(/servos' links: caliper, eye to eye/);
  });
});

describe('report', () => {
  test('writes one HTML file, with and without readings, and says where', async () => {
    const rig = program.save('rig.json', benchTrainer);
    const sheet = join(program.folder, 'sheet.html');
    const bare = await program.run(['report', rig, '--out', sheet, '--json']);
    expect([bare.status, bare.out]).toEqual([0, `${JSON.stringify({ out: sheet })}\n`]);
    const settings = readFileSync(sheet, 'utf8');
    expect(settings).toMatch(/^<!doctype html>[\s\S]*bench trainer[\s\S]*<\/html>\n$/);
    const read = await program.run(['report', rig, program.save('readings.json', benchReadings), '--out', sheet]);
    expect([read.status, read.out]).toEqual([0, expect.stringContaining(sheet)]);
    expect(readFileSync(sheet, 'utf8').length).toBeGreaterThan(settings.length);
  }, 60_000);

  test('never writes over what it read, whatever its name', async () => {
    const rig = program.save('kept.json', benchTrainer);
    const before = readFileSync(rig, 'utf8');
    const alias = join(program.folder, 'alias.json');
    symlinkSync(rig, alias);
    for (const out of [rig, alias, join(program.folder, 'mixing', '..', 'kept.json')]) {
      const { status, err } = await program.run(['report', rig, '--out', out]);
      expect([status, err]).toEqual([2, expect.stringMatching(/^--out: \/: got .*, expected another file; /)]);
    }
    expect(readFileSync(rig, 'utf8')).toBe(before);
  }, 30_000);

  test('a place that cannot be written is refused', async () => {
    const rig = program.save('rig.json', benchTrainer);
    for (const out of [join(program.folder, 'none', 'sheet.html'), program.folder]) {
      const { status, err } = await program.run(['report', rig, '--out', out]);
      expect([status, err]).toEqual([2, expect.stringMatching(/^--out: \/: got .*, expected a file to write; /)]);
    }
  }, 30_000);
});
