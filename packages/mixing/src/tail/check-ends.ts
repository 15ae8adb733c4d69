/**
 * How far the ends go: whole percents of travel, a side each, and of the gyro's limit, which is one number for both sides.
 *
 * The limit comes first where a gyro is on, since a gyro drives to its limit whatever the stick's travel is; being one
 * number it is set for the side that meets its stop first. Travel then brings the longer side down to the shorter one.
 * The shorter one is given more only where it is shorter by more than a tenth and has the room: a tail short of travel
 * on one side is short of control there, and cutting the other side to match would take it from both.
 */
import type { Change } from '../rig/changes.ts';
import { prepareTransmitter, shapedStick } from '../transmitter/outputs.ts';
import { number } from './check-numbers.ts';
import {
  EQUAL_MM,
  gyroEnds,
  gyroEndsFree,
  isFree,
  posing,
  sliderWay,
  type TailRig,
  tailState,
  unevenMm,
  withRudder,
} from './check-state.ts';

export interface Cure {
  change: Change;
  says: string;
  /** for what has no unit in the document */
  unit?: string;
  turns?: number;
}

/** A side that has less than this share of the other's travel is given more before the other is cut. */
const ENOUGH_RATIO = 0.9;
/** Being set, a side is brought to the other within this, mm. */
const MATCHED_MM = EQUAL_MM / 2;

/** The largest whole percent at which the gyro drives neither side past a stop. */
export function gyroLimitCure(rig: TailRig): Cure | undefined {
  const { gyro } = rig.tail;
  if (!gyro || gyroEndsFree(gyroEnds(rig))) return undefined;
  for (let limit = Math.floor(gyro.limit); limit > 0; limit--) {
    if (!gyroEndsFree(gyroEnds({ ...rig, tail: { ...rig.tail, gyro: { ...gyro, limit } } }))) continue;
    return {
      change: { path: '/tail/gyro/limit', to: limit },
      says: `Lower the gyro's limit to ${limit} percent (from ${number(gyro.limit, 1)}): one number bounds both sides, so the side that meets its stop first decides.`,
    };
  }
  return undefined;
}

interface Side {
  name: 'left' | 'right';
  /** the place in `travel`: 0 below neutral command, 1 above */
  place: 0 | 1;
  travel: number;
  /** how far this end stands out on its own side of the designed middle, mm; undefined where not free */
  outMm(travel: number): number | undefined;
}

/** Where one side can stand free, and at which travel. */
interface Stand {
  travel: number;
  outMm: number;
}

/** Nothing, one side or both. Sides that are free and within `nearMm` of equal are left alone. */
export function travelCures(rig: TailRig, nearMm: number): Cure[] {
  const state = tailState(rig);
  if (isFree(state.left) && isFree(state.right) && Math.abs(unevenMm(state) ?? 0) <= nearMm) return [];
  const sides = sidesOf(rig);
  const stands = sides?.map(freeStand);
  if (!sides || !stands?.[0] || !stands[1]) return [];
  const [left, right] = stands as [Stand, Stand];
  const leftIsShort = left.outMm <= right.outMm;
  const [short, long] = leftIsShort ? [left, right] : [right, left];
  const [shortSide, longSide] = leftIsShort ? sides : [sides[1], sides[0]];
  const most = Math.max(100, sides[0].travel, sides[1].travel);
  const base = short.outMm < ENOUGH_RATIO * long.outMm ? lengthened(shortSide, short, long.outMm, most) : short;
  // A side that does not reach past the middle gives the other nothing to be equal to: then each is only kept free.
  const met = base.outMm > 0 ? matched(longSide, long, base.outMm) : long;
  return [travelCure(shortSide, base), travelCure(longSide, met)].filter((cure) => cure !== undefined);
}

/** Undefined where the stick commands nothing at its ends. */
function sidesOf(rig: TailRig): [Side, Side] | undefined {
  const { rudder } = prepareTransmitter(rig.transmitter, rig.rotor.rotation);
  const command = shapedStick(rudder, 1);
  const [below, above] = rig.transmitter.rudder.travel;
  const way = sliderWay(rig);
  if (command === 0 || way === undefined) return undefined;
  const side = (stick: -1 | 1): Side => {
    const place = stick * command < 0 ? 0 : 1;
    const away = stick * way;
    return {
      name: stick < 0 ? 'left' : 'right',
      place,
      travel: place === 0 ? below : above,
      outMm(travel) {
        const end = posing(withRudder(rig, { travel: place === 0 ? [travel, above] : [below, travel] }))({ rudder: stick });
        return isFree(end) && end.slider !== undefined ? away * end.slider : undefined;
      },
    };
  };
  return [side(-1), side(1)];
}

/** As far out as it goes now, or at the largest whole percent that is free. */
function freeStand(side: Side): Stand | undefined {
  for (let travel = side.travel; travel >= 0; travel = Math.ceil(travel) - 1) {
    const outMm = side.outMm(travel);
    if (outMm !== undefined) return { travel, outMm };
  }
  return undefined;
}

/** With more travel, up to `mostPercent`, as near to `goalMm` as it gets free and not beyond; a limit may hold it before. */
function lengthened(side: Side, from: Stand, goalMm: number, mostPercent: number): Stand {
  let best = from;
  for (let travel = Math.floor(from.travel) + 1; travel <= mostPercent; travel++) {
    const outMm = side.outMm(travel);
    if (outMm === undefined || outMm > goalMm) break;
    if (outMm > best.outMm) best = { travel, outMm };
  }
  return best;
}

/** With no more travel than it has, nearest to `goalMm`. */
function matched(side: Side, from: Stand, goalMm: number): Stand {
  if (Math.abs(from.outMm - goalMm) <= MATCHED_MM) return from;
  let best = from;
  for (let travel = Math.floor(from.travel); travel >= 0; travel--) {
    const outMm = side.outMm(travel);
    if (outMm !== undefined && Math.abs(outMm - goalMm) < Math.abs(best.outMm - goalMm)) best = { travel, outMm };
  }
  return best;
}

function travelCure({ name, place, travel: before }: Side, { travel, outMm }: Stand): Cure | undefined {
  if (travel === before) return undefined;
  return {
    change: { path: `/transmitter/rudder/travel/${place}`, to: travel },
    says: `${travel < before ? 'Lower' : 'Raise'} the rudder output's travel for ${name} rudder to ${travel} percent (from ${number(before, 1)}): the slider then goes ${number(outMm, 2)} mm that way.`,
  };
}
