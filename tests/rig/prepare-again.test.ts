/** What is prepared again in part is what a whole preparation gives, wherever a value may change. */
import { expect, test } from 'vitest';
import { faultsOf } from '../../packages/mixing/src/diagnosis/faults.ts';
import { USUAL_PRIORS } from '../../packages/mixing/src/diagnosis/priors.ts';
import { scatterOf } from '../../packages/mixing/src/diagnosis/scatter.ts';
import { WorkMachine } from '../../packages/mixing/src/diagnosis/work-machine.ts';
import { setAt, valueAt } from '../../packages/mixing/src/rig/changes.ts';
import { prepare } from '../../packages/mixing/src/rig/prepare.ts';
import { prepareAgain, stagesOf } from '../../packages/mixing/src/rig/prepare-again.ts';
import { rigOf } from '../diagnosis/seeded-readings.ts';
import { KINDS } from '../support/machines.ts';

const OTHERS = [
  '/swash/height',
  '/swash/guide',
  '/rotor/driver',
  '/rotor/hubHeight',
  '/servos/1/shaft/2',
  '/transmitter/rudder/subtrim',
];

for (const kind of KINDS) {
  const rig = rigOf(4, kind, true);
  const numbers = [...scatterOf(rig).keys(), ...OTHERS].map((path) => ({ path, value: (valueAt(rig, path) as number) + 0.25 }));
  const faults = faultsOf(rig, USUAL_PRIORS).flatMap(({ path, singles }) =>
    path === undefined ? singles : [{ path, value: (valueAt(rig, path) as number) + 0.5 }],
  );

  test(`each value by itself, and what was prepared before stays as it was (${kind}, seed 4)`, () => {
    const before = prepare(rig);
    const kept = structuredClone(before);
    expect(numbers.length + faults.length).toBeGreaterThan(80);
    for (const { path, value } of [...numbers, ...faults]) {
      const changed = setAt(rig, path, value);
      expect(prepareAgain(before, changed, stagesOf(path)), path).toEqual(prepare(changed));
      // A layout's list keeps some of its values.
      if (value !== valueAt(rig, path)) expect(prepare(changed), path).not.toEqual({ ...before, rig: changed });
    }
    expect(before).toEqual(kept);
  });

  test(`one after another on a working copy, and back (${kind}, seed 4)`, () => {
    const work = new WorkMachine(rig);
    for (const [i, one] of [...numbers, ...faults].entries()) {
      work.assign([one]);
      if (i % 3 === 0) expect(work.prepare(), one.path).toEqual(prepare(work.rig));
      if (i % 7 === 0) work.restore();
    }
    work.restore();
    expect(work.prepare()).toEqual(prepare(rig));
  });
}
