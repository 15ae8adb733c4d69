/**
 * Several ways of doing one thing, timed against each other: in every round each runs once, so that what slows the machine
 * down slows all of them. Processor time of the process, which a busy machine does not lengthen as it does the clock's.
 */
export interface Runner {
  name: string;
  /** how many times `run` does the thing */
  count: number;
  /** gives a number that depends on all it did, so that none of it can be left out */
  run(): number;
}

export interface Timing {
  name: string;
  /** nanoseconds each, over the rounds */
  median: number;
  min: number;
  /** mean and standard deviation */
  mean: number;
  sd: number;
}

/** Rounds before the timed ones: the engine compiles what it sees run often, and is done by then. */
const WARM_UP = 8;

export let sink = 0;

export function race(runners: readonly Runner[], rounds: number): Map<string, Timing> {
  const times = new Map(runners.map(({ name }) => [name, [] as number[]]));
  for (let round = -WARM_UP; round < rounds; round++) {
    for (const { name, count, run } of runners) {
      const from = process.cpuUsage();
      sink += run();
      const { user, system } = process.cpuUsage(from);
      if (round >= 0) times.get(name)?.push((1000 * (user + system)) / count);
    }
  }
  return new Map([...times].map(([name, list]) => [name, timing(name, list)]));
}

function timing(name: string, list: number[]): Timing {
  const sorted = list.toSorted((a, b) => a - b);
  const mean = list.reduce((sum, one) => sum + one, 0) / list.length;
  const sd = Math.sqrt(list.reduce((sum, one) => sum + (one - mean) ** 2, 0) / (list.length - 1));
  return { name, median: sorted[sorted.length >> 1] as number, min: sorted[0] as number, mean, sd };
}
