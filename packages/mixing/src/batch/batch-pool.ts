/** A large batch shared out among threads: the same columns as `poseBatch` fills, with progress, and cancelled at once. */
import { CaseError } from '../rig/case.ts';
import { prepare } from '../rig/prepare.ts';
import type { Rig } from '../rig/rig.ts';
import { type BatchCases, type BatchPoses, makeBatchPoses } from './batch.ts';
import { Pool, type Run, type Thread } from './pool.ts';
import type { BatchSays, BatchTold } from './thread.ts';

/** Poses in a slice: a millisecond or two of work, long beside what a message takes and short beside what a hand notices. */
const SLICE = 8192;

export interface BatchOptions {
  /** called after each slice with the poses done and the poses in all */
  progress?: (done: number, all: number) => void;
  /** ends the batch at once when aborted; its promise is then refused with `Cancelled` */
  signal?: AbortSignal;
}

export class BatchPool {
  readonly #pool: Pool<BatchTold, BatchSays>;

  /** `make` makes a thread that runs `batchThread`; at most `most` are made, and kept for the next batch. */
  constructor(make: () => Thread<BatchTold, BatchSays>, most: number) {
    this.#pool = new Pool(make, most);
  }

  /**
   * Poses every case. A batch that is still on is cancelled first.
   * Refused with CaseError as `poseBatch` throws it, with `Cancelled`, or with what befell a thread.
   */
  async pose(rig: Rig, cases: BatchCases, { progress, signal }: BatchOptions = {}): Promise<BatchPoses> {
    const all = cases.sticks.length / 3;
    const poses = makeBatchPoses(prepare(rig), all);
    let done = 0;
    const run: Run<BatchTold, BatchSays> = {
      first: { rig, mode: cases.mode, teeter: cases.teeter ?? 0 },
      slices: Math.ceil(all / SLICE),
      slice: (n) => sliceOf(cases, n, Math.min(SLICE, all - SLICE * n)),
      take: (says) => {
        done += takeSlice(poses, says);
        progress?.(done, all);
      },
    };
    const abort = () => this.#pool.cancel();
    const ends = this.#pool.run(run);
    signal?.addEventListener('abort', abort, { once: true });
    if (signal?.aborted) abort();
    try {
      await ends;
    } finally {
      signal?.removeEventListener('abort', abort);
    }
    return poses;
  }

  /** Cancels, and ends every thread. The pool can be used again. */
  close(): void {
    this.#pool.close();
  }
}

function sliceOf({ sticks, azimuth = 0 }: BatchCases, n: number, count: number): { told: BatchTold; transfer: ArrayBuffer[] } {
  const own = sticks.slice(3 * SLICE * n, 3 * (SLICE * n + count));
  const turned = typeof azimuth === 'number' ? azimuth : azimuth.slice(SLICE * n, SLICE * n + count);
  const transfer = [own, turned].flatMap((one) => (typeof one === 'number' ? [] : [one.buffer as ArrayBuffer]));
  return { told: { slice: n, sticks: own, azimuth: turned }, transfer };
}

/** Puts a slice's answer where it belongs; gives how many poses it holds. */
function takeSlice(into: BatchPoses, says: BatchSays): number {
  if ('trouble' in says) throw new Error(says.trouble);
  const first = SLICE * says.slice;
  if ('refused' in says) {
    const { pointer, got, expected, wayOut } = says.refused;
    const [, place, ...rest] = pointer.split('/');
    throw new CaseError(
      ['', /^\d+$/.test(place ?? '') ? first + Number(place) : place, ...rest].join('/'),
      got,
      expected,
      wayOut,
    );
  }
  const { poses } = says;
  into.heightMm.set(poses.heightMm, first);
  into.normalX.set(poses.normalX, first);
  into.normalY.set(poses.normalY, first);
  poses.pitchRad.forEach((column, k) => into.pitchRad[k]?.set(column, first));
  into.shortMm.set(poses.shortMm, first);
  // Each slice counts the lengths that miss in its own order; the batch has one.
  const places = poses.paths.map((path) => {
    if (!into.paths.includes(path)) into.paths.push(path);
    return 1 + into.paths.indexOf(path);
  });
  poses.missing.forEach((code, n) => {
    into.missing[first + n] = code === 0 ? 0 : (places[code - 1] as number);
  });
  return poses.missing.length;
}
