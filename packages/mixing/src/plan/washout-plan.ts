/**
 * The washout's part of a plan: paddles at zero at mid-stick. Held flybar blades do not feel the washout, so that the
 * head's targets do not either; in flight a paddle that is not at zero tips the flybar. One step of one rod or link at a
 * time, whichever brings the paddles nearest to zero on all machines.
 */
import { DEG_PER_RAD } from '../quantities/angles.ts';
import { makePose, poseHead, poseRing, setHorns, setSticks } from '../rig/pose.ts';
import { WASHOUT } from '../flybar/washout.ts';
import { linkStepOf } from '../rig/link-step.ts';
import type { Rig } from '../rig/rig.ts';
import { type DrawnMachine, preparing } from './machines.ts';
import type { Alteration } from './place.ts';

/** Paddles within this are at zero, degrees: twice what a paddle gauge tells (common practice, no source). */
const WITHIN_DEG = 1;
/** Left alone where the paddles are at zero with this chance; and what a turning must add. No source. */
const WELL = 0.8;
const GAIN = 0.1;
const TRIED = 32;
const MOST_STEPS = 10;
const PARTS = ['links/0', 'links/1', 'rods/0', 'rods/1'] as const;

/** `changes`: what the head's plan does first. `blame`: how sure it is that a part is off, by its path. */
export function washoutPlan(
  record: Rig,
  machines: readonly DrawnMachine[],
  changes: readonly Alteration[],
  mode: number,
  blame: ReadonlyMap<string, number>,
): Alteration[] {
  if (!record.flybar) return [];
  const tried = machines.slice(0, TRIED);
  const paddlesWith = (more: readonly Alteration[]) => tried.map((machine) => paddleDeg(machine, [...changes, ...more], mode));
  const standing = paddlesWith([]);
  if (chanceOf(standing) >= WELL) return [];
  let best: { change: Alteration; chance: number; spread: number } | undefined;
  // The part that is blamed most is tried first and kept unless another does clearly better.
  const parts = PARTS.map((part) => `/flybar/washout/${part}`).sort((a, b) => (blame.get(b) ?? 0) - (blame.get(a) ?? 0));
  for (const path of parts) {
    const step = linkStepOf(record, path);
    if (step === undefined) continue;
    const trial = paddlesWith([{ path, by: step }]);
    const slope = median(trial.map((deg, s) => deg - (standing[s] as number)));
    const steps = Math.round(-median(standing) / slope);
    if (!Number.isFinite(steps) || steps === 0 || Math.abs(steps) > MOST_STEPS) continue;
    const change: Alteration = { path, by: Math.round(steps * step * 1e6) / 1e6 };
    const after = paddlesWith([change]);
    const chance = chanceOf(after);
    if (best === undefined || chance > best.chance + GAIN) best = { change, chance, spread: 0 };
  }
  return best !== undefined && best.chance >= chanceOf(standing) + GAIN ? [best.change] : [];
}

const chanceOf = (paddles: readonly number[]) => paddles.filter((deg) => Math.abs(deg) <= WITHIN_DEG).length / paddles.length;

function median(values: readonly number[]): number {
  const sorted = values.filter((value) => value === value).sort((a, b) => a - b);
  return sorted[sorted.length >> 1] ?? Number.NaN;
}

/** Paddle pitch at mid-stick, degrees, the flybar held level; NaN where it cannot be reached. */
function paddleDeg(machine: DrawnMachine, changes: readonly Alteration[], mode: number): number {
  const prepared = preparing(changes)(machine);
  const pose = makePose(prepared);
  setSticks(prepared, pose, mode, 0, 0, 0);
  setHorns(prepared, pose);
  if (!poseRing(prepared, pose) || !poseHead(prepared, pose, 1, 0, 0)) return Number.NaN;
  return (pose.flybar.washout[WASHOUT.PADDLE] as number) * DEG_PER_RAD;
}
