/**
 * The order of the bench, as rules: the whole procedure and every plan keep them, and each is broken by the order that it
 * forbids.
 */
import { describe, expect, it } from 'vitest';
import {
  brokenRules,
  inOrder,
  marksOf,
  type MarkedStep,
  ORDER_RULES,
  STAGES,
  stageOf,
} from '../../packages/mixing/src/plan/order.ts';
import { PROCEDURE, procedureFor } from '../../packages/mixing/src/plan/procedure.ts';
import { rigOf } from '../support/answer.ts';
import { KINDS, randomRig } from '../support/machines.ts';

const step = (name: string, ...marks: MarkedStep['marks'][number][]): MarkedStep => ({ name, marks });
const moved = (name: string, before: string) => {
  const steps = PROCEDURE.filter((entry) => entry.name !== name);
  const at = steps.findIndex((entry) => entry.name === before);
  return [...steps.slice(0, at), ...PROCEDURE.filter((entry) => entry.name === name), ...steps.slice(at)];
};

describe('the procedure', () => {
  it('breaks no rule, on any kind of machine', () => {
    expect(brokenRules(PROCEDURE)).toEqual([]);
    for (const kind of KINDS)
      for (const tail of [true, false]) expect(brokenRules(procedureFor(rigOf(randomRig(3, kind, { tail }))))).toEqual([]);
  });

  it('goes through the stages in their order, each step with a name of its own', () => {
    const places = PROCEDURE.filter(({ stage }) => stage !== 'record').map(({ stage }) => STAGES.indexOf(stage));
    expect(places).toEqual([...places].sort((a, b) => a - b));
    expect(new Set(PROCEDURE.map(({ name }) => name)).size).toBe(PROCEDURE.length);
    expect(new Set(PROCEDURE.map(({ stage }) => stage))).toEqual(new Set(STAGES.filter((stage) => stage !== 'ends')));
  });

  it('switches nothing on before the cautions are confirmed', () => {
    const first = PROCEDURE.findIndex(({ marks }) => marks.includes('powered'));
    expect(PROCEDURE.slice(0, first).some(({ marks }) => marks.includes('confirms-cautions'))).toBe(true);
    expect(brokenRules(moved('local-rules', 'hand-tests'))).toContain(
      'pulse: a powered step never before the cautions are confirmed',
    );
  });

  it('tries no direction after a range, and drives no corner before its limit', () => {
    expect(brokenRules(moved('collective-value', 'leads'))).toContain('directions: a direction never after a range');
    expect(brokenRules(moved('corners', 'limit-low'))).toContain('corners: no corner driven before its limit is set');
    expect(brokenRules(moved('limit-raised', 'corners'))).toContain(
      'limit-raised: a limit is raised only where corners were tried',
    );
  });

  it('leaves out what a machine has not', () => {
    const names = procedureFor(rigOf(randomRig(3, 'direct', { tail: false }))).map(({ name }) => name);
    expect(names).not.toContain('washout-arms');
    expect(names).not.toContain('tail-centre');
    expect(names).toContain('level');
  });
});

describe('the rules', () => {
  it.each(ORDER_RULES.map((rule) => [rule.says, rule] as const))('%s', (says, { mark, needs, never }) => {
    const bad = needs ? [step('it', mark)] : [step('first', never as never), step('it', mark)];
    const good = needs ? [step('first', needs), step('it', mark)] : [step('it', mark), step('then', never as never)];
    const only = ORDER_RULES.filter((rule) => rule.says === says);
    expect(brokenRules(bad, only)).toEqual([`it: ${says}`]);
    expect(brokenRules(good, only)).toEqual([]);
  });
});

describe('the order of changes', () => {
  const changes = [
    { path: '/tail/rod', by: 0.2 },
    { path: '/transmitter/mix/aileron', by: 2 },
    { path: '/transmitter/mix/elevator', to: 30 },
    { path: '/transmitter/mix/collective', by: 1 },
    { path: '/transmitter/outputs/0/travel/1', by: 3 },
    { path: '/transmitter/mix/phase', by: -4 },
    { path: '/rotor/links/1', by: 0.2 },
    { path: '/flybar/mixing/rods/0', by: 0.2 },
    { path: '/flybar/washout/links/0', by: 0.2 },
    { path: '/servos/0/link', by: -0.4 },
    { path: '/transmitter/outputs/1/subtrim', by: 8 },
    { path: '/servos/2/horn/tooth', by: -1 },
    { path: '/tail/gyro/reverse', to: true },
    { path: '/transmitter/rudder/reverse', to: true },
    { path: '/transmitter/outputs/1/reverse', to: true },
    { path: '/servos/1/output', to: 3 },
    { path: '/transmitter/mix/azimuths', to: [0, 120, 240] },
    { path: '/transmitter/outputs/2/neutral', to: 1520 },
  ];

  it('is that of the bench: all of them turned round come out in the right order', () => {
    const ordered = inOrder(changes).map(({ path }) => path);
    // those of one stage stay as they were given: the elevator sign and both reverses
    expect(ordered).toEqual([
      '/transmitter/outputs/2/neutral',
      '/transmitter/mix/azimuths',
      '/servos/1/output',
      '/transmitter/mix/elevator',
      '/transmitter/rudder/reverse',
      '/transmitter/outputs/1/reverse',
      '/tail/gyro/reverse',
      '/servos/2/horn/tooth',
      '/transmitter/outputs/1/subtrim',
      '/servos/0/link',
      '/flybar/washout/links/0',
      '/flybar/mixing/rods/0',
      '/rotor/links/1',
      '/transmitter/mix/phase',
      '/transmitter/mix/collective',
      '/transmitter/outputs/0/travel/1',
      '/transmitter/mix/aileron',
      '/tail/rod',
    ]);
  });

  it('keeps the rules where the given order breaks them', () => {
    const marked = (list: readonly { path: string; to?: unknown }[]) =>
      list.map((change) => ({ name: change.path, marks: marksOf(change) }));
    const own = ORDER_RULES.filter(({ needs }) => needs === undefined);
    expect(brokenRules(marked(changes), own).length).toBeGreaterThan(3);
    expect(brokenRules(marked(inOrder(changes)), own)).toEqual([]);
  });

  it('knows the stage of every change', () => {
    for (const change of changes) expect(stageOf(change)).not.toBe('hand-tests');
    expect(stageOf({ path: '/transmitter/mix/elevator', to: -30 })).toBe('directions');
    expect(stageOf({ path: '/transmitter/mix/elevator' })).toBe('cyclic');
  });
});
