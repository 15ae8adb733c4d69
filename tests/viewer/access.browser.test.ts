/** Held to WCAG 2.1 AA by axe, in light and dark, at both sizes, in every workspace; and touch targets of 44 pixels. */
import { AxeBuilder } from '@axe-core/playwright'
import { expect, test } from 'vitest'
import { DESK, openPage, PHONE, useBrowser } from './browser.ts'

useBrowser()

const RULES = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa']
const sizes = [
  ['desk', DESK],
  ['phone', PHONE],
] as const

for (const [name, size] of sizes) {
  for (const colorScheme of ['light', 'dark'] as const) {
    test(`no violation at the ${name}, ${colorScheme}`, async () => {
      const { page } = await openPage({ ...size, colorScheme, reducedMotion: 'reduce' })
      await page.evaluate(() => window.swashtrueStore?.getState().change([{ path: '/servos/1/horn/offset', by: 8 }], 'horn'))
      const found: string[] = []
      for (const tab of await page.getByRole('tab').all()) {
        await tab.click()
        await page.waitForTimeout(150)
        const { violations } = await new AxeBuilder({ page }).withTags(RULES).analyze()
        found.push(...violations.map(({ id, impact, nodes }) => `${id} (${impact}): ${(nodes[0]?.html ?? '').slice(0, 160)}`))
      }
      expect(found).toEqual([])
    })
  }
}

test('every control under the thumb is at least 44 pixels each way', async () => {
  const { page } = await openPage({ ...PHONE })
  const small: string[] = []
  for (const tab of await page.getByRole('tab').all()) {
    await tab.click()
    small.push(
      ...(await page.evaluate(() =>
        [...document.querySelectorAll('button, select, [role=slider], [role=switch], input[type=range], label.check')]
          .filter((element) => (element as HTMLElement).checkVisibility())
          .map((element) => ({
            box: element.getBoundingClientRect(),
            says: element.textContent || element.getAttribute('aria-label'),
          }))
          .filter(({ box }) => box.width > 0 && (box.height < 44 || box.width < 44))
          .map(({ box, says }) => `${says}: ${Math.round(box.width)} x ${Math.round(box.height)}`),
      )),
    )
  }
  expect(small).toEqual([])
})
