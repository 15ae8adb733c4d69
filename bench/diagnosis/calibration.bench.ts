/**
 * How often `diagnose` names the true fault, how large its groups of alikes are, and whether what it says with 80 % is
 * right four times in five, on machines drawn apart from it (draw.ts).
 * KIND, COUNT, FIRST, FAULTS (0 to 3; drawn evenly where left out), SET (short), ZERO, LEAN, FLIP, WILD, TAIL choose.
 */
import { diagnose } from '../../packages/mixing/src/diagnosis/index.ts';
import type { Cause } from '../../packages/mixing/src/diagnosis/diagnosis.ts';
import { shortSet, standardSet } from '../../packages/mixing/src/diagnosis/standard-set.ts';
import { KINDS, type Kind } from '../../tests/support/machines.ts';
import { type Drawn, drawMachine } from './draw.ts';

const env = (name: string, usual: number) => Number(process.env[name] ?? usual);
const count = env('COUNT', 60);
const first = env('FIRST', 1);
const faults = process.env['FAULTS'];
const kinds = process.env['KIND'] ? [process.env['KIND'] as Kind] : KINDS;

/** The same places, and the same exact values; sizes may differ. */
function isTruth(cause: Cause, drawn: Drawn): boolean {
  const truth = drawn.faults.flatMap(({ changes }) => changes);
  if (cause.somethingElse || cause.changes.length !== truth.length) return false;
  return truth.every(({ path, to }) =>
    cause.changes.some((change) => {
      if (change.path !== path) return false;
      if (change.sd > 0) return true;
      return JSON.stringify(rounded(change.machine)) === JSON.stringify(rounded(to));
    }),
  );
}

const rounded = (value: unknown): unknown =>
  typeof value === 'number' ? Math.round(value * 1e4) / 1e4 + 0 : Array.isArray(value) ? value.map(rounded) : value;

interface Bin {
  n: number;
  said: number;
  hit: number;
}
const bins = (): Bin[] => Array.from({ length: 5 }, () => ({ n: 0, said: 0, hit: 0 }));
const into = (list: Bin[], probability: number, hit: boolean): void => {
  const bin = list[Math.min(4, Math.floor(probability * 5))] as Bin;
  bin.n++;
  bin.said += probability;
  bin.hit += hit ? 1 : 0;
};
const table = (list: Bin[]) =>
  list
    .map(({ n, said, hit }, i) =>
      n === 0 ? '' : `${20 * i} %: ${n}, said ${(said / n).toFixed(3)}, right ${(hit / n).toFixed(3)}`,
    )
    .join(' | ');

const allOfAll = bins();
const firstOfAll = bins();
for (const kind of kinds) {
  let n = 0;
  let right = 0;
  let alike = 0;
  let three = 0;
  let groups = 0;
  let members = 0;
  let brier = 0;
  let wilds = 0;
  let named = 0;
  let wrongly = 0;
  const hits: boolean[] = [];
  const all = bins();
  const firsts = bins();
  const ms: number[] = [];
  for (let seed = first; n < count; seed++) {
    const drawn = drawMachine(seed, kind, {
      ...(faults === undefined ? {} : { faults: Number(faults) }),
      places: process.env['SET'] === 'short' ? shortSet : standardSet,
      tail: env('TAIL', kind === 'flybar' ? 1 : 0) === 1,
      zeroSd: env('ZERO', 0),
      leanSd: env('LEAN', 0),
      flip: env('FLIP', 0) === 1,
      wild: env('WILD', 0),
    });
    if (!drawn) continue;
    n++;
    const before = process.cpuUsage().user;
    const { causes, alike: together, outliers } = diagnose(drawn.record, drawn.readings);
    ms.push((process.cpuUsage().user - before) / 1000);
    const at = causes.findIndex((cause) => isTruth(cause, drawn));
    // 2 degrees of a servo's neutral drown in the scatter: a known limit, told to the user, and alike to no change.
    const drowned = drawn.faults.length === 1 && drawn.faults[0]?.kind === 'servo-neutral' && causes[0]?.changes.length === 0;
    const among = at === 0 || drowned || (at > 0 && together.some((group) => group.includes(0) && group.includes(at)));
    right += at === 0 ? 1 : 0;
    alike += among ? 1 : 0;
    three += among || (at > 0 && at < 3) ? 1 : 0;
    groups += together.length;
    members += together.reduce((sum, group) => sum + group.length, 0);
    causes.forEach((cause, i) => {
      into(all, cause.probability, i === at);
      into(allOfAll, cause.probability, i === at);
    });
    const probability = causes[0]?.probability ?? 0;
    into(firsts, probability, at === 0);
    into(firstOfAll, probability, at === 0);
    brier += (probability - (at === 0 ? 1 : 0)) ** 2;
    hits.push(at === 0);
    wilds += drawn.wild.length;
    named += drawn.wild.filter((place) => outliers.includes(place)).length;
    wrongly += outliers.filter((place) => !drawn.wild.includes(place)).length;
  }
  ms.sort((a, b) => a - b);
  const percent = (x: number) => `${((100 * x) / n).toFixed(1)} %`;
  const rate = right / n;
  console.log(
    `${kind}, ${n} machines, faults ${faults ?? '0 to 3'}: first ${percent(right)}, first or alike ${percent(alike)}, in three ${percent(three)}, ` +
      `groups ${(members / Math.max(1, groups)).toFixed(2)}, Brier ${(brier / n).toFixed(3)} against ${(rate * (1 - rate)).toFixed(3)} of the base rate, ` +
      `wild named ${named} of ${wilds}, wrongly ${wrongly}, ms ${[0.1, 0.5, 0.9].map((q) => (ms[Math.floor(q * n)] ?? 0).toFixed(0)).join(' / ')}`,
  );
  console.log(`  every cause: ${table(all)}`);
  console.log(`  first cause: ${table(firsts)}`);
}
if (kinds.length > 1) {
  console.log(`all machines, every cause: ${table(allOfAll)}`);
  console.log(`all machines, first cause: ${table(firstOfAll)}`);
}
