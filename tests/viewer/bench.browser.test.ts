/**
 * The bench from making safe to the saved sheet, on a phone: the demo machine with one horn 8 degrees high, every number
 * typed being what the library predicts of that machine, rounded as a person rounds. axe at every stage.
 */
import { readFileSync } from 'node:fs'
import { AxeBuilder } from '@axe-core/playwright'
import { applyChanges, prepare } from '@swashtrue/mixing'
import { type Adjustment, measuringUp, type ReadingPlace } from '@swashtrue/mixing/bench'
import type { Page } from 'playwright-core'
import { expect, test } from 'vitest'
import { trueValue } from '../../bench/diagnosis/draw.ts'
import { placesOf } from '../../packages/viewer/src/bench/model.ts'
import { demoRig } from './bench-answers.ts'
import { DESK, openPage, PHONE, useBrowser } from './browser.ts'

useBrowser()

const rig = demoRig('bench-trainer')
const HIGH = { path: '/servos/0/horn/offset', to: 8 } as const
const faulty = applyChanges(rig, [HIGH])

/** What an instrument without a zero shows of a machine, to a tenth; horns are read by eye to a whole degree. */
function shown(machine: typeof rig, place: ReadingPlace): string {
  const value = trueValue(prepare(machine), place)
  if (value === undefined) throw new Error(`${place.measure} cannot be read`)
  return ((place.flipped ? -1 : 1) * value).toFixed(place.measure === 'horn-angle' ? 0 : 1)
}

async function noSerious(page: Page, stage: string): Promise<void> {
  const { violations } = await new AxeBuilder({ page }).analyze()
  const serious = violations.filter(({ impact }) => impact === 'serious' || impact === 'critical')
  expect(serious.map(({ id, nodes }) => `${stage}: ${id}: ${nodes[0]?.html.slice(0, 160)}`)).toEqual([])
}

const button = (page: Page, name: string | RegExp) => page.getByRole('button', { name, exact: true })
const openBench = (page: Page) => page.getByRole('tab', { name: 'Bench' }).click()

async function makeSafe(page: Page): Promise<void> {
  await page.getByRole('heading', { name: 'Make safe first' }).waitFor()
  for (const box of await page.locator('.cautions input').all()) await box.check()
  await button(page, 'It is safe: go on').click()
}

/** Types a number as a thumb does: figures, and the sign by its button where it is minus. */
async function note(page: Page, text: string): Promise<void> {
  const minus = text.startsWith('-')
  const sign = page.locator('.number-entry .sign')
  if (((await sign.innerText()) === '−') !== minus) await sign.click()
  await page.getByLabel('What it shows').fill(text.replace('-', ''))
  await page.locator('.number-entry .strong').click()
}

