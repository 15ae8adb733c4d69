/** The reach on the page, with true web workers: worked out, said, made finer, cancelled at once; and the picture at rest. */
import { AxeBuilder } from '@axe-core/playwright'
import type { Page } from 'playwright-core'
import { expect, test } from 'vitest'
import { openPage, PHONE, useBrowser } from './browser.ts'

useBrowser()

const word = (page: Page) => page.locator('.reach-work [role=status]')
const said = (page: Page) => page.locator('.reach-says .first')

async function openReach(page: Page): Promise<void> {
  await page.evaluate(() => window.swashtrueStore?.getState().show({ workspace: 'read', tour: 'done' }))
  await expect.poll(() => word(page).innerText(), { timeout: 30_000 }).toMatch(/121 × 121 places a map/)
}

test('the reach is worked out by workers, follows the machine, and a tap on a map puts the sticks there', async () => {
  const { page } = await openPage()
  await openReach(page)
  expect(await said(page).innerText()).toBe('Every corner of the sticks is free, with collective low, middle and full.')
  await page.evaluate(() =>
    window.swashtrueStore?.getState().change({ path: '/transmitter/outputs/1/limits', to: [1250, 1750] }, 'limits'),
  )
  await expect
    .poll(() => said(page).innerText(), { timeout: 20_000 })
    .toBe('Full forward elevator at full collective: output 2 is cut off by its limit.')
  const map = page.getByRole('img', { name: 'The cyclic stick at full collective' })
  await map.scrollIntoViewIfNeeded()
  const box = await map.boundingBox()
  if (!box) throw new Error('the map is nowhere')
  await page.mouse.click(box.x + box.width * 0.5, box.y + box.height * 0.05)
  expect(await page.locator('.reach-place').innerText()).toMatch(/forward, aileron centred, full collective: output 2 is cut off/)
  const sticks = await page.evaluate(() => window.swashtrueStore?.getState().session.sticks)
  expect(sticks).toMatchObject({ collective: 1, aileron: 0 })
  expect(sticks?.elevator).toBeGreaterThan(0.8)
})

test('finer shows how far it is, is cancelled at once, and can be asked for again', async () => {
  const { page } = await openPage()
  // A flybar machine takes some seconds, so that there is something to cancel.
  await page.locator('input[type=file]').setInputFiles({
    name: 'flybar.rig.json',
    mimeType: 'application/json',
    buffer: Buffer.from(JSON.stringify((await import('@swashtrue/mixing')).examples[2]?.document)),
  })
  await expect.poll(() => page.locator('.machine-name').innerText()).toBe('flybar trainer')
  await openReach(page)
  await page.getByRole('button', { name: 'Finer' }).click()
  const bar = page.getByRole('progressbar', { name: 'Reach, worked out so far' })
  await expect.poll(() => bar.evaluate((one) => (one as HTMLProgressElement).value), { timeout: 10_000 }).toBeGreaterThan(0)
  const took = await page.evaluate(async () => {
    const cancel = [...document.querySelectorAll<HTMLButtonElement>('.reach-work button')].find(
      (one) => one.innerText === 'Cancel',
    )
    const startMs = performance.now()
    cancel?.click()
    while (!/Cancelled/.test(document.querySelector('.reach-work [role=status]')?.textContent ?? '')) {
      if (performance.now() - startMs > 5000) throw new Error('not cancelled')
      await new Promise((next) => setTimeout(next))
    }
    return performance.now() - startMs
  })
  process.stdout.write(`page, reach: cancelled in ${took.toFixed(0)} ms\n`)
  expect(await word(page).innerText()).toBe('Cancelled. The maps stand at 121 × 121 places.')
  expect(await page.getByRole('button', { name: 'Finer' }).count()).toBe(1)
})

test('no violation in the reach, on a phone, with and without what stops the sticks', async () => {
  const { page } = await openPage({ ...PHONE, reducedMotion: 'reduce' })
  await openReach(page)
  await page.evaluate(() =>
    window.swashtrueStore?.getState().change({ path: '/transmitter/outputs/1/limits', to: [1250, 1750] }, 'limits'),
  )
  await expect.poll(() => said(page).innerText(), { timeout: 20_000 }).toMatch(/^Full forward elevator/)
  const { violations } = await new AxeBuilder({ page }).include('.reach').analyze()
  expect(violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`)).toEqual([])
})

test("at rest the scene is drawn at no less than the screen's own ratio", async () => {
  const { page } = await openPage({ ...PHONE })
  const ratio = () =>
    page.evaluate(() => {
      const canvas = document.querySelector('.stage canvas') as HTMLCanvasElement
      return canvas.width / canvas.clientWidth
    })
  await page.evaluate(() => window.swashtrueStore?.getState().startMotion('circle'))
  await page.waitForTimeout(2000)
  await page.evaluate(() => window.swashtrueStore?.getState().stopMotion())
  await expect.poll(ratio, { timeout: 10_000 }).toBeGreaterThanOrEqual(2)
})
