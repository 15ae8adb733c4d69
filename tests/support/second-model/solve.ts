/**
 * The second model's solvers, general and slow: Newton with central differences, a homotopy in small steps that follows one
 * branch, damped Newton on the sum of squares for poses that do not close, and bisection for a ball on a circle.
 */
import { type Vec, add, dot, norm, sub, times } from './vectors.ts';

export type Residual = (x: number[]) => number[];

/** Solves A x = b by Gaussian elimination with row exchanges; undefined where a pivot vanishes. */
export function linear(a: readonly number[][], b: readonly number[]): number[] | undefined {
  const n = b.length;
  const rows = a.map((row, i) => [...row, b[i] ?? Number.NaN]);
  const cell = (i: number, j: number) => rows[i]?.[j] ?? Number.NaN;
  for (let column = 0; column < n; column++) {
    let pivot = column;
    for (let i = column + 1; i < n; i++) if (Math.abs(cell(i, column)) > Math.abs(cell(pivot, column))) pivot = i;
    const top = rows[pivot];
    const other = rows[column];
    if (!top || !other || !(Math.abs(cell(pivot, column)) > 1e-13)) return undefined;
    rows[pivot] = other;
    rows[column] = top;
    for (let i = column + 1; i < n; i++) {
      const factor = cell(i, column) / cell(column, column);
      rows[i] = (rows[i] ?? []).map((value, j) => value - factor * cell(column, j));
    }
  }
  const x = new Array<number>(n).fill(0);
  for (let i = n - 1; i >= 0; i--) {
    let sum = cell(i, n);
    for (let j = i + 1; j < n; j++) sum -= cell(i, j) * (x[j] ?? 0);
    x[i] = sum / cell(i, i);
  }
  return x;
}

/** By central differences; a step of 1e-6 leaves about 1e-10 of error, which only slows the last step of a Newton. */
function jacobian(f: Residual, x: number[], step = 1e-6): number[][] {
  const columns = x.map((value, j) => {
    const at = (t: number) => f(x.map((other, i) => (i === j ? t : other)));
    const below = at(value - step);
    return at(value + step).map((high, i) => (high - (below[i] ?? Number.NaN)) / (2 * step));
  });
  return (columns[0] ?? []).map((_, i) => columns.map((column) => column[i] ?? Number.NaN));
}

const largest = (r: number[]) => Math.max(...r.map(Math.abs));

/** Newton from `start`; undefined unless every residual ends below 1e-11 (mm or radians). Polishes to the last digits. */
export function newton(f: Residual, start: number[]): number[] | undefined {
  let x = start;
  let r = f(x);
  for (let i = 0; i < 30; i++) {
    const dx = linear(jacobian(f, x), r);
    if (!dx) break;
    const next = x.map((value, j) => value - (dx[j] ?? Number.NaN));
    const after = f(next);
    const small = largest(r) < 1e-11;
    if (!(largest(after) < largest(r)) && small) return x;
    if (!Number.isFinite(largest(after))) return undefined;
    x = next;
    r = after;
  }
  return largest(r) < 1e-11 ? x : undefined;
}

/**
 * Follows the solution of f(t, x) = 0 from a solution at t = 0 to t = 1: each step is predicted along the secant and
 * corrected by Newton, and halved where Newton fails or the correction is not small beside the step. Undefined where the
 * branch ends before 1.
 */
export function follow(f: (t: number, x: number[]) => number[], start: number[], steps = 8): { x: number[]; t: number } {
  let t = 0;
  let x = start;
  let slope = x.map(() => 0);
  let step = 1 / steps;
  while (t < 1) {
    const next = Math.min(1, t + step);
    const guess = x.map((value, i) => value + (slope[i] ?? 0) * (next - t));
    const solved = newton((y) => f(next, y), guess);
    const correction = solved
      ? Math.max(...solved.map((value, i) => Math.abs(value - (guess[i] ?? 0))))
      : Number.POSITIVE_INFINITY;
    // Lengths in mm and angles in rad alike: a step corrected by more than this may have jumped branches.
    if (solved && correction < 0.05) {
      slope = solved.map((value, i) => (value - (x[i] ?? 0)) / (next - t));
      x = solved;
      t = next;
      step *= 1.5;
    } else {
      step /= 2;
      if (step < 1e-7) return { x, t };
    }
  }
  return { x, t };
}

/**
 * The x near `start` at which the sum of squares is least: Newton on its gradient, damped until the sum falls. The second
 * derivatives (differences of the gradient) are kept whole, since without their curved part the steps creep where the
 * misfit is large.
 */
