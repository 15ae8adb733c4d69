/**
 * Where the sticks can take a machine: at each place free, cut off by an output's limits, or not to be reached.
 *
 * Takes: stick positions of one flight mode. Gives: a code a position. A position is reached where ring, head and every
 * blade close with blade 1 at each of `REACH_AZIMUTHS` (a flybar held level); the first of them that does not close names
 * its length.
 */
import { makeBatchPoses, poseBatch } from '../batch/batch.ts';
import { makePose, setSticks } from '../rig/pose.ts';
import type { PreparedRig } from '../rig/prepare.ts';

/**
 * Degrees. A link's miss goes round the disc as a first harmonic and little more: between two of these it exceeds the
 * larger of them by at most 1 - cos 15 degrees, 3.4 % of the cyclic part.
 */
export const REACH_AZIMUTHS: readonly number[] = Array.from({ length: 12 }, (_, k) => 30 * k);

/** Codes below this are sums of 1, 2, 4 for outputs 1, 2, 3 that are cut off; 0 is free. From here on: a place in `paths`. */
export const REACH_MISSES = 8;

export interface ReachCells {
  codes: Uint8Array;
  /** lengths that miss, by their JSON Pointers */
  paths: string[];
  /** mm by which each of them misses where it is worst */
  worstMm: number[];
}

/**
 * `sticks`: collective, elevator, aileron of each position in turn.
 * @throws CaseError where a stick is beyond -1 to +1 or the mode is not in the document
 */
export function reachAt(prepared: PreparedRig, sticks: Float64Array, mode?: string): ReachCells {
  const count = sticks.length / 3;
  const codes = new Uint8Array(count);
  const cells: ReachCells = { codes, paths: [], worstMm: [] };
  const inMode = mode === undefined ? {} : { mode };

  const first = makeBatchPoses(prepared, count);
  poseBatch(prepared, { sticks, azimuth: REACH_AZIMUTHS[0] as number, ...inMode }, first);
  const reached: number[] = [];
  for (let n = 0; n < count; n++) {
    if (first.missing[n] === 0) reached.push(n);
    else note(cells, n, first.paths[(first.missing[n] as number) - 1] as string, first.shortMm[n] as number);
  }

  // The rest of the revolution, where the ring is known to close.
  const turns = REACH_AZIMUTHS.length - 1;
  const turned = new Float64Array(3 * turns * reached.length);
  const azimuth = new Float64Array(turns * reached.length);
  reached.forEach((n, r) => {
    for (let k = 0; k < turns; k++) {
      turned.set(sticks.subarray(3 * n, 3 * n + 3), 3 * (r * turns + k));
      azimuth[r * turns + k] = REACH_AZIMUTHS[k + 1] as number;
    }
  });
  const round = makeBatchPoses(prepared, azimuth.length);
  poseBatch(prepared, { sticks: turned, azimuth, ...inMode }, round);

  const pose = makePose(prepared);
  const place = mode === undefined ? 0 : prepared.transmitter.modes.findIndex(({ name }) => name === mode);
  reached.forEach((n, r) => {
    for (let k = r * turns; k < (r + 1) * turns; k++) {
      if (round.missing[k] === 0) continue;
      note(cells, n, round.paths[(round.missing[k] as number) - 1] as string, round.shortMm[k] as number);
      return;
    }
    setSticks(prepared, pose, place, sticks[3 * n] as number, sticks[3 * n + 1] as number, sticks[3 * n + 2] as number);
    codes[n] = (pose.saturated[0] as number) + 2 * (pose.saturated[1] as number) + 4 * (pose.saturated[2] as number);
  });
  return cells;
}

function note(cells: ReachCells, n: number, path: string, shortMm: number): void {
  let at = cells.paths.indexOf(path);
  if (at < 0) {
    at = cells.paths.push(path) - 1;
    cells.worstMm.push(0);
  }
  cells.worstMm[at] = Math.max(cells.worstMm[at] as number, shortMm);
  cells.codes[n] = REACH_MISSES + at;
}
