/**
 * Seeded random numbers for the tests, over pure-rand's xoroshiro128+: the same seed gives the same run on every machine.
 * Every test that draws from here has its seed in its title.
 */
import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64';
import { uniformInt } from 'pure-rand/distribution/uniformInt';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';

export interface Random {
  /** evenly spread from `low` up to, not including, `high` */
  between(low: number, high: number): number;
  /** a whole number from `low` to `high`, both included */
  whole(low: number, high: number): number;
  /** true with this probability, 0 to 1 */
  chance(probability: number): boolean;
  /** +1 or -1, equally likely */
  sign(): 1 | -1;
  /** one of a list that is not empty */
  pick<T>(list: readonly T[]): T;
}

/** A stream of random numbers that depends on `seed` alone (a whole number). */
export function seededRandom(seed: number): Random {
  if (!Number.isInteger(seed)) throw new RangeError(`seed: got ${seed}, expected a whole number`);
  const generator = xoroshiro128plus(scatter(seed));
  const random: Random = {
    between: (low, high) => low + (high - low) * uniformFloat64(generator),
    whole: (low, high) => uniformInt(generator, low, high),
    chance: (probability) => uniformFloat64(generator) < probability,
    sign: () => (uniformInt(generator, 0, 1) === 1 ? 1 : -1),
    pick: (list) => {
      const chosen = list[uniformInt(generator, 0, list.length - 1)];
      if (chosen === undefined) throw new RangeError('pick: got an empty list, expected at least one entry');
      return chosen;
    },
  };
  return random;
}

/**
 * The finaliser of MurmurHash3 (public domain, from memory): the generator is linear in its seed's bits, so that
 * neighbouring seeds taken as they are would give first draws spread far more evenly than chance.
 */
function scatter(seed: number): number {
  let h = seed | 0;
  h = Math.imul(h ^ (h >>> 16), 0x85ebca6b);
  h = Math.imul(h ^ (h >>> 13), 0xc2b2ae35);
  return h ^ (h >>> 16);
}
