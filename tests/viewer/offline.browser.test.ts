/** Once it has been open, the page works without a network. The one file of tests that lets service workers be. */
import { expect, test } from 'vitest'
import { openPage, useBrowser } from './browser.ts'

useBrowser()

test('reloads offline, draws, answers, and opens a document', async () => {
  const { page } = await openPage({ serviceWorkers: 'allow' })
  await page.evaluate(async () => {
    const { active } = await navigator.serviceWorker.ready
    while (active?.state !== 'activated') await new Promise((done) => setTimeout(done, 20))
  })
  await page.context().setOffline(true)
  await page.reload()
  await page.getByText('the machine answers true').waitFor()
  await page.waitForFunction(() => (window.swashtrueScene?.stage.poses ?? 0) > 0)
  await page.getByRole('button', { name: 'Open' }).click()
  await page.getByRole('button', { name: /flybar trainer/ }).click()
  await expect.poll(() => page.locator('.machine-name').innerText()).toBe('flybar trainer')
})
