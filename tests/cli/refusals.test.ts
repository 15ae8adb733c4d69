import { describe, expect, test } from 'vitest';
import { benchTrainer } from '../../packages/mixing/src/examples/bench-trainer.ts';
import { spoiled } from '../rig/machines.ts';
import { placesOf, spoil } from '../support/spoil.ts';
import { extreme, KINDS, randomRig } from '../support/machines.ts';
import { seededRandom } from '../support/random.ts';
import { type Ended, realProgram, runInside } from './program.ts';

const program = realProgram();
/** FILE: /json/pointer: got ..., expected ...; way out */
const FAULT = /^standard input: (\/[^:]*(?:~[01][^:]*)*): got .+, expected .+; .+$/;

/** The pointers that are told of, having seen that every line has the form of the contract. */
function pointersIn({ err }: Ended): string[] {
  return err
    .trimEnd()
    .split('\n')
    .map((line) => {
      const fault = FAULT.exec(line);
      if (fault === null) throw new Error(`no fault by its form: ${line}`);
      return fault[1] ?? '';
    });
}

describe('a document that cannot be used', () => {
  const words = ['predict', '-', '--json'];

  test('every fault at once, each on a line of its own', async () => {
    let document: unknown = benchTrainer;
    for (const [path, value] of [
      [['swash', 'height'], undefined],
      [['servos', 0, 'link'], 0],
      [['servos', 1, 'hron'], 3],
      [['rotor', 'links'], [46]],
      [['servos', 2, 'horn', 'length'], '14 kg'],
    ] as [(string | number)[], unknown][]) {
      document = spoiled(document, path, value);
    }
    const ended = await program.run(words, JSON.stringify(document));
    expect([ended.status, ended.out]).toEqual([2, '']);
    expect(pointersIn(ended).toSorted()).toEqual([
      '/rotor/links',
      '/servos/0/link',
      '/servos/1/hron',
      '/servos/2/horn/length',
      '/swash/height',
    ]);
    expect(ended.err).toContain('the nearest is "horn"');
  });

  test.each<[string, string, string, RegExp]>([
    ['nothing', '', '/', /got nothing, expected one JSON document/],
    ['no JSON', '{"format": "swashtrue-rig/1",\n  oops', '/', /got text that is not JSON \(line 2, column 3\)/],
    ['cut short', '{"format": ', '/', /got text that is not JSON/],
    ['another thing', '[1, 2]', '/', /got \[1, 2\], expected an object/],
    [
      'a newer format',
      JSON.stringify({ ...benchTrainer, format: 'swashtrue-rig/2' }),
      '/format',
      /newer than this program reads/,
    ],
    ['another document', JSON.stringify({ format: 'swashtrue-readings/1', readings: [] }), '/format', /another document/],
  ])('%s', async (_, input, pointer, told) => {
    const ended = await program.run(words, input);
    expect([ended.status, ended.out, pointersIn(ended)]).toEqual([2, '', [pointer]]);
    expect(ended.err).toMatch(told);
  });

  test('keys with control characters and line ends stay on their line', async () => {
    const ended = await program.run(words, JSON.stringify(spoiled(benchTrainer, ['ev\u001b[31mil\n: x'], 1)));
    expect(ended.status).toBe(2);
    expect(ended.err.trimEnd()).not.toMatch(/\p{Cc}/u);
  });

  test('a document nested a hundred thousand deep, in a key of one’s own and elsewhere', async () => {
    const deep = `${'['.repeat(1e5)}${']'.repeat(1e5)}`;
    const text = JSON.stringify(benchTrainer);
    for (const [key, statuses] of [
      ['x-deep', [0, 2]],
      ['deep', [2]],
    ] as const) {
      const ended = await runInside(words, text.replace('{', `{"${key}":${deep},`));
      expect(statuses).toContain(ended.status);
    }
  });
});

