/**
 * The prior of a fault's size as it is, evenly spread between two ends and blurred by the part's own scatter, against
 * the Gaussian that stood in for it while hypotheses were compared.
 *
 *   p(d) = sum_j w_j even(least_j, most_j)  blurred by N(0, scatter)
 *
 * Against what the readings say of d, N(m, V) without any prior, all moments of p are known in closed form (a normal cut
 * at two ends). The Gaussian with the same mass, mean and variance then takes its place: expectation propagation
 * (T. Minka, 2001), for up to three sizes at once.
 */
import { LOG_2PI, logNormal, normalBelow } from '../numerics/normal.ts';
import type { Branch, Fault } from './faults.ts';

export interface SizePrior {
  pieces: { least: number; most: number; weight: number }[];
  /** variance of the part's own scatter */
  blur: number;
}

/** The chance kept for sizes beyond the ends that the priors name. */
const BEYOND = 0.1;

export function sizePriorOf(fault: Fault, branch: Branch, blur: number): SizePrior {
  const edges = fault.branches.flatMap(({ least, most }) => [Math.abs(least), Math.abs(most)]);
  const inner = Math.min(...edges);
  const outer = Math.max(...edges);
  // Half as small and half as large again, but not into a neighbouring branch.
  const widened = (edge: number): number =>
    Math.abs(edge) === outer ? edge * 1.5 : Math.abs(edge) === inner && inner > 0 ? edge * 0.5 : edge;
  return {
    pieces: [
      { least: branch.least, most: branch.most, weight: 1 - BEYOND },
      { least: widened(branch.least), most: widened(branch.most), weight: BEYOND },
    ],
    blur,
  };
}

export interface Moments {
  /** log of the mean of p over N(m, V) */
  log: number;
  /** of d, given p and N(m, V) */
  mean: number;
  variance: number;
}

export function momentsUnder(prior: SizePrior, m: number, v: number): Moments {
  const total = v + prior.blur;
  const s = Math.sqrt(total);
  let mass = 0;
  let first = 0;
  let second = 0;
  for (const { least, most, weight } of prior.pieces) {
    const a = (least - m) / s;
    const b = (most - m) / s;
    const cut = normalBelow(b) - normalBelow(a);
    const z = (weight * cut) / (most - least);
    if (!(z > 1e-280)) continue;
    const pa = Math.exp(-0.5 * (a * a + LOG_2PI));
    const pb = Math.exp(-0.5 * (b * b + LOG_2PI));
    const mean = (pa - pb) / cut;
    const square = 1 + (a * pa - b * pb) / cut;
    mass += z;
    first += z * (m + s * mean);
    second += z * (m * m + 2 * m * s * mean + s * s * square);
  }
  if (!(mass > 0)) return { log: Number.NEGATIVE_INFINITY, mean: m, variance: v };
  // moments of the size before its blur; d given it is a weighted mean of both
  const u = first / mass;
  const vu = Math.max(1e-12, second / mass - u * u);
  const share = v / total;
  return { log: Math.log(mass), mean: share * u + (1 - share) * m, variance: share * prior.blur + share * share * vu };
}

export interface Site {
  /** the Gaussian that stands for the prior */
  mean: number;
  variance: number;
  /** log of the factor by which it is multiplied */
  log: number;
}

/** No site is flatter than a hundred of the Gaussians that stood in at the start: sums stay within a double's digits. */
const FLAT = 0.01;

/**
 * Sites for several sizes, from the joint Gaussian of the sizes (mean `m`, covariance `v`, s x s) under the Gaussian
 * priors `sites` that stand at the start.
 */
export function propagateExpectations(
  priors: readonly SizePrior[],
  sites: readonly Site[],
  mean: Float64Array,
  covariance: Float64Array,
): Site[] {
  const s = priors.length;
  const m = Float64Array.from(mean);
  const v = Float64Array.from(covariance);
  const out = sites.map((site) => ({ ...site }));
  // Three rounds: each size's cut moves the others a little.
  for (let round = 0; round < (s === 1 ? 1 : 3); round++) {
    for (let i = 0; i < s; i++) {
      const site = out[i] as Site;
      const vii = v[i * s + i] as number;
      const mi = m[i] as number;
      // What the readings and the other sizes say, without this one's prior; never wider than a thousand priors.
      const precision = Math.max(1 / vii - 1 / site.variance, 1e-6 / site.variance);
      const vc = 1 / precision;
      const mc = vc * (mi / vii - site.mean / site.variance);
      const moments = momentsUnder(priors[i] as SizePrior, mc, vc);
      if (moments.log === Number.NEGATIVE_INFINITY) {
        site.log = Number.NEGATIVE_INFINITY;
        return out;
      }
      // Near the edge of its inner part the prior can widen what the readings say: the site is then nearly flat, and
      // keeps the mean alone.
      const variance = 1 / Math.max(1 / moments.variance - precision, FLAT / (sites[i] as Site).variance);
      const siteMean = variance * (moments.mean * (precision + 1 / variance) - mc * precision);
      const dTau = 1 / variance - 1 / site.variance;
      const dNu = siteMean / variance - site.mean / site.variance;
      // Rank-one change of the joint Gaussian.
      const factor = dTau / (1 + dTau * vii);
      const row = Float64Array.from({ length: s }, (_, j) => v[i * s + j] as number);
      for (let a = 0; a < s; a++) {
        m[a] = (m[a] as number) + (row[a] as number) * (dNu - factor * (mi + vii * dNu));
      }
      for (let a = 0; a < s; a++)
        for (let b = 0; b < s; b++) v[a * s + b] = (v[a * s + b] as number) - factor * (row[a] as number) * (row[b] as number);
      site.mean = siteMean;
      site.variance = variance;
      site.log = moments.log - logNormal(mc - siteMean, vc + variance);
    }
  }
  return out;
}
