/**
 * What was seen, felt or flown without a number, as a log-likelihood: exact settings that were looked at, which way
 * things go, binds, and the blade that tracks high. People err: nothing here rules a machine out.
 *
 * A motion d is told as such where it is more than THRESHOLD, and how sure an eye is near it is the width of a normal
 * curve. Common practice, no source, for all of these numbers.
 */
import type { Rig } from '../rig/rig.ts';
import { normalBelow } from '../numerics/normal.ts';
import type { Bench, Extra } from './bench.ts';
import type { Priors } from './priors.ts';
import type { Measure, Moves, ReadingPlace, ReadingsDocument, Sticks, Way } from './readings.ts';
import { singleValues } from './work-machine.ts';

/** Smallest motion that an eye calls one, and how sure it is: degrees, and mm for height. */
const THRESHOLD = { 'swash-height': { least: 0.4, sd: 0.25 }, others: { least: 1, sd: 0.6 } } as const;

/** The chance that a bind is felt where the machine cannot reach, and where it can: links also bind for reasons of their own. */
const FELT_WHERE_BOUND = 0.9;
const FELT_WHERE_FREE = 0.15;

/** Degrees of pitch between blades at which tracking tells the higher one for sure enough. */
const TRACKING_SD = 0.3;

type Score = (h: Float64Array, bench: Bench) => number;

/** The axis along which a way lies, and its sign there. */
const AXES: Record<Exclude<Way, 'none'>, { measures: Partial<Record<Moves['part'], Measure>>; sign: 1 | -1 }> = {
  up: { measures: { servo: 'horn-angle', swash: 'swash-height', blade: 'blade-pitch' }, sign: 1 },
  down: { measures: { servo: 'horn-angle', swash: 'swash-height', blade: 'blade-pitch' }, sign: -1 },
  forward: { measures: { swash: 'fore-aft-tilt', 'fore-aft': 'fore-aft-tilt' }, sign: 1 },
  aft: { measures: { swash: 'fore-aft-tilt', 'fore-aft': 'fore-aft-tilt' }, sign: -1 },
  right: { measures: { swash: 'side-tilt', side: 'side-tilt', tail: 'tail-pitch' }, sign: 1 },
  left: { measures: { swash: 'side-tilt', side: 'side-tilt', tail: 'tail-pitch' }, sign: -1 },
};

const MOTION_OF: Record<Moves['part'], Measure[]> = {
  servo: ['horn-angle'],
  swash: ['swash-height', 'fore-aft-tilt', 'side-tilt'],
  'fore-aft': ['fore-aft-tilt'],
  side: ['side-tilt'],
  blade: ['blade-pitch'],
  tail: ['tail-pitch'],
};

export class Looks {
  readonly extra: Extra[] = [];
  readonly exact: { item: number; path: string }[] = [];
  private readonly scores: Score[] = [];

  /** `rows`: how many places come before the extra ones; `rowPaths`: settings that are rows already. */
  constructor(
    rig: Rig,
    document: ReadingsDocument,
    private readonly rows: number,
    rowItems: ReadonlySet<number>,
    private readonly priors: Priors,
  ) {
    document.readings.forEach((item, i) => {
      if (item.kind === 'seen' && !rowItems.has(i)) this.addSeen(i, item.path, item.value);
      else if (item.kind === 'moves') this.addMoves(i, item.moves);
      else if (item.kind === 'felt') this.addFelt(rig, i, item.sticks, item.mode, item.binds);
      else if (item.kind === 'flight' && item.highBlade !== undefined) this.addHighBlade(rig, i, item.highBlade);
    });
  }

  /** Log-likelihood of all looks, after `bench.evaluate` has written h. */
  score(h: Float64Array, bench: Bench): number {
    let sum = 0;
    for (const score of this.scores) sum += score(h, bench);
    return sum;
  }

