/** The page as it is served: it starts without an error, and opens the document that it was started with. */
import type { Browser } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { servePage } from '../../packages/mixing/src/cli/serve.ts'
import { examples } from '../../packages/mixing/src/examples/examples.ts'
import { openPage, startBrowser } from '../support/open-page.ts'

let browser: Browser
beforeAll(async () => {
  browser = await startBrowser()
})
afterAll(() => browser.close())

const machineName = () => window.swashtrueStore?.getState().session.record.name

test('started plainly it shows the demo machine, in 3D, without an error', async () => {
  const { page, errors } = await openPage(browser)
  await page.waitForFunction(() => window.swashtrueStore !== undefined)
  await page.waitForSelector('canvas')
  expect(await page.evaluate(machineName)).toBe((examples[0].document as { name: string }).name)
  expect(errors).toEqual([])
})

test('started with a document it opens that one, and a reload resumes it', async () => {
  const openedRig = JSON.stringify({ ...(examples[0].document as object), name: 'a machine of the bench' })
  const server = await servePage({ openedRig })
  const { page, errors } = await openPage(browser, server.address)
  await page.waitForFunction(() => window.swashtrueStore?.getState().session.record.name === 'a machine of the bench')
  await page.waitForFunction(() => !location.search.includes('opened'))
  await page.evaluate(() => window.dispatchEvent(new Event('pagehide')))
  await page.waitForTimeout(1500) // autosave waits until the hand has come to rest
  await page.reload()
  await page.waitForFunction(() => window.swashtrueStore !== undefined)
  await page.waitForSelector('canvas')
  expect(await page.evaluate(machineName)).toBe('a machine of the bench')
  expect(errors).toEqual([])
  await server.close()
})
