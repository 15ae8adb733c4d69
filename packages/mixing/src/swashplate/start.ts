/**
 * A first guess of the ring's pose from the heights of its three eyes, for poses by the thousand: Newton from it takes
 * two steps where it takes three or four from the designed pose. Made once a rig, from some poses of it.
 *
 *   z, a, b = c0 + sum c_i h_i + sum c_ij h_i h_j        h_i: eye i's height over the middle of where it goes
 *
 * A horn's ball runs on an arc and a lever's end too, so that where an eye is follows from how high it is. It is a guess
 * and nothing more: what pose is taken is Newton's, on the same terms as from the designed pose.
 */
import { solveSmall } from '../numerics/nearest-pose.ts';
import { closeRing } from './close.ts';
import { type PreparedRing, RING } from './ring.ts';

const TERMS = 10;

export interface RingStart {
  /** middle heights of the three eyes, mm */
  middleMm: Float64Array;
  /** ten each of z, a, b: 1; h1, h2, h3; h1^2, h1 h2, h1 h3, h2^2, h2 h3, h3^2 */
  terms: Float64Array;
}

/** The guess for `eyes` (3 x 3, mm), into `x` (z, a, b). */
export function guessRing(start: RingStart, eyes: Float64Array, x: Float64Array): void {
  const c = start.terms;
  const h0 = (eyes[2] as number) - (start.middleMm[0] as number);
  const h1 = (eyes[5] as number) - (start.middleMm[1] as number);
  const h2 = (eyes[8] as number) - (start.middleMm[2] as number);
  for (let k = 0; k < 3; k++) {
    const t = TERMS * k;
    x[k] =
      (c[t] as number) +
      h0 * ((c[t + 1] as number) + h0 * (c[t + 4] as number) + h1 * (c[t + 5] as number) + h2 * (c[t + 6] as number)) +
      h1 * ((c[t + 2] as number) + h1 * (c[t + 7] as number) + h2 * (c[t + 8] as number)) +
      h2 * ((c[t + 3] as number) + h2 * (c[t + 9] as number));
  }
}

/** The designed pose, whatever the eyes: the guess for a machine that cannot be fitted. */
function designedStart(ring: PreparedRing): RingStart {
  const terms = new Float64Array(3 * TERMS);
  terms[0] = ring.designedHeightMm;
  return { middleMm: new Float64Array(3), terms };
}

/** Where the three servos stand for the fit, in parts of half their ways: the places of Chebyshev's cubic, which spread the error evenly. */
const PLACES = [-Math.sqrt(3) / 2, 0, Math.sqrt(3) / 2];

/**
 * Fits the guess to 27 poses. `eyesAt` gives the eyes with each servo a part (-1 to +1) of half its way from its middle;
 * false where they cannot be reached.
 */
export function fitRingStart(
  ring: PreparedRing,
  eyesAt: (parts: readonly [number, number, number], eyes: Float64Array) => boolean,
): RingStart {
  const middle = new Float64Array(9);
  if (!eyesAt([0, 0, 0], middle)) return designedStart(ring);
  const middleMm = Float64Array.of(middle[2] as number, middle[5] as number, middle[8] as number);
  const eyes = new Float64Array(9);
  const pose = new Float64Array(RING.SIZE);
  const row = new Float64Array(TERMS);
  const normal = new Float64Array(TERMS * TERMS);
  const right = [0, 1, 2].map(() => new Float64Array(TERMS));
  for (const p0 of PLACES) {
    for (const p1 of PLACES) {
      for (const p2 of PLACES) {
        pose[RING.Z] = ring.designedHeightMm;
        pose[RING.A] = 0;
        pose[RING.B] = 0;
        if (!eyesAt([p0, p1, p2], eyes) || !closeRing(ring, eyes, pose)) return designedStart(ring);
        termsOf(eyes, middleMm, row);
        for (let i = 0; i < TERMS; i++) {
          for (let j = 0; j < TERMS; j++)
            normal[TERMS * i + j] = (normal[TERMS * i + j] as number) + (row[i] as number) * (row[j] as number);
          right.forEach((side, k) => {
            side[i] = (side[i] as number) + (row[i] as number) * (pose[k] as number);
          });
        }
      }
    }
  }
  const terms = new Float64Array(3 * TERMS);
  for (const [k, side] of right.entries()) {
    if (!solveSmall(Float64Array.from(normal), side, TERMS)) return designedStart(ring);
    terms.set(side, TERMS * k);
  }
  return { middleMm, terms };
}

function termsOf(eyes: Float64Array, middleMm: Float64Array, row: Float64Array): void {
  const h = [0, 1, 2].map((i) => (eyes[3 * i + 2] as number) - (middleMm[i] as number));
  row[0] = 1;
  let place = 4;
  for (let i = 0; i < 3; i++) {
    row[1 + i] = h[i] as number;
    for (let j = i; j < 3; j++) row[place++] = (h[i] as number) * (h[j] as number);
  }
}