  private place(item: number, measure: Measure, of: number, sticks: Sticks, more: Partial<ReadingPlace>): number {
    this.extra.push({ item, place: { measure, of, sticks, azimuth: 0, teeter: 0, yawRate: 0, flipped: false, ...more } });
    return this.rows + this.extra.length - 1;
  }

  private addSeen(item: number, path: string, value: unknown): void {
    const places = singleValues({ path, value }).map((single) => {
      this.exact.push({ item, path: single.path });
      return { at: this.exact.length - 1, value: single.value };
    });
    const { mistaken } = this.priors;
    this.scores.push((_, bench) =>
      places.every(({ at, value: said }) => alike(bench.looked[at], said)) ? Math.log(1 - mistaken) : Math.log(mistaken),
    );
  }

  private addMoves(item: number, moves: Moves): void {
    const { part, of, way, mode } = moves;
    const measures = way === 'none' ? MOTION_OF[part] : [AXES[way].measures[part] ?? (MOTION_OF[part][0] as Measure)];
    const more = { azimuth: moves.azimuth, ...(mode === undefined ? {} : { mode }) };
    const none = { collective: 0, elevator: 0, aileron: 0, rudder: 0 };
    const pairs = measures.map((measure) => ({
      measure,
      there: this.place(item, measure, of, moves.sticks, { ...more, yawRate: moves.yawRate }),
      before: this.place(item, measure, of, none, more),
    }));
    const { mistaken } = this.priors;
    this.scores.push((h) => {
      let chance = 1;
      for (const { measure, there, before } of pairs) {
        const motion = (h[there] as number) - (h[before] as number);
        // A pose that cannot be reached says nothing of the way to it.
        if (motion !== motion) return 0;
        const { least, sd } = measure === 'swash-height' ? THRESHOLD['swash-height'] : THRESHOLD.others;
        chance *=
          way === 'none' ? normalBelow((least - Math.abs(motion)) / sd) : normalBelow((AXES[way].sign * motion - least) / sd);
      }
      return Math.log(mistaken / 2 + (1 - mistaken) * chance);
    });
  }

  private addFelt(rig: Rig, item: number, sticks: Sticks, mode: string | undefined, binds: boolean): void {
    const more = mode === undefined ? {} : { mode };
    const head = this.place(item, 'blade-pitch', 1, sticks, more);
    const tail = rig.tail && sticks.rudder !== 0 ? this.place(item, 'slider', 1, sticks, more) : -1;
    this.scores.push((h, bench) => {
      const bound = Number.isNaN(h[head]) || (tail >= 0 && (Number.isNaN(h[tail]) || bench.pastMm[tail] !== 0));
      const felt = bound ? FELT_WHERE_BOUND : FELT_WHERE_FREE;
      return Math.log(binds ? felt : 1 - felt);
    });
  }

  private addHighBlade(rig: Rig, item: number, highBlade: number): void {
    const { blades } = rig.rotor;
    const none = { collective: 0, elevator: 0, aileron: 0, rudder: 0 };
    const places = Array.from({ length: blades }, (_, k) =>
      this.place(item, 'blade-pitch', k + 1, none, { azimuth: (-360 * k) / blades }),
    );
    const { mistaken } = this.priors;
    this.scores.push((h) => {
      const sum = places.reduce((total, at) => total + (h[at] as number), 0);
      const own = h[places[highBlade - 1] ?? -1] ?? Number.NaN;
      const above = own - (sum - own) / (blades - 1);
      return above === above ? Math.log(mistaken / blades + (1 - mistaken) * normalBelow(above / TRACKING_SD)) : 0;
    });
  }
}

/** The same exact value: numbers as near as anyone reads one off (a hole, an azimuth; a weight of a mix). */
function alike(machine: unknown, said: unknown): boolean {
  if (typeof machine === 'number' && typeof said === 'number')
    return Math.abs(machine - said) <= (Math.abs(said) > 2 ? 0.6 : 0.04);
  return machine === said;
}
