/** Turns time into motion: while one plays, the store is advanced once a frame. Stops itself when nothing plays. */
import type { PageStore } from './store.ts'

/** A frame that took longer (a tab in the background) does not make the machine jump. */
const LONGEST_FRAME_S = 0.1

export function startPlayer(store: PageStore): () => void {
  let handle = 0
  let lastMs = 0
  const frame = (ms: number): void => {
    handle = 0
    if (!store.getState().play?.playing) return
    store.getState().advance(Math.min(LONGEST_FRAME_S, (ms - lastMs) / 1000))
    lastMs = ms
    handle = requestAnimationFrame(frame)
  }
  return store.subscribe((state) => {
    if (state.play?.playing && handle === 0) {
      lastMs = performance.now()
      handle = requestAnimationFrame(frame)
    }
  })
}
