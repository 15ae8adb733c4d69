/** What is told beside gauge readings: looks, motions, changes made half way, an unknown zero and lean, wild readings. */
import { describe, expect, it } from 'vitest';
import { diagnose, posterior } from '../../packages/mixing/src/diagnosis/index.ts';
import type { Item, ReadingsDocument } from '../../packages/mixing/src/diagnosis/readings.ts';
import { shortSet, standardSet } from '../../packages/mixing/src/diagnosis/standard-set.ts';
import { applyChanges, valueAt } from '../../packages/mixing/src/rig/changes.ts';
import { predict } from '../../packages/mixing/src/rig/predict.ts';
import { prepare } from '../../packages/mixing/src/rig/prepare.ts';
import { expectNear } from '../support/expect-near.ts';
import { seededRandom } from '../support/random.ts';
import { documentOf, itemsOf, rigOf, standardReadings } from './seeded-readings.ts';

const record = rigOf(6, 'direct');
const pathsOf = (changes: readonly { path: string }[]) => changes.map(({ path }) => path).join(' ');
const probabilityOf = (document: ReadingsDocument, path: string) =>
  posterior(record, document).suspects.find(({ paths }) => paths.length === 1 && paths[0] === path)?.probability ?? 0;

describe('what no reading tells apart', () => {
  // 6 degrees at one horn: an offset, 60 microseconds of sub-trim
  const machine = applyChanges(record, [{ path: '/servos/1/horn/offset', by: 5.6 }]);
  const readings = standardReadings(machine);
  const output = record.servos[1].output - 1;
  const diagnosis = diagnose(record, readings);

  it('is alike: an offset of the horn and a sub-trim left over', () => {
    const at = (path: string) => diagnosis.causes.findIndex(({ changes }) => pathsOf(changes) === path);
    const offset = at('/servos/1/horn/offset');
    const subtrim = at(`/transmitter/outputs/${output}/subtrim`);
    expect(diagnosis.alike.some((group) => group.includes(offset) && group.includes(subtrim))).toBe(true);
    const log = (i: number) => diagnosis.causes[i]?.logLikelihood as number;
    expect(Math.abs(log(offset) - log(subtrim))).toBeLessThanOrEqual(Math.log(3));
  });

  it('is split by a look at the sub-trim, which is what is asked for; and then asked no more', () => {
    const look = `/transmitter/outputs/${output}/subtrim`;
    expect(diagnosis.next.slice(0, 3).map(({ look: at }) => at?.path)).toContain(look);
    const looked = diagnose(record, documentOf([...readings.readings, { kind: 'seen', path: look, value: 0 }]));
    expect(pathsOf(looked.causes[0]?.changes ?? [])).toBe('/servos/1/horn/offset');
    const gain = (diagnosisOf: typeof diagnosis) => diagnosisOf.next.find(({ look: at }) => at?.path === look)?.gain ?? 0;
    expect(gain(looked)).toBeLessThan(gain(diagnosis) / 5);
    const found = diagnose(record, documentOf([...readings.readings, { kind: 'seen', path: look, value: 55 }]));
    expect(pathsOf(found.causes[0]?.changes ?? [])).toBe(look);
  });

  it('probabilities are of one, and next is ordered by gain for the minutes', () => {
    const told = diagnosis.causes.reduce((sum, { probability }) => sum + probability, 0);
    expect(told).toBeGreaterThan(0.7);
    expect(told).toBeLessThanOrEqual(1 + 1e-9);
    const worth = diagnosis.next.map(({ gain, effort }) => gain / effort);
    expect(worth).toEqual([...worth].sort((a, b) => b - a));
  });
});

