/**
 * The tail check on seeded random tails set wrong in every way of `check-machines.ts`: its adjustments, applied as any
 * change is, leave a tail that is free and equal on both sides, stick and gyro the right way. The judge is the second model
 * (tests/support/second-model), which shares no code with the library.
 */
import { describe, expect, test } from 'vitest';
import { applyChanges } from '../../packages/mixing/src/rig/changes.ts';
import type { Case, Rig } from '../../packages/mixing/src/rig/rig.ts';
import { type TailCheck, tailCheck, tailIsWell } from '../../packages/mixing/src/tail/check.ts';
import { expectNear } from '../support/expect-near.ts';
import type { MachineDocument } from '../support/machines.ts';
import { closeTail } from '../support/second-model/tail.ts';
import { healthyTail, machineWith, SPOILS, spoiledTail } from './check-machines.ts';

const COUNT = 500;

/** What the second model shows; throws where the tail cannot be posed. */
function shows(rig: Rig, kase: Case): { slider: number; past: number; pitch: number } {
  const tail = closeTail(rig as MachineDocument, kase);
  if (!tail || 'unreachable' in tail)
    throw new Error(`a tail that closes at ${JSON.stringify(kase)}: got ${JSON.stringify(tail)}`);
  return tail;
}

function expectHealthy(rig: Rig, told: string): void {
  const left = shows(rig, { rudder: -1 });
  const right = shows(rig, { rudder: 1 });
  expectNear([left.past, right.past], [0, 0], 0, 'mm', `${told}: past the stops`);
  expectNear(left.slider + right.slider, 0, 0.1, 'mm', `${told}: slider travel, left against right`);
  expect(right.pitch, `${told}: pitch by right rudder`).toBeGreaterThan(left.pitch + 1);
  const { gyro } = rig.tail as NonNullable<Rig['tail']>;
  if (gyro === undefined || gyro.gain === (gyro.scale === 'centred' ? 50 : 0)) return;
  expect(shows(rig, { yawRate: 1 }).pitch, `${told}: pitch as the nose swings left`).toBeGreaterThan(
    shows(rig, { yawRate: -1 }).pitch,
  );
  // The gyro drives to its limit whatever the stick does: a swing fast enough for any gain that can be told from off.
  for (const yawRate of [-1e7, 1e7])
    expectNear(shows(rig, { yawRate }).past, 0, 0, 'mm', `${told}: past the stops at the gyro's limit`);
}

const ORDER = [
  '/transmitter/rudder/reverse',
  '/tail/gyro/reverse',
  '/transmitter/rudder/subtrim to',
  '/tail/servo/horn/tooth',
  '/tail/rod',
  '/transmitter/rudder/subtrim',
  '/tail/gyro/limit',
  '/transmitter/rudder/travel',
];

/** Whole steps, in the order of the bench, nothing twice. */
function expectTurnable(rig: Rig, { adjustments }: TailCheck, told: string): void {
  const places = adjustments.map((adjustment) => {
    const path = adjustment.path.replace(/travel\/\d/, 'travel');
    return ORDER.indexOf(path.endsWith('subtrim') && 'to' in adjustment ? `${path} to` : path);
  });
  expect(places, `${told}: in order, and known`).toEqual([...places].sort((a, b) => a - b));
  expect(places, told).not.toContain(-1);
  for (const adjustment of adjustments) {
    const value = 'by' in adjustment ? adjustment.by : adjustment.to;
    if (adjustment.path === '/tail/rod') {
      const step = rig.steps.map((entry) => ('step' in entry ? entry.step : 0))[0] ?? rig.linkStep;
      expectNear((value as number) / step, Math.round((value as number) / step), 1e-6, 'steps', `${told}: rod`);
      expectNear(adjustment.turns, (value as number) / 0.4, 1e-9, 'turns of an M2 thread', `${told}: rod`);
    } else if (typeof value === 'number') {
      expect(Number.isInteger(value), `${told}: ${adjustment.path} ${value} is whole`).toBe(true);
    }
  }
}

describe('the tail check on random tails', () => {
  test('200 healthy tails (seeds 8000 and on): right ways, free, and nothing but travel for what their linkage leaves uneven', () => {
    let untouched = 0;
    for (let seed = 8000; seed < 8200; seed++) {
      const rig = machineWith(healthyTail(seed));
      const check = tailCheck(rig);
      const told = `seed ${seed}`;
      expect([check.rudder, check.gyro === 'worsens', check.left.past, check.right.past], told).toEqual([
        'right way',
        false,
        0,
        0,
      ]);
      expectNear(check.centre.slider, 0, 1e-9, 'mm', `${told}: slider at mid-stick`);
      for (const { path } of check.adjustments) expect(path, told).toMatch(/rudder\/travel/);
      expect(check.adjustments.length === 0, told).toBe(check.equal);
      if (check.equal) untouched++;
    }
    expect(untouched).toBeGreaterThan(100);
  });

  test(`what it says to turn leaves ${COUNT} tails (seeds 7000 and on) free and equal, both ways right, and is then silent`, () => {
    const seen = new Set<string>();
    for (let seed = 7000; seed < 7000 + COUNT; seed++) {
      const { setting, names } = spoiledTail(seed);
      const told = `seed ${seed}, ${names.join(', ')}`;
      for (const name of names) seen.add(name);
      const rig = machineWith(setting);
      const check = tailCheck(rig);
      expectTurnable(rig, check, told);
      const cured = applyChanges(rig, check.adjustments);
      expectHealthy(cured, told);
      const again = tailCheck(cured);
      expect([tailIsWell(again), again.adjustments], told).toEqual([true, []]);
      const last = check.adjustments.at(-1);
      if (last) expect(last.after, told).toEqual({ centre: again.centre, left: again.left, right: again.right });
      else expect(tailIsWell(check), told).toBe(true);
    }
    expect([...seen].sort()).toEqual(Object.keys(SPOILS).sort());
  }, 60_000);
});
