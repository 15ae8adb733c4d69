/** Adjustments in the words of the bench: which way, how far, and how to undo. */
import { describe, expect, it } from 'vitest';
import { adjustmentSays, planSays, turnsInWords, turnsOfThread } from '../../packages/mixing/src/plan/words.ts';
import { rigOf } from '../support/answer.ts';
import { randomRig } from '../support/machines.ts';

const rig = rigOf(randomRig(5, 'direct', { tail: true }));

describe('turns', () => {
  it.each([
    [0.5, 'half a turn'],
    [1, 'one turn'],
    [1.5, 'one and a half turns'],
    [3, 'three turns'],
    [2.25, '2.25 turns'],
    [9, '9 turns'],
  ])('%s', (turns, words) => expect(turnsInWords(turns)).toBe(words));

  it('are counted for threads, longer positive, and for nothing else', () => {
    expect(turnsOfThread(rig, { path: '/servos/0/link', by: -0.6 })).toBe(-1.5);
    expect(turnsOfThread(rig, { path: '/rotor/links/1', by: 0.2 })).toBe(0.5);
    expect(turnsOfThread(rig, { path: '/tail/rod', by: 0.8 })).toBe(2);
    expect(turnsOfThread(rig, { path: '/servos/0/horn/length', by: 2.5 })).toBeUndefined();
    expect(turnsOfThread(rig, { path: '/transmitter/outputs/0/subtrim', by: 4 })).toBeUndefined();
  });
});

describe('an adjustment says what to do and how to undo it', () => {
  it.each([
    [
      '/servos/1/link',
      { by: -0.6 },
      "Make servo 2's link 0.6 mm shorter: one and a half turns in (0.4 mm a turn). To undo, one and a half turns out.",
    ],
    ['/rotor/links/1', { by: 0.2 }, 'Make blade 2 link 0.2 mm longer: half a turn out (0.4 mm a turn). To undo, half a turn in.'],
    [
      '/servos/0/horn/length',
      { by: 2.5 },
      "Move the ball on servo 1's horn to the next hole out from the shaft (2.5 mm). To undo, as many in to it.",
    ],
    [
      '/servos/2/output',
      { to: 2 },
      "Plug servo 3's lead into output 2. To undo, back into output 3. Leads are swapped as a pair: move both before anything else.",
    ],
    ['/transmitter/outputs/0/subtrim', { by: 4 }, "Add 4 µs to output 1's sub-trim. To undo, take off 4 µs again."],
    ['/transmitter/outputs/0/subtrim', { by: -4 }, "Take 4 µs off output 1's sub-trim. To undo, add 4 µs again."],
    ['/transmitter/mix/phase', { by: -3 }, 'Take 3 degrees off mix phase. To undo, add 3 degrees again.'],
    [
      '/transmitter/outputs/2/neutral',
      { to: 760 },
      `Set output 3's neutral to 760 µs. To undo, set it back to ${rig.transmitter.outputs[2].neutral} µs.`,
    ],
  ])('%s %j', (path, change, says) => {
    expect(adjustmentSays(rig, { path, ...change } as never)).toBe(says);
  });

  it('a switch by its name and side', () => {
    expect(adjustmentSays(rig, { path: '/transmitter/outputs/1/reverse', to: true })).toMatch(
      /^Turn on output 2's reverse: reversed\. To undo, turn it off/,
    );
    expect(adjustmentSays(rig, { path: '/transmitter/outputs/1/reverse', to: false })).toMatch(/^Turn off output 2's reverse/);
  });

  it('a tooth by the way that the ball goes', () => {
    const apart = (360 / rig.servos[0].horn.teeth).toFixed(1);
    expect(adjustmentSays(rig, { path: '/servos/0/horn/tooth', by: 1 })).toContain(
      `one tooth further up (its ball up by ${apart} degrees). To undo, one tooth down`,
    );
    expect(adjustmentSays(rig, { path: '/servos/0/horn/tooth', by: -2 })).toContain('2 teeth further down');
  });

  it('a mix value by whether it then moves more or less, whatever its sign', () => {
    const negative = { ...rig, transmitter: { ...rig.transmitter, mix: { ...rig.transmitter.mix, elevator: -40 } } };
    expect(adjustmentSays(negative, { path: '/transmitter/mix/elevator', by: 2 })).toMatch(/Add 2 percent .*less far/);
    expect(adjustmentSays(negative, { path: '/transmitter/mix/elevator', by: -2 })).toMatch(/Take 2 percent off .*further/);
  });
});

describe('the plan in a sentence', () => {
  it('says what it does for the chance, or to leave alone, or to read more', () => {
    expect(planSays(3, 0.1, 0.96)).toBe('3 changes: the chance that all targets are met goes from 10 % to 96 %.');
    expect(planSays(1, 0.97, 0.97)).toBe(
      'One change of what the targets do not judge, as the tail or the paddles: they are met with a chance of 97 % before and after.',
    );
    expect(planSays(0, 0.97, 0.97)).toMatch(/leave it alone/);
    expect(planSays(0, 0.2, 0.2)).toMatch(/read more/);
    expect(planSays(1, 0.2, 0.9, { unknownPart: true })).toMatch(/replace it and read again/);
  });
});
