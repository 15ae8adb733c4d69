/**
 * What to turn on a tail, in the order of the bench (common practice, no source): first which way things go, then the horn
 * square, then the rod, then what sub-trim the whole steps left over, and only then how far the ends go. Each is what a
 * hand can turn: whole teeth, whole link steps, whole microseconds, whole percent. A tail that answers well is left alone.
 *
 * Horn and rod come first because they put the cause right; sub-trim turns the horn off square again and takes from one
 * end what it gives to the other, so it stays small; travel and limit only shorten what the linkage then offers.
 */
import { applyChange, type Change } from '../rig/changes.ts';
import { unitAt } from '../rig/describe.ts';
import { linkStepOf, turnsOf } from '../rig/link-step.ts';
import { type Cure, gyroLimitCure, travelCures } from './check-ends.ts';
import {
  answers,
  commandedMm,
  EQUAL_MM,
  gyroEnds,
  gyroEndsFree,
  isEqual,
  isFree,
  posing,
  squareRodMm,
  type TailRig,
  type TailState,
  tailState,
  withRod,
  withRudder,
  withTail,
} from './check-state.ts';
import { countOf, number } from './check-numbers.ts';

export type TailAdjustment = Change & {
  unit: string;
  /** of a link, positive longer */
  turns?: number;
  says: string;
  /** what the machine shows once this, and all before it, is done */
  after: TailState;
};

/** Once the centre is being set, this is near enough: it makes one side longer than the other by no more than counts as equal. */
const CENTRED_MM = EQUAL_MM / 2;
/** A tooth is moved where it brings the horn nearer to square by more than an eye sees (1.5 degrees; common practice, no source). */
const TOOTH_GAIN_DEG = 2;
/** A ball link holds on some 5 mm of thread at either end of a rod (common practice, no source); beyond that it is another rod. */
export const MOST_ROD_MM = 10;
/** Sub-trim makes up for what lies between two teeth, and never for more than this (common practice, no source). */
const MOST_SUBTRIM_US = 100;

/** All the changes, one after another; what the machine shows at the end is the last one's `after`. */
export function tailAdjustments(rig: TailRig): TailAdjustment[] {
  const adjustments: TailAdjustment[] = [];
  let machine = rig;
  const turn = (cure: Cure | undefined): void => {
    if (!cure) return;
    const { change, says, unit = unitAt(change.path), turns } = cure;
    machine = withTail(applyChange(machine, change));
    adjustments.push({ ...change, unit, ...(turns === undefined ? {} : { turns }), says, after: tailState(machine) });
  };
  for (const cure of wayCures(rig)) turn(cure);
  const isSet = standsWell(tailState(machine)) && gyroEndsFree(gyroEnds(machine));
  if (!isSet) for (const cureOf of [subtrimOut, hornTooth, rodSteps, subtrimIn]) turn(cureOf(machine));
  turn(gyroLimitCure(machine));
  for (const cure of travelCures(machine, isSet ? EQUAL_MM : EQUAL_MM / 2)) turn(cure);
  return adjustments;
}

export function standsWell(state: TailState): boolean {
  return [state.centre, state.left, state.right].every(isFree) && isEqual(state);
}

/** Two senses that do not know of each other: the transmitter's turns the stick round, the gyro's its own answer. */
function wayCures(rig: TailRig): Cure[] {
  const cures: Cure[] = [];
  const { rudder, gyro } = answers(rig);
  if (rudder === 'against') {
    cures.push({
      change: { path: '/transmitter/rudder/reverse', to: !rig.transmitter.rudder.reverse },
      says: `Turn the rudder output's reverse ${onOff(!rig.transmitter.rudder.reverse)}; the gyro's sense is its own and does not change with it.`,
    });
  }
  if (gyro === 'against' && rig.tail.gyro) {
    cures.push({
      change: { path: '/tail/gyro/reverse', to: !rig.tail.gyro.reverse },
      says: `Turn the gyro's own reverse ${onOff(!rig.tail.gyro.reverse)}, before anything that flies: as it is it would spin the machine.`,
    });
  }
  return cures;
}

