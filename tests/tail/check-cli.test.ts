/** The `tail` command as its user runs it: what it prints, in words and as JSON, and its exit status. */
import { describe, expect, test } from 'vitest';
import { flybarTrainer } from '../../packages/mixing/src/examples/flybar-trainer.ts';
import { tailCheck } from '../../packages/mixing/src/tail/check.ts';
import { runInside } from '../cli/program.ts';
import { directMachine, spoiled } from '../rig/machines.ts';
import { rigOf } from '../support/answer.ts';

const tail = (document: unknown, ...words: string[]) => runInside(['tail', '-', ...words], JSON.stringify(document));

describe('tail', () => {
  test('--json prints the library’s own answer and nothing else, on one line', async () => {
    const { status, out, err } = await tail(flybarTrainer, '--json');
    expect([status, err]).toEqual([0, '']);
    expect(out).toBe(`${JSON.stringify(tailCheck(rigOf(flybarTrainer)))}\n`);
    const found = JSON.parse(out) as Record<string, object>;
    expect(Object.keys(found)).toEqual(
      expect.arrayContaining(['rudder', 'gyro', 'centre', 'left', 'right', 'equal', 'adjustments']),
    );
    expect(Object.keys(found.centre ?? {})).toEqual(expect.arrayContaining(['horn', 'slider', 'pitch']));
    for (const end of ['left', 'right'])
      expect(Object.keys(found[end] ?? {})).toEqual(expect.arrayContaining(['slider', 'pitch', 'past']));
  });

  test('in words: cautions before all else, the verdict, the ends, the sentences', async () => {
    const { status, out } = await tail(flybarTrainer);
    expect(status).toBe(0);
    const lines = out.split('\n');
    expect(lines[0]).toMatch(/^! .*motor leads.*insulate/);
    expect(out).toContain('rudder: right way; gyro: corrects; slider travel: equal');
    expect(out).toMatch(/full right rudder +1920\.0 +-40\.00 +\+4\.02 +0\.00 +\+24\.67/);
    expect(out).toContain('Nothing needs turning.');
    expect(out).not.toContain('To turn');
  });

  test.each([
    [
      'reversed',
      ['transmitter', 'rudder', 'reverse'],
      true,
      /1\. Turn the rudder output's reverse off.*\(\/transmitter\/rudder\/reverse\)/,
    ],
    ['a gyro that worsens', ['tail', 'gyro', 'reverse'], true, /spins the moment it lifts/],
    ['binding', ['tail', 'slider', 'stops'], [-3, 3], /Full left rudder binds: it asks for 1\.02 mm past the stop at -3 mm\./],
    ['unequal', ['transmitter', 'rudder', 'travel'], [80, 100], /Travel is not equal/],
    ['out of reach', ['tail', 'rod'], 350, /At mid-stick the tail cannot be reached: tail rod is out by 3[34]\.\d+ mm/],
  ])('%s: exit status 1, said in words', async (_what, path, value, says) => {
    const { status, out, err } = await tail(spoiled(flybarTrainer, path, value));
    expect([status, err]).toEqual([1, '']);
    expect(out).toMatch(says);
  });

  test('a tail that cannot close is unreachable inside, and the JSON still stands', async () => {
    const { status, out } = await tail(spoiled(flybarTrainer, ['tail', 'rod'], 350), '--json');
    const found = JSON.parse(out) as ReturnType<typeof tailCheck>;
    expect([status, found.centre.unreachable?.path, found.equal, found.adjustments]).toEqual([1, '/tail/rod', false, []]);
  });

  test('a machine without a tail is refused: exit status 2', async () => {
    const { status, out, err } = await tail(directMachine());
    expect([status, out]).toEqual([2, '']);
    expect(err).toMatch(/^standard input: \/tail: got nothing: this machine has no tail, expected .*; add the tail/);
  });
});
