/**
 * React's way to the bench: its state in the session (so that it is undone, redone, kept and resumed with the rest), and the
 * worker's answer to the readings at hand. Only the newest readings are answered; while it works the last answer stands.
 */
import type { Rig } from '@swashtrue/mixing'
import type { MeasuringUp } from '@swashtrue/mixing/bench'
import { wrap } from 'comlink'
import { useEffect, useMemo } from 'react'
import { createStore, useStore } from 'zustand'
import { usePage, usePageStore } from '../ui/usePage.ts'
import type { BenchAnswer, BenchApi } from '../worker/bench.ts'
import { benchOf, type BenchState, documentOf } from './model.ts'
import { benchStep } from './steps.ts'

export function useBench(): BenchState {
  const kept = usePage((state) => state.session.bench)
  return useMemo(() => benchOf(kept), [kept])
}

/** Changes the bench's state, and readings with it, as one step of undo; the machine in the scene is held as is asked for. */
export function useSetBench() {
  const store = usePageStore()
  return (patch: Partial<BenchState>, did: string, readings?: readonly unknown[]): void => {
    const { session, setBench } = store.getState()
    setBench(benchStep(session, patch, readings), did)
  }
}

interface Answered {
  readonly answer: BenchAnswer | undefined
  readonly working: boolean
  readonly trouble: string | undefined
}

const answered = createStore<Answered>(() => ({ answer: undefined, working: false, trouble: undefined }))

let remote: ReturnType<typeof wrap<BenchApi>> | undefined
let working: Key | undefined
let asked: Key | undefined
let answeredKey: Key | undefined

function theWorker() {
  remote ??= wrap<BenchApi>(new Worker(new URL('../worker/bench.ts', import.meta.url), { type: 'module' }))
  return remote
}

/** What to measure of a machine like this draft. Rejects where the draft cannot be worked out. */
export const askMeasuringUp = (draft: Rig): Promise<MeasuringUp> => theWorker().measure(draft)

async function pump(): Promise<void> {
  if (working || !asked) return
  const key = asked
  asked = undefined
  working = key
  answered.setState({ working: true })
  try {
    const answer = await theWorker().work(key.record, documentOf(key.readings, key))
    answeredKey = key
    answered.setState({ answer, trouble: undefined })
  } catch (error) {
    answered.setState({ trouble: error instanceof Error ? error.message : String(error) })
  }
  working = undefined
  answered.setState({ working: asked !== undefined })
  void pump()
}

/** What an answer answers. Undone and redone, the same notes are the same object, and their answer stands. */
interface Key {
  readonly record: Rig
  readonly readings: readonly unknown[]
  readonly zeroSdDeg: number
  readonly leanSdDeg: number
  readonly leveller: BenchState['leveller']
}

const sameKey = (a: Key | undefined, b: Key): boolean =>
  a !== undefined && (Object.keys(b) as (keyof Key)[]).every((name) => a[name] === b[name])

/** The worker's answer to the readings, asked for while a panel that shows it stands open. */
export function useBenchAnswer(): Answered & { stale: boolean } {
  const record = usePage((state) => state.session.record)
  const readings = usePage((state) => state.session.readings)
  const { zeroSdDeg, leanSdDeg, leveller } = useBench()
  const key = useMemo(
    () => ({ record, readings, zeroSdDeg, leanSdDeg, leveller }),
    [record, readings, zeroSdDeg, leanSdDeg, leveller],
  )
  useEffect(() => {
    if (sameKey(answeredKey, key) || (working !== undefined && sameKey(working, key))) return
    asked = key
    void pump()
  }, [key])
  const state = useStore(answered)
  return { ...state, stale: !sameKey(answeredKey, key) }
}
