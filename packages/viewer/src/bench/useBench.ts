/**
 * React's way to the bench: its state in the session (so that it is undone, redone, kept and resumed with the rest), and the
 * worker's answer to the readings at hand. Only the newest readings are answered; while it works the last answer stands.
 */
import { wrap } from 'comlink'
import { useEffect, useMemo } from 'react'
import { createStore, useStore } from 'zustand'
import { usePage, usePageStore } from '../ui/usePage.ts'
import type { BenchAnswer, BenchApi } from '../worker/bench.ts'
import { benchOf, type BenchState, documentOf } from './model.ts'

export function useBench(): BenchState {
  const kept = usePage((state) => state.session.bench)
  return useMemo(() => benchOf(kept), [kept])
}

/** Changes the bench's state, and readings with it, as one step of undo. */
export function useSetBench() {
  const store = usePageStore()
  return (patch: Partial<BenchState>, did: string, readings?: readonly unknown[]): void => {
    const { session, setBench } = store.getState()
    setBench({ bench: { ...session.bench, ...patch }, ...(readings === undefined ? {} : { readings }) }, did)
  }
}

interface Answered {
  readonly answer: BenchAnswer | undefined
  readonly working: boolean
  readonly trouble: string | undefined
}

const answered = createStore<Answered>(() => ({ answer: undefined, working: false, trouble: undefined }))

type Asked = { record: Parameters<BenchApi['work']>[0]; document: object; key: unknown }
let remote: ReturnType<typeof wrap<BenchApi>> | undefined
let busy = false
let asked: Asked | undefined
let answeredKey: unknown

async function pump(): Promise<void> {
  if (busy || !asked) return
  const { record, document, key } = asked
  asked = undefined
  busy = true
  answered.setState({ working: true })
  try {
    remote ??= wrap<BenchApi>(new Worker(new URL('../worker/bench.ts', import.meta.url), { type: 'module' }))
    const answer = await remote.work(record, document)
    answeredKey = key
    answered.setState({ answer, trouble: undefined })
  } catch (error) {
    answered.setState({ trouble: error instanceof Error ? error.message : String(error) })
  }
  busy = false
  answered.setState({ working: asked !== undefined })
  void pump()
}

/** The worker's answer to the readings, asked for while a panel that shows it stands open. */
export function useBenchAnswer(): Answered & { stale: boolean } {
  const record = usePage((state) => state.session.record)
  const readings = usePage((state) => state.session.readings)
  const bench = useBench()
  const document = useMemo(
    () => documentOf(readings, bench),
    [readings, bench.zeroSdDeg, bench.leanSdDeg],
  )
  useEffect(() => {
    if (answeredKey === document) return
    asked = { record, document, key: document }
    void pump()
  }, [record, document])
  const state = useStore(answered)
  return { ...state, stale: answeredKey !== document }
}