describe('without a gauge', () => {
  it('which way a horn goes tells a reversed output from a swapped lead or none', () => {
    const path = `/transmitter/outputs/${record.servos[0].output - 1}/reverse`;
    const sticks = { collective: 1, elevator: 0, aileron: 0, rudder: 0 };
    const prepared = prepare(record);
    const way = (of: number, asRecorded: boolean): Item => {
      const turned =
        (predict(prepared, sticks).servos?.[of - 1]?.horn as number) - (predict(prepared, {}).servos?.[of - 1]?.horn as number);
      return {
        kind: 'moves',
        moves: { sticks, part: 'servo', of, way: turned > 0 === asRecorded ? 'up' : 'down', azimuth: 0, yawRate: 0 },
      };
    };
    const before = probabilityOf(documentOf([way(2, true), way(3, true)]), path);
    const after = probabilityOf(documentOf([way(1, false), way(2, true), way(3, true)]), path);
    expect(after).toBeGreaterThan(3 * before);
    expect(after).toBeGreaterThan(0.5);
  });
});

describe('changes made on the bench', () => {
  it('readings after a change are of the changed machine: the fault found is the one that was there at first', () => {
    const machine = applyChanges(record, [{ path: '/servos/2/link', by: 1.4 }]);
    const mended = applyChanges(machine, [{ path: '/servos/2/link', by: -1 }]);
    const set = shortSet(record);
    const document = documentOf([
      ...itemsOf(machine, set),
      { kind: 'adjusted', path: '/servos/2/link', by: -1 },
      ...itemsOf(mended, set),
    ]);
    const believed = posterior(record, document);
    const first = believed.hypotheses[0];
    expect(pathsOf(first?.changes ?? [])).toBe('/servos/2/link');
    const length = record.servos[2].link;
    expectNear(first?.changes[0]?.machine as number, length + 1.4, 0.25, 'mm');
    if (first) {
      expectNear(valueAt(believed.meanNow(first), '/servos/2/link') as number, length + 0.4, 0.25, 'mm');
      const draw = believed.sampler(4)();
      expectNear(
        (valueAt(believed.now(draw), '/servos/2/link') as number) - (valueAt(believed.asFound(draw), '/servos/2/link') as number),
        -1,
        1e-9,
        'mm',
      );
    }
    expect(record.servos[2].link).toBe(length);
  });
});

describe('the posterior', () => {
  it('draws machines with the mean and spread that it says (seed 8)', () => {
    const believed = posterior(record, standardReadings(record, 2));
    const sampler = believed.sampler(8);
    const first = believed.hypotheses[0];
    if (!first) throw new Error('no hypothesis');
    const n = believed.unknowns.length;
    const k = believed.unknowns.findIndex(({ path }) => path === '/servos/0/rate');
    let count = 0;
    let sum = 0;
    let square = 0;
    for (let i = 0; i < 4000; i++) {
      const { hypothesis, values } = sampler();
      if (hypothesis !== first) continue;
      count++;
      const d = (values[k] as number) - (first.mean[k] as number);
      sum += d;
      square += d * d;
    }
    let variance = 0;
    for (let l = 0; l < n; l++) variance += (first.factor[k * n + l] as number) ** 2;
    expectNear(sum / count, 0, 5 * Math.sqrt(variance / count), 'degree a microsecond');
    expectNear(square / count / variance, 1, 5 * Math.sqrt(2 / count), '');
    // less than the scatter that it had before any reading, and not nothing
    expect(Math.sqrt(variance)).toBeLessThan(record.servos[0].rate * 0.02);
    expect(variance).toBeGreaterThan(0);
    const weight = believed.hypotheses.reduce((all, hypothesis) => all + hypothesis.weight, 0);
    expectNear(weight + believed.rest + believed.somethingElse, 1, 1e-9, '');
    const again = posterior(record, standardReadings(record, 2)).sampler(8)();
    expect([...again.values]).toEqual([...believed.sampler(8)().values]);
  });
});

