/** Batches on Node's worker threads. Not part of the library's index, which a page takes too. */
import { availableParallelism } from 'node:os';
import { Worker } from 'node:worker_threads';
import { BatchPool } from './batch-pool.ts';
import type { Thread } from './pool.ts';
import type { BatchSays, BatchTold } from './thread.ts';

/** The compiled file that a thread runs. */
const THREAD = new URL('./node-thread.js', import.meta.url);

/** A pool of `threads` worker threads, as many as there are processors where left out. `close()` it, or Node stays up. */
export function nodeBatchPool(threads = availableParallelism(), file: URL = THREAD): BatchPool {
  return new BatchPool(() => new NodeThread(file), threads);
}

/** A worker thread with a web worker's manners. */
class NodeThread implements Thread<BatchTold, BatchSays> {
  onmessage: Thread<BatchTold, BatchSays>['onmessage'] = null;
  onerror: Thread<BatchTold, BatchSays>['onerror'] = null;
  readonly #worker: Worker;

  constructor(file: URL) {
    this.#worker = new Worker(file);
    this.#worker.on('message', (data: BatchSays) => this.onmessage?.({ data }));
    this.#worker.on('error', (error: Error) => this.onerror?.({ message: error.message }));
  }

  postMessage(told: BatchTold, transfer: ArrayBuffer[]): void {
    this.#worker.postMessage(told, transfer);
  }

  terminate(): void {
    void this.#worker.terminate();
  }
}
