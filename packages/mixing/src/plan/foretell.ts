/**
 * What the gauge should show after a change, with its spread: read off all drawn machines, each with the zeros, lean and play
 * of rounding and hand that the readings have.
 *
 * A belief may have more than one hump, so that neither mean nor standard deviation says where nearly all of it lies: value
 * -+ 1.96 sd is to hold 95 % of what would be read, as short as it can be.
 */
import type { Posterior } from '../diagnosis/posterior.ts';
import { type Reading, type ReadingPlace, type ReadingsDocument, USUAL_SD } from '../diagnosis/readings.ts';
import { instrumentTerms, readingVariance } from '../diagnosis/rows.ts';
import { normalBelow } from '../numerics/normal.ts';
import { seededDraws } from '../numerics/random.ts';

/** A reading to take, and what it should show: degrees or mm. */
export interface Foretold extends ReadingPlace {
  /** centre of what is expected */
  value: number;
  /** one standard deviation of what will be read: belief, instrument and hand together */
  sd: number;
}

/** Readings drawn for each machine: they smooth what few machines leave rough. */
const HANDS = 4;
const HELD = 0.95;
/** Half the width of 95 % of a normal curve, in its standard deviations. */
const NORMAL_95 = 1.959964;

/** How readings come by their zeros, lean and spread on this bench. */
export class Instruments {
  private readonly zeroAt: number[];
  private readonly leanAt: number;
  private readonly play = new Map<number, number>();

  constructor(
    private readonly posterior: Posterior,
    private readonly document: ReadingsDocument,
  ) {
    const { unknowns } = posterior;
    this.leanAt = unknowns.findIndex(({ path }) => path === '/lean/foreAft');
    this.zeroAt = document.instruments.map((_, i) => unknowns.findIndex(({ path }) => path === `/instruments/${i}/zero`));
    for (const item of document.readings) {
      if (item.kind === 'reading' && item.reading.measure === 'blade-play') this.play.set(item.reading.of, item.reading.value);
    }
  }

  /** The place as this bench would read it: with the instrument that has read its like. */
  placed(place: ReadingPlace): ReadingPlace & { sd: number } {
    const like = this.document.readings.findLast((item) => item.kind === 'reading' && item.reading.measure === place.measure);
    const { instrument, sd } = like?.kind === 'reading' ? like.reading : { instrument: undefined, sd: USUAL_SD[place.measure] };
    return { ...place, ...(instrument === undefined ? {} : { instrument }), sd };
  }

  sdOf(place: ReadingPlace & { sd: number }): number {
    const reading: Reading = { ...place, value: 0 };
    return Math.sqrt(readingVariance(this.document, reading, this.play));
  }

  /** What is shown beside what is: the drawn zero, and the drawn lean as the place takes it. */
  shown(place: ReadingPlace, is: number, values: Float64Array): number {
    const { way, leanForeAft, leanSide } = instrumentTerms(this.posterior.record, this.document, place);
    const zero = place.instrument === undefined ? 0 : (values[this.zeroAt[place.instrument] ?? -1] ?? 0);
    const lean =
      this.leanAt < 0 ? 0 : leanForeAft * (values[this.leanAt] as number) + leanSide * (values[this.leanAt + 1] as number);
    return zero + way * (is + lean);
  }
}

/** Value and sd of what will be shown, from what each drawn machine would show (NaN out of reach) and the hand's own sd. */
export function foretoldOf(shown: readonly number[], handSd: number, seed: number): { value: number; sd: number } | undefined {
  const draws = seededDraws(seed);
  const all: number[] = [];
  for (const value of shown) {
    if (value !== value) continue;
    for (let i = 0; i < HANDS; i++) all.push(value + handSd * draws.normal());
  }
  if (all.length < shown.length * HANDS * HELD) return undefined;
  const { value, sd } = shortest(Float64Array.from(all).sort());
  // The shortest of few is a little too short. Where all but a few lie in one hump about it, the hump's own standard
  // deviation says it better, widened so that it makes up for those few.
  const hump = all.filter((one) => Math.abs(one - value) <= HUMP * sd);
  const inside = hump.length / all.length;
  if (inside < LEAST_INSIDE) return { value, sd };
  const mean = hump.reduce((sum, one) => sum + one, 0) / hump.length;
  const variance = hump.reduce((sum, one) => sum + (one - mean) ** 2, 0) / (hump.length - 1);
  return { value: mean, sd: (Math.sqrt(variance) * halfWidth(Math.min(1, HELD / inside))) / NORMAL_95 };
}

/** How far a hump reaches, in its standard deviations; and how much of all it must hold, a little more than is to be held. */
const HUMP = 3.5;
const LEAST_INSIDE = 0.96;

/** The shortest interval that holds HELD of the sorted values, as mean and standard deviation. */
function shortest(sorted: Float64Array): { value: number; sd: number } {
  const held = Math.ceil(HELD * sorted.length);
  const width = (from: number) => (sorted[from + held - 1] as number) - (sorted[from] as number);
  let from = 0;
  for (let i = 1; i + held <= sorted.length; i++) if (width(i) < width(from)) from = i;
  let sum = 0;
  for (let i = from; i < from + held; i++) sum += sorted[i] as number;
  return { value: sum / held, sd: width(from) / 2 / NORMAL_95 };
}

/** Half the width of the middle `share` of a normal curve, in standard deviations, by halving: 1e-9 of one. */
function halfWidth(share: number): number {
  let [low, high] = [0, 8];
  while (high - low > 1e-9) {
    const middle = (low + high) / 2;
    if (2 * normalBelow(middle) - 1 < share) low = middle;
    else high = middle;
  }
  return high;
}