describe('500 spoiled documents (seeds 1 to 500) each end in an answer, unreachable, or a refusal with a pointer', () => {
  const machine = (seed: number) => randomRig(seed, KINDS[seed % KINDS.length] ?? 'direct');
  const words = ['predict', '-', '--json', '--case', '{"collective":0.5,"elevator":-0.3}', '--case', '{"aileron":1,"rudder":-1}'];

  /** Checks one run; `damaged` is where the document was spoiled. */
  function check(ended: Ended, text: string, damaged: string): void {
    const told = `${text.slice(0, 2000)}\n${ended.err}`;
    expect([0, 1, 2], told).toContain(ended.status);
    if (ended.status === 2) {
      expect(ended.out, told).toBe('');
      const pointers = pointersIn(ended);
      const near = pointers.some(
        (pointer) =>
          pointer === '/' || damaged === pointer || damaged.startsWith(`${pointer}/`) || pointer.startsWith(`${damaged}/`),
      );
      expect(near, `${damaged} is not told of:\n${told}`).toBe(true);
    } else {
      const lines = ended.out.trimEnd().split('\n');
      expect(lines, told).toHaveLength(2);
      for (const line of lines) {
        // JSON has no NaN: it would stand as null.
        const broken = placesOf(JSON.parse(line)).filter(({ value }) => value === null);
        expect(broken, told).toEqual([]);
      }
      expect(ended.status === 1, told).toBe(ended.out.includes('"unreachable"'));
    }
  }

  test('known damage, inside this process', async () => {
    for (let seed = 1; seed <= 250; seed++) {
      const { document, damage } = spoil(machine(seed), seed);
      const text = JSON.stringify(document);
      check(await runInside(words, text), text, damage.pointer);
    }
  }, 60_000);

  /** Any value anywhere replaced by any other: most are refused, some are machines nobody would build. */
  function anyDamage(seed: number): { text: string; pointer: string } {
    const random = seededRandom(seed);
    const document = structuredClone(random.chance(0.5) ? machine(seed) : extreme(seed)) as object;
    const places = placesOf(document).filter(({ pointer }) => pointer !== '');
    const { pointer } = random.pick(places);
    const tokens = pointer.slice(1).split('/');
    const any = [0, -1, 1e-9, 1e9, 1e308, -1e308, 180, 0.5, '', 'x', '14 mm', '10 deg', true, null, [], {}, [0], { radius: 1 }];
    const text = JSON.stringify(spoiled(document, tokens, random.pick(any)));
    // Sometimes the text itself is cut or bent.
    const cut = random.whole(0, text.length - 1);
    if (random.chance(0.1)) return { text: text.slice(0, cut), pointer: '/' };
    if (random.chance(0.1))
      return { text: `${text.slice(0, cut)}${random.pick(['"', ',', '}', '\u0000', '1'])}${text.slice(cut)}`, pointer: '/' };
    return { text, pointer };
  }

  test('any damage, inside this process', async () => {
    let refused = 0;
    for (let seed = 251; seed <= 470; seed++) {
      const { text } = anyDamage(seed);
      const ended = await runInside(words, text);
      if (ended.status === 2) {
        refused += 1;
        expect(pointersIn(ended).length).toBeGreaterThan(0);
      } else check(ended, text, '/');
    }
    // Both ends must be met, or the damage tests one of them alone.
    expect(refused).toBeGreaterThan(60);
    expect(refused).toBeLessThan(215);
  }, 60_000);

  test('the last thirty through the program as a person runs it', async () => {
    const seeds = Array.from({ length: 30 }, (_, i) => 471 + i);
    const one = async (seed: number) => {
      const { text } = anyDamage(seed);
      const real = await program.run(words, text);
      expect(real).toEqual(await runInside(words, text));
      expect([0, 1, 2]).toContain(real.status);
    };
    for (let i = 0; i < seeds.length; i += 2) await Promise.all(seeds.slice(i, i + 2).map(one));
  }, 60_000);
});
