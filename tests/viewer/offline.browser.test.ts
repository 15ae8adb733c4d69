/** Once it has been open, the page works without a network. The one file of tests that lets service workers be. */
import { expect, test } from 'vitest'
import { openPage, useBrowser } from './browser.ts'

useBrowser()

test('reloads offline, draws, answers, and opens a document', async () => {
  const { page } = await openPage({ serviceWorkers: 'allow' })
  await page.evaluate(async () => {
    const { active, installing, waiting } = await navigator.serviceWorker.ready
    const worker = active ?? waiting ?? installing
    if (worker && worker.state !== 'activated') await new Promise((done) => worker.addEventListener('statechange', done, { once: true }))
  })
  await page.context().setOffline(true)
  await page.reload()
  await page.getByText('the machine answers true').waitFor()
  await page.waitForFunction(() => (window.swashtrueScene?.stage.poses ?? 0) > 0)
  await page.getByRole('button', { name: 'Open' }).click()
  await page.getByRole('button', { name: /flybar trainer/ }).click()
  await expect.poll(() => page.locator('.machine-name').innerText()).toBe('flybar trainer')
})