export function leastSquares(f: Residual, start: number[]): number[] {
  const cost = (at: number[]) => f(at).reduce((sum, value) => sum + value * value, 0);
  const gradient = (at: number[]) => {
    const r = f(at);
    const j = jacobian(f, at);
    return at.map((_, k) => j.reduce((sum, row, m) => sum + (row[k] ?? 0) * (r[m] ?? 0), 0));
  };
  let x = start;
  let damping = 1e-2;
  for (let i = 0; i < 200; i++) {
    const g = gradient(x);
    const rows = jacobian(gradient, x, 1e-4);
    const trace = rows.reduce((sum, row, k) => sum + Math.abs(row[k] ?? 0), 0);
    const hessian = (extra: number) =>
      rows.map((row, k) => row.map((value, l) => (value + (rows[l]?.[k] ?? 0)) / 2 + (k === l ? extra : 0)));
    let moved = 0;
    while (damping < 1e10) {
      const dx = linear(hessian(damping * trace), g);
      const next = dx ? x.map((value, k) => value - (dx[k] ?? 0)) : x;
      if (dx && cost(next) < cost(x)) {
        moved = Math.max(...dx.map(Math.abs));
        x = next;
        damping = damping < 1e-9 ? 0 : damping / 6;
        break;
      }
      damping = Math.max(10 * damping, 1e-9);
    }
    if (moved < 1e-11) break;
  }
  return x;
}

/** A ball on a circle: where it is at an angle in radians. */
export type OnCircle = (angle: number) => Vec;

/** The angles at which a ball on a circle is nearest to and farthest from a point, (-pi, pi]. */
export function extremes(ball: OnCircle, target: Vec): { nearest: number; farthest: number } {
  const centre = times(0.5, add(ball(0), ball(Math.PI)));
  const away = sub(centre, target);
  const farthest = Math.atan2(dot(sub(ball(Math.PI / 2), centre), away), dot(sub(ball(0), centre), away));
  return { nearest: farthest > 0 ? farthest - Math.PI : farthest + Math.PI, farthest };
}

/**
 * The angle between `nearest` and `nearest + side x 180 degrees` at which the ball stands `length` from the target, by bisection;
 * where it cannot, by how much it misses.
 */
export function onSide(
  ball: OnCircle,
  target: Vec,
  length: number,
  nearest: number,
  side: 1 | -1,
): { angle: number } | { short: number; angle: number } {
  const over = (angle: number) => norm(sub(ball(angle), target)) - length;
  let low = nearest;
  let high = nearest + side * Math.PI;
  if (over(low) > 0) return { short: over(low), angle: low };
  if (over(high) < 0) return { short: -over(high), angle: high };
  for (let i = 0; i < 80; i++) {
    const middle = (low + high) / 2;
    if (over(middle) < 0) low = middle;
    else high = middle;
  }
  return { angle: (low + high) / 2 };
}

/** Of both angles, the one nearer zero. */
export function nearestZero(ball: OnCircle, target: Vec, length: number): { angle: number } | { short: number } {
  const { nearest } = extremes(ball, target);
  const both = [onSide(ball, target, length, nearest, 1), onSide(ball, target, length, nearest, -1)] as const;
  const [up, down] = both;
  if ('short' in up || 'short' in down) return { short: 'short' in up ? up.short : 'short' in down ? down.short : 0 };
  const wrapped = (angle: number) => Math.atan2(Math.sin(angle), Math.cos(angle));
  const a = wrapped(up.angle);
  const b = wrapped(down.angle);
  return { angle: Math.abs(a) < Math.abs(b) ? a : b };
}

/**
 * The angle reached continuously from zero while the target moves and the length changes: on the side of the nearest point where
 * zero lies at t = 0, with the nearest point's own angle followed without jumps.
 */
export function fromZero(
  ballAt: (t: number) => OnCircle,
  targetAt: (t: number) => Vec,
  lengthAt: (t: number) => number,
  steps = 32,
): { angle: number } | { short: number } {
  let { nearest } = extremes(ballAt(0), targetAt(0));
  const side: 1 | -1 = nearest > 0 ? -1 : 1;
  for (let i = 1; i <= steps; i++) {
    const now = extremes(ballAt(i / steps), targetAt(i / steps)).nearest;
    nearest = now + 2 * Math.PI * Math.round((nearest - now) / (2 * Math.PI));
  }
  const found = onSide(ballAt(1), targetAt(1), lengthAt(1), nearest, side);
  return 'short' in found ? { short: found.short } : { angle: found.angle };
}
