/**
 * From no fault to three: every single fault is worked out; every pair is scored from its parents, and the best are worked
 * out; so are triples from the best pairs. What is scored but not worked out keeps its approximate weight, so that many
 * small chances still count.
 */
import type { Branch, Fault } from './faults.ts';
import { clash } from './faults.ts';
import { columnOf, exactEvidence, sizedGain, standingOf, type Column } from './extend.ts';
import type { Model } from './model.ts';
import { branchMean, type FaultTaken, logCountOf, logShareOf, type Node, readWith, setMachine, workOut } from './node.ts';

export interface Candidate {
  taken: FaultTaken[];
  /** log of prior times evidence: approximate, or of the node */
  log: number;
  node?: Node;
}

export interface SearchWidth {
  /** pairs and triples that are worked out */
  pairs: number;
  triples: number;
  /** pairs whose exact thirds are read one by one */
  exactThirds: number;
  /** candidates further than this below the best are dropped, natural log */
  within: number;
}

export const USUAL_WIDTH: SearchWidth = { pairs: 20, triples: 12, exactThirds: 5, within: 11 };

interface Move {
  fault: Fault;
  /** place among the movable faults: pairs are taken once */
  at: number;
  branch?: Branch;
  taken: FaultTaken;
  /** what it adds to the log prior */
  logShare: number;
  k: number;
  /** what the readings of the record's machine with this branch at its middle differ from straight lines, where it matters */
  bend?: Float64Array;
}

export interface Found {
  candidates: Candidate[];
  /** the machine of the record, scatter alone at work */
  root: Node;
  /** faults that no reading and no look can see: left out */
  unseen: Fault[];
}

/** Rounds of exchanging one fault of three, and triples worked out in each. */
const EXCHANGES = 3;
const EXCHANGED = 10;

/** How many of the best have what they are made of worked out. */
const PARENTS_OF = 6;

/** Hypotheses at most that are worked out at the end because they are scored above all others. */
const LATE = 12;

/** Squares a reading below which a hypothesis explains what was read. */
const EXPLAINED = 2.5;

/** Readings up to which all of the width is searched; with more, fewer hypotheses are near enough to be worth it. */
const WIDE_UP_TO = 40;

