/**
 * What a person can read or look at on this machine, with about how long it takes: the offers among which `next` chooses.
 */
import type { Rig } from '../rig/rig.ts';
import type { Faultlike } from './next.ts';
import type { Measure, ReadingPlace, ReadingsDocument, Sticks } from './readings.ts';
import { azimuthFor, type Pointing, type SetPlace } from './standard-set.ts';

export interface Offer {
  /** minutes, about; common practice, no source */
  effort: number;
  place?: SetPlace;
  path?: string;
}

const MID: Sticks = { collective: 0, elevator: 0, aileron: 0, rudder: 0 };
const GAUGE = 1.5;
const LEVELLER = 1;
const EYE = 0.7;
const LOOK = 0.5;

const HEAD_STICKS: Partial<Sticks>[] = [
  {},
  { collective: 1 },
  { collective: -1 },
  { elevator: 1 },
  { elevator: -1 },
  { aileron: 1 },
  { aileron: -1 },
];
const POINTINGS: Pointing[] = ['tail', 'left', 'nose', 'right'];

/** Places in `instruments` that were used before for each measure: the next reading is taken with the same one. */
function instrumentsUsed(readings: ReadingsDocument): Map<Measure, number> {
  const used = new Map<Measure, number>();
  for (const item of readings.readings) {
    if (item.kind === 'reading' && item.reading.instrument !== undefined) used.set(item.reading.measure, item.reading.instrument);
  }
  return used;
}

export function offersOf(rig: Rig, readings: ReadingsDocument, faults: readonly Faultlike[]): Offer[] {
  const used = instrumentsUsed(readings);
  const offers: Offer[] = [];
  const add = (measure: Measure, of: number, sticks: Partial<Sticks>, effort: number, more: Partial<SetPlace> = {}): void => {
    const instrument = used.get(measure);
    offers.push({
      effort,
      place: {
        measure,
        of,
        sticks: { ...MID, ...sticks },
        azimuth: 0,
        teeter: 0,
        yawRate: 0,
        flipped: false,
        ...(instrument === undefined ? {} : { instrument }),
        ...more,
      },
    });
  };
  for (const sticks of HEAD_STICKS) {
    add('fore-aft-tilt', 1, sticks, LEVELLER);
    add('side-tilt', 1, sticks, LEVELLER);
    for (const pointing of POINTINGS) add('blade-pitch', 1, sticks, GAUGE, { pointing, azimuth: azimuthFor(rig, pointing) });
  }
  for (let of = 2; of <= rig.rotor.blades; of++)
    add('blade-pitch', of, {}, GAUGE, { pointing: 'tail', azimuth: azimuthFor(rig, 'tail', of) });
  for (let of = 1; of <= 3; of++) for (const sticks of HEAD_STICKS.slice(0, 2)) add('horn-angle', of, sticks, EYE);
  const gauge = used.get('blade-pitch');
  if (gauge !== undefined && (readings.instruments[gauge]?.zeroSd ?? 0) > 0) {
    add('blade-pitch', 1, {}, GAUGE, { pointing: 'tail', azimuth: azimuthFor(rig, 'tail'), flipped: true });
  }
  if (rig.flybar) {
    for (const of of [1, 2]) {
      add('washout-arm', of, {}, EYE);
      add('mixing-arm', of, {}, EYE);
    }
    add('paddle-pitch', 1, {}, GAUGE, { pointing: 'tail', azimuth: azimuthFor(rig, 'tail', 1, 'paddle-pitch') });
  }
  if (rig.tail) {
    for (const rudder of [0, 1, -1]) add('slider', 1, { rudder }, LEVELLER);
    add('tail-horn-angle', 1, {}, EYE);
    add('tail-pitch', 1, {}, GAUGE);
    if (rig.tail.gyro) add('slider', 1, {}, LEVELLER, { yawRate: 90 });
  }
  for (const path of lookedAtPaths(faults)) offers.push({ effort: LOOK, path });
  return offers;
}

/** Values that an eye can read off: settings, leads, holes and what is printed on a servo; never a length or an angle of a part. */
const VISIBLE = /^\/(transmitter\/|servos\/\d\/(output|neutral|horn\/length)$|tail\/gyro\/reverse$)/;

function lookedAtPaths(faults: readonly Faultlike[]): string[] {
  const paths = faults.flatMap(({ path, singles }) => (path === undefined ? singles.map((single) => single.path) : [path]));
  return [
    ...new Set(
      paths.filter(
        (path) => VISIBLE.test(path) && !/\/mix\/(azimuths|weights)\/[12]/.test(path) && !/\/weights\/0\/[12]/.test(path),
      ),
    ),
  ];
}

/** The same place, whatever value it showed. */
export const samePlace = (a: ReadingPlace, b: ReadingPlace): boolean =>
  a.measure === b.measure &&
  a.of === b.of &&
  a.flipped === b.flipped &&
  a.yawRate === b.yawRate &&
  a.azimuth === b.azimuth &&
  a.sticks.collective === b.sticks.collective &&
  a.sticks.elevator === b.sticks.elevator &&
  a.sticks.aileron === b.sticks.aileron &&
  a.sticks.rudder === b.sticks.rudder;
