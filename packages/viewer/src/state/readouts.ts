/**
 * Live numbers. While a stick moves, the readouts are rewritten at most every `EVERY_MS`, straight into the page's
 * elements: React is not asked to draw sixty times a second, and nobody reads faster than this.
 */
import type { Prediction } from '@swashtrue/mixing'
import { predictionOfMachine, predictionOfRecord } from './pose.ts'
import type { PageState, PageStore } from './store.ts'

const EVERY_MS = 60

export interface Reading {
  readonly state: PageState
  readonly machine: Prediction
  readonly record: Prediction
}

export type Listener = (reading: Reading) => void

export interface Readouts {
  subscribe(listener: Listener): () => void
  now(): Reading
}

export function createReadouts(store: PageStore): Readouts {
  const listeners = new Set<Listener>()
  let asked = false
  let lastMs = Number.NEGATIVE_INFINITY
  const now = (): Reading => {
    const state = store.getState()
    return { state, machine: predictionOfMachine(state), record: predictionOfRecord(state) }
  }
  const frame = (ms: number): void => {
    if (ms - lastMs < EVERY_MS) {
      requestAnimationFrame(frame)
      return
    }
    asked = false
    lastMs = ms
    const reading = now()
    for (const listener of listeners) listener(reading)
  }
  store.subscribe((state, before) => {
    if (asked || (state.session === before.session && state.play === before.play && state.view === before.view)) return
    asked = true
    requestAnimationFrame(frame)
  })
  return {
    now,
    subscribe: (listener) => {
      listeners.add(listener)
      listener(now())
      return () => listeners.delete(listener)
    },
  }
}