export function search(model: Model, fullWidth: SearchWidth = USUAL_WIDTH): Found {
  const part = Math.min(1, WIDE_UP_TO / Math.max(1, model.m));
  const width: SearchWidth = {
    pairs: Math.ceil(fullWidth.pairs * part),
    triples: Math.ceil(fullWidth.triples * part),
    exactThirds: fullWidth.exactThirds,
    within: fullWidth.within,
  };
  const root = workOut(model, [], 2);
  const { moves, unseen } = movesOf(model, root);
  const all = new Map<string, Candidate>();
  let top = Number.NEGATIVE_INFINITY;
  const add = (candidate: Candidate): void => {
    if (candidate.log < top - width.within) {
      // What was scored better than it is must not stand beside what was worked out.
      if (candidate.node) all.delete(keyOf(candidate.taken));
      return;
    }
    if (candidate.node) top = Math.max(top, candidate.log);
    const key = keyOf(candidate.taken);
    const known = all.get(key);
    if (!known || (candidate.node && !known.node) || (!known.node && candidate.log > known.log)) all.set(key, candidate);
  };
  const nodeOf = (taken: FaultTaken[]): Candidate => {
    const node = workOut(model, taken, 2, top - 2 * width.within);
    return { taken, node, log: node.logPrior + node.logEvidence };
  };
  add({ taken: [], node: root, log: root.logPrior + root.logEvidence });
  const singles = moves.map((move) => nodeOf([move.taken]));
  singles.forEach(add);

  // The tail shares no reading and no part with the rest: what a fault of it does to the evidence, it does beside any other.
  // One fitted further than the other would count what the fit did to the head as well.
  const tailGain = new Map<Fault, number>();
  moves.forEach((move, s) => {
    const node = singles[s]?.node;
    if (node && node.steps === root.steps && ofTail(move.fault)) tailGain.set(move.fault, node.logEvidence - root.logEvidence);
  });

  const pairs: Candidate[] = [];
  singles.forEach((single, s) => {
    const from = moves[s] as Move;
    const node = single.node as Node;
    // Sized onto exact, sized onto sized (once), exact onto exact (once): exact onto sized is the first seen from the other side.
    extendSized(model, node, moves, (move) => !clash(move.fault, from.fault) && (!from.branch || move.at > from.at), pairs);
    if (!from.branch)
      extendExact(model, node, moves, tailGain, (move) => move.at > from.at && !clash(move.fault, from.fault), pairs);
  });
  const bestPairs = best(pairs, width.pairs).map(({ taken }) => nodeOf(taken));
  pairs.forEach(add);
  bestPairs.forEach(add);

  // Where no pair explains the readings, more of them are tried with a third exact fault: signs and leads hide one another.
  const explained = [...all.values()].some(({ node }) => node !== undefined && node.squares < EXPLAINED * model.m);
  const exactThirds = explained ? width.exactThirds : 3 * width.exactThirds;
  const triples: Candidate[] = [];
  best(bestPairs, width.pairs).forEach(({ node, taken }, rank) => {
    const free = (move: Move) => taken.every(({ fault }) => !clash(move.fault, fault));
    extendSized(model, node as Node, moves, free, triples);
    if (rank < exactThirds) extendExact(model, node as Node, moves, tailGain, free, triples);
  });
  triples.forEach(add);
  for (const { taken } of bestOnce(triples, width.triples)) add(nodeOf(taken));
  exchange();
  // Whatever is likely is likely also for what it has beside one fault more: that is worked out too, where it was passed over.
  for (const { taken } of best(
    [...all.values()].filter(({ node }) => node !== undefined),
    PARENTS_OF,
  )) {
    if (taken.length < 2) continue;
    for (const left of taken) {
      const fewer = taken.filter((one) => one !== left);
      if (!all.get(keyOf(fewer))?.node) add(nodeOf(fewer));
    }
  }

  /**
   * Where three faults lead, each of the three is left out once and every other tried in its place: a triple none of whose
   * pairs explains much is found from one that shares two of its faults.
   */
  function exchange(): void {
    for (let round = 0; round < EXCHANGES; round++) {
      const [first, ...others] = best(
        [...all.values()].filter(({ node }) => node !== undefined),
        3,
      );
      if (first?.taken.length !== 3) return;
      const found: Candidate[] = [];
      for (const { taken } of [first, ...others]) {
        if (taken.length !== 3) continue;
        for (const left of taken) {
          const pair = taken.filter((one) => one !== left);
          const node = workOut(model, pair, 1);
          const free = (move: Move) => pair.every(({ fault }) => !clash(move.fault, fault));
          extendSized(model, node, moves, free, found);
          extendExact(model, node, moves, tailGain, free, found);
        }
      }
      const before = first.log;
      for (const { taken } of bestOnce(found, EXCHANGED)) if (!all.get(keyOf(taken))?.node) add(nodeOf(taken));
      if (top <= before) return;
    }
  }

  // What is scored above all that is worked out is worked out as well; what is then left above it was scored too well.
  for (let late = 0; late < LATE; late++) {
    const [first] = best([...all.values()], 1);
    if (first === undefined || first.node) break;
    all.delete(keyOf(first.taken));
    add(nodeOf(first.taken));
  }
  top = Math.max(...[...all.values()].map(({ log, node }) => (node ? log : Number.NEGATIVE_INFINITY)));
  return {
    candidates: best(
      [...all.values()].filter(({ log, node }) => log > top - width.within && (node !== undefined || log <= top)),
      all.size,
    ),
    root,
    unseen,
  };
}

function moveOf(fault: Fault, at: number, k: number, branch?: Branch): Move {
  const taken: FaultTaken = branch ? { fault, branch } : { fault };
  return { ...taken, at, taken, logShare: logShareOf(taken), k };
}

const branchName = ({ fault, branch }: FaultTaken): string => `${fault.key}${branch ? `#${fault.branches.indexOf(branch)}` : ''}`;

/** The same for the same faults in the same branches, whatever their order. */
export const keyOf = (taken: readonly FaultTaken[]): string => taken.map(branchName).sort().join(' + ');

function best(candidates: Candidate[], count: number): Candidate[] {
  return candidates
    .filter(({ log }) => log > Number.NEGATIVE_INFINITY)
    .sort((a, b) => b.log - a.log)
    .slice(0, count);
}

/** The best, each set of faults once: a triple is met from each of its pairs. */
function bestOnce(candidates: Candidate[], count: number): Candidate[] {
  const keys = new Set<string>();
  const out: Candidate[] = [];
  for (const candidate of best(candidates, candidates.length)) {
    if (out.length >= count) break;
    const key = keyOf(candidate.taken);
    if (keys.has(key)) continue;
    keys.add(key);
    out.push(candidate);
  }
  return out;
}

