/**
 * Threads that share a batch, a slice each at a time: web workers on the page, worker threads in Node, which differ only in
 * how one is made. Messages carry plain arrays that change hands, so that no memory need be shared. A run is cancelled at
 * once: nothing more is heard of it, and threads in the midst of a slice end.
 */

/** What the pool needs of a thread: a web worker is one as it stands. */
export interface Thread<Told, Says> {
  postMessage(told: Told, transfer: ArrayBuffer[]): void;
  onmessage: ((event: { data: Says }) => void) | null;
  onerror: ((event: { message?: string }) => void) | null;
  terminate(): void;
}

export interface Run<Told, Says> {
  /** told to every thread before its first slice */
  readonly first: Told;
  readonly slices: number;
  /** makes slice `n`'s message just before it is sent, with what changes hands; a run holds no more than is on its way */
  slice(n: number): { told: Told; transfer: ArrayBuffer[] };
  /** an answer, in whatever order; throws to end the run */
  take(says: Says): void;
}

export class Cancelled extends Error {
  override name = 'Cancelled';
}
export class Pool<Told, Says> {
  readonly #make: () => Thread<Told, Says>;
  readonly #most: number;
  readonly #idle: Thread<Told, Says>[] = [];
  #stop: ((why: Error) => void) | undefined;

  constructor(make: () => Thread<Told, Says>, most: number) {
    this.#make = make;
    this.#most = Math.max(1, most);
  }

  /** Resolves when every slice has been answered. A run that is still on is cancelled first. */
  run(run: Run<Told, Says>): Promise<void> {
    this.cancel();
    return new Promise((resolve, reject) => {
      let next = 0;
      let answered = 0;
      const busy = new Set<Thread<Told, Says>>();
      const end = (): void => {
        this.#stop = undefined;
        for (const thread of busy) thread.terminate();
      };
      const stop = (why: Error): void => {
        end();
        reject(why);
      };
      this.#stop = stop;
      const give = (thread: Thread<Told, Says>): void => {
        if (next === run.slices) {
          busy.delete(thread);
          this.#idle.push(thread);
          return;
        }
        const { told, transfer } = run.slice(next++);
        thread.postMessage(told, transfer);
      };
      const hear = (thread: Thread<Told, Says>, says: Says): void => {
        // A thread that was ended may have spoken before it heard of it.
        if (this.#stop !== stop) return;
        try {
          run.take(says);
        } catch (error) {
          stop(error as Error);
          return;
        }
        answered++;
        give(thread);
        if (answered === run.slices) {
          end();
          resolve();
        }
      };
      for (let k = 0; k < Math.min(this.#most, run.slices); k++) {
        const thread = this.#idle.pop() ?? this.#make();
        busy.add(thread);
        thread.onmessage = ({ data }) => hear(thread, data);
        thread.onerror = ({ message }) => this.#stop === stop && stop(new Error(message ?? 'a worker could not be started'));
        thread.postMessage(run.first, []);
        give(thread);
      }
      if (run.slices === 0) {
        end();
        resolve();
      }
    });
  }

  /** Ends what is running; its promise is refused with `Cancelled`. */
  cancel(): void {
    this.#stop?.(new Cancelled('cancelled'));
  }

  /** Cancels, and lets go of every thread. The pool can be used again. */
  close(): void {
    this.cancel();
    for (const thread of this.#idle.splice(0)) thread.terminate();
  }
}