test('from cautions to the saved sheet: the horn is named first, a step is turned and checked, a closed tab resumes', {
  timeout: 240_000,
}, async () => {
  const { page } = await openPage({ ...PHONE, reducedMotion: 'reduce', acceptDownloads: true })
  await openBench(page)

  // Nothing else opens before every caution is ticked.
  await page.getByRole('heading', { name: 'Make safe first' }).waitFor()
  expect(await page.getByRole('navigation', { name: 'Steps of the bench' }).getByRole('button', { disabled: true }).count()).toBe(
    5,
  )
  expect(await button(page, 'It is safe: go on').isDisabled()).toBe(true)
  await noSerious(page, 'cautions')
  await makeSafe(page)

  await noSerious(page, 'look')
  await button(page, 'All straight, tight and free').click()
  await button(page, 'So they are plugged').click()
  await noSerious(page, 'settings')
  await button(page, 'All stand so').click()
  for (const up of await button(page, 'up').all()) await up.click()
  await button(page, 'That is what they do').click()
  await button(page, 'Front').click()
  await noSerious(page, 'tip')
  await button(page, 'Right').click()

  // One reading and all that it needs stand on the screen at once.
  const places = placesOf(rig, 'standard', true)
  const next = page.getByRole('button', { name: 'Can’t read it' })
  for (const [i, place] of places.entries()) {
    await page.getByText(`Reading ${i + 1} of ${places.length}`).waitFor()
    if (place.measure === 'blade-pitch' && Object.values(place.sticks).some((stick) => Math.abs(stick) === 1)) {
      const [top, bottom] = [await page.locator('.place-card h2').boundingBox(), await next.boundingBox()]
      expect(top?.y ?? 0).toBeGreaterThan(52)
      expect((bottom?.y ?? 0) + (bottom?.height ?? 0)).toBeLessThan(844 - 56)
    }
    if (i === 6) await noSerious(page, 'read')
    await note(page, shown(faulty, place))
  }

  await page.getByRole('heading', { name: 'What the readings say' }).waitFor()
  const first = page.locator('.bench-causes li').first()
  await first.getByText(/^Servo 1's horn \(left front\) stands [78]\.\d° high/).waitFor({ timeout: 60_000 })
  await noSerious(page, 'causes')
  await first.getByRole('button', { name: 'Show it on the machine' }).click()
  const shownOffset = await page.evaluate(() => window.swashtrueStore?.getState().session.changes)
  expect(shownOffset).toMatchObject([{ path: HIGH.path }])

  await button(page, 'What to turn').click()
  await button(page, 'Start turning').waitFor({ timeout: 60_000 })
  await noSerious(page, 'turn')
  await button(page, 'Start turning').click()
  await button(page, 'Turned').click()
  const plan = await page.evaluate(() => window.swashtrueStore?.getState().session.bench['plan'] as Adjustment[])
  const [step] = plan as [Adjustment]
  const told = step.after[0]
  if (!told) throw new Error('the first step foretells no reading')
  const turned = applyChanges(faulty, [
    step.by === undefined ? { path: step.path, to: step.to } : { path: step.path, by: step.by },
  ])
  // A reading far from what was foretold stops the work; the true one lets it go on.
  await note(page, (told.value + 5).toFixed(1))
  await page.getByText(/Not as foretold .*: stop\./).waitFor()
  await noSerious(page, 'not as foretold')
  await note(page, shown(turned, told))
  await page.getByText(/As foretold: go on\./).waitFor()

  // Written shortly after a step; then the tab is closed and opened again.
  await page.waitForTimeout(800)
  const before = await page.evaluate(() => window.swashtrueStore?.getState().session.readings.length)
  await page.reload()
  await openBench(page)
  await page.getByText(`1 of ${plan.length} turned`).waitFor()
  expect(await page.evaluate(() => window.swashtrueStore?.getState().session.readings.length)).toBe(before)

  // Turned back, its second reading goes with it; the header's undo brings both again.
  await page.getByRole('button', { name: 'Turned it back' }).click()
  await page.getByText(`0 of ${plan.length} turned`).waitFor()
  expect(await page.evaluate(() => window.swashtrueStore?.getState().session.readings.length)).toBe((before ?? 0) - 2)
  await page.getByRole('button', { name: /^Undo/ }).click()
  await page.getByText(`1 of ${plan.length} turned`).waitFor()

  await page.getByRole('navigation', { name: 'Steps of the bench' }).getByRole('button', { name: 'Sheet' }).click()
  await page.getByText('Worked out from all notes so far').waitFor({ timeout: 60_000 })
  await noSerious(page, 'sheet')
  const saving = page.waitForEvent('download')
  await button(page, 'Save the sheet').click()
  const file = await saving
  expect(file.suggestedFilename()).toBe('bench-trainer.set-up.html')
  const html = readFileSync(await file.path(), 'utf8')
  expect(html).toContain('Hand tests')
  expect(html).toContain('What was turned')
  expect(html).toMatch(/Servo 1&#39;s horn \(left front\) stands/)
})

test('the demo readings: cautions are asked for all the same, then the horn is named', async () => {
  const { page } = await openPage({ ...DESK, reducedMotion: 'reduce' })
  await openBench(page)
  await button(page, 'Try it with the demo readings').click()
  await page.getByRole('heading', { name: 'Make safe first' }).waitFor()
  await makeSafe(page)
  await button(page, 'What do they say so far?').click()
  await page
    .locator('.bench-causes li')
    .first()
    .getByText(/^Servo 1's horn/)
    .waitFor({ timeout: 60_000 })
})

test('a record that is not known: what to measure, best first, is worked out beside the page', async () => {
  const { page } = await openPage({ ...PHONE, reducedMotion: 'reduce' })
  await openBench(page)
  await makeSafe(page)
  await page.getByText('Record not known? Measure up').click()
  const rows = page.locator('.measure-list li')
  await rows.first().waitFor()
  const { dimensions } = measuringUp(rig)
  expect((await rows.first().locator('b').innerText()).toLowerCase()).toContain(dimensions[0]?.says)
  expect(await rows.count()).toBe(dimensions.filter(({ cost }) => cost.guessed >= 0.1).length)
  await noSerious(page, 'measure up')
  const wide = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth)
  expect(wide).toBeLessThanOrEqual(0)
})

test('swapped leads: nothing is read between the two, and a bind is noted', {
  timeout: 240_000,
}, async () => {
  const { page } = await openPage({ ...DESK, reducedMotion: 'reduce' })
  await openBench(page)
  await makeSafe(page)
  await page.evaluate(() => {
    const lead = (i: number, to: number) => ({
      path: `/servos/${i}/output`,
      to,
      unit: '',
      says: `Plug lead ${i + 1} into ${to}`,
      after: [
        {
          measure: 'side-tilt',
          of: 1,
          sticks: { collective: 0, elevator: 0, aileron: 1, rudder: 0 },
          azimuth: 0,
          teeter: 0,
          yawRate: 0,
          flipped: false,
          value: 5,
          sd: 0.3,
        },
      ],
    })
    const state = window.swashtrueStore?.getState()
    if (!state) throw new Error('the page has no store')
    const plan = [lead(0, 3), lead(2, 1)]
    state.setBench({ bench: { ...state.session.bench, stage: 'turn', plan, made: 0, checked: 0 } }, 'took up a plan')
  })
  await button(page, 'Turned').click()
  await page.getByRole('heading', { name: 'Plug lead 3 into 1' }).waitFor()
  expect(await page.getByText('Check the step before the next one.').count()).toBe(0)
  await button(page, 'Turned').click()
  await page.getByText('Check the step before the next one.').waitFor()

  const stage = (name: string) =>
    page.getByRole('navigation', { name: 'Steps of the bench' }).getByRole('button', { name }).click()
  await stage('Read')
  expect(await button(page, 'It binds or hums here: note that').count()).toBe(0)
  const full = placesOf(rig, 'standard', true).findIndex(({ sticks }) => sticks.collective === 1)
  for (let i = 0; i < full; i++) await button(page, 'Can’t read it').click()
  await button(page, 'It binds or hums here: note that').click()
  const notes = await page.evaluate(() => window.swashtrueStore?.getState().session.readings)
  expect(notes?.at(-1)).toMatchObject({ felt: { sticks: { collective: 1 }, binds: true } })
  await button(page, 'Back').click()
  await button(page, 'Noted: it binds here').waitFor()
})
