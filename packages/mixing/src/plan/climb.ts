/**
 * Whole steps of the knobs that do best over all drawn machines: single steps and pairs of steps tried in turn, the best kept,
 * until none does better.
 *
 *   worth = mean over machines of (score(worst ratio) + SINGLY nearness) - COST sum of what is turned
 *
 * Errors are taken as linear in the steps (the caller works them out exactly again at the answer). The score is a step at
 * ratio 1 with its edge worn, so that a plan aims inside and not just over the line, and a slight slope far out to climb by.
 */
import type { Judge } from './judge.ts';
import type { Knob } from './knobs.ts';

/** A turning is made where it adds this much to the chance that all targets are met. No source. */
export const COST = 0.003;
/**
 * How wide the edge of a target is worn, as a ratio. The narrow one is what the machines drawn leave open between one seed
 * and another; the wide one, climbed on first, shows the way from outside.
 */
const EDGES = [0.35, 0.07] as const;

/**
 * What the targets count for one by one, beside all of them together: where one cannot be met at all (blade links turn in
 * half degrees) the others are still worth meeting.
 */
export const SINGLY = 0.15;

/** Out of reach scores nothing. */
export function scoreOf(worst: number, edge: number = EDGES[1]): number {
  const x = (worst - 1) / edge;
  // NaN too
  return x < 12 ? 1 / (1 + Math.exp(x)) : 0;
}

export function costOf(knob: Knob, steps: number): number {
  return steps === 0 ? 0 : COST * (knob.cost + knob.costPerStep * Math.abs(steps));
}

/** Moves that a climb makes at most on one edge. */
const ROUNDS = 25;
const PAIR_ROUNDS = 3;
const GOOD = 0.8;

export interface Climbed {
  steps: Int32Array;
  worth: number;
}

/** Where each knob stands before the climb is `start`; `errors` are the machines' there. */
export function climb(
  judge: Judge,
  errors: Float64Array,
  slopes: readonly Float64Array[],
  knobs: readonly Knob[],
  start: Int32Array,
): Climbed {
  const size = judge.layout.size;
  const machines = errors.length / size;
  const current = Float64Array.from(errors);
  const steps = Int32Array.from(start);
  const moved = judge.still();
  let edge: number = EDGES[1];
  const meanScore = (): number => {
    let sum = 0;
    for (let s = 0; s < machines; s++) sum += scoreOf(judge.worst(current, s * size, moved), edge) + SINGLY * judge.near;
    return sum / machines;
  };
  const costs = knobs.map((knob, j) => costOf(knob, steps[j] as number));
  let cost = costs.reduce((sum, c) => sum + c, 0);
  let worth = 0;

  const worthOf = (turns: readonly Turn[]): number => {
    moved.fill(0);
    let spent = cost;
    for (const { j, by } of turns) {
      const knob = knobs[j] as Knob;
      if (knob.most !== undefined && Math.abs((steps[j] as number) + by) > knob.most) return Number.NEGATIVE_INFINITY;
      const slope = slopes[j] as Float64Array;
      for (let k = 0; k < size; k++) moved[k] = (moved[k] as number) + by * (slope[k] as number);
      spent += costOf(knob, (steps[j] as number) + by) - (costs[j] as number);
    }
    return meanScore() - spent;
  };
  const take = (turns: readonly Turn[], at: number): void => {
    for (const { j, by } of turns) {
      const slope = slopes[j] as Float64Array;
      for (let s = 0; s < machines; s++) {
        for (let k = 0; k < size; k++) current[s * size + k] = (current[s * size + k] as number) + by * (slope[k] as number);
      }
      steps[j] = (steps[j] as number) + by;
      cost -= costs[j] as number;
      costs[j] = costOf(knobs[j] as Knob, steps[j] as number);
      cost += costs[j] as number;
    }
    worth = at;
  };
  const bestOf = (candidates: Iterable<Turn[]>): boolean => {
    let best: Turn[] | undefined;
    let bestWorth = worth + 1e-9;
    for (const turns of candidates) {
      const at = worthOf(turns);
      if (at > bestWorth) {
        bestWorth = at;
        best = turns;
      }
    }
    if (best) take(best, bestWorth);
    return best !== undefined;
  };

  // Where the start is good already the wide edge would only lead away from it.
  for (edge of meanScore() > GOOD ? [EDGES[1]] : EDGES) {
    moved.fill(0);
    worth = meanScore() - cost;
    let pairRounds = 0;
    for (let round = 0; round < ROUNDS; round++) {
      if (bestOf(singles(knobs, steps))) continue;
      // A pair has no more to gain than is open, unless two that are turned can be put back together.
      const used = steps.reduce((count, step) => count + (step === 0 ? 0 : 1), 0);
      if ((used < 2 && 1 + SINGLY - (worth + cost) < COST) || pairRounds++ === PAIR_ROUNDS || !bestOf(pairs(knobs, steps))) break;
    }
  }
  return { steps, worth };
}

interface Turn {
  j: number;
  by: number;
}

function* singles(knobs: readonly Knob[], steps: Int32Array): Generator<Turn[]> {
  for (let j = 0; j < knobs.length; j++) {
    const standing = steps[j] as number;
    for (const stride of (knobs[j] as Knob).strides) for (const way of [1, -1]) yield [{ j, by: way * stride }];
    if (Math.abs(standing) > 1) yield [{ j, by: -standing }];
  }
}

/** A step of one with a step of another, or one put back and another turned in its place. */
function* pairs(knobs: readonly Knob[], steps: Int32Array): Generator<Turn[]> {
  const level = (j: number) => /^(link|blade-link|mixing-rod|sub-trim)$/.test((knobs[j] as Knob).kind);
  for (let i = 0; i < knobs.length; i++) {
    const back = -(steps[i] as number);
    for (let j = 0; j < knobs.length; j++) {
      if (i === j) continue;
      if (j > i && level(i) && level(j)) {
        for (const a of [1, -1])
          for (const b of [1, -1])
            yield [
              { j: i, by: a },
              { j, by: b },
            ];
      }
      if (back !== 0 && level(i) === level(j))
        for (const b of [1, -1])
          yield [
            { j: i, by: back },
            { j, by: b },
          ];
    }
  }
}
