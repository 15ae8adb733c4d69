/** The page as it is served: plainly it shows the demo machine; started with a document it opens that one. */
import { expect, test } from 'vitest'
import { servePage } from '../../packages/mixing/src/cli/serve.ts'
import { examples } from '../../packages/mixing/src/examples/examples.ts'
import { openPage, useBrowser } from './browser.ts'

useBrowser()

const machineName = () => window.swashtrueStore?.getState().session.record.name

/** Autosave writes once nothing has moved for a while, which only the browser's own database tells. */
const savedName = () =>
  new Promise<boolean>((resolve) => {
    const opening = indexedDB.open('keyval-store')
    opening.onerror = () => resolve(false)
    opening.onsuccess = () => {
      const asked = opening.result.transaction('keyval').objectStore('keyval').get('swashtrue/session')
      asked.onerror = () => resolve(false)
      asked.onsuccess = () => resolve(asked.result?.session.record.name === 'a machine of the bench')
    }
  })

test('started plainly it shows the demo machine', async () => {
  const { page } = await openPage()
  await page.waitForSelector('canvas')
  expect(await page.evaluate(machineName)).toBe((examples[0].document as { name: string }).name)
})

test('started with a document it opens that one, and a reload resumes it', async () => {
  const openedRig = JSON.stringify({ ...(examples[0].document as object), name: 'a machine of the bench' })
  const server = await servePage({ openedRig })
  const { page } = await openPage({ address: server.address })
  await page.waitForFunction(() => window.swashtrueStore?.getState().session.record.name === 'a machine of the bench')
  await page.waitForFunction(() => !location.search.includes('opened'))
  await page.waitForFunction(savedName, undefined, { polling: 200 })
  await page.reload()
  await page.waitForSelector('canvas')
  expect(await page.evaluate(machineName)).toBe('a machine of the bench')
  await server.close()
})

test('started with a document that is none it says so, and shows what it has', async () => {
  const server = await servePage({ openedRig: '{"format": "swashtrue-rig/1"}' })
  const { page } = await openPage({ address: server.address })
  await page.getByText('the document that the page was started with was not opened').waitFor()
  expect(await page.evaluate(machineName)).toBe((examples[0].document as { name: string }).name)
  await server.close()
})
