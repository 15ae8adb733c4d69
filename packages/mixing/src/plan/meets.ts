/**
 * Drawn machines with a plan made in, the chance of each target out.
 */
import { makePose, poseHead, poseRing, setHorns, setSticks } from '../rig/pose.ts';
import type { PreparedRig } from '../rig/prepare.ts';
import { type Judge, TARGET_NAMES, type TargetName } from './judge.ts';
import { type DrawnMachine, errorsOfPrepared, preparing } from './machines.ts';
import type { Alteration } from './place.ts';
import type { TargetQuantities } from './target-quantities.ts';

/** Chances, 0 to 1. */
export interface Meets extends Record<TargetName, number> {
  /** that all targets which count are met */
  chance: number;
  /** that no output has more sub-trim than the targets allow, or than MOST_SUBTRIM_US where they say nothing */
  subtrim: number;
  /** free of binding and saturation at every full-stick corner */
  corners: number;
}

/** Common practice, no source. */
const MOST_SUBTRIM_US = 60;

/** Machines on which the corners are driven: they cost more than all else, and count only where the targets ask for them. */
const CORNERED = 40;

export interface Verdict {
  /** whether each machine meets all targets that count */
  met: boolean[];
  /** of those, the share */
  chance: number;
  /** the chance of each, where all the rest does as it likes */
  each: Record<TargetName | 'subtrim' | 'corners', number>;
}

/** Where fewer machines than this meet all targets, one of them may be out of a hand's reach, and the others are counted singly. */
export const HOPELESS = 0.05;

/** Judges changes on drawn machines. */
export class Assessor {
  constructor(
    private readonly judge: Judge,
    private readonly quantities: TargetQuantities,
    private readonly machines: readonly DrawnMachine[],
    private readonly mode: number,
  ) {}

  assess(changes: readonly Alteration[]): Verdict {
    const { judge, machines } = this;
    const { within } = judge.targets;
    const prepared = machines.map(preparing(changes));
    const errors = errorsOfPrepared(prepared, this.quantities, judge.aims());
    const trimmed = prepared.map((machine) => mostSubtrimUs(machine) <= (within.subtrim ?? MOST_SUBTRIM_US));
    const cornered = within.corners === true ? prepared : prepared.slice(0, CORNERED);
    const free = cornered.map((machine) => cornersFree(machine, this.mode));
    const counts = TARGET_NAMES.map(() => 0);
    const met = machines.map((_machine, s) => {
      const ratios = judge.ratiosOf(errors, s * judge.layout.size);
      let all = (within.subtrim === undefined || trimmed[s] === true) && (within.corners !== true || free[s] === true);
      TARGET_NAMES.forEach((_name, t) => {
        if ((ratios[t] as number) <= 1) counts[t] = (counts[t] as number) + 1;
        else all = false;
      });
      return all;
    });
    const head = TARGET_NAMES.map((name, t) => [name, (counts[t] as number) / machines.length] as const);
    const each = { ...Object.fromEntries(head), subtrim: shareOf(trimmed), corners: shareOf(free) } as Verdict['each'];
    return { met, chance: shareOf(met), each };
  }

  /** On the first `count` machines, all where left out: the chance that all targets which count are met, and the share of the head's that are. */
  weigh(changes: readonly Alteration[], count = this.machines.length): { all: number; singly: number } {
    const { judge } = this;
    const { within } = judge.targets;
    const machines = this.machines.slice(0, count).map(preparing(changes));
    const errors = errorsOfPrepared(machines, this.quantities, judge.aims());
    let targets = 0;
    let met = machines.map((_machine, s) => {
      const count = judge.ratiosOf(errors, s * judge.layout.size).reduce((sum, ratio) => sum + (ratio <= 1 ? 1 : 0), 0);
      targets += count;
      return count === TARGET_NAMES.length;
    });
    const also = (look: (machine: PreparedRig) => boolean) => {
      met = met.map((all, s) => all && look(machines[s] as PreparedRig));
    };
    const { subtrim } = within;
    if (subtrim !== undefined) also((machine) => mostSubtrimUs(machine) <= subtrim);
    if (within.corners === true) also((machine) => cornersFree(machine, this.mode));
    return { all: shareOf(met), singly: targets / (machines.length * TARGET_NAMES.length) };
  }
}

const shareOf = (flags: readonly boolean[]) => flags.filter(Boolean).length / flags.length;

const mostSubtrimUs = ({ transmitter }: PreparedRig) =>
  Math.max(...transmitter.outputs.map(({ subtrimUs }) => Math.abs(subtrimUs)));

/** `share`: of what is believed that the drawn machines stand for; of the rest nothing is known to be met. */
export function meetsOf({ chance, each }: Verdict, share: number): Meets {
  const scaled = Object.fromEntries(Object.entries(each).map(([name, value]) => [name, share * value])) as Verdict['each'];
  return { chance: share * chance, ...scaled };
}

/** Whether every corner of the sticks is reached without an output that is cut off. The cyclic limit rounds the corners off. */
export function cornersFree(prepared: PreparedRig, mode: number): boolean {
  const pose = makePose(prepared);
  for (const collective of [-1, 1]) {
    for (const elevator of [-1, 1]) {
      for (const aileron of [-1, 1]) {
        setSticks(prepared, pose, mode, collective, elevator, aileron);
        if (pose.saturated.some((cut) => cut !== 0)) return false;
        setHorns(prepared, pose);
        if (!poseRing(prepared, pose)) return false;
        for (const [cos, sin] of QUARTERS) if (!poseHead(prepared, pose, cos, sin, 0)) return false;
      }
    }
  }
  return true;
}

const QUARTERS = [
  [1, 0],
  [0, 1],
  [-1, 0],
  [0, -1],
] as const;
