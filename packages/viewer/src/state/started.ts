/**
 * The rig document that the page was started with (`swashtrue view RIG`): its server gives it at a fixed place, and the
 * address says so by `?opened`. Once open the address is plain again, so that a reload resumes the work on it.
 */
import { openText } from './documents.ts'
import type { PageStore } from './store.ts'

/** Beside the page; the same name as in the server, packages/mixing/src/cli/serve.ts. */
const PLACE = 'opened.rig.json'

export async function openStarted(store: PageStore): Promise<void> {
  const address = new URL(location.href)
  if (!address.searchParams.has('opened')) return
  try {
    const given = await fetch(PLACE, { cache: 'no-store' })
    if (!given.ok) throw new Error(`the server answers ${given.status}`)
    if (!(await openText(store, await given.text(), 'the document that the page was started with'))) return
    address.searchParams.delete('opened')
    history.replaceState(null, '', address)
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error)
    store.getState().show({
      notice: {
        kind: 'said',
        text: `The document that the page was started with did not come: ${why}. Open it from its file, or start the page again.`,
      },
    })
  }
}
