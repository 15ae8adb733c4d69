/**
 * How the ring's pose moves with each horn, exactly: the closure's own derivatives, turned round.
 *
 * With f_i = |P_i(x) - eye_i| - link_i = 0 and x = (z, a, b):  (df/dx) dx = (P_i - eye_i)/link_i . d eye_i
 */
import { solveSmall } from '../numerics/nearest-pose.ts';
import { ringResiduals } from '../swashplate/ring.ts';
import type { Pose } from './pose.ts';
import type { PreparedRig, PreparedServo } from './prepare.ts';

const residuals = new Float64Array(3);
const jacobian = new Float64Array(9);
const matrix = new Float64Array(9);
const column = new Float64Array(3);
const x = new Float64Array(3);
const zeros = new Float64Array(3);
const shift = new Float64Array(9);

/**
 * How fast each lower eye moves with its own horn, mm per radian, in G, into `out` (3 x 3) at a posed machine.
 */
export function eyeSlopes(prepared: PreparedRig, pose: Pose, out: Float64Array): void {
  for (let i = 0; i < 3; i++) {
    const at = 3 * i;
    const { horn, lever } = prepared.servos[i] as PreparedServo;
    const cos = Math.cos(pose.hornRad[i] as number);
    const sin = Math.sin(pose.hornRad[i] as number);
    out[at] = -horn.lengthMm * sin * horn.directionX;
    out[at + 1] = -horn.lengthMm * sin * horn.directionY;
    out[at + 2] = horn.lengthMm * cos;
    if (!lever) continue;
    const turn = pose.leverTurn[i] as Float64Array;
    const c = turn[0] as number;
    const s = turn[1] as number;
    const rodX = lever.pivotX + lever.servoEndMm * c * lever.directionX - (pose.hornBalls[at] as number);
    const rodY = lever.pivotY + lever.servoEndMm * c * lever.directionY - (pose.hornBalls[at + 1] as number);
    const rodZ = lever.pivotZ + lever.servoEndMm * s - (pose.hornBalls[at + 2] as number);
    const fromHorn = rodX * (out[at] as number) + rodY * (out[at + 1] as number) + rodZ * (out[at + 2] as number);
    const perTurn = lever.servoEndMm * (rodZ * c - s * (rodX * lever.directionX + rodY * lever.directionY));
    const rate = fromHorn / perTurn;
    const cosEnd = c * lever.betweenCos - s * lever.betweenSin;
    const sinEnd = s * lever.betweenCos + c * lever.betweenSin;
    out[at] = -rate * lever.swashEndMm * sinEnd * lever.directionX;
    out[at + 1] = -rate * lever.swashEndMm * sinEnd * lever.directionY;
    out[at + 2] = rate * lever.swashEndMm * cosEnd;
  }
}

/**
 * d(z, a, b)/d(horn angle), 3 x 3 row-major (rows z in mm, a and b half-angle tangents; columns the horns, per radian),
 * into `out`, at a posed machine. False where the pose is singular.
 */
export function ringSlopes(prepared: PreparedRig, pose: Pose, out: Float64Array): boolean {
  const ring = prepared.ring;
  x.set(pose.ring.subarray(0, 3));
  eyeSlopes(prepared, pose, shift);
  ringResiduals(ring, x, pose.eyes, zeros, residuals, jacobian);
  for (let i = 0; i < 3; i++) {
    // residual i falls as its eye moves toward the ball: by the eye's motion along the link
    const before = residuals[i] as number;
    const along = alongLink(prepared, pose, i) / before;
    matrix.set(jacobian);
    column.fill(0);
    column[i] = along;
    if (!solveSmall(matrix, column, 3)) return false;
    for (let row = 0; row < 3; row++) out[3 * row + i] = column[row] as number;
  }
  return true;
}

/** (P_i - eye_i) . d eye_i, mm^2 per radian. */
function alongLink(prepared: PreparedRig, pose: Pose, i: number): number {
  const a = x[1] as number;
  const b = x[2] as number;
  const perA = 2 / (1 + a * a);
  const perB = 2 / (1 + b * b);
  const sinP = a * perA;
  const sinR = b * perB;
  const at = 3 * i;
  const bx = prepared.ring.balls[at] as number;
  const by = prepared.ring.balls[at + 1] as number;
  const bh = prepared.ring.balls[at + 2] as number;
  const v = by * (perB - 1) - bh * sinR;
  const w = by * sinR + bh * (perB - 1);
  return (
    (bx * (perA - 1) + w * sinP - (pose.eyes[at] as number)) * (shift[at] as number) +
    (v - (pose.eyes[at + 1] as number)) * (shift[at + 1] as number) +
    ((x[0] as number) + w * (perA - 1) - bx * sinP - (pose.eyes[at + 2] as number)) * (shift[at + 2] as number)
  );
}