/** A horn is judged square with the sub-trim out where that does a tooth's work; a rod that cannot be turned may need it. */
function subtrimOut(rig: TailRig): Cure | undefined {
  const { subtrim } = rig.transmitter.rudder;
  if (linkStepOf(rig, ROD) === undefined || Math.abs(subtrim) <= mostSubtrimUs(rig)) return undefined;
  return {
    change: { path: SUBTRIM, to: 0 },
    says: `Take the rudder output's sub-trim out (from ${number(subtrim, 1)} to 0 microseconds): more than half a tooth is the horn's work.`,
  };
}

function hornTooth(rig: TailRig): Cure | undefined {
  const { teeth } = rig.tail.servo.horn;
  const toothDeg = 360 / teeth;
  const { horn } = posing(rig)({});
  const by = -Math.round(horn / toothDeg);
  const over = by - teeth * Math.round(by / teeth);
  if (over === 0 || Math.abs(horn) - Math.abs(horn + by * toothDeg) <= TOOTH_GAIN_DEG) return undefined;
  const change = { path: '/tail/servo/horn/tooth', by };
  if (linkStepOf(rig, ROD) === undefined && !(offMm(withTail(applyChange(rig, change))) < offMm(rig))) return undefined;
  return {
    change,
    unit: 'teeth',
    says: `Set the servo horn ${countOf(Math.abs(over), 'tooth', 'teeth')} ${over > 0 ? 'aft' : 'forward'}: it then stands ${number(Math.abs(horn + by * toothDeg), 1)} degrees off square at mid-stick in place of ${number(Math.abs(horn - 360 * Math.round(horn / 360)), 1)}.`,
  };
}

/** How far the slider is asked to stand from its designed middle at mid-stick, mm; infinitely where the rod cannot close. */
function offMm(rig: TailRig): number {
  return Math.abs(commandedMm(posing(rig)({})) ?? Number.POSITIVE_INFINITY);
}

function rodSteps(rig: TailRig): Cure | undefined {
  const step = linkStepOf(rig, ROD);
  const off = offMm(rig);
  if (step === undefined || off <= CENTRED_MM) return undefined;
  const wanted = (squareRodMm(rig) - rig.tail.rod) / step;
  const [best] = [Math.floor(wanted), Math.ceil(wanted)]
    .map((steps) => ({ by: rounded(steps * step), off: offMm(withRod(rig, rig.tail.rod + steps * step)) }))
    .sort((a, b) => a.off - b.off);
  if (best === undefined || best.by === 0 || !(best.off < off) || Math.abs(best.by) > MOST_ROD_MM) return undefined;
  const turns = rounded(turnsOf(rig, best.by));
  return {
    change: { path: ROD, by: best.by },
    turns,
    says: `${best.by > 0 ? 'Lengthen' : 'Shorten'} the tail rod by ${number(Math.abs(best.by), 2)} mm (${countOf(Math.abs(turns), 'turn', 'turns')}), so that lever and slider stand at their middle.`,
  };
}

/** Whole microseconds for what is less than a step of the rod, or for as much as half a tooth where the rod cannot be turned. */
function subtrimIn(rig: TailRig): Cure | undefined {
  const off = offMm(rig);
  if (off <= CENTRED_MM || off === Number.POSITIVE_INFINITY) return undefined;
  const { subtrim } = rig.transmitter.rudder;
  const most = Math.max(mostSubtrimUs(rig), Math.abs(subtrim));
  let best = { by: 0, off };
  for (let by = Math.ceil(-most - subtrim); by <= most - subtrim; by++) {
    const there = offMm(withRudder(rig, { subtrim: subtrim + by }));
    if (there < best.off) best = { by, off: there };
  }
  if (best.by === 0) return undefined;
  return {
    change: { path: SUBTRIM, by: best.by },
    says: `Give the rudder output ${best.by > 0 ? '+' : '-'}${Math.abs(best.by)} microseconds of sub-trim (${number(subtrim + best.by, 1)} in all), for what the rod's steps leave over.`,
  };
}

/** Half a tooth in microseconds, and no more than is still a trim. */
function mostSubtrimUs({ tail: { servo } }: TailRig): number {
  return Math.min(180 / servo.horn.teeth / servo.rate, MOST_SUBTRIM_US);
}

const ROD = '/tail/rod';
const SUBTRIM = '/transmitter/rudder/subtrim';

/** A sum of steps without the rounding that it picked up on the way. */
const rounded = (value: number): number => Number(value.toFixed(9));
const onOff = (on: boolean): string => (on ? 'on' : 'off');
