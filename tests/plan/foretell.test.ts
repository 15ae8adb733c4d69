/** What the gauge should show: the interval that holds 95 %, the instruments' part, and which readings are asked for. */
import { describe, expect, it } from 'vitest';
import { USUAL_SD, type ReadingPlace, type ReadingsDocument } from '../../packages/mixing/src/diagnosis/readings.ts';
import { seededDraws } from '../../packages/mixing/src/numerics/random.ts';
import { afterEach, placesFor } from '../../packages/mixing/src/plan/after.ts';
import { Reader } from '../../packages/mixing/src/diagnosis/reader.ts';
import { foretoldOf, Instruments } from '../../packages/mixing/src/plan/foretell.ts';
import { drawMachines, meanMachine } from '../../packages/mixing/src/plan/machines.ts';
import type { Alteration } from '../../packages/mixing/src/plan/place.ts';
import { predict } from '../../packages/mixing/src/rig/predict.ts';
import { prepare } from '../../packages/mixing/src/rig/prepare.ts';
import { rigOf } from '../support/answer.ts';
import { expectNear } from '../support/expect-near.ts';
import { knownPosterior } from '../support/known-posterior.ts';
import { KINDS, randomRig } from '../support/machines.ts';

const EMPTY: ReadingsDocument = {
  format: 'swashtrue-readings/1',
  instruments: [],
  lean: { foreAftSd: 0, sideSd: 0 },
  readings: [],
};
const MID = { collective: 0, elevator: 0, aileron: 0, rudder: 0 };
const placeAt = (measure: ReadingPlace['measure'], more: Partial<ReadingPlace> = {}): ReadingPlace => ({
  measure,
  of: 1,
  sticks: MID,
  azimuth: 0,
  teeter: 0,
  yawRate: 0,
  flipped: false,
  ...more,
});

describe('what is foretold', () => {
  const spread = (count: number, sd: number, seed = 5) => {
    const draws = seededDraws(seed);
    return Array.from({ length: count }, () => 3 + sd * draws.normal());
  };

  it('is mean and standard deviation where one hump is believed: machine and hand together (seed 5)', () => {
    const told = foretoldOf(spread(400, 0.3), 0.4, 1);
    expectNear(told?.value, 3, 0.06, 'degree', 'value');
    expectNear(told?.sd, 0.5, 0.04, 'degree', 'sd');
  });

  it('keeps to where nearly all of it lies: one machine in fifty far off moves it little', () => {
    const told = foretoldOf([...spread(98, 0.3), 40, -40], 0.25, 1);
    expectNear(told?.value, 3, 0.15, 'degree', 'value');
    expectNear(told?.sd, 0.39, 0.1, 'degree', 'sd');
  });

  it('spans two humps where both are likely', () => {
    const told = foretoldOf([...spread(50, 0.1), ...spread(50, 0.1).map((value) => value + 4)], 0.1, 1);
    expect((told?.value ?? 0) - 1.96 * (told?.sd ?? 0)).toBeLessThan(3.1);
    expect((told?.value ?? 0) + 1.96 * (told?.sd ?? 0)).toBeGreaterThan(6.9);
  });

  it('is nothing where the place can often not be read', () => {
    expect(foretoldOf([...spread(90, 0.1), ...Array.from({ length: 10 }, () => Number.NaN)], 0.2, 1)).toBeUndefined();
  });
});

describe('instruments', () => {
  const record = rigOf(randomRig(5, 'direct'));
  const believed = knownPosterior(record, [{}]);
  const unknowns = [
    ...believed.unknowns,
    { path: '/instruments/0/zero', document: 'readings' as const, record: 0, sd: 0.5, unit: 'degree' },
    { path: '/lean/foreAft', document: 'readings' as const, record: 0, sd: 1, unit: 'degree' },
    { path: '/lean/side', document: 'readings' as const, record: 0, sd: 1, unit: 'degree' },
  ];
  const document: ReadingsDocument = {
    ...EMPTY,
    instruments: [{ name: 'pitch gauge', reference: 'gravity', zeroSd: 0.5, step: 0.1 }],
    readings: [{ kind: 'reading', reading: { ...placeAt('blade-pitch'), instrument: 0, value: 1, sd: 0.2 } }],
  };
  const instruments = new Instruments({ ...believed, unknowns }, document);
  const values = Float64Array.of(...believed.unknowns.map(() => 0), 0.7, 2, -1);

  it('put the drawn zero and lean into what is shown, flipped as by the law of the gauge', () => {
    const place = instruments.placed(placeAt('blade-pitch', { azimuth: 90 }));
    expect(place.instrument).toBe(0);
    expectNear(place.sd, 0.2, 1e-12, 'degree', "the reading's own sd");
    // over psi 90 a gauge takes the nose-down lean with the other sign
    expectNear(instruments.shown(place, 5, values), 0.7 + 5 - 2, 1e-12, 'degree', 'shown');
    expectNear(
      instruments.shown({ ...place, flipped: true }, 5, values),
      0.7 - (5 - 2),
      1e-12,
      'degree',
      'shown turned end for end',
    );
    expectNear(instruments.shown(placeAt('side-tilt'), 1, values), 1 - 1, 1e-12, 'degree', 'leveller');
    expectNear(instruments.shown(placeAt('horn-angle'), 12, values), 12, 1e-12, 'degree', 'by eye');
  });

  it('have the usual spread where none has read the like, and a step that it is rounded to', () => {
    expectNear(instruments.placed(placeAt('side-tilt')).sd, USUAL_SD['side-tilt'], 1e-12, 'degree', 'sd');
    expectNear(
      instruments.sdOf(instruments.placed(placeAt('blade-pitch'))),
      Math.hypot(0.2, 0.1 / Math.sqrt(12)),
      1e-12,
      'degree',
      'hand and step',
    );
  });
});

