/** Turns time into motion: while one plays, the store is advanced once a frame. Stops itself when nothing plays. */
import type { PageStore } from './store.ts'

/** A frame that took longer (a tab in the background) does not make the machine jump. */
const LONGEST_FRAME_S = 0.25

export function startPlayer(store: PageStore): () => void {
  let handle = 0
  let lastMs = 0
  const frame = (ms: number): void => {
    if (!store.getState().play?.playing) {
      handle = 0
      return
    }
    // The next frame is asked for first: advancing the store calls the listener below, which must find it asked for.
    handle = requestAnimationFrame(frame)
    store.getState().advance(Math.max(0, Math.min(LONGEST_FRAME_S, (ms - lastMs) / 1000)))
    lastMs = ms
  }
  return store.subscribe((state) => {
    if (state.play?.playing && handle === 0) {
      lastMs = performance.now()
      handle = requestAnimationFrame(frame)
    }
  })
}
