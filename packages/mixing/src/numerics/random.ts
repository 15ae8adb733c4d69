/**
 * Seeded random draws over pure-rand's xoroshiro128+: the same seed gives the same draws on every machine.
 */
import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';

export interface RandomDraws {
  /** evenly spread over [0, 1) */
  uniform(): number;
  /** mean 0, standard deviation 1 */
  normal(): number;
}

export function seededDraws(seed: number): RandomDraws {
  if (!Number.isInteger(seed)) {
    throw new RangeError(`seed: got ${seed}, expected a whole number; leave it out for the usual one`);
  }
  const generator = xoroshiro128plus(scattered(seed));
  let spare: number | undefined;
  const uniform = () => uniformFloat64(generator);
  return {
    uniform,
    // Box and Muller 1958: two at a time from a direction and a radius.
    normal: () => {
      if (spare !== undefined) {
        const kept = spare;
        spare = undefined;
        return kept;
      }
      const radius = Math.sqrt(-2 * Math.log(1 - uniform()));
      const turn = 2 * Math.PI * uniform();
      spare = radius * Math.sin(turn);
      return radius * Math.cos(turn);
    },
  };
}

/**
 * The finaliser of MurmurHash3 (public domain, from memory): the generator is linear in its seed's bits, so that
 * neighbouring seeds taken as they are would start alike.
 */
function scattered(seed: number): number {
  let h = seed | 0;
  h = Math.imul(h ^ (h >>> 16), 0x85ebca6b);
  h = Math.imul(h ^ (h >>> 13), 0xc2b2ae35);
  return h ^ (h >>> 16);
}
