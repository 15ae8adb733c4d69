/**
 * Hypotheses gathered into causes: the branches of one set of faults are one cause, stated by its likeliest branch.
 */
import type { Cause } from './diagnosis.ts';
import type { Hypothesis, Posterior } from './posterior.ts';
import { causeSays, SOMETHING_ELSE_SAYS } from './cause-says.ts';

/** Causes that are told: this many, and those of less than LEAST are left out but for the first three. */
const MOST = 12;
const LEAST = 0.005;

/** The weight of many small hypotheses is nobody's in particular: it belongs to no cause that is told. */
export function causesOf(posterior: Posterior): { causes: Cause[]; of: (hypothesis: Hypothesis) => number } {
  const byKey = new Map<string, Hypothesis[]>();
  for (const hypothesis of posterior.hypotheses) {
    const same = byKey.get(hypothesis.key);
    if (same) same.push(hypothesis);
    else byKey.set(hypothesis.key, [hypothesis]);
  }
  const gathered = [...byKey].map(([key, hypotheses]) => ({
    key,
    best: hypotheses[0] as Hypothesis,
    probability: hypotheses.reduce((sum, { weight }) => sum + weight, 0),
    logLikelihood: Math.max(...hypotheses.map(({ logLikelihood }) => logLikelihood)),
  }));
  gathered.sort((a, b) => b.probability - a.probability);
  const told = gathered.filter(({ probability }, i) => i < 3 || (i < MOST && probability >= LEAST));
  const causes = told.map(({ best, probability, logLikelihood }): Cause => {
    const sized = best.changes.filter(({ sd }) => sd > 0).length;
    return {
      changes: best.changes,
      probability,
      chi2: best.chi2,
      dof: best.readings - sized,
      says: causeSays(posterior.record, best.changes),
      logLikelihood,
    };
  });
  const place = new Map(told.map(({ key }, i) => [key, i]));
  const { somethingElse } = posterior;
  if (somethingElse >= LEAST) {
    const at = causes.findIndex(({ probability }) => probability < somethingElse);
    const cause: Cause = {
      changes: [],
      probability: somethingElse,
      chi2: 0,
      dof: 0,
      says: SOMETHING_ELSE_SAYS,
      logLikelihood: Number.NEGATIVE_INFINITY,
      somethingElse: true,
    };
    const where = at < 0 ? causes.length : at;
    causes.splice(where, 0, cause);
    for (const [key, i] of place) if (i >= where) place.set(key, i + 1);
  }
  return { causes, of: ({ key }) => place.get(key) ?? -1 };
}
