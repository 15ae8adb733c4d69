/**
 * The tail's balls in its own frame T (u aft, v along the tail shaft, w up).
 */
import { radOf } from '../../quantities/angles.ts';
import { closeTail, tailHornBall, type TailPose } from '../../tail/tail.ts';
import { predictTail, unreachableOf } from '../predict.ts';
import type { PreparedRig } from '../prepare.ts';
import type { Case, Point } from '../rig.ts';
import type { TailFigure } from './figure.ts';

export function tailFigure(prepared: PreparedRig, kase: Case): TailFigure {
  const tail = prepared.tail as NonNullable<PreparedRig['tail']>;
  const predicted = predictTail(prepared.transmitter, tail, kase);
  const state: TailPose = { hornRad: 0, leverRad: 0, sliderMm: 0, pastMm: 0, gripRad: 0 };
  const miss = closeTail(tail, predicted.pulse, state);
  const [pu, pv, pw] = [0, 1, 2].map((k) => tail.pivot[k] as number) as Point;
  const lever = prepared.rig.tail?.lever;
  const drawn: TailFigure = {
    shaft: [0, 1, 2].map((k) => tail.shaft[k] as number) as Point,
    hornBall: tailHornBall(tail, state.hornRad),
    leverPivot: [pu, pv, pw],
  };
  if (miss) drawn.unreachable = unreachableOf(miss);
  if (miss?.path === '/tail/rod' || !lever) return drawn;
  const end = ({ length, angle }: { length: number; angle: number }): Point => {
    const turn = radOf(angle) + state.leverRad;
    return [pu + length * Math.cos(turn), pv + length * Math.sin(turn), pw];
  };
  drawn.leverServoEnd = end(lever.servoEnd);
  drawn.leverSliderEnd = end(lever.sliderEnd);
  drawn.slider = state.sliderMm;
  if (miss) return drawn;
  const [c, s] = [Math.cos(state.gripRad), Math.sin(state.gripRad)];
  drawn.pitchRad = tail.right * state.gripRad;
  drawn.grip = {
    armBall: [tail.gripLead * c - tail.gripHeight * s, tail.gripLead * s + tail.gripHeight * c],
    spiderBall: [tail.spiderX, tail.spiderV + state.sliderMm],
  };
  return drawn;
}
