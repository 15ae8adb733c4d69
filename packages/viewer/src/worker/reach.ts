/** A thread of the reach's pool: the library's answer for one slice of the sticks after the other. */
import { type PreparedRig, prepare, type ReachCells, type Rig, reachAt } from '@swashtrue/mixing'

/** What a thread is told: a machine, which stands for all slices until the next, or a slice. */
export type ReachTold = { machine: Rig; mode: string | undefined } | { slice: number; sticks: Float64Array }

export type ReachSays = ({ slice: number } & ReachCells) | { slice: number; trouble: string }

/** The thread without its messages, so that it can be tested where there is no browser. */
export function reachThread(): (told: ReachTold) => ReachSays | undefined {
  let prepared: PreparedRig | undefined
  let mode: string | undefined
  return (told) => {
    if ('machine' in told) {
      prepared = prepare(told.machine)
      mode = told.mode
      return undefined
    }
    try {
      if (!prepared) throw new Error('a slice came before its machine')
      return { slice: told.slice, ...reachAt(prepared, told.sticks, mode) }
    } catch (error) {
      return { slice: told.slice, trouble: error instanceof Error ? error.message : String(error) }
    }
  }
}

// The same file serves a test, which has no such scope.
if ('WorkerGlobalScope' in globalThis) {
  const answer = reachThread()
  addEventListener('message', ({ data }: MessageEvent<ReachTold>) => {
    const says = answer(data)
    // A plain array goes over whole, without isolation of the page's origin, and its memory with it.
    if (says) postMessage(says, 'codes' in says ? { transfer: [says.codes.buffer] } : {})
  })
}
