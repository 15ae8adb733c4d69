/**
 * The tail check: the tail as it stands, and what makes both sides free and slider travel equal.
 *
 * Right rudder must raise tail pitch, which swings the nose right. A counter-clockwise turn (the nose swings left) must be
 * answered as right rudder is; a gyro that answers the other way adds to every swing, and the machine spins as it lifts.
 * Slider travel left and right is to be equal and clear of the stops; unequal pitch is no fault, since the blades'
 * linkage makes it so and the main rotor's torque asks for more on one side anyway.
 */
import type { DocumentFault } from '../rig/fault.ts';
import type { PredictedTail } from '../rig/predict.ts';
import type { Rig } from '../rig/rig.ts';
import { type TailAdjustment, tailAdjustments } from './check-cures.ts';
import {
  type Answer,
  answers,
  type GyroEnds,
  gyroEnds,
  gyroEndsFree,
  gyroIsOn,
  isEqual,
  isFree,
  type TailRig,
  tailState,
} from './check-state.ts';
import { tailSays } from './check-words.ts';

export interface TailCheck {
  /** `no answer`: the stick moves nothing, or the blades cannot be posed */
  rudder: 'right way' | 'reversed' | 'no answer';
  gyro: 'corrects' | 'worsens' | 'off' | 'no answer';
  /** mid-stick; horn and pitch degrees, slider mm; `unreachable` in place of what cannot be reached, as in a prediction */
  centre: PredictedTail;
  /** full left and full right rudder, the nose at rest */
  left: PredictedTail;
  right: PredictedTail;
  /** slider travel left and right within 0.1 mm, from its designed middle */
  equal: boolean;
  /** where a gyro is on: how far past a stop its limit lets it drive, mm, at the shorter and the longer pulse */
  gyroEnds?: GyroEnds;
  /** in the order in which to do them; none where the answer is yes, and none where nothing that a hand can turn helps */
  adjustments: TailAdjustment[];
  /** the same in sentences */
  says: string[];
}

/** A tail was asked about, and the machine has none. */
export class NoTailError extends Error implements DocumentFault {
  override readonly name = 'NoTailError';
  readonly pointer = '/tail';
  readonly got = 'nothing: this machine has no tail';
  readonly expected = 'a tail with its servo, lever, rod, slider and grip';
  readonly wayOut = 'add the tail to the document, or check another machine';
  constructor() {
    super('this machine has no tail');
  }
}

/** Checks the tail of a machine as its document says it stands. Throws NoTailError. */
export function tailCheck(rig: Rig): TailCheck {
  if (rig.tail === undefined) throw new NoTailError();
  const machine = rig as TailRig;
  const state = tailState(machine);
  const ends = gyroEnds(machine);
  const ways = answers(machine);
  const check = {
    rudder: RUDDER[ways.rudder],
    gyro: gyroIsOn(machine) ? GYRO[ways.gyro] : 'off',
    ...state,
    equal: isEqual(state),
    ...(ends === undefined ? {} : { gyroEnds: ends }),
    adjustments: tailAdjustments(machine),
  } satisfies Omit<TailCheck, 'says'>;
  return { ...check, says: tailSays(machine, check) };
}

const RUDDER: Record<Answer, TailCheck['rudder']> = { with: 'right way', against: 'reversed', none: 'no answer' };
const GYRO: Record<Answer, TailCheck['gyro']> = { with: 'corrects', against: 'worsens', none: 'no answer' };

/** Whether the answer is yes: both senses right, no end binds, and slider travel is equal. */
export function tailIsWell(check: Omit<TailCheck, 'says' | 'adjustments'>): boolean {
  const { rudder, gyro, centre, left, right, equal } = check;
  return (
    rudder === 'right way' &&
    (gyro === 'corrects' || gyro === 'off') &&
    [centre, left, right].every(isFree) &&
    equal &&
    gyroEndsFree(check.gyroEnds)
  );
}
