/** What is read off a machine against `predict`, and its derivatives against central differences of itself. */
import { describe, expect, it } from 'vitest';
import { Bench } from '../../packages/mixing/src/diagnosis/bench.ts';
import { faultsOf } from '../../packages/mixing/src/diagnosis/faults.ts';
import { USUAL_PRIORS } from '../../packages/mixing/src/diagnosis/priors.ts';
import type { Item, ReadingsDocument } from '../../packages/mixing/src/diagnosis/readings.ts';
import { rowsOf } from '../../packages/mixing/src/diagnosis/rows.ts';
import { standardSet } from '../../packages/mixing/src/diagnosis/standard-set.ts';
import { unknownsOf } from '../../packages/mixing/src/diagnosis/unknowns.ts';
import { predict } from '../../packages/mixing/src/rig/predict.ts';
import { prepare } from '../../packages/mixing/src/rig/prepare.ts';
import type { Rig } from '../../packages/mixing/src/rig/rig.ts';
import { expectNear } from '../support/expect-near.ts';
import { KINDS } from '../support/machines.ts';
import { rigOf } from './seeded-readings.ts';

function benchOf(rig: Rig, document: ReadingsDocument) {
  const unknowns = unknownsOf(rig, document, faultsOf(rig, USUAL_PRIORS));
  const rows = rowsOf(rig, document, unknowns, USUAL_PRIORS);
  return { bench: new Bench(rig, document, unknowns, rows), unknowns, rows };
}

const documentOf = (rig: Rig, extra: Item[] = []): ReadingsDocument => ({
  format: 'swashtrue-readings/1',
  instruments: [{ name: 'gauge', reference: 'gravity', zeroSd: 0.5, step: 0.1 }],
  lean: { foreAftSd: 1, sideSd: 1 },
  readings: [
    ...extra,
    ...standardSet(rig).map(
      (place, i): Item => ({ kind: 'reading', reading: { ...place, value: 0, sd: 0.3, ...(i % 2 ? { instrument: 0 } : {}) } }),
    ),
  ],
});

describe('the bench', () => {
  for (const kind of KINDS) {
    it(`reads what predict gives on a ${kind} machine (seed 3)`, () => {
      const rig = rigOf(3, kind, true);
      const document = documentOf(rig);
      const { bench, unknowns } = benchOf(rig, document);
      const h = new Float64Array(bench.size);
      bench.evaluate(new Float64Array(unknowns.length), h);
      const prepared = prepare(rig);
      standardSet(rig).forEach((place, i) => {
        const p = predict(prepared, { ...place.sticks, azimuth: place.azimuth, teeter: place.teeter, yawRate: place.yawRate });
        const expected = {
          'horn-angle': p.servos?.[place.of - 1]?.horn,
          'fore-aft-tilt': p.swash?.foreAft,
          'side-tilt': p.swash?.side,
          'blade-pitch': p.blades?.[place.of - 1]?.pitch,
          'washout-arm': p.flybar?.washoutArms[place.of - 1],
          'mixing-arm': p.flybar?.mixingArms[place.of - 1],
          'paddle-pitch': p.flybar?.paddle,
          slider: p.tail?.slider,
          'tail-horn-angle': p.tail?.horn,
          'tail-pitch': p.tail && 'pitch' in p.tail ? p.tail.pitch : undefined,
        }[place.measure as string];
        expectNear(h[i], expected as number, 1e-9, '', `${i} ${place.measure}`);
      });
    });

    it(`has the derivatives of what it reads, ${kind} machine, one value changed by the mechanic half way (seed 4)`, () => {
      const rig = rigOf(4, kind, true);
      rig.known = [
        { path: '/servos/1/shaft/2', sd: 0.5 },
        { path: '/swash/guide', sd: 0.5 },
        { path: '/rotor/driver', sd: 1 },
      ];
      const set = standardSet(rig);
      const half: Item[] = set
        .slice(0, 12)
        .map((place) => ({ kind: 'reading', reading: { ...place, value: 0, sd: 0.3, flipped: true, instrument: 0 } }));
      const document = documentOf(rig, [
        ...half,
        { kind: 'adjusted', path: '/servos/0/link', by: 0.6 },
        { kind: 'adjusted', path: '/transmitter/outputs/1/subtrim', to: 12 },
        { kind: 'seen', path: '/transmitter/mix/elevator', value: 30 },
        { kind: 'seen', path: '/transmitter/outputs/1/subtrim', value: 12 },
      ]);
      const { bench, unknowns, rows } = benchOf(rig, document);
      const n = unknowns.length;
      // Away from the record, where nothing is level and no command is just zero.
      const values = unknowns.map(({ record }, k) => record * (1 + 0.004 * Math.sin(k + 1)) + 0.01 * Math.cos(k));
      const deviation = Float64Array.from(unknowns, (_, k) => Math.sin(k));
      const setAll = () =>
        unknowns.forEach(({ path, document: of }, k) => of === 'rig' && bench.work.set(bench.work.slot(path), values[k]));
      setAll();
      const h = new Float64Array(bench.size);
      const jacobian = new Float64Array(rows.length * n);
      bench.evaluate(deviation, h, jacobian);
      const above = new Float64Array(bench.size);
      const below = new Float64Array(bench.size);
      let seen = 0;
      unknowns.forEach(({ path, document: of }, k) => {
        const step = 1e-4;
        const move = (by: number, into: Float64Array) => {
          if (of === 'rig') bench.work.set(bench.work.slot(path), (values[k] as number) + by);
          else deviation[k] = (deviation[k] as number) + by;
          bench.evaluate(deviation, into);
          if (of === 'rig') setAll();
          else deviation[k] = (deviation[k] as number) - by;
        };
        move(step, above);
        move(-step, below);
        rows.forEach((_, i) => {
          const slope = ((above[i] as number) - (below[i] as number)) / (2 * step);
          if (Math.abs(slope) > 1e-6) seen++;
          // forward differences: a few ten-thousandths
          expectNear(jacobian[i * n + k], slope, 5e-4 * Math.abs(slope) + 5e-5, '', `${path} on row ${i}`);
        });
      });
      // every part of the table is exercised
      expect(seen).toBeGreaterThan(kind === 'direct' ? 500 : 600);
    });
  }
});
