/**
 * The flybar head's balls in the machine frame: control arms, washout base and arms, mixing arms.
 */
import { mixingPoint } from '../../flybar/mixing.ts';
import { controlArmBall, WASHOUT } from '../../flybar/washout.ts';
import type { Pose } from '../pose.ts';
import type { PreparedRig } from '../prepare.ts';
import type { Point } from '../rig.ts';
import type { FlybarFigure } from './figure.ts';
import { pairs, type ToF } from './frames.ts';

export function flybarFigure(prepared: PreparedRig, pose: Pose, teeterRad: number, toF: ToF): FlybarFigure {
  const head = prepared.flybar as NonNullable<PreparedRig['flybar']>;
  const w = head.washout;
  const [tc, ts] = [Math.cos(teeterRad), Math.sin(teeterRad)];
  const state = pose.flybar.washout;
  const paddleRad = state[WASHOUT.PADDLE] as number;
  const arm = new Float64Array(6);
  const armBalls = ([0, 1] as const).map((side) => {
    controlArmBall(w, side, Math.cos(paddleRad), Math.sin(paddleRad), tc, ts, arm);
    return toF([arm[0] as number, arm[1] as number, arm[2] as number]);
  }) as [Point, Point];
  const baseZ = state[WASHOUT.H] as number;
  const washoutBalls = pairs(pose.flybar.washoutBalls, toF);
  const mixingBalls = pairs(pose.flybar.mixingBalls, toF);
  const washout = ([0, 1] as const).map((side) => {
    const turn = side === 0 ? 1 : -1;
    const angle = state[WASHOUT.ARM1 + side] as number;
    const [c, s] = [Math.cos(angle), Math.sin(angle)];
    const end = (length: number, cos: number, sin: number): Point => {
      const out = length * (cos * c - sin * s);
      return toF([
        turn * (w.pivotX + out * w.planeCos),
        turn * (w.pivotY + out * w.planeSin),
        baseZ + w.pivotHeight + length * (sin * c + cos * s),
      ]);
    };
    return {
      pivot: end(0, 1, 0),
      flybarEnd: end(w.flybarEndMm, w.flybarEndCos, w.flybarEndSin),
      swashEnd: end(w.swashEndMm, w.swashEndCos, w.swashEndSin),
      ringBall: washoutBalls[side] as Point,
    };
  });
  const m = head.mixing;
  const place = new Float64Array(3);
  const mixing = ([0, 1] as const).map((side) => {
    const turn = pose.flybar.mixingTurn[side];
    const [c, s] = [turn[0] as number, turn[1] as number];
    const point = (out: number, up: number): Point => {
      mixingPoint(m, side, out, up, tc, ts, place, 0);
      return toF([place[0] as number, place[1] as number, place[2] as number]);
    };
    return {
      pivot: point(0, 0),
      swashEnd: point(m.swashEndMm * c, m.swashEndMm * s),
      bladeEnd: toF([0, 1, 2].map((k) => pose.flybar.bladeEnds[3 * side + k] as number) as Point),
      ringBall: mixingBalls[side] as Point,
    };
  });
  return {
    centre: [0, 0, w.flybarHeightMm],
    axis: toF([w.axisCos * tc, w.axisSin * tc, ts]),
    across: toF([-w.axisSin, w.axisCos, 0]),
    paddleRad,
    teeterRad,
    armBalls,
    washoutBase: [0, 0, baseZ],
    washout,
    mixing,
  };
}
