/**
 * Readings as rows of numbers: what each should be for a posed machine, its variance, and what its instrument adds.
 *
 *   shown = zero + way (value + leanForeAft f + leanSide s)         way -1 where the gauge was turned end for end
 *
 * A gravity gauge on a blade at psi takes -sin psi of the mast's lean nose-down f, and -cos psi of its lean right-down s
 * (+cos psi on a clockwise rotor); a leveller takes all of the lean of its own axis; nothing else leans.
 * A setting that was looked at, where it is a value that may be off by any amount, is a row too.
 */
import { cosDeg, sinDeg } from '../quantities/angles.ts';
import { rotationSign } from '../quantities/frames.ts';
import type { Rig } from '../rig/rig.ts';
import type { UnknownValue } from './posterior.ts';
import type { Priors } from './priors.ts';
import type { Measure, Reading, ReadingPlace, ReadingsDocument } from './readings.ts';

export interface Row {
  /** place in the readings, all items counted */
  item: number;
  value: number;
  variance: number;
  /** variance where the reading is wild */
  wildVariance: number;
  /** place of its zero in the unknowns, or -1 */
  zero: number;
  way: 1 | -1;
  leanForeAft: number;
  leanSide: number;
  what: ReadingPlace | { seen: string };
}

/** The instrument's part of a reading's place: how lean goes in and which zero it has. */
export function instrumentTerms(
  rig: Rig,
  document: Pick<ReadingsDocument, 'instruments' | 'lean'>,
  place: ReadingPlace,
): Pick<Row, 'way' | 'leanForeAft' | 'leanSide'> {
  const instrument = place.instrument === undefined ? undefined : document.instruments[place.instrument];
  const onGravity = (instrument?.reference ?? 'gravity') === 'gravity';
  const way = place.flipped ? -1 : 1;
  const rotation = rotationSign(rig.rotor.rotation);
  if (onGravity && place.measure === 'fore-aft-tilt') return { way, leanForeAft: 1, leanSide: 0 };
  if (onGravity && place.measure === 'side-tilt') return { way, leanForeAft: 0, leanSide: 1 };
  if (onGravity && (place.measure === 'blade-pitch' || place.measure === 'paddle-pitch')) {
    const ahead = place.measure === 'blade-pitch' ? (360 * (place.of - 1)) / rig.rotor.blades : (rig.flybar?.azimuth ?? 0);
    const psi = place.azimuth + ahead;
    return { way, leanForeAft: -sinDeg(psi), leanSide: -rotation * cosDeg(psi) };
  }
  return { way, leanForeAft: 0, leanSide: 0 };
}

/** Steps in which a reading is shown where no instrument says: a gauge's digits, and what an eye tells apart. No source. */
const USUAL_STEP: Partial<Record<Measure, number>> = {
  'horn-angle': 1,
  'lever-angle': 1,
  'washout-arm': 1,
  'mixing-arm': 1,
  'tail-horn-angle': 1,
};

/** How well a setting is known that was looked at: half of the last digit shown. */
export const SEEN_SD: Record<string, number> = { degree: 0.3, mm: 0.1, us: 1, percent: 0.5 };

/**
 * Degrees beyond which no blade, paddle or swashplate of these heads goes, jammed or not. What is typed beyond it (a decimal
 * point left out) is wild whatever it is, and is weighed as if it stood there: from 60 degrees on, the tails of a wild
 * reading are so thin that several faults at once would be made up rather than the reading be doubted. No source.
 */
const FURTHEST_DEG: Partial<Record<Measure, number>> = {
  'blade-pitch': 40,
  'paddle-pitch': 40,
  'fore-aft-tilt': 40,
  'side-tilt': 40,
};

function held({ measure, value }: Reading): number {
  const furthest = FURTHEST_DEG[measure] ?? Number.POSITIVE_INFINITY;
  return Math.min(furthest, Math.max(-furthest, value));
}

export function isMillimetres(measure: Measure): boolean {
  return measure === 'swash-height' || measure === 'washout-height' || measure === 'slider';
}

/** One standard deviation of a reading, squared: its own, the step it was rounded to, and half the play that was felt there. */
export function readingVariance(
  document: Pick<ReadingsDocument, 'instruments'>,
  reading: Reading,
  playOfBlade: ReadonlyMap<number, number>,
): number {
  const step =
    (reading.instrument === undefined ? 0 : document.instruments[reading.instrument]?.step) || USUAL_STEP[reading.measure] || 0.1;
  const play = reading.measure === 'blade-pitch' ? (playOfBlade.get(reading.of) ?? 0) : 0;
  // evenly spread over a step, or over the play: a twelfth of its square
  return reading.sd ** 2 + (step * step + play * play) / 12;
}

export function rowsOf(rig: Rig, document: ReadingsDocument, unknowns: readonly UnknownValue[], priors: Priors): Row[] {
  const placeOf = new Map(unknowns.map(({ path }, k) => [path, k]));
  const play = new Map<number, number>();
  for (const item of document.readings) {
    if (item.kind === 'reading' && item.reading.measure === 'blade-play') play.set(item.reading.of, item.reading.value);
  }
  return document.readings.flatMap((item, i): Row[] => {
    if (item.kind === 'seen') {
      const k = placeOf.get(item.path);
      if (k === undefined || typeof item.value !== 'number') return [];
      const sd = SEEN_SD[unknowns[k]?.unit ?? ''] ?? 0.1;
      // Whoever misreads a setting is off by anything: as wide as the value and half again.
      const wild = Math.max(sd * 20, Math.abs(item.value) / 2);
      return [
        {
          item: i,
          value: item.value,
          variance: sd * sd,
          wildVariance: wild * wild,
          zero: -1,
          way: 1,
          leanForeAft: 0,
          leanSide: 0,
          what: { seen: item.path },
        },
      ];
    }
    if (item.kind !== 'reading' || item.reading.measure === 'blade-play') return [];
    const { reading } = item;
    const spread = isMillimetres(reading.measure) ? priors.wild.spreadMm : priors.wild.spreadDeg;
    const variance = readingVariance(document, reading, play);
    return [
      {
        item: i,
        value: held(reading),
        variance,
        wildVariance: variance + spread * spread,
        zero: reading.instrument === undefined ? -1 : (placeOf.get(`/instruments/${reading.instrument}/zero`) ?? -1),
        ...instrumentTerms(rig, document, reading),
        what: reading,
      },
    ];
  });
}
