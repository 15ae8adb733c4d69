/** The page's content policy forbids making code out of text, so nothing of the library may do it, not even to see whether it could. */
import { readFileSync } from 'node:fs';
import { afterAll, beforeAll, expect, test } from 'vitest';

const made: string[] = [];
// biome-ignore lint/security/noGlobalEval: this is the trap for it
const original = { Function: globalThis.Function, eval: globalThis.eval };

beforeAll(() => {
  const told = (args: unknown[]) => {
    made.push(args.map(String).join(', '));
  };
  globalThis.Function = new Proxy(original.Function, {
    construct: (target, args) => {
      told(args);
      return Reflect.construct(target, args);
    },
    apply: (target, self, args) => {
      told(args);
      return Reflect.apply(target, self, args);
    },
  });
  globalThis.eval = (text: string) => {
    told([text]);
    return original.eval(text);
  };
});

afterAll(() => {
  Object.assign(globalThis, original);
});

test('reading, changing, posing and printing a document makes no code', async () => {
  new Function('return 1')();
  expect(made.splice(0), 'the trap itself').toEqual(['return 1']);

  const { readRig, prepare, predict } = await import('../../packages/mixing/src/index.ts');
  const document = JSON.parse(readFileSync(new URL('../answers/rigs/worked-120.rig.json', import.meta.url), 'utf8'));
  const read = readRig(document);
  if (!read.ok) throw new Error(`the worked machine: got ${read.faults.length} faults, expected none`);
  predict(prepare(read.rig), { elevator: 0.3 });
  readRig({ ...document, servos: 'none' });
  expect(made).toEqual([]);
});
