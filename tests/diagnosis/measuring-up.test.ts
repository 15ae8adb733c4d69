/** Measuring up: what it costs is what the library predicts, and the order takes most off first. */
import { describe, expect, it } from 'vitest';
import { measuringUp } from '../../packages/mixing/src/diagnosis/measuring-up.ts';
import { examples } from '../../packages/mixing/src/examples/examples.ts';
import { applyChange, valueAt } from '../../packages/mixing/src/rig/changes.ts';
import { predict } from '../../packages/mixing/src/rig/predict.ts';
import { prepare } from '../../packages/mixing/src/rig/prepare.ts';
import { readRig } from '../../packages/mixing/src/rig/read.ts';
import { expectNear } from '../support/expect-near.ts';

const rigs = examples.flatMap(({ document }) => {
  const read = readRig(document);
  return read.ok ? [read.rig] : [];
});

describe.each(rigs.map((rig) => [rig.name, rig] as const))('measuring up %s', (_, rig) => {
  const { guessed, dimensions } = measuringUp(rig);

  it('each dimension once, with the number that the draft holds, better measured than guessed', () => {
    const paths = dimensions.flatMap((one) => one.paths);
    expect(new Set(paths).size).toBe(paths.length);
    for (const { paths: own, values, sd, guessSd, cost } of dimensions) {
      expect(values).toEqual(own.map((path) => valueAt(rig, path)));
      expect(sd).toBeLessThan(guessSd);
      expect(cost.measured).toBeLessThanOrEqual(cost.guessed);
    }
    for (const i of [0, 1, 2]) expect(paths).toContain(`/servos/${i}/link`);
    expect(paths.some((path) => path.startsWith('/flybar/washout/rods'))).toBe(rig.flybar !== undefined);
    expect(paths.includes('/tail/rod')).toBe(rig.tail !== undefined);
    expect(paths.some((path) => path.endsWith('/pushrod'))).toBe(rig.servos.some(({ pushrod }) => pushrod !== undefined));
  });

  it('every row leaves less unknown than the one before it', () => {
    const left = [guessed, ...dimensions.map((one) => one.left)];
    for (const [i, next] of left.slice(1).entries()) expect(next).toBeLessThanOrEqual((left[i] as number) + 1e-12);
    expect(left.at(-1)).toBeLessThan(guessed / 2);
  });

  it("a servo link's cost is the reading that a link a little longer puts out most", () => {
    const row = dimensions.find(({ paths }) => paths.includes('/servos/0/link'));
    if (!row) throw new Error('no servo link');
    const tiltsAndPitch = (by: number) => {
      const { swash, blades } = predict(prepare(applyChange(rig, { path: '/servos/0/link', by })), {});
      return [swash?.foreAft, swash?.side, blades?.[0]?.pitch] as number[];
    };
    const [less, more] = [tiltsAndPitch(-0.01), tiltsAndPitch(0.01)];
    const slopes = less.map((value, i) => Math.abs((more[i] as number) - value) / 0.02);
    // Mid-stick is one of the places read, and no other is put out by less than it.
    expect(row.cost.guessed).toBeGreaterThan(0.98 * Math.max(...slopes) * row.guessSd);
    expect(row.cost.guessed).toBeLessThan(2.5 * Math.max(...slopes) * row.guessSd);
    expectNear(row.cost.measured / row.cost.guessed, row.sd / row.guessSd, 1e-12, '');
  });
});
