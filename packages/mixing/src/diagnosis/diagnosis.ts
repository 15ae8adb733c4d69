/**
 * What comes out: causes ranked by probability, which of them no reading so far tells apart, what to read or look at
 * next, and which readings fit nothing. The JSON of contract.md; more keys may be added.
 */
import type { CauseChange, Suspect } from './posterior.ts';
import type { ReadingPlace } from './readings.ts';

export interface Cause {
  changes: CauseChange[];
  probability: number;
  /** weighted squares of readings and scatter at the best fit, and readings less sizes fitted */
  chi2: number;
  dof: number;
  says: string;
  /** best log-likelihood of the readings under it */
  logLikelihood: number;
  /** present on the cause that stands for all that is not in the list of faults */
  somethingElse?: true;
}

/** A reading to take, or a thing to look at. */
export interface Next {
  reading?: ReadingPlace;
  look?: { path: string };
  /** expected information on which cause it is, bits */
  gain: number;
  /** minutes, about */
  effort: number;
  says: string;
}

export interface Diagnosis {
  causes: Cause[];
  alike: number[][];
  next: Next[];
  /** places in the readings, all items counted, from 0 */
  outliers: number[];
  /** each fault by itself, alone or with others: of use while little has been read and causes are many */
  suspects: Suspect[];
  /** paths of faults that nothing read or looked at so far can see */
  unseen: string[];
}
