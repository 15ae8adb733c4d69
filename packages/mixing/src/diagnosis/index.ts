/**
 * Readings in, what is wrong out: `diagnose` for people and the command line, `posterior` for what is built on it.
 */
import type { Rig } from '../rig/rig.ts';
import { alikeOf } from './alike.ts';
import { causesOf } from './causes.ts';
import type { Diagnosis } from './diagnosis.ts';
import { faultsOf } from './faults.ts';
import { nextOf } from './next.ts';
import { type Posterior, type PosteriorOptions, posterior } from './posterior.ts';
import { USUAL_PRIORS } from './priors.ts';
import type { ReadingsDocument } from './readings.ts';

export type { Cause, Diagnosis, Next } from './diagnosis.ts';
export { type FaultKind, type Priors, USUAL_PRIORS } from './priors.ts';
export {
  type CauseChange,
  type Draw,
  type Hypothesis,
  type Posterior,
  type PosteriorOptions,
  posterior,
  type Suspect,
  type UnknownValue,
} from './posterior.ts';
export {
  MEASURES,
  type Item,
  type Measure,
  type Reading,
  type ReadingPlace,
  type ReadingsDocument,
  type Sticks,
} from './readings.ts';
export { azimuthFor, type Pointing, type SetPlace, shortSet, standardSet } from './standard-set.ts';

export function diagnose(record: Rig, readings: ReadingsDocument, options: PosteriorOptions = {}): Diagnosis {
  return diagnosisOf(posterior(record, readings, options), readings, options);
}

/** The diagnosis that a posterior makes. */
export function diagnosisOf(believed: Posterior, readings: ReadingsDocument, options: PosteriorOptions = {}): Diagnosis {
  const { causes } = causesOf(believed);
  const priors = { ...USUAL_PRIORS, ...options.priors };
  const faults = faultsOf(believed.record, priors);
  const next = nextOf({ posterior: believed, readings, faults, mistaken: priors.mistaken });
  return {
    causes,
    alike: alikeOf(causes, believed.record),
    next,
    outliers: outliersOf(believed),
    suspects: believed.suspects.filter(({ probability }, i) => i < 3 || (i < 12 && probability >= 0.01)),
    unseen: [...believed.unseen],
  };
}

/** Readings that are more likely wild than not, over all hypotheses. */
function outliersOf({ hypotheses }: Posterior): number[] {
  const total = hypotheses.reduce((sum, { weight }) => sum + weight, 0);
  const items = hypotheses[0]?.wild.length ?? 0;
  return Array.from({ length: items }, (_, i) => i).filter(
    (i) => hypotheses.reduce((sum, { weight, wild }) => sum + weight * (wild[i] as number), 0) > total / 2,
  );
}
