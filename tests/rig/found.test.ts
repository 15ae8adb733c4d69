/** Faults found in this library, by date: each with the document that showed it, and the answer that the second model gives. */
import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { coupling } from '../../packages/mixing/src/coupling/coupling.ts';
import { predict } from '../../packages/mixing/src/rig/predict.ts';
import { preparedOf } from '../support/answer.ts';
import { compareLeaves } from '../support/compare.ts';
import { expectNear } from '../support/expect-near.ts';

const found = (name: string): unknown =>
  JSON.parse(readFileSync(new URL(`../answers/found/${name}.rig.json`, import.meta.url), 'utf8'));

it('2026-11-25: coupling of a flybar head with an arm far from level was 8e-5 degree off, its differences being too long', () => {
  const at = { collective: -1, elevator: 0.15, aileron: 1, teeter: -4.5 };
  // The second model's whole answer differenced by the sticks; one-sided at the ends, good to some 1e-9.
  const blade = [
    [7.561084472539471, -1.1477392917244365, 1.9482372328457453],
    [-2.935393538366756, 3.5654957391359616, 1.3844710774901048],
    [3.619208369325576, 1.3998660627077886, 2.270081489691013],
  ];
  compareLeaves(coupling(preparedOf(found('2026-11-25-coupling')), at), { blade }, { default: 3e-8 });
});

it('2026-11-25: a washout link that cannot reach was said to miss by 8.98 mm where the nearest pose misses by 6.94', () => {
  const { unreachable } = predict(preparedOf(found('2026-11-25-shortfall')), { collective: 0.3, elevator: -0.4, aileron: 0.2 });
  expect(unreachable?.path).toBe('/flybar/washout/links/1');
  // Newton on the sum of squares in the second model, which stops at steps of 1e-11.
  expectNear(unreachable?.short, 6.942458318925013, 1e-7, 'mm');
});
