/**
 * Readings between changes belong to the machine as it stood then. Found on 2026-11-25: with a reading after each change,
 * all readings after the first change were held against the machine with every change made.
 */
import { describe, it } from 'vitest';
import { modelOf } from '../../packages/mixing/src/diagnosis/model.ts';
import { USUAL_PRIORS } from '../../packages/mixing/src/diagnosis/priors.ts';
import type { Item, ReadingPlace } from '../../packages/mixing/src/diagnosis/readings.ts';
import { applyChanges, type Change } from '../../packages/mixing/src/rig/changes.ts';
import { predict } from '../../packages/mixing/src/rig/predict.ts';
import { prepare } from '../../packages/mixing/src/rig/prepare.ts';
import { rigOf } from '../support/answer.ts';
import { expectNear } from '../support/expect-near.ts';
import { randomRig } from '../support/machines.ts';

const place: ReadingPlace = {
  measure: 'blade-pitch',
  of: 1,
  sticks: { collective: 0.5, elevator: 1, aileron: 0, rudder: 0 },
  azimuth: 90,
  teeter: 0,
  yawRate: 0,
  flipped: false,
};
const taken: Item = { kind: 'reading', reading: { ...place, value: 0, sd: 0.25 } };

describe('a bench with changes between readings', () => {
  it('reads each on the machine as it stood (direct, seed 6)', () => {
    const record = rigOf(randomRig(6, 'direct'));
    const turned = record.transmitter.mix.elevator;
    const changes: Change[][] = [
      [{ path: '/servos/0/link', by: 0.6 }],
      [{ path: '/transmitter/mix/elevator', to: -turned }],
      // two with nothing read between them, the second on what the first left
      [
        { path: '/servos/0/link', by: -0.4 },
        { path: '/transmitter/mix/elevator', by: 2 * turned },
      ],
      [{ path: '/transmitter/mix/collective', by: 5 }],
    ];
    const items: Item[] = [taken];
    const expected = [record];
    for (const made of changes) {
      items.push(...made.map((change): Item => ({ kind: 'adjusted', ...change })), taken);
      expected.push(applyChanges(expected.at(-1) ?? record, made));
    }
    const model = modelOf(
      record,
      { format: 'swashtrue-readings/1', instruments: [], lean: { foreAftSd: 0, sideSd: 0 }, readings: items },
      USUAL_PRIORS,
    );
    const h = new Float64Array(model.bench.size);
    model.bench.evaluate(new Float64Array(model.n), h);
    const is = expected.map(
      (rig) => predict(prepare(rig), { ...place.sticks, azimuth: place.azimuth }).blades?.[0]?.pitch as number,
    );
    expectNear([...h], is, 1e-9, 'degree', 'readings');
  });
});