describe('a reader', () => {
  it.each(KINDS)('reads what predict says, %s heads of seeds 1 to 8', (kind) => {
    for (let seed = 1; seed <= 8; seed++) {
      const rig = rigOf(randomRig(seed, kind, { tail: true }));
      const prepared = prepare(rig);
      const reader = new Reader(prepared);
      for (const place of placesFor(rig)) {
        const p = predict(prepared, { ...place.sticks, azimuth: place.azimuth, yawRate: place.yawRate });
        const expected: Partial<Record<ReadingPlace['measure'], number | undefined>> = {
          'horn-angle': p.servos[place.of - 1]?.horn,
          'fore-aft-tilt': p.swash?.foreAft,
          'side-tilt': p.swash?.side,
          'blade-pitch': p.blades?.[place.of - 1]?.pitch,
          'washout-arm': p.flybar?.washoutArms[place.of - 1],
          'mixing-arm': p.flybar?.mixingArms[place.of - 1],
          'paddle-pitch': p.flybar?.paddle,
          'tail-horn-angle': p.tail?.horn,
          slider: p.tail?.slider,
          'tail-pitch': p.tail?.pitch,
        };
        expectNear(
          reader.read(place),
          expected[place.measure] as number,
          1e-9,
          'degree or mm',
          `${place.measure} ${place.of}, seed ${seed}`,
        );
      }
    }
  });
});

describe('after each change', () => {
  const record = rigOf(randomRig(5, 'direct'));
  const believed = knownPosterior(
    record,
    [{ off: { '/rotor/links/1': 0.6, '/transmitter/mix/elevator': 6, '/servos/0/link': 0.8 } }],
    0.2,
  );
  const machines = drawMachines(believed, 3, 60);
  const likeliest = meanMachine(believed, believed.hypotheses[0] as (typeof believed.hypotheses)[0]);
  const told = (changes: Alteration[]) =>
    afterEach(
      changes,
      changes.map((_, i) => i),
      { posterior: believed, readings: EMPTY, machines, likeliest, seed: 2 },
    );

  it('shows where it moves most: a blade by its own pitch, a cyclic value under its stick, a link by the leveller or a blade', () => {
    const { each } = told([
      { path: '/servos/0/link', by: -0.8 },
      { path: '/rotor/links/1', by: -0.6 },
      { path: '/transmitter/mix/elevator', by: -6 },
    ]);
    expect(each[0]?.map(({ measure }) => measure).join()).toMatch(/tilt|blade-pitch/);
    expect(each[1]?.[0]).toMatchObject({ measure: 'blade-pitch', of: 2 });
    expect(each[2]?.every(({ sticks }) => Math.abs(sticks.elevator) === 1)).toBe(true);
  });

  it('is what is then read: of the machines drawn, 93 to 97 % within 1.96 sd (seed 8)', () => {
    const changes: Alteration[] = [
      { path: '/servos/0/link', by: -0.8 },
      { path: '/rotor/links/1', by: -0.6 },
    ];
    const { each, end } = told(changes);
    const draws = seededDraws(8);
    let held = 0;
    let read = 0;
    for (const machine of drawMachines(believed, 99, 250)) {
      const rig = structuredClone(machine.stand());
      rig.servos[0].link -= 0.8;
      const first = new Reader(prepare(rig));
      rig.rotor.links[1] = (rig.rotor.links[1] as number) - 0.6;
      const second = new Reader(prepare(rig));
      const check = (reader: Reader, foretold: ReadingPlace & { value: number; sd: number }) => {
        const shown = Math.round((reader.read(foretold) + USUAL_SD[foretold.measure] * draws.normal()) * 10) / 10;
        read++;
        if (Math.abs(shown - foretold.value) <= 1.96 * foretold.sd) held++;
      };
      for (const foretold of each[0] ?? []) check(first, foretold);
      for (const foretold of [...(each[1] ?? []), ...end]) check(second, foretold);
    }
    expect(read).toBeGreaterThan(2000);
    expect(held / read).toBeGreaterThan(0.93);
    expect(held / read).toBeLessThan(0.97);
  });

  it('is the standing machine where nothing is turned', () => {
    const { each, end } = told([]);
    expect(each).toEqual([]);
    const level = end.find(({ measure }) => measure === 'fore-aft-tilt');
    expectNear(level?.value, predict(prepare(likeliest), {}).swash?.foreAft as number, 0.15, 'degree', 'fore-aft tilt');
  });
});
