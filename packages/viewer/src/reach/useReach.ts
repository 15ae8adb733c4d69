/** React's way to the reach: asked for coarse while its panel stands open, again when the machine or the flight mode changes. */
import { useEffect } from 'react'
import { useStore } from 'zustand'
import { machineIn } from '../state/pose.ts'
import { COARSE, createReach, FINE, isOf, type ReachState } from '../state/reach.ts'
import { usePage } from '../ui/usePage.ts'
import type { Thread } from '../worker/pool.ts'
import type { ReachSays, ReachTold } from '../worker/reach.ts'

/** A drag in the workbench changes the machine with every frame; it is asked about when the hand pauses. */
const QUIET_MS = 150

let made: ReturnType<typeof createReach> | undefined

const reach = (): ReturnType<typeof createReach> => {
  made ??= createReach(
    () =>
      new Worker(new URL('../worker/reach.ts', import.meta.url), { type: 'module' }) as unknown as Thread<ReachTold, ReachSays>,
    navigator.hardwareConcurrency,
  )
  return made
}

export interface ReachUse extends ReachState {
  /** the map is of another machine, or of another flight mode, than the page's */
  readonly stale: boolean
  /** the hand has cancelled the work on the page's machine */
  readonly put: boolean
  finer(): void
  again(): void
  cancel(): void
}

export function useReach(): ReachUse {
  const machine = usePage(machineIn)
  const mode = usePage((state) => state.session.stand.mode)
  const state = useStore(reach().store)
  useEffect(() => {
    const of = { machine, mode }
    const { map, working, cancelled } = reach().store.getState()
    if (working && !isOf(working.of, of)) reach().stop()
    if (isOf(map, of) || isOf(cancelled, of)) return
    const asking = setTimeout(() => reach().ask(of, COARSE), map ? QUIET_MS : 0)
    return () => clearTimeout(asking)
  }, [machine, mode])
  useEffect(() => () => reach().close(), [])
  return {
    ...state,
    stale: !isOf(state.map, { machine, mode }),
    put: isOf(state.cancelled, { machine, mode }),
    finer: () => reach().ask({ machine, mode }, FINE),
    again: () => reach().ask({ machine, mode }, COARSE),
    cancel: () => reach().cancel(),
  }
}
