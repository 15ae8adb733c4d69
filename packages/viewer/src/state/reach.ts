/**
 * Where the sticks can take the machine: a map of the cyclic stick for collective low, at mid-stick and high, made by the
 * pool of workers. Derived, so neither saved nor undone. An answer belongs to one machine and flight mode; until the one
 * for the machine at hand is there, the last one stands and is said to be old.
 */
import { REACH_MISSES, type Rig } from '@swashtrue/mixing'
import { createStore } from 'zustand/vanilla'
import { Cancelled, Pool, type Thread } from '../worker/pool.ts'
import type { ReachSays, ReachTold } from '../worker/reach.ts'

export const COLLECTIVES = [-1, 0, 1] as const
/** Places of the cyclic stick each way: odd, so that one is the centre. */
export const COARSE = 121
export const FINE = 401

/** Positions in a slice: some milliseconds of work, so that progress is smooth and threads end together. */
const SLICE = 500

export interface ReachOf {
  readonly machine: Rig
  readonly mode: string | undefined
}

export interface ReachMap extends ReachOf {
  readonly side: number
  /** a map a collective, row by row from the back stick forward, in a row from left to right; codes as in the library */
  readonly codes: Uint8Array
  readonly paths: readonly string[]
  readonly worstMm: readonly number[]
  readonly tookMs: number
}

export interface ReachState {
  readonly map: ReachMap | undefined
  /** what is being worked at, and how much of it is done (0 to 1) */
  readonly working: { readonly of: ReachOf; readonly side: number; readonly done: number } | undefined
  readonly cancelled: ReachOf | undefined
  readonly trouble: string | undefined
}

export const isOf = (one: ReachOf | undefined, other: ReachOf): boolean =>
  one !== undefined && one.machine === other.machine && one.mode === other.mode

/** Place `i` of `side` along a stick. */
export const stickAt = (i: number, side: number): number => (2 * i) / (side - 1) - 1

export function sticksOf(first: number, count: number, side: number): Float64Array {
  const sticks = new Float64Array(3 * count)
  for (let k = 0; k < count; k++) {
    const n = first + k
    const inMap = n % (side * side)
    sticks[3 * k] = COLLECTIVES[Math.floor(n / (side * side)) as 0]
    sticks[3 * k + 1] = stickAt(Math.floor(inMap / side), side)
    sticks[3 * k + 2] = stickAt(inMap % side, side)
  }
  return sticks
}

export function createReach(make: () => Thread<ReachTold, ReachSays>, threads: number) {
  const pool = new Pool<ReachTold, ReachSays>(make, threads)
  const store = createStore<ReachState>(() => ({ map: undefined, working: undefined, cancelled: undefined, trouble: undefined }))

  const work = async (of: ReachOf, side: number): Promise<void> => {
    const total = COLLECTIVES.length * side * side
    const codes = new Uint8Array(total)
    const paths: string[] = []
    const worstMm: number[] = []
    const startMs = performance.now()
    let done = 0
    pool.cancel()
    store.setState({ working: { of, side, done: 0 }, cancelled: undefined, trouble: undefined })
    try {
      await pool.run({
        first: { machine: of.machine, mode: of.mode },
        slices: Math.ceil(total / SLICE),
        slice: (n) => {
          const sticks = sticksOf(SLICE * n, Math.min(SLICE, total - SLICE * n), side)
          return { told: { slice: n, sticks }, transfer: [sticks.buffer as ArrayBuffer] }
        },
        take: (says) => {
          if ('trouble' in says) throw new Error(says.trouble)
          // Each slice counts the lengths that miss in its own order; the map has one.
          const places = says.paths.map((path, k) => {
            let at = paths.indexOf(path)
            if (at < 0) {
              at = paths.push(path) - 1
              worstMm.push(0)
            }
            worstMm[at] = Math.max(worstMm[at] as number, says.worstMm[k] as number)
            return at
          })
          says.codes.forEach((code, k) => {
            codes[SLICE * says.slice + k] = code < REACH_MISSES ? code : REACH_MISSES + (places[code - REACH_MISSES] as number)
          })
          done += says.codes.length
          store.setState({ working: { of, side, done: done / total } })
        },
      })
      const map = { ...of, side, codes, paths, worstMm, tookMs: performance.now() - startMs }
      store.setState({ map, working: undefined })
    } catch (error) {
      // What cancelled it, a newer question or the hand, has said by then what the page shows.
      if (error instanceof Cancelled) return
      store.setState({ working: undefined, trouble: error instanceof Error ? error.message : String(error) })
    }
  }

  return {
    store,
    /** Asks for a map unless there is one of that machine, as fine or finer, or it is being made. */
    ask(of: ReachOf, side: number): void {
      const { map, working } = store.getState()
      if (map && isOf(map, of) && map.side >= side) {
        if (working && !isOf(working.of, of)) this.stop()
        return
      }
      if (working && isOf(working.of, of) && working.side >= side) return
      void work(of, side)
    },
    /** The hand's cancel: what was asked for is not asked for again by itself. */
    cancel(): void {
      const { working } = store.getState()
      this.stop()
      store.setState({ cancelled: working?.of })
    },
    stop(): void {
      pool.cancel()
      store.setState({ working: undefined })
    },
    /** No one looks any more. */
    close(): void {
      pool.close()
      store.setState({ working: undefined })
    },
  }
}
