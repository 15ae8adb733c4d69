/**
 * Measuring up a machine whose record is not known: which dimensions, in which order, how well, and what each costs.
 *
 * Takes a draft record (a like machine's, with every number that is known put right) and gives its dimensions in the order
 * in which measuring pays most. What a dimension costs is how far it puts out a reading of the short set, to first order:
 *
 *   cost = max over readings |d reading / d dimension| sd,   spread = max over readings sqrt(sum cost^2)
 *
 * sd being that of the tool, or of a guess where it is left unmeasured. Degrees; of the tail, degrees too. The next
 * dimension is the one that takes most variance off all readings for its minutes. Spreads and minutes are common practice
 * without a source, but for the shaft's place (model.md: "a caliper on a shaft's place: half a millimetre and more").
 */
import { applyChange, ChangeError, valueAt } from '../rig/changes.ts';
import { unitAt } from '../rig/describe.ts';
import { prepare } from '../rig/prepare.ts';
import type { Rig } from '../rig/rig.ts';
import { reachOf } from './probe.ts';
import { Reader } from './reader.ts';
import type { Measure, ReadingPlace, Sticks } from './readings.ts';
import { shortSet } from './standard-set.ts';

export interface Dimension {
  /** the same dimension of all servos, blades or arms is measured in one go */
  paths: string[];
  says: string;
  how: string;
  /** what the draft says, in `unit` */
  values: number[];
  unit: string;
  /** one standard deviation as measured, and as guessed, in `unit` */
  sd: number;
  guessSd: number;
  /** degrees by which it puts out the reading that it touches most, one standard deviation: as guessed, and as measured */
  cost: { guessed: number; measured: number };
  /** degrees by which the least known reading is still out once this and all before it are measured, one standard deviation */
  left: number;
}

export interface MeasuringUp {
  /** degrees, with every dimension guessed */
  guessed: number;
  /** best first */
  dimensions: Dimension[];
}

interface Tool {
  how: string;
  sd: number;
  guessSd: number;
  minutes: number;
}

const EYE_TO_EYE: Tool = { how: 'caliper, eye to eye, off the machine', sd: 0.1, guessSd: 1, minutes: 1 };
const CALIPER: Tool = { how: 'caliper, centre to centre', sd: 0.2, guessSd: 1, minutes: 2 };
const PLACE: Tool = { how: 'rule and square, from the mast axis and the zero of heights', sd: 0.5, guessSd: 2, minutes: 3 };
const AT_THE_TAIL: Tool = { ...PLACE, how: 'rule, along the boom from the tail shaft' };
const PROTRACTOR: Tool = { how: 'protractor, seen square on', sd: 2, guessSd: 6, minutes: 2 };
const TWO_PULSES: Tool = { how: 'horn angle at two pulses, as far apart as it goes', sd: 0.003, guessSd: 0.01, minutes: 3 };

