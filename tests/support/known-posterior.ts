/**
 * What would be believed of a machine if one knew it but for scatter: hypotheses given by hand, each with the exact settings
 * and offsets that it holds, and a spread about them in parts of every machine's scatter. For tests of what is done with a
 * belief, apart from how it is come by.
 */
import type { CauseChange, Draw, Hypothesis, Posterior, UnknownValue } from '../../packages/mixing/src/diagnosis/posterior.ts';
import { scatterOf } from '../../packages/mixing/src/diagnosis/scatter.ts';
import { WorkMachine } from '../../packages/mixing/src/diagnosis/work-machine.ts';
import { seededDraws } from '../../packages/mixing/src/numerics/random.ts';
import { valueAt } from '../../packages/mixing/src/rig/changes.ts';
import { unitAt } from '../../packages/mixing/src/rig/describe.ts';
import type { Rig } from '../../packages/mixing/src/rig/rig.ts';

export interface Believed {
  weight?: number;
  /** exact values that are not as recorded */
  settings?: Record<string, unknown>;
  /** how far values are off the record */
  off?: Record<string, number>;
}

/** `spread` is the part of its usual scatter by which every value is still unknown. */
export function knownPosterior(record: Rig, believed: readonly Believed[], spread = 0.3): Posterior {
  const scatter = scatterOf(record);
  for (const { off } of believed) for (const path of Object.keys(off ?? {})) if (!scatter.has(path)) scatter.set(path, 0);
  const unknowns: UnknownValue[] = [...scatter].map(([path, sd]) => ({
    path,
    document: 'rig',
    record: valueAt(record, path) as number,
    sd,
    unit: unitAt(path),
  }));
  const total = believed.reduce((sum, { weight }) => sum + (weight ?? 1), 0);
  const hypotheses = believed
    .map(({ weight = 1, settings = {}, off = {} }): Hypothesis => {
      const changes = [
        ...Object.entries(settings).map(
          ([path, machine]): CauseChange => ({ path, record: valueAt(record, path), machine, sd: 0, unit: unitAt(path) }),
        ),
        ...Object.entries(off).map(([path, by]): CauseChange => {
          const was = valueAt(record, path) as number;
          return { path, record: was, machine: was + by, sd: spread * (scatter.get(path) ?? 0), unit: unitAt(path) };
        }),
      ];
      const n = unknowns.length;
      const factor = new Float64Array(n * n);
      unknowns.forEach(({ sd }, k) => (factor[k * n + k] = spread * sd));
      return {
        changes,
        key: changes
          .map(({ path }) => path)
          .sort()
          .join(' '),
        weight: weight / total,
        logEvidence: Math.log(weight / total),
        logLikelihood: 0,
        chi2: 0,
        readings: 0,
        settings: Object.entries(settings).map(([path, value]) => ({ path, value })),
        mean: Float64Array.from(unknowns, ({ path, record: was }) => was + (off[path] ?? 0)),
        factor,
        wild: new Float64Array(0),
      };
    })
    .sort((a, b) => b.weight - a.weight);
  const stand = (hypothesis: Hypothesis, values: Float64Array): Rig => {
    const machine = new WorkMachine(record);
    unknowns.forEach(({ path }, k) => machine.set(machine.slot(path), values[k]));
    for (const { path, value } of hypothesis.settings) {
      const list = Array.isArray(value)
        ? value.map((entry: unknown, i) => ({ path: `${path}/${i}`, value: entry }))
        : [{ path, value }];
      machine.assign(list);
    }
    return machine.rig;
  };
  return {
    record,
    unknowns,
    hypotheses,
    rest: 0,
    somethingElse: 0,
    suspects: [],
    unseen: [],
    sampler: (seed) => {
      const draws = seededDraws(seed);
      return (): Draw => {
        let left = draws.uniform();
        const hypothesis =
          hypotheses.find(({ weight }) => {
            left -= weight;
            return left < 0;
          }) ?? (hypotheses[0] as Hypothesis);
        const n = unknowns.length;
        const values = hypothesis.mean.map((mean, k) => mean + (hypothesis.factor[k * n + k] as number) * draws.normal());
        return { hypothesis, values };
      };
    },
    asFound: ({ hypothesis, values }) => stand(hypothesis, values),
    now: ({ hypothesis, values }) => stand(hypothesis, values),
    meanNow: (hypothesis) => stand(hypothesis, hypothesis.mean),
  };
}