/** Each fault, branch by branch, that changes at least one reading by a part of its noise, or that a look could tell. */
function movesOf(model: Model, root: Node): { moves: Move[]; unseen: Fault[] } {
  const moves: Move[] = [];
  const unseen: Fault[] = [];
  const { m, n, rows, bench } = model;
  const h = new Float64Array(bench.size);
  model.faults.forEach((fault, at) => {
    if (fault.path !== undefined) {
      const k = model.placeOf.get(fault.path) as number;
      const size = Math.max(...fault.branches.map(({ least, most }) => Math.max(Math.abs(least), Math.abs(most))));
      const seen = rows.some(
        ({ variance }, i) => Math.abs((root.jacobian[i * n + k] as number) * size) > SEEN * Math.sqrt(variance),
      );
      if (seen) moves.push(...fault.branches.map((branch) => withBend(model, root, moveOf(fault, at, k, branch))));
      else unseen.push(fault);
      return;
    }
    setMachine(model, [], root.deviation);
    readWith(model, fault, root.deviation, h);
    const looks = model.looks.score(h, bench);
    let seen = Math.abs(looks - root.logLooks) > 1e-9;
    for (let i = 0; i < m && !seen; i++)
      seen = !(
        Math.abs((h[i] as number) - (root.h[i] as number)) <=
        SEEN * Math.sqrt((rows[i] as { variance: number }).variance)
      );
    if (seen) moves.push(moveOf(fault, at, -1));
    else unseen.push(fault);
  });
  return { moves, unseen };
}

/** Standard deviations of a reading, beyond which a bend is reckoned with. */
const BENT = 0.5;

function withBend(model: Model, root: Node, move: Move): Move {
  const { m, n, bench, rows } = model;
  const branch = move.branch as Branch;
  const by = branchMean(branch);
  if (by === 0) return move;
  const deviation = Float64Array.from(root.deviation);
  deviation[move.k] = (deviation[move.k] as number) + by;
  setMachine(model, [move.taken], deviation);
  const h = new Float64Array(bench.size);
  bench.evaluate(deviation, h);
  const bend = new Float64Array(m);
  let matters = false;
  for (let i = 0; i < m; i++) {
    const off = (h[i] as number) - (root.h[i] as number) - by * (root.jacobian[i * n + move.k] as number);
    if (!Number.isFinite(off)) continue;
    bend[i] = off;
    if (Math.abs(off) > BENT * Math.sqrt((rows[i] as { variance: number }).variance)) matters = true;
  }
  return matters ? { ...move, bend } : move;
}

/** Standard deviations of a reading by which a fault must move one to be looked for. */
const SEEN = 0.05;

/** log prior of a node's faults with one more beside them, but for that one's own share. */
const logPriorBeside = (model: Model, { taken }: Node): number =>
  taken.reduce((sum, one) => sum + logShareOf(one), logCountOf(model, taken.length + 1));

function extendSized(model: Model, node: Node, moves: readonly Move[], may: (move: Move) => boolean, out: Candidate[]): void {
  const standing = standingOf(model, node);
  const logPrior = logPriorBeside(model, node);
  let column: Column | undefined;
  let columnFor = -1;
  for (const move of moves) {
    if (!move.branch || !may(move)) continue;
    if (move.bend) columnFor = -1;
    if (columnFor !== move.k) column = columnOf(model, node, move.k, move.bend, move.branch);
    columnFor = move.bend ? -1 : move.k;
    const log = logPrior + move.logShare + node.logEvidence;
    out.push({ taken: [...node.taken, move.taken], log: log + sizedGain(model, node, column as Column, move.branch, standing) });
  }
}

const ofTail = ({ kind }: Fault): boolean => kind.startsWith('tail-') || kind === 'gyro-reversed' || kind === 'rudder-reversed';

function extendExact(
  model: Model,
  node: Node,
  moves: readonly Move[],
  tailGain: ReadonlyMap<Fault, number>,
  may: (move: Move) => boolean,
  out: Candidate[],
): void {
  const { bench } = model;
  const h = new Float64Array(bench.size);
  const standing = standingOf(model, node);
  const logPrior = logPriorBeside(model, node);
  setMachine(model, node.taken, node.deviation);
  const tailFree = !node.taken.some(({ fault }) => ofTail(fault));
  for (const move of moves) {
    if (move.branch || !may(move)) continue;
    const taken = [...node.taken, move.taken];
    const prior = logPrior + move.logShare;
    const beside = tailFree ? tailGain.get(move.fault) : undefined;
    if (beside !== undefined) {
      out.push({ taken, log: prior + node.logEvidence + beside });
      continue;
    }
    readWith(model, move.fault, node.deviation, h);
    out.push({ taken, log: prior + exactEvidence(model, node, h, standing) + model.looks.score(h, bench) });
  }
}
