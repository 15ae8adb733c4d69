/** Puts the page together: the store with its demo or its saved session, the worker, the player, and React. */
import '@fontsource-variable/archivo/wdth.css'
import './ui/theme.css'
import { examples, readRig } from '@swashtrue/mixing'
import { get, set } from 'idb-keyval'
import { StrictMode } from 'react'
import { createRoot } from 'react-dom/client'
import { startAnswers } from './state/answers.ts'
import { autosave, resumeFrom } from './state/autosave.ts'
import { startPlayer } from './state/player.ts'
import { createReadouts } from './state/readouts.ts'
import { openStarted } from './state/started.ts'
import { createPageStore, type PageStore } from './state/store.ts'
import { ReadoutsContext } from './ui/live.tsx'
import { Page } from './ui/Page.tsx'
import { AnswersContext } from './ui/useAnswers.ts'
import { StoreContext } from './ui/usePage.ts'

declare global {
  interface Window {
    /** for tests in the browser */
    swashtrueStore?: PageStore
  }
}

async function start(): Promise<void> {
  const read = readRig(examples[0].document)
  if (!read.ok) throw new Error(`the demo document does not read: ${JSON.stringify(read.faults)}`)
  const store = createPageStore(read.rig)
  const shelf = { get: (key: string) => get(key) as Promise<unknown>, set }
  await resumeFrom(store, shelf)
  const flush = autosave(store, shelf, (text) => store.getState().show({ notice: { kind: 'said', text } }))
  document.addEventListener('visibilitychange', () => document.visibilityState === 'hidden' && void flush())
  await openStarted(store)
  startPlayer(store)
  const answers = startAnswers(store, new Worker(new URL('./worker/answers.ts', import.meta.url), { type: 'module' }))
  window.swashtrueStore = store

  const place = document.getElementById('page') as HTMLElement
  createRoot(place).render(
    <StrictMode>
      <StoreContext value={store}>
        <ReadoutsContext value={createReadouts(store)}>
          <AnswersContext value={answers}>
            <Page />
          </AnswersContext>
        </ReadoutsContext>
      </StoreContext>
    </StrictMode>,
  )
}

void start()

// Works without a network once it has been open: the built page's own files are kept by its service worker.
if (import.meta.env.PROD && 'serviceWorker' in navigator) void navigator.serviceWorker.register('./sw.js')
