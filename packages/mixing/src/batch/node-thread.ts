/** A thread of the pool in Node: its file, loaded by `node.ts`. */
import { parentPort } from 'node:worker_threads';
import { type BatchTold, batchThread, transferOf } from './thread.ts';

const answer = batchThread();
parentPort?.on('message', (told: BatchTold) => {
  const says = answer(told);
  if (says) parentPort?.postMessage(says, transferOf(says));
});
