/**
 * For each change of a plan, in its order: the readings that show best that it was made and did what it should, and what
 * they should then be. Those that move most for their own spread are chosen, on the likeliest machine; what they should
 * be is read off all drawn ones.
 */
import type { Posterior } from '../diagnosis/posterior.ts';
import { Reader } from '../diagnosis/reader.ts';
import type { ReadingPlace, ReadingsDocument, Sticks } from '../diagnosis/readings.ts';
import { azimuthFor, type Pointing, standardSet } from '../diagnosis/standard-set.ts';
import { prepare, type PreparedRig } from '../rig/prepare.ts';
import type { Rig } from '../rig/rig.ts';
import { type Foretold, foretoldOf, Instruments } from './foretell.ts';
import { type DrawnMachine, type Machine, preparing } from './machines.ts';
import { type Alteration, makeChanges } from './place.ts';

/** Readings that are asked for after one change. */
const SHOWN = 2;
/** A second reading must move by at least this many of its own standard deviations to be worth the hand. */
const TELLING = 2;

const MID: Sticks = { collective: 0, elevator: 0, aileron: 0, rudder: 0 };

/**
 * Closing readings that the standard set does not take: at the ends of collective with each blade where it was not read
 * there before. The mean of both is the blade's pitch, whatever the ring's tilt and the mast's lean.
 */
const OTHER_WAY: readonly [of: number, collective: number, pointing: Pointing][] = [
  [1, 1, 'nose'],
  [2, 1, 'tail'],
  [2, -1, 'nose'],
  [1, -1, 'tail'],
];

/** Places where a change may show: the standard set, every blade at mid-stick, and the cyclics' other axis. */
export function placesFor(rig: Rig): ReadingPlace[] {
  const blade = (of: number, sticks: Partial<Sticks>, pointing: Pointing): ReadingPlace => ({
    measure: 'blade-pitch',
    of,
    sticks: { ...MID, ...sticks },
    azimuth: azimuthFor(rig, pointing, of),
    teeter: 0,
    yawRate: 0,
    flipped: false,
  });
  const standard = standardSet(rig).map(({ pointing: _, ...place }): ReadingPlace => place);
  const own = [
    ...rig.rotor.links.flatMap((_, k) => [blade(k + 1, {}, 'tail'), blade(k + 1, {}, 'nose')]),
    ...OTHER_WAY.map(([of, collective, pointing]) => blade(of, { collective }, pointing)),
  ];
  const known = new Set(standard.map(keyOf));
  return [
    ...standard.filter(({ of }) => of <= Math.max(3, rig.rotor.blades)),
    ...own.filter((place) => !known.has(keyOf(place))),
  ].filter((place) => place.measure !== 'blade-pitch' || place.of <= rig.rotor.blades);
}

const keyOf = ({ measure, of, sticks, azimuth, yawRate }: ReadingPlace) =>
  `${measure} ${of} ${JSON.stringify(sticks)} ${azimuth} ${yawRate}`;

export interface AfterOptions {
  posterior: Posterior;
  readings: ReadingsDocument;
  machines: readonly DrawnMachine[];
  /** the likeliest machine as it stands now */
  likeliest: Rig;
  seed: number;
}

/** What is shown after each change (all changes of a `group` made), and at the end. */
export function afterEach(
  changes: readonly Alteration[],
  groups: readonly number[],
  options: AfterOptions,
): { each: Foretold[][]; end: Foretold[] } {
  const { posterior, readings, machines, likeliest, seed } = options;
  const instruments = new Instruments(posterior, readings);
  const places = placesFor(posterior.record).map((place) => instruments.placed(place));
  const handSd = places.map((place) => instruments.sdOf(place));
  const valuesOf = (made: readonly Alteration[]) => readAll(likeliest, made, places);

  const chosen: number[][] = [];
  let before = valuesOf([]);
  changes.forEach((_, i) => {
    const through = lastOfGroup(groups, i);
    if (i > 0 && groups[i] === groups[i - 1]) {
      chosen.push(chosen[i - 1] as number[]);
      return;
    }
    const then = valuesOf(changes.slice(0, through + 1));
    const telling = places
      .map((_place, p) => ({ p, moves: Math.abs((then[p] as number) - (before[p] as number)) / (handSd[p] as number) }))
      .filter(({ moves }) => moves === moves)
      .sort((a, b) => b.moves - a.moves);
    chosen.push(
      telling
        .slice(0, SHOWN)
        .filter(({ moves }, rank) => rank === 0 || moves > TELLING)
        .map(({ p }) => p),
    );
    before = then;
  });

  const ending = places.flatMap((place, p) => (isClosing(posterior.record, place) ? [p] : []));
  const shown = new Map<string, number[]>();
  const note = (step: number, p: number, value: number) => {
    const key = `${step} ${p}`;
    const list = shown.get(key);
    if (list) list.push(value);
    else shown.set(key, [value]);
  };
  const preparedAt = Array.from({ length: changes.length + 1 }, (_, step) => {
    const through = step < changes.length ? lastOfGroup(groups, step) : changes.length - 1;
    return preparing(changes.slice(0, through + 1));
  });
  for (const machine of machines) {
    const { values } = machine;
    for (let step = 0; step <= changes.length; step++) {
      const wanted = step < changes.length ? (chosen[step] as number[]) : ending;
      if (step > 0 && step < changes.length && groups[step] === groups[step - 1]) continue;
      const reader = new Reader((preparedAt[step] as (machine: Machine) => PreparedRig)(machine));
      for (const p of wanted)
        note(step, p, instruments.shown(places[p] as ReadingPlace, reader.read(places[p] as ReadingPlace), values));
    }
  }
  const toldAt = (step: number, p: number): Foretold[] => {
    const told = foretoldOf(shown.get(`${step} ${p}`) ?? [], handSd[p] as number, seed + 31 * step + p);
    if (told === undefined) return [];
    return [{ ...(places[p] as ReadingPlace), ...told }];
  };
  const each = changes.map((_, i) => (chosen[i] as number[]).flatMap((p) => toldAt(groups.indexOf(groups[i] as number), p)));
  return { each, end: ending.flatMap((p) => toldAt(changes.length, p)) };
}

/** The last change made together with change i: nothing can be read between the two leads of a pair. */
function lastOfGroup(groups: readonly number[], i: number): number {
  return groups.lastIndexOf(groups[i] as number);
}

/** What is read at the end: level, every blade over the nose at mid-stick, two at the ends, and each cyclic stick as before. */
function isClosing(record: Rig, { measure, sticks, of, azimuth }: ReadingPlace): boolean {
  const { collective, elevator, aileron } = sticks;
  const cyclic = elevator !== 0 || aileron !== 0;
  if (measure === 'fore-aft-tilt' || measure === 'side-tilt') return collective === 0 && !cyclic;
  if (measure === 'slider') return true;
  if (measure !== 'blade-pitch') return false;
  if (cyclic) return of === 1;
  const over = (pointing: Pointing) => azimuth === azimuthFor(record, pointing, of);
  if (collective === 0) return over('nose');
  return OTHER_WAY.some(([blade, stick, pointing]) => blade === of && stick === collective && over(pointing));
}

function readAll(rig: Rig, changes: readonly Alteration[], places: readonly ReadingPlace[]): number[] {
  const undo = makeChanges(rig, changes);
  const reader = new Reader(prepare(rig));
  const values = places.map((place) => reader.read(place));
  undo();
  return values;
}
