import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { cpSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, test } from 'vitest';
import { coupling } from '../../packages/mixing/src/coupling/coupling.ts';
import { benchTrainer } from '../../packages/mixing/src/examples/bench-trainer.ts';
import { benchExamples, examples } from '../../packages/mixing/src/examples/examples.ts';
import { prepare } from '../../packages/mixing/src/rig/prepare.ts';
import { readRig } from '../../packages/mixing/src/rig/read.ts';
import { spoiled } from '../rig/machines.ts';
import { realProgram } from './program.ts';

const program = realProgram();
const rigFile = () => program.save('rig.json', benchTrainer);

describe('coupling', () => {
  test('--json prints the library’s own answer', async () => {
    const read = readRig(benchTrainer);
    if (!read.ok) throw new Error('the demo machine does not read');
    const { status, out, err } = await program.run(['coupling', rigFile(), '--at', '{"collective":0.5}', '--json']);
    expect([status, err]).toEqual([0, '']);
    expect(out).toBe(`${JSON.stringify(coupling(prepare(read.rig), { collective: 0.5 }))}\n`);
    const found = JSON.parse(out) as Record<string, unknown>;
    expect(Object.keys(found)).toEqual(expect.arrayContaining(['at', 'swash', 'blade', 'cross', 'standing', 'healthy']));
  });

  test('in words: slopes, coupling in percent, what stands before a stick moves, and the verdict', async () => {
    const well = await program.run(['coupling', rigFile()]);
    expect(well.status).toBe(0);
    expect(well.out).toMatch(/blades longitudinal +0\.000 +\+\d\.\d{3} +0\.000 +deg/);
    expect(well.out).toContain('  healthy:');
    // One horn 8 degrees high leans the ring before any stick moves (the model's second worked value says the same).
    const ill = await program.run(['coupling', '-'], JSON.stringify(spoiled(benchTrainer, ['servos', 0, 'horn', 'offset'], 8)));
    expect(ill.status).toBe(0);
    expect(ill.out).toMatch(/swashplate fore-aft -[1-9]\.\d{3}, side \+[1-9]\.\d{3} deg/);
    expect(ill.out).toContain('not healthy');
  });

  test('a machine that cannot be posed is exit status 1, in both forms', async () => {
    const short = JSON.stringify(spoiled(benchTrainer, ['servos', 1, 'link'], 75));
    const json = await program.run(['coupling', '-', '--json'], short);
    expect([json.status, Object.keys(JSON.parse(json.out) as object)]).toEqual([1, ['at', 'unreachable']]);
    const words = await program.run(['coupling', '-'], short);
    expect([words.status, words.out.includes('cannot be reached: servo')]).toEqual([1, true]);
  });

  test('a stick beyond its end is refused', async () => {
    const { status, err } = await program.run(['coupling', rigFile(), '--at', '{"elevator":-2}']);
    expect(status).toBe(2);
    expect(err).toMatch(/^--at: \/elevator: got -2, expected /);
  });
});

describe('example', () => {
  test.each(examples.map(({ name, document }) => ({ name, document })))(
    'prints $name, which reads back',
    async ({ name, document }) => {
      const { status, out } = await program.run(['example', name]);
      expect([status, JSON.parse(out)]).toEqual([0, document]);
      const predicted = await program.run(['predict', '-', '--json'], out);
      expect([predicted.status, predicted.err]).toEqual([0, '']);
    },
  );

  test('without a name prints the first; --json on one line; --list tells the names', async () => {
    const first = await program.run(['example', '--json']);
    expect([first.status, first.out]).toEqual([0, `${JSON.stringify(examples[0].document)}\n`]);
    const list = await program.run(['example', '--list']);
    const all = [...examples, ...benchExamples];
    for (const { name, about } of all) expect(list.out).toMatch(new RegExp(`${name} +${about}`));
    const names = (await program.run(['example', '--list', '--json'])).out
      .trim()
      .split('\n')
      .map((line) => (JSON.parse(line) as { name: string }).name);
    expect(names).toEqual(all.map(({ name }) => name));
    const readings = await program.run(['example', 'bench-readings', '--json']);
    expect((JSON.parse(readings.out) as { format: string }).format).toBe('swashtrue-readings/1');
  });

  test('refuses a name that is none, with the nearest', async () => {
    const { status, err } = await program.run(['example', 'bench-trainr']);
    expect([status, err]).toEqual([2, expect.stringMatching(/got "bench-trainr", expected one of .*nearest is "bench-trainer"/)]);
  });
});

