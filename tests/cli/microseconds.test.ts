/** Microseconds as a person reads them: µs, or the word. In JSON the unit is `us`, as the contract has it. */
import { expect, test } from 'vitest';
import { flybarTrainer } from '../../packages/mixing/src/examples/flybar-trainer.ts';
import { procedureFor } from '../../packages/mixing/src/plan/procedure.ts';
import { rigOf } from '../support/answer.ts';
import { runInside } from './program.ts';

/** The unit as JSON has it, after a number or alone in a column. */
const RAW = /(^|[\s\d])us\b/m;

test('predict, tail and the procedure say µs', async () => {
  const predict = await runInside(['predict', '-', '--case', '{"rudder": 1}'], JSON.stringify(flybarTrainer));
  expect(predict.out).toMatch(/output pulse .* µs\n/);
  expect(predict.out).toMatch(/tail pulse [\d.]+ µs, horn/);
  const tail = await runInside(['tail', '-'], JSON.stringify(flybarTrainer));
  expect(tail.out).toMatch(/ µs +deg +mm/);
  const steps = procedureFor(rigOf(flybarTrainer)).map(({ says }) => says);
  expect(steps.join('\n')).toMatch(/1520 or 1500 µs/);
  for (const text of [predict.out, tail.out, ...steps]) expect(text).not.toMatch(RAW);
});
