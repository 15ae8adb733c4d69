/**
 * How often a plan brings a hidden machine within the default targets, how often it spoils one that was, and whether what it
 * foretells is then read. Machines with 0 to 3 faults. KIND, COUNT, FIRST, ROUNDS, ZERO, LEAN, FLIP,
 * SHAFT (the leveller against the mast), WILD, TYPEIN, VERBOSE choose.
 */
import { drawMachine, normal } from '../diagnosis/draw.ts';
import { standardSet } from '../../packages/mixing/src/diagnosis/standard-set.ts';
import { KINDS, type Kind } from '../../tests/support/machines.ts';
import { seededRandom } from '../../tests/support/random.ts';
import { bringIn, type RoundResult } from './rounds.ts';

const env = (name: string, usual: number) => Number(process.env[name] ?? usual);
const count = env('COUNT', 60);
const first = env('FIRST', 1);
const rounds = env('ROUNDS', 3);
const zeroSd = env('ZERO', 0);
const leanSd = env('LEAN', 0);
const kinds = process.env['KIND'] ? [process.env['KIND'] as Kind] : KINDS;

for (const kind of kinds) {
  const all: RoundResult[][] = [];
  for (let seed = first; all.length < count; seed++) {
    const drawn = drawMachine(seed, kind, { places: standardSet });
    if (!drawn) continue;
    const random = seededRandom(seed * 13 + 1);
    const errors = {
      zero: zeroSd * normal(random),
      foreAft: leanSd * normal(random),
      side: leanSd * normal(random),
      zeroSd,
      leanSd,
      onShaft: env('SHAFT', 0) === 1,
    };
    const result = bringIn(drawn, seed, rounds, errors, env('FLIP', 0) === 1, env('WILD', 0) === 1, env('TYPEIN', 0) === 1);
    if (!result) continue;
    all.push(result);
    const [one] = result;
    if (process.env['VERBOSE'] && one && (!one.after || process.env['VERBOSE'] === '2')) {
      const faults = drawn.faults
        .map(({ changes }) =>
          changes.map(({ path, to }) => `${path}=${typeof to === 'number' ? to.toFixed(2) : JSON.stringify(to)}`).join(' '),
        )
        .join(' + ');
      console.log(
        kind,
        seed,
        one.before,
        result.map(({ after }) => after),
        `faults ${faults}`,
      );
      for (const { plan, ratios } of result.slice(0, one.after ? 1 : 3)) {
        const { chance, level, zero, match, ends, cyclic, cross } = plan.meets;
        console.log(
          '   ',
          plan.asItStands.toFixed(2),
          '->',
          chance.toFixed(2),
          [level, zero, match, ends, cyclic, cross].map((x) => x.toFixed(2)).join(' '),
          plan.adjustments.map(({ path, by, to }) => `${path} ${by ?? JSON.stringify(to)}`).join(', '),
        );
        console.log(
          '      truly',
          Object.entries(ratios)
            .map(([name, ratio]) => `${name} ${ratio.toFixed(2)}`)
            .join(' '),
        );
        console.log(
          '      causes',
          plan.causes
            .slice(0, 2)
            .map(({ says, probability }) => `${probability.toFixed(2)} ${says}`)
            .join(' | '),
        );
      }
    }
  }
  const share = (list: boolean[]) =>
    `${((100 * list.filter(Boolean).length) / Math.max(1, list.length)).toFixed(1)} % of ${list.length}`;
  for (let round = 0; round < rounds; round++) {
    console.log(
      `${kind}: within after round ${round + 1}: ${share(all.map((result) => (result[round] ?? result.at(-1))?.after ?? false))}`,
    );
  }
  const every = all.flat();
  const spoiled = every.map(({ before, after }) => before && !after);
  const told = every.flatMap(({ foretold }) => foretold);
  const ms = every.map((result) => result.ms).sort((a, b) => a - b);
  const firsts = all.map(([one]) => one as RoundResult);
  const each = ['level', 'zero', 'match', 'ends', 'cyclic', 'cross'] as const;
  console.log(
    `${kind}: stated and true, each:`,
    each
      .map(
        (name) =>
          `${name} ${(firsts.reduce((sum, { plan }) => sum + plan.meets[name], 0) / firsts.length).toFixed(3)} ${(firsts.filter(({ ratios }) => (ratios[name] ?? 9) <= 1).length / firsts.length).toFixed(3)}`,
      )
      .join(', '),
  );
  console.log(
    `${kind}: before ${share(firsts.map(({ before }) => before))}, spoiled ${share(spoiled)}; foretold held ${share(told.map((z) => Math.abs(z) <= 1.96))}; adjustments ${(firsts.reduce((sum, { plan }) => sum + plan.adjustments.length, 0) / firsts.length).toFixed(1)}; stated ${(firsts.reduce((sum, { plan }) => sum + plan.meets.chance, 0) / firsts.length).toFixed(3)}; ms median ${ms[ms.length >> 1]?.toFixed(0)}, 95 % ${ms[Math.floor(ms.length * 0.95)]?.toFixed(0)}`,
  );
}