describe('schema', () => {
  test.each(['rig', 'readings', 'targets', 'tolerances'])('of %s is a JSON Schema of 2020-12', async (kind) => {
    const { status, out } = await program.run(['schema', kind, '--json']);
    const schema = JSON.parse(out) as { $schema: string };
    expect([status, schema.$schema]).toEqual([0, 'https://json-schema.org/draft/2020-12/schema']);
    const valid = new Ajv2020({ strictTypes: false, strictRequired: false }).compile(schema);
    expect(valid({})).toBe(false);
    if (kind === 'rig') for (const { document } of examples) expect([valid(document), valid.errors]).toEqual([true, null]);
  });

  test('refuses another word', async () => {
    const { status, err } = await program.run(['schema', 'rigs']);
    expect([status, err]).toEqual([2, expect.stringContaining('Allowed choices are rig, readings, targets, tolerances')]);
  });
});

describe('view', () => {
  test.each(['SIGINT', 'SIGTERM'] as const)('serves the page and the document on a loopback port until %s', async (signal) => {
    const child = spawn(process.execPath, [program.launcher, 'view', rigFile(), '--json'], {
      stdio: ['ignore', 'pipe', 'inherit'],
    });
    const [line] = (await once(child.stdout.setEncoding('utf8'), 'data')) as [string];
    const { address } = JSON.parse(line) as { address: string };
    expect(address).toMatch(/^http:\/\/127\.0\.0\.1:\d+\/(\?opened)?$/);
    expect(await (await fetch(address)).text()).toContain('a page');
    const opened = (await (await fetch(new URL('opened.rig.json', address))).json()) as { name: string };
    expect(opened.name).toBe(benchTrainer.name);
    child.kill(signal);
    expect(await once(child, 'close')).toEqual([0, null]);
  });

  test('refuses a document that cannot be used, and a port that is none, before it serves anything', async () => {
    const bad = await program.run(['view', '-'], '{}');
    expect([bad.status, bad.out]).toEqual([2, '']);
    expect(bad.err).toMatch(/^standard input: \/format: got nothing/m);
    const port = await program.run(['view', '--port', '70000']);
    expect([port.status, port.err]).toEqual([2, expect.stringContaining('--port: got "70000"')]);
  });
});

describe('the program itself', () => {
  test('without a command prints its help on standard error; --help prints it on standard output', async () => {
    const bare = await program.run([]);
    expect([bare.status, bare.out]).toEqual([2, '']);
    const help = await program.run(['--help']);
    expect([help.status, help.out, help.err]).toEqual([0, bare.err, '']);
    for (const command of ['predict', 'coupling', 'view', 'example', 'schema']) expect(help.out).toContain(`  ${command} `);
    expect((await program.run(['help', 'predict'])).out).toContain('--cases <file>');
  });

  test('tells its version', async () => {
    expect((await program.run(['--version'])).out).toMatch(/^\d+\.\d+\.\d+\n$/);
  });

  test.each([
    [['predicts'], /unknown command 'predicts'[\s\S]*predict/],
    [['predict'], /missing required argument 'rig'/],
    [['predict', 'rig.json', '--jsn'], /unknown option '--jsn'[\s\S]*--json/],
    [['predict', 'rig.json', 'more.json'], /too many arguments/],
    [['predict', '-', '--cases', '-'], /^standard input: \/: got asked for twice/],
    [['predict', 'no-such.json'], /^no-such\.json: \/: got no such file, expected a file to read; /],
    [['predict', '.'], /^\.: \/: got a folder, expected a file to read; /],
  ])('%j cannot be used: exit status 2, and why', async (words, why) => {
    const { status, out, err } = await program.run(words);
    expect([status, out]).toEqual([2, '']);
    expect(err).toMatch(why);
  });

  test('a launcher without its built program says how to build it', async () => {
    const bin = join(program.folder, 'unbuilt', 'bin');
    cpSync(dirname(program.launcher), bin, { recursive: true });
    const child = spawn(process.execPath, [join(bin, 'swashtrue.js')]);
    let err = '';
    child.stderr.on('data', (text: Buffer) => (err += text.toString()));
    expect(await once(child, 'close')).toEqual([3, null]);
    expect(err).toContain('npm run setup');
  });
});