/** `*` stands for every place of a list. What a servo's `neutral`, `sense` and the settings are, is looked at, not measured. */
const TO_MEASURE: readonly (readonly [pattern: string, says: string, tool: Tool])[] = [
  ['/servos/*/horn/length', 'horns, shaft to ball', CALIPER],
  ['/servos/*/link', "servos' links", EYE_TO_EYE],
  ['/servos/*/pushrod', 'pushrods to the levers', EYE_TO_EYE],
  ['/servos/*/ball/radius', 'swashplate balls, out from the mast axis', CALIPER],
  ['/servos/*/ball/azimuth', 'swashplate balls, round from the nose', PROTRACTOR],
  ['/servos/*/ball/height', "swashplate balls, above the ring's centre", CALIPER],
  ['/servos/*/horn/azimuth', 'planes in which the horns turn', PROTRACTOR],
  ['/servos/*/rate', "servos' rates", TWO_PULSES],
  ['/servos/*/shaft/0', "servos' shafts, forward of the mast", PLACE],
  ['/servos/*/shaft/1', "servos' shafts, left of the mast", PLACE],
  ['/servos/*/shaft/2', "servos' shafts, height", PLACE],
  ['/servos/*/lever/pivot/0', "levers' pivots, forward of the mast", PLACE],
  ['/servos/*/lever/pivot/1', "levers' pivots, left of the mast", PLACE],
  ['/servos/*/lever/pivot/2', "levers' pivots, height", PLACE],
  ['/servos/*/lever/servoEnd/length', "levers' servo ends, pivot to ball", CALIPER],
  ['/servos/*/lever/swashEnd/length', "levers' swashplate ends, pivot to ball", CALIPER],
  ['/servos/*/lever/servoEnd/angle', "levers' servo ends, angle", PROTRACTOR],
  ['/servos/*/lever/swashEnd/angle', "levers' swashplate ends, angle", PROTRACTOR],
  ['/swash/height', "ring's centre with the ring level, height", PLACE],
  ['/rotor/hubHeight', 'feathering axis, height', PLACE],
  ['/rotor/links/*', 'blade links', EYE_TO_EYE],
  ['/rotor/pitchArm/lead', "pitch arms' balls, ahead of the feathering axis", CALIPER],
  ['/rotor/pitchArm/station', "pitch arms' balls, out from the mast axis", CALIPER],
  ['/rotor/pitchArm/height', "pitch arms' balls, above the feathering axis", CALIPER],
  ['/rotor/ring/radius', "turning ring's balls, out from the mast axis", CALIPER],
  ['/rotor/ring/azimuth', "turning ring's balls, ahead of the blade", PROTRACTOR],
  ['/rotor/ring/height', "turning ring's balls, above the ring's centre", CALIPER],
  ['/flybar/height', 'flybar, height', PLACE],
  ['/flybar/arm/station', 'control-arm balls, out along the flybar', CALIPER],
  ['/flybar/arm/lead', 'control-arm balls, ahead of the flybar', CALIPER],
  ['/flybar/washout/pivot/radius', "washout arms' pivots, out from the mast axis", CALIPER],
  ['/flybar/washout/flybarEnd/length', 'washout arms, pivot to flybar end', CALIPER],
  ['/flybar/washout/swashEnd/length', 'washout arms, pivot to swashplate end', CALIPER],
  ['/flybar/washout/ring/radius', "washout links' balls on the ring, out from the mast axis", CALIPER],
  ['/flybar/washout/links/*', 'washout links', EYE_TO_EYE],
  ['/flybar/washout/rods/*', 'washout rods', EYE_TO_EYE],
  ['/flybar/mixing/pivot/radius', "mixing arms' pivots, out from the mast axis", CALIPER],
  ['/flybar/mixing/pivot/height', "mixing arms' pivots, height", PLACE],
  ['/flybar/mixing/swashEnd/length', 'mixing arms, pivot to swashplate end', CALIPER],
  ['/flybar/mixing/bladeEnd/length', 'mixing arms, pivot to blade end', CALIPER],
  ['/flybar/mixing/ring/radius', "mixing rods' balls on the ring, out from the mast axis", CALIPER],
  ['/flybar/mixing/rods/*', 'mixing rods', EYE_TO_EYE],
  ['/tail/servo/horn/length', 'tail horn, shaft to ball', CALIPER],
  ['/tail/servo/rate', "tail servo's rate", TWO_PULSES],
  ['/tail/rod', 'tail rod', EYE_TO_EYE],
  ['/tail/servo/shaft/0', "tail servo's shaft, along the boom", AT_THE_TAIL],
  ['/tail/lever/servoEnd/length', 'tail lever, pivot to rod', CALIPER],
  ['/tail/lever/sliderEnd/length', 'tail lever, pivot to slider', CALIPER],
  ['/tail/grip/lead', "tail grips' balls, ahead of the feathering axis", CALIPER],
  ['/tail/grip/link', 'tail grip links', EYE_TO_EYE],
];

/** What moves no reading by this much may be taken by eye, degrees: less than a gauge's last digit. */
export const BY_EYE_DEG = 0.1;

/** Small beside every sd above, large beside the closing tolerance of a pose. */
const STEP = 1e-3;

