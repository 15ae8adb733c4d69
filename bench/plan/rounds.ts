/**
 * A hidden machine brought within its targets: it is read, a plan is made, what the plan says is done to the machine itself,
 * and it is read again with what was done among the readings, up to three rounds.
 *
 * Judged by the library's `predict` over the definition's 72 azimuths and by `coupling`, not by what the plan itself reckons.
 */
import { normal, trueValue, type Drawn } from '../diagnosis/draw.ts';
import { coupling } from '../../packages/mixing/src/coupling/coupling.ts';
import type { Item, Reading, ReadingPlace, ReadingsDocument } from '../../packages/mixing/src/diagnosis/readings.ts';
import { standardSet } from '../../packages/mixing/src/diagnosis/standard-set.ts';
import { isLead } from '../../packages/mixing/src/plan/place.ts';
import { type Plan, plan } from '../../packages/mixing/src/plan/plan.ts';
import { defaultTargets } from '../../packages/mixing/src/plan/targets-document.ts';
import { applyChanges, type Change } from '../../packages/mixing/src/rig/changes.ts';
import { predict } from '../../packages/mixing/src/rig/predict.ts';
import { prepare } from '../../packages/mixing/src/rig/prepare.ts';
import type { Case, Rig } from '../../packages/mixing/src/rig/rig.ts';
import { type Random, seededRandom } from '../../tests/support/random.ts';

/** The gauge's zero and the lean of one bench, which stay as they are from round to round. */
export interface BenchErrors {
  zero: number;
  foreAft: number;
  side: number;
  zeroSd: number;
  leanSd: number;
  /** the leveller is laid against the mast, where lean does not show; else against gravity */
  onShaft: boolean;
}

export interface RoundResult {
  /** after the round */
  ratios: Record<string, number>;
  /** within the targets before the round, and after it */
  before: boolean;
  after: boolean;
  plan: Plan;
  ms: number;
  /** readings that were foretold after single adjustments: how many standard deviations off each was */
  foretold: number[];
}

const SD: Record<string, [sd: number, step: number]> = {
  'horn-angle': [1.5, 1],
  'washout-arm': [2, 1],
  'mixing-arm': [2, 1],
  'tail-horn-angle': [1.5, 1],
  'blade-pitch': [0.25, 0.1],
  'paddle-pitch': [0.5, 0.1],
  'fore-aft-tilt': [0.3, 0.1],
  'side-tilt': [0.3, 0.1],
  slider: [0.2, 0.1],
  'tail-pitch': [0.5, 0.1],
};

export function readPlace(random: Random, machine: Rig, place: ReadingPlace, errors: BenchErrors): Reading | undefined {
  const prepared = prepare(machine);
  const exact = trueValue(prepared, place);
  if (exact === undefined || Number.isNaN(exact)) return undefined;
  const [sd, step] = SD[place.measure] as [number, number];
  const turn = machine.rotor.rotation === 'counterclockwise' ? 1 : -1;
  let stands = exact;
  let zero = 0;
  if (place.measure === 'blade-pitch' || place.measure === 'paddle-pitch') {
    const ahead =
      place.measure === 'paddle-pitch' ? (machine.flybar?.azimuth ?? 0) : (360 / machine.rotor.blades) * (place.of - 1);
    const psi = ((place.azimuth + ahead) * Math.PI) / 180;
    stands -= errors.foreAft * Math.sin(psi) + turn * errors.side * Math.cos(psi);
    if (place.measure === 'blade-pitch') zero = errors.zero;
  } else if (place.measure === 'fore-aft-tilt') stands += errors.onShaft ? 0 : errors.foreAft;
  else if (place.measure === 'side-tilt') stands += errors.onShaft ? 0 : errors.side;
  const shown = zero + (place.flipped ? -stands : stands) + sd * normal(random);
  const by = instrumentsOf(errors).findIndex(({ measures }) => measures.includes(place.measure));
  return { ...place, value: Math.round(shown / step) * step, sd, ...(by < 0 ? {} : { instrument: by }) };
}

/** Instruments that are told of in the document, and what is read with each. */
function instrumentsOf({ zeroSd, onShaft }: BenchErrors) {
  const gauge = {
    instrument: { name: 'pitch gauge', reference: 'gravity' as const, zeroSd, step: 0.1 },
    measures: ['blade-pitch'],
  };
  const leveller = {
    instrument: { name: 'leveller', reference: 'shaft' as const, zeroSd: 0, step: 0.1 },
    measures: ['fore-aft-tilt', 'side-tilt'],
  };
  return [...(zeroSd > 0 ? [gauge] : []), ...(onShaft ? [leveller] : [])];
}

export function documentOf(items: Item[], errors: BenchErrors): ReadingsDocument {
  return {
    format: 'swashtrue-readings/1',
    instruments: instrumentsOf(errors).map(({ instrument }) => instrument),
    lean: { foreAftSd: errors.leanSd, sideSd: errors.leanSd },
    readings: items,
  };
}

export function placesFor(record: Rig, flip: boolean): ReadingPlace[] {
  const places: ReadingPlace[] = standardSet(record).map(({ pointing: _, ...place }) => place);
  const gauge = places.findIndex(({ measure }) => measure === 'blade-pitch');
  if (flip && gauge >= 0) places.splice(gauge + 1, 0, { ...(places[gauge] as ReadingPlace), flipped: true });
  return places;
}