describe('instruments', () => {
  const exact = itemsOf(record, standardSet(record));
  const gauge = { name: 'pitch gauge', reference: 'gravity' as const, zeroSd: 0.5, step: 0.1 };
  /** The same readings with a zero of 0.8 on the gauge, which blade readings name. */
  const shifted = exact.map(
    (item): Item =>
      item.kind === 'reading' && item.reading.measure === 'blade-pitch'
        ? { kind: 'reading', reading: { ...item.reading, value: item.reading.value + 0.8, instrument: 0 } }
        : item,
  );

  it('a zero of 0.8 degree is no fault of the machine where zeros are known to wander, and is found', () => {
    const flipped = shifted.find(
      (item) => item.kind === 'reading' && item.reading.measure === 'blade-pitch' && item.reading.sticks.collective === 0,
    );
    if (flipped?.kind !== 'reading') throw new Error('no reading at mid-stick');
    // end for end: the zero less the pitch
    const check: Item = {
      kind: 'reading',
      reading: { ...flipped.reading, value: 0.8 - (flipped.reading.value - 0.8), flipped: true },
    };
    const document = documentOf([...shifted, check], { instruments: [gauge] });
    const believed = posterior(record, document);
    expect(believed.hypotheses[0]?.changes).toEqual([]);
    const zero = believed.unknowns.findIndex(({ path }) => path === '/instruments/0/zero');
    expectNear(believed.hypotheses[0]?.mean[zero], 0.8, 0.2, 'degree');
    const sdOf = (from: typeof believed) =>
      Math.sqrt(
        Array.from(
          { length: from.unknowns.length },
          (_, l) => (from.hypotheses[0]?.factor[zero * from.unknowns.length + l] as number) ** 2,
        ).reduce((a, b) => a + b, 0),
      );
    // turning the gauge end for end tells the zero to within two readings' noise
    expect(sdOf(believed)).toBeLessThan(0.25);
    expect(sdOf(posterior(record, documentOf(shifted, { instruments: [gauge] })))).toBeGreaterThan(sdOf(believed));
  });

  it('one wild reading is named, and leaves the causes as they were (seed 3)', () => {
    const machine = applyChanges(record, [{ path: '/servos/1/horn/tooth', by: 1 }]);
    const items = itemsOf(machine, standardSet(record), seededRandom(3));
    const place = items.findIndex(
      (item) => item.kind === 'reading' && item.reading.measure === 'blade-pitch' && item.reading.sticks.elevator === 1,
    );
    const item = items[place];
    if (item?.kind !== 'reading') throw new Error('no blade reading');
    item.reading.value = -item.reading.value + 6;
    const { causes, outliers } = diagnose(record, documentOf(items));
    expect(outliers).toEqual([place]);
    expect(pathsOf(causes[0]?.changes ?? [])).toBe('/servos/1/horn/tooth');
  });

  it('a decimal point left out is named, wherever on a blade it was, and makes up no faults (seed 3)', () => {
    const machine = applyChanges(record, [{ path: '/servos/1/horn/tooth', by: 1 }]);
    const items = itemsOf(machine, standardSet(record), seededRandom(3));
    const blades = items.flatMap((item, i) =>
      item.kind === 'reading' && item.reading.measure === 'blade-pitch' && Math.abs(item.reading.value) > 4 ? [i] : [],
    );
    expect(blades.length).toBeGreaterThan(4);
    for (const place of blades) {
      const slipped = items.map((item, i) =>
        i === place && item.kind === 'reading' ? { ...item, reading: { ...item.reading, value: 10 * item.reading.value } } : item,
      );
      const { causes, outliers } = diagnose(record, documentOf(slipped));
      expect([place, outliers, pathsOf(causes[0]?.changes ?? [])]).toEqual([place, [place], '/servos/1/horn/tooth']);
    }
  });
});

describe('a machine that nobody thought of', () => {
  it('is something else: readings that no three faults give', () => {
    const random = seededRandom(12);
    const nonsense = itemsOf(record, standardSet(record)).map(
      (item): Item =>
        item.kind === 'reading'
          ? { kind: 'reading', reading: { ...item.reading, value: item.reading.value + random.between(-6, 6) } }
          : item,
    );
    const { causes } = diagnose(record, documentOf(nonsense));
    expect(causes[0]?.somethingElse).toBe(true);
    expect(causes[0]?.says).toContain('something else');
  });
});
