/**
 * Hypotheses for a bench on which the machine was changed between readings: searched where one standing of the machine was
 * read whole, then worked out on everything.
 *
 * A search scores pairs and triples from straight lines, whose small errors grow with the number of readings: over a few
 * sessions of some twenty readings each the true hypothesis was at times not among the best that are worked out. And
 * its cost grows with the square of that number. What the first and the last session that were read whole hold likely is
 * few enough to be worked out on all readings.
 */
import type { Model } from './model.ts';
import { modelOf } from './model.ts';
import { assess, type FaultTaken, linearise, moveToBest, type Node, workOut } from './node.ts';
import type { ReadingsDocument } from './readings.ts';
import { type Candidate, type Found, keyOf, search, type SearchWidth } from './search.ts';

/** Readings that make a session worth searching by itself. */
const WHOLE = 10;
/** Hypotheses of each searched session that are worked out on all readings, and how far below the best they may lie. */
const TAKEN = 14;
const WITHIN = 9;
/** Worked out on all: one this far below the best is left at that, natural log. */
const HOPELESS = 14;

/** As `search`, and the same where the machine was not changed between whole sets of readings. */
export function searchSessions(model: Model, width: SearchWidth): Found {
  const parts = partsOf(model.document);
  if (parts.length < 2) return search(model, width);
  const faults = new Map(model.faults.map((fault) => [fault.key, fault]));
  const seeds = new Map<string, { taken: FaultTaken[]; from: Model; node: Node | undefined }>();
  let unseen: Set<string> | undefined;
  for (const part of parts) {
    const own = modelOf(model.record, part, model.priors);
    const found = search(own, width);
    const keys = found.unseen.map(({ key }) => key);
    unseen = unseen === undefined ? new Set(keys) : new Set(keys.filter((key) => unseen?.has(key)));
    const top = found.candidates[0]?.log ?? 0;
    for (const { taken, log, node } of found.candidates.slice(0, TAKEN)) {
      if (log < top - WITHIN) break;
      const here = taken.map(({ fault, branch }): FaultTaken => {
        const same = faults.get(fault.key) as FaultTaken['fault'];
        return branch === undefined ? { fault: same } : { fault: same, branch: same.branches[fault.branches.indexOf(branch)] as NonNullable<FaultTaken['branch']> };
      });
      const key = keyOf(here);
      const known = seeds.get(key);
      if (known?.node === undefined) seeds.set(key, { taken: here, from: own, node });
    }
  }
  const root = workOut(model, [], 1);
  const worked: Candidate[] = [];
  let top = Number.NEGATIVE_INFINITY;
  for (const { taken, from, node: start } of seeds.values()) {
    const node = workOut(model, taken, 0);
    if (start !== undefined) {
      moveToBest(from, start);
      node.deviation.set(start.deviation);
    }
    step(model, node);
    if (node.logPrior + node.logEvidence > top - HOPELESS) {
      moveToBest(model, node);
      step(model, node);
    }
    const log = node.logPrior + node.logEvidence;
    top = Math.max(top, log);
    worked.push({ taken, node, log });
  }
  return {
    candidates: worked.filter(({ log }) => log > top - width.within).sort((a, b) => b.log - a.log),
    root,
    unseen: model.faults.filter(({ key }) => unseen?.has(key) === true),
  };
}

function step(model: Model, node: Node): void {
  linearise(model, node);
  assess(model, node);
}

/** The first and the last standing of the machine that were read whole, each as readings of their own; changes and looks stay. */
export function partsOf(document: ReadingsDocument): ReadingsDocument[] {
  const sessionOf: number[] = [];
  let session = 0;
  let read = false;
  const counts: number[] = [0];
  for (const item of document.readings) {
    if (item.kind === 'adjusted' && read) {
      session++;
      counts.push(0);
      read = false;
    }
    if (item.kind === 'reading') {
      read = true;
      counts[session] = (counts[session] as number) + 1;
    }
    sessionOf.push(session);
  }
  const whole = counts.flatMap((count, s) => (count >= WHOLE ? [s] : []));
  if (whole.length < 2) return [];
  return [whole[0], whole.at(-1)].map((wanted) => ({
    ...document,
    readings: document.readings.filter((item, i) => item.kind !== 'reading' || sessionOf[i] === wanted),
  }));
}