/**
 * Rounds of reading and doing. `typeIn`: what is read after each adjustment is typed in, as the page asks for; else every
 * round takes the standard set alone. Undefined where the machine cannot be read (it jams).
 */
export function bringIn(
  drawn: Drawn,
  seed: number,
  rounds: number,
  errors: BenchErrors,
  flip: boolean,
  wild: boolean,
  typeIn: boolean,
): RoundResult[] | undefined {
  const random = seededRandom(seed * 17 + 3);
  let machine = drawn.machine;
  const items: Item[] = [];
  const results: RoundResult[] = [];
  for (let round = 0; round < rounds; round++) {
    const from = items.length;
    for (const place of placesFor(drawn.record, flip)) {
      const reading = readPlace(random, machine, place, errors);
      if (reading === undefined) return round === 0 ? undefined : results;
      items.push({ kind: 'reading', reading });
    }
    if (wild && round === 0) {
      const item = items[from + random.whole(0, items.length - from - 1)] as { kind: 'reading'; reading: Reading };
      item.reading.value += random.sign() * random.between(3, 12);
    }
    const before = within(machine);
    const t = process.cpuUsage();
    const made = plan(drawn.record, documentOf(items, errors));
    const spent = process.cpuUsage(t);
    const foretold: number[] = [];
    let pending: Change[] = [];
    made.adjustments.forEach((adjustment, i) => {
      pending.push(
        adjustment.by === undefined ? { path: adjustment.path, to: adjustment.to } : { path: adjustment.path, by: adjustment.by },
      );
      items.push({ kind: 'adjusted', ...(pending.at(-1) as { path: string }) });
      const next = made.adjustments[i + 1];
      const lead = isLead(adjustment) && next !== undefined && isLead(next);
      if (lead) return;
      machine = applyChanges(machine, pending);
      pending = [];
      for (const told of adjustment.after) note(told);
    });
    for (const told of made.after) note(told);
    function note(told: Plan['after'][number]) {
      const read = readPlace(random, machine, told, errors);
      if (!read) return;
      foretold.push((read.value - told.value) / told.sd);
      if (typeIn) items.push({ kind: 'reading', reading: read });
    }
    results.push({
      before,
      after: within(machine),
      ratios: ratios(machine),
      plan: made,
      ms: (spent.user + spent.system) / 1000,
      foretold,
    });
  }
  return results;
}

/** Within the default targets. */
export function within(rig: Rig): boolean {
  return Object.values(ratios(rig)).every((ratio) => ratio <= 1);
}

/** How far the machine is from each of the default targets: 1 at the edge of what is near enough. */
export function ratios(rig: Rig): Record<string, number> {
  const { collective, cyclic, within: near } = defaultTargets();
  const prepared = prepare(rig);
  const theta0 = (kase: Case) => rig.rotor.links.map((_, k) => bladeMean(rig, k, kase));
  const mid = theta0({});
  const swash = predict(prepared, {}).swash;
  const here = coupling(prepared);
  if (!swash || 'unreachable' in here) return { unreachable: Number.POSITIVE_INFINITY };
  const tilt =
    (Math.atan(Math.hypot(Math.tan((swash.foreAft * Math.PI) / 180), Math.tan((swash.side * Math.PI) / 180))) * 180) / Math.PI;
  const amplitude = (stick: 'elevator' | 'aileron', of: 'longitudinal' | 'lateral') => {
    const ends = [1, -1].map((end) => predict(prepared, { [stick]: end }).harmonics);
    const [a, b] = ends.map((harmonics) => (harmonics && !('unreachable' in harmonics) ? harmonics[of] : Number.NaN)) as [
      number,
      number,
    ];
    return (a - b) / 2;
  };
  const most = (list: number[]) =>
    list.reduce((worst, x) => Math.max(worst, Number.isNaN(x) ? Number.POSITIVE_INFINITY : Math.abs(x)), 0);
  return {
    level: tilt / near.level,
    zero: most(mid) / near.zero,
    match: (Math.max(...mid) - Math.min(...mid)) / near.match,
    ends:
      most([-1, 1].flatMap((end, i) => theta0({ collective: end }).map((pitch) => pitch - (collective[i] as number)))) /
      near.ends,
    cyclic: most([amplitude('elevator', 'longitudinal') - cyclic, amplitude('aileron', 'lateral') - cyclic]) / near.cyclic,
    cross: most([here.cross.blade.elevator ?? Number.NaN, here.cross.blade.aileron ?? Number.NaN]) / near.cross,
  };
}

/** theta0 of blade k: that of blade 1 on a machine whose first link is blade k's. */
function bladeMean(rig: Rig, k: number, kase: Case): number {
  if (rig.flybar && k === 1) return flybarSecond(rig, kase);
  const links = [...rig.rotor.links];
  links[0] = links[k] as number;
  const { harmonics } = predict(prepare({ ...rig, rotor: { ...rig.rotor, links } }), kase);
  return harmonics && !('unreachable' in harmonics) ? harmonics.collective : Number.NaN;
}

/** The second blade of a flybar head, whose mixing arm is its own: the mean of what it shows all round. */
function flybarSecond(rig: Rig, kase: Case): number {
  const prepared = prepare(rig);
  let sum = 0;
  for (let azimuth = 0; azimuth < 360; azimuth += 15)
    sum += predict(prepared, { ...kase, azimuth }).blades?.[1]?.pitch ?? Number.NaN;
  return sum / 24;
}