export function measuringUp(draft: Rig): MeasuringUp {
  const places = placesTouched(draft);
  const base = readings(draft, places);
  const rows = TO_MEASURE.flatMap(([pattern, says, tool]) => {
    const paths = placesOf(draft, pattern);
    if (paths.length === 0) return [];
    const slopes = paths.map((path) => slopeOf(draft, path, places, base));
    // What is alike on all servos is measured one by one: their errors are their own.
    const perUnit = places.map((_, p) => Math.hypot(...slopes.map((slope) => slope[p] as number)));
    const most = Math.max(...slopes.flat().map(Math.abs));
    return [{ paths, says, tool, perUnit, most }];
  });
  const variance = places.map((_, p) => rows.reduce((sum, row) => sum + ((row.perUnit[p] as number) * row.tool.guessSd) ** 2, 0));
  const spread = () => Math.sqrt(Math.max(0, ...variance));
  const guessed = spread();
  const dimensions: Dimension[] = [];
  const open = new Set(rows);
  const takes = ({ perUnit, tool }: (typeof rows)[number]) =>
    perUnit.map((slope) => slope * slope * (tool.guessSd ** 2 - tool.sd ** 2));
  while (open.size > 0) {
    const worth = (row: (typeof rows)[number]) =>
      takes(row).reduce((sum, part) => sum + part, 0) / (row.tool.minutes * row.paths.length);
    const best = [...open].reduce((one, other) => (worth(other) > worth(one) ? other : one));
    open.delete(best);
    for (const [p, part] of takes(best).entries()) variance[p] = (variance[p] as number) - part;
    const { paths, says, tool, most } = best;
    dimensions.push({
      paths,
      says,
      how: tool.how,
      values: paths.map((path) => valueAt(draft, path) as number),
      unit: unitAt(paths[0] as string),
      sd: tool.sd,
      guessSd: tool.guessSd,
      cost: { guessed: most * tool.guessSd, measured: most * tool.sd },
      left: spread(),
    });
  }
  return { guessed, dimensions };
}

/** The short set, with the paddles under each cyclic stick and the tail to both sides, inside its stops. */
function placesTouched(draft: Rig): ReadingPlace[] {
  // Of the tail its pitch alone is asked for: a slider's millimetres are no degrees.
  const set: ReadingPlace[] = shortSet(draft).filter(({ measure }) => reachOf(measure) !== 'tail');
  const place = (measure: Measure, sticks: Partial<Sticks>, azimuth = 0): ReadingPlace => ({
    measure,
    of: 1,
    sticks: { collective: 0, elevator: 0, aileron: 0, rudder: 0, ...sticks },
    azimuth,
    teeter: 0,
    yawRate: 0,
    flipped: false,
  });
  const paddles = [0, 90].flatMap((azimuth) => [
    place('paddle-pitch', { elevator: 1 }, azimuth),
    place('paddle-pitch', { aileron: 1 }, azimuth),
  ]);
  const tail = [-0.5, 0, 0.5].map((rudder) => place('tail-pitch', { rudder }));
  return [...set, ...(draft.flybar ? paddles : []), ...(draft.tail ? tail : [])];
}

/** The numbers of the draft that a pattern names. */
function placesOf(draft: Rig, pattern: string): string[] {
  const star = pattern.indexOf('*');
  if (star < 0) return typeof valueAt(draft, pattern) === 'number' ? [pattern] : [];
  const list = valueAt(draft, pattern.slice(0, star - 1));
  if (!Array.isArray(list)) return [];
  return list.flatMap((_, i) => placesOf(draft, pattern.replace('*', String(i))));
}

/** What stands at each place, in degrees; NaN where it cannot be reached. */
function readings(rig: Rig, places: readonly ReadingPlace[]): number[] {
  const reader = new Reader(prepare(rig));
  return places.map((place) => reader.read(place));
}

/** Degrees a unit of the dimension, at each place; 0 where it, or the place, cannot be reached. */
function slopeOf(draft: Rig, path: string, places: readonly ReadingPlace[], base: readonly number[]): number[] {
  try {
    const moved = readings(applyChange(draft, { path, by: STEP }), places);
    return moved.map((value, p) => (value - (base[p] as number)) / STEP).map((slope) => (Number.isFinite(slope) ? slope : 0));
  } catch (error) {
    // A value at the edge of what may stand there: it is not put out further.
    if (error instanceof ChangeError) return places.map(() => 0);
    throw error;
  }
}
