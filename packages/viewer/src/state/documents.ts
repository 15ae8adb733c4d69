/**
 * Documents in and out. Opening reads the text whole before anything on the page changes: a document that is refused
 * costs nothing, and each of its faults is told.
 */
import type { readRig, Rig } from '@swashtrue/mixing'
import type { PageStore } from './store.ts'

/** Reads a rig document's text; quantities as text ("14 mm") are turned into numbers on the way. */
export async function openText(store: PageStore, text: string, name: string): Promise<boolean> {
  let document: unknown
  try {
    document = JSON.parse(text)
  } catch (error) {
    store.getState().show({
      notice: {
        kind: 'refused',
        text: `${name} is not JSON, so nothing was opened: ${error instanceof Error ? error.message : String(error)}. Mend it in a text editor, or choose another file.`,
      },
    })
    return false
  }
  const read = await readDocument(document)
  if (!read.ok) {
    const count = read.faults.length === 1 ? 'one fault' : `${read.faults.length} faults`
    store.getState().show({
      notice: {
        kind: 'refused',
        text: `${name} was not opened: it has ${count}. The machine on the page is as it was.`,
        faults: read.faults,
      },
    })
    return false
  }
  store.getState().open(read.rig, `opened ${name}`)
  store.getState().show({ notice: undefined, riddle: undefined, tour: 'done' })
  return true
}

/** The reader that knows units is large and seldom needed, so it comes when the first document does. */
async function readDocument(document: unknown): Promise<ReturnType<typeof readRig>> {
  const { readWritten, rigDocument } = await import('@swashtrue/mixing/written')
  const read = readWritten(rigDocument, document)
  return read.ok ? { ok: true, rig: read.value } : read
}

/** The document of a machine as text, as it is saved. */
export const documentText = (rig: Rig): string => `${JSON.stringify(rig, null, 2)}\n`

export const fileName = (rig: Rig): string =>
  `${
    rig.name
      .trim()
      .toLowerCase()
      .replace(/[^a-z0-9]+/g, '-')
      .replace(/^-|-$/g, '') || 'machine'
  }.rig.json`
