/**
 * Coupling, second derivation: differences of the whole answer by the sticks themselves. Inside a smooth piece of the
 * transmitter's law, central differences with Richardson's extrapolation; at an end of travel or a corner, one-sided ones
 * through Chebyshev points, both sides averaged.
 */
import type { Case } from '../../../packages/mixing/src/rig/rig.ts';
import type { MachineDocument } from '../machines.ts';
import { type SecondAnswer, secondPredict } from './predict.ts';
import { pulses } from './transmitter.ts';

export type Matrix = number[][];

export interface SecondCoupling {
  swash: Matrix;
  blade: Matrix;
  standing: { foreAft: number; side: number; longitudinal: number; lateral: number };
}

const STICKS = ['collective', 'elevator', 'aileron'] as const;
type Stick = (typeof STICKS)[number];

/** What answers a case: the second model's own predict, or another whose differences are wanted. */
export type Answerer = (document: MachineDocument, kase: Case) => Pick<SecondAnswer, 'swash' | 'harmonics'>;

/** (height, fore-aft, side, collective, longitudinal, lateral), or undefined where the case cannot be reached. */
function six(answer: ReturnType<Answerer>): number[] | undefined {
  const { swash, harmonics } = answer;
  if (!swash || !harmonics || 'unreachable' in harmonics) return undefined;
  return [swash.height, swash.foreAft, swash.side, harmonics.collective, harmonics.longitudinal, harmonics.lateral];
}

export function secondCoupling(
  document: MachineDocument,
  at: Case,
  answer: Answerer = secondPredict,
): SecondCoupling | undefined {
  const columns = STICKS.map((stick) => derivative(document, at, stick, answer));
  // Mid-stick as the bench has it: the mode asked for, sticks centred, the flybar not held off.
  const middle: Case = at.mode === undefined ? {} : { mode: at.mode };
  const standing = six(answer(document, middle));
  if (!standing || columns.some((column) => !column)) return undefined;
  const row = (i: number) => columns.map((column) => column?.[i] ?? Number.NaN);
  return {
    swash: [row(0), row(1), row(2)],
    blade: [row(3), row(4), row(5)],
    standing: {
      foreAft: standing[1] ?? Number.NaN,
      side: standing[2] ?? Number.NaN,
      longitudinal: standing[4] ?? Number.NaN,
      lateral: standing[5] ?? Number.NaN,
    },
  };
}

function derivative(document: MachineDocument, at: Case, stick: Stick, answer: Answerer): number[] | undefined {
  const here = at[stick] ?? 0;
  const moved = (x: number): Case => ({ ...at, [stick]: x });
  const piece = (x: number) => pulses(document, moved(x)).piece;
  const value = (x: number) => six(answer(document, moved(x)));
  /** How far one can go to this side, up to 0.05, inside one smooth piece. */
  const room = (side: 1 | -1): number => {
    const end = Math.min(0.05, side > 0 ? 1 - here : here + 1);
    let reach = end;
    while (reach > 1e-4) {
      const probes = [1e-9, 0.02, 0.1, 0.3, 0.5, 0.7, 0.85, 1 - 1e-9].map((share) => piece(here + side * reach * share));
      if (probes.every((probe) => probe === probes[0])) return reach;
      reach *= 0.7;
    }
    return 0;
  };
  const up = room(1);
  const down = room(-1);
  const smooth = Math.min(up, down) > 0.01 && piece(here - 1e-9) === piece(here + 1e-9);
  if (smooth) return central(value, here, Math.min(up, down));
  const sides = [up > 0 ? oneSided(value, here, up) : undefined, down > 0 ? oneSided(value, here, -down) : undefined].filter(
    (side) => side !== undefined,
  );
  return sides[0]?.map((_, i) => sides.reduce((sum, side) => sum + (side[i] ?? Number.NaN), 0) / sides.length);
}

type Value = (x: number) => number[] | undefined;

/** Central differences at h, h/2, h/4, h/8, extrapolated: error of order h^8. */
function central(value: Value, x: number, room: number): number[] | undefined {
  const table: number[][][] = [];
  for (let level = 0; level < 4; level++) {
    const h = room / 2 ** level;
    const high = value(x + h);
    const low = value(x - h);
    if (!high || !low) return undefined;
    const rows = [high.map((entry, i) => (entry - (low[i] ?? Number.NaN)) / (2 * h))];
    for (let k = 1; k <= level; k++) {
      const finer = rows[k - 1] ?? [];
      const coarser = table[level - 1]?.[k - 1] ?? [];
      rows.push(finer.map((entry, i) => entry + (entry - (coarser[i] ?? Number.NaN)) / (4 ** k - 1)));
    }
    table.push(rows);
  }
  return table[3]?.[3];
}

/** The derivative at one end of an interval, of the polynomial through 11 Chebyshev points of it. */
function oneSided(value: Value, x: number, span: number): number[] | undefined {
  const n = 10;
  const nodes = Array.from({ length: n + 1 }, (_, j) => (1 - Math.cos((Math.PI * j) / n)) / 2);
  const values = nodes.map((node) => value(x + span * node));
  if (values.some((entry) => !entry)) return undefined;
  // Barycentric weights of Chebyshev points of the second kind: alternating signs, halved at both ends.
  const weight = (j: number) => (j % 2 === 0 ? 1 : -1) * (j === 0 || j === n ? 0.5 : 1);
  const first = values[0] ?? [];
  return first.map((f0, i) => {
    let sum = 0;
    for (let j = 1; j <= n; j++)
      sum += ((weight(j) / weight(0)) * (f0 - (values[j]?.[i] ?? Number.NaN))) / (nodes[j] ?? Number.NaN);
    return sum / span;
  });
}
