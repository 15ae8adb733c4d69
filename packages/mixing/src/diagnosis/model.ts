/**
 * All that stays the same while hypotheses come and go in one call: rows and their variances, unknowns and their
 * scatter, faults and their priors, the bench that reads machines, and what was seen without a number.
 */
import type { Rig } from '../rig/rig.ts';
import { Bench } from './bench.ts';
import { type Fault, faultsOf } from './faults.ts';
import { Looks } from './looks.ts';
import type { UnknownValue } from './posterior.ts';
import type { Priors } from './priors.ts';
import type { ReadingsDocument } from './readings.ts';
import { type Row, rowsOf } from './rows.ts';
import { unknownsOf } from './unknowns.ts';

export interface Model {
  record: Rig;
  document: ReadingsDocument;
  priors: Priors;
  unknowns: UnknownValue[];
  /** place of each path in `unknowns` */
  placeOf: Map<string, number>;
  /** variance of each unknown's scatter */
  scatter: Float64Array;
  faults: Fault[];
  rows: Row[];
  bench: Bench;
  looks: Looks;
  m: number;
  n: number;
  /** log of the odds of a wild reading */
  logWildOdds: number;
}

export function modelOf(record: Rig, document: ReadingsDocument, priors: Priors): Model {
  const faults = faultsOf(record, priors);
  const unknowns = unknownsOf(record, document, faults);
  const rows = rowsOf(record, document, unknowns, priors);
  const looks = new Looks(record, document, rows.length, new Set(rows.map(({ item }) => item)), priors);
  return {
    record,
    document,
    priors,
    unknowns,
    placeOf: new Map(unknowns.map(({ path }, k) => [path, k])),
    scatter: Float64Array.from(unknowns, ({ sd }) => sd * sd),
    faults,
    rows,
    bench: new Bench(record, document, unknowns, rows, looks.extra, looks.exact),
    looks,
    m: rows.length,
    n: unknowns.length,
    logWildOdds: Math.log(priors.wild.chance / (1 - priors.wild.chance)),
  };
}
