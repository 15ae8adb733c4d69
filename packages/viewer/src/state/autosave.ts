/**
 * The session survives a closed tab: it is written to the browser's own database shortly after each step, and read
 * back when the page opens. Readable parts only; a saved session that no longer reads is set aside, never half used.
 */
import { readRig } from '@swashtrue/mixing'
import { machineOf } from './changes.ts'
import { AT_REST, MID_STICK, type Session } from './session.ts'
import type { PageStore } from './store.ts'

/** The two calls of a key-value store that are used; the browser's is idb-keyval's. */
export interface Shelf {
  get(key: string): Promise<unknown>
  set(key: string, value: unknown): Promise<void>
}

const KEY = 'swashtrue/session'
const FORMAT = 1
/** A drag makes a hundred steps a second; one write after it has paused for this long is enough. */
const QUIET_MS = 300

interface Saved {
  format: typeof FORMAT
  session: Session
  view: { ghost: boolean; spring: boolean; speed: number; theme: 'system' | 'light' | 'dark'; tour: number | 'done' }
}

/** Starts saving. Gives back a function that writes at once (the page is being hidden). */
export function autosave(store: PageStore, shelf: Shelf, said: (problem: string) => void): () => Promise<void> {
  let waiting: ReturnType<typeof setTimeout> | undefined
  let failed = false
  const write = async (): Promise<void> => {
    clearTimeout(waiting)
    waiting = undefined
    const { session, view } = store.getState()
    const { ghost, spring, speed, theme, tour } = view
    const saved: Saved = { format: FORMAT, session, view: { ghost, spring, speed, theme, tour } }
    try {
      await shelf.set(KEY, saved)
    } catch (error) {
      if (!failed) said(`What you do is not being saved in this browser (${String(error)}); use Save before you close the page.`)
      failed = true
    }
  }
  store.subscribe((state, before) => {
    if (state.session === before.session && state.view === before.view) return
    clearTimeout(waiting)
    waiting = setTimeout(write, QUIET_MS)
  })
  return async () => {
    if (waiting !== undefined) await write()
  }
}

/** Takes up the saved session, where there is one that reads. */
export async function resumeFrom(store: PageStore, shelf: Shelf): Promise<boolean> {
  const saved = (await shelf.get(KEY).catch(() => undefined)) as Saved | undefined
  if (saved?.format !== FORMAT) return false
  const read = readRig(saved.session.record)
  if (!read.ok) return false
  try {
    machineOf(read.rig, saved.session.changes)
  } catch {
    return false
  }
  store.getState().resume({
    ...saved.session,
    record: read.rig,
    sticks: { ...MID_STICK, ...saved.session.sticks },
    stand: { ...AT_REST, ...saved.session.stand },
  })
  store.getState().show(saved.view)
  store.temporal.getState().clear()
  return true
}
