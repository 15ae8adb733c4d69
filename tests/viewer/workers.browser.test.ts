/**
 * The reach's web workers in a browser: that the work is theirs, that what they answer is the library's own answer place by
 * place, that progress goes one way, and that cancel, another machine and leaving end the threads and not only the words.
 */
import { type Example, examples, prepare, REACH_MISSES, type Rig, readRig, reachAt } from '@swashtrue/mixing'
import type { Page, Worker } from 'playwright-core'
import { expect, test } from 'vitest'
import { placeIn, placeSays, reachSays } from '../../packages/viewer/src/reach/words.ts'
import { COARSE, type ReachMap, sticksOf } from '../../packages/viewer/src/state/reach.ts'
import { openPage, useBrowser } from './browser.ts'

useBrowser()

const [demo, , flybar] = examples as unknown as [Example, Example, Example]

/** The demo with an output that is cut off and a blade's link that is far too long: every kind of place is on its maps. */
function patchy(): Rig {
  const read = readRig(structuredClone(demo.document))
  if (!read.ok) throw new Error('the demo was refused')
  const { rig } = read
  rig.name = 'patchy'
  const [, output] = rig.transmitter.outputs
  output.limits = [1400, 1640]
  rig.rotor.links[0] = (rig.rotor.links[0] ?? 0) + 24
  return rig
}

const isReach = (worker: Worker): boolean => /\/reach[^/]*\.js$/.test(worker.url())
const reachWorkers = (page: Page): number => page.workers().filter(isReach).length
const word = (page: Page) => page.locator('.reach-work [role=status]')
const show = (page: Page, workspace: string) =>
  page.evaluate((to) => window.swashtrueStore?.getState().show({ workspace: to, tour: 'done' }), workspace)

async function load(page: Page, document: unknown, name: string): Promise<void> {
  const buffer = Buffer.from(JSON.stringify(document))
  await page.locator('input[type=file]').setInputFiles({ name: 'machine.rig.json', mimeType: 'application/json', buffer })
  await expect.poll(() => page.locator('.machine-name').innerText()).toBe(name)
}

test('the maps are made by workers, and each place on them is what the library answers', async () => {
  const { page } = await openPage()
  const machine = patchy()
  await load(page, machine, 'patchy')
  expect(reachWorkers(page)).toBe(0)
  await show(page, 'read')
  await expect.poll(() => word(page).innerText(), { timeout: 30_000 }).toMatch(/121 × 121 places a map/)
  const cores = await page.evaluate(() => navigator.hardwareConcurrency)
  expect(reachWorkers(page)).toBe(Math.min(cores, Math.ceil((3 * COARSE * COARSE) / 500)))

  const cells = reachAt(prepare(machine), sticksOf(0, 3 * COARSE * COARSE, COARSE))
  const map: ReachMap = { machine, mode: undefined, side: COARSE, ...cells, tookMs: 0 }
  const { says, shares } = reachSays(map, false)
  // Each kind must be there, or the places below show little.
  for (const share of Object.values(shares)) expect(share).toBeGreaterThan(0.01)
  expect((await page.locator('.reach-says p').allInnerTexts()).slice(0, 3)).toEqual(says.slice(0, 3))
  const seen = new Set<string>()
  for (const [level, name] of ['low', 'middle', 'full'].entries()) {
    const drawn = page.getByRole('img', { name: `The cyclic stick at ${name} collective` })
    await drawn.scrollIntoViewIfNeeded()
    const box = await drawn.boundingBox()
    if (!box) throw new Error('the map is nowhere')
    // Cells are some pixels wide, and a place's middle is well inside its own.
    for (const [forward, right] of [
      [0, 0],
      [0.9, -0.5],
      [-0.9, 0.7],
    ] as const) {
      await page.mouse.move(box.x + (box.width * (1 + right)) / 2, box.y + (box.height * (1 - forward)) / 2)
      const n = placeIn(map, level, forward, right)
      await expect.poll(() => page.locator('.reach-place').innerText()).toBe(placeSays(map, n))
      const code = map.codes[n] as number
      seen.add(code === 0 ? 'free' : code < REACH_MISSES ? 'cut' : 'missed')
    }
  }
  expect(seen).toEqual(new Set(['free', 'cut', 'missed']))
})

test('progress only rises; cancel ends every thread, the page says so and nothing more comes; then threads start anew', async () => {
  const { page } = await openPage()
  // A flybar machine takes some seconds, so that there is something to cancel.
  await load(page, flybar.document, 'flybar trainer')
  await show(page, 'read')
  await expect.poll(() => word(page).innerText(), { timeout: 60_000 }).toMatch(/121 × 121 places a map/)
  const before = page.workers().filter(isReach)
  expect(before.length).toBeGreaterThan(0)
  const ended: string[] = []
  for (const worker of before) worker.on('close', () => ended.push(worker.url()))

  const progress = await page.evaluate(async () => {
    const button = (text: string) =>
      [...document.querySelectorAll<HTMLButtonElement>('.reach-work button')].find((one) => one.innerText === text)
    const bar = document.querySelector('.reach-work progress') as HTMLProgressElement
    const values: number[] = []
    const watch = new MutationObserver(() => values.push(bar.value))
    watch.observe(bar, { attributes: true, attributeFilter: ['value'] })
    button('Finer')?.click()
    const startMs = performance.now()
    while (values.length < 6) {
      if (performance.now() - startMs > 30_000) throw new Error(`no progress: ${values}`)
      await new Promise((next) => setTimeout(next))
    }
    watch.disconnect()
    button('Cancel')?.click()
    return values
  })
  expect(progress.length).toBeGreaterThanOrEqual(6)
  expect(progress.toSorted((a, b) => a - b)).toEqual(progress)
  expect(new Set(progress).size).toBeGreaterThan(3)
  expect(progress.at(-1)).toBeGreaterThan(0)
  expect(progress.at(-1)).toBeLessThan(1)

  const cancelled = 'Cancelled. The maps stand at 121 × 121 places.'
  await expect.poll(() => word(page).innerText()).toBe(cancelled)
  await expect.poll(() => ended.length).toBe(before.length)
  expect(reachWorkers(page)).toBe(0)
  // Longer than a slice takes: a thread that was left to itself would have spoken.
  await page.waitForTimeout(500)
  expect(await word(page).innerText()).toBe(cancelled)
  expect(reachWorkers(page)).toBe(0)

  await load(page, patchy(), 'patchy')
  await expect.poll(() => word(page).innerText(), { timeout: 30_000 }).toMatch(/121 × 121 places a map/)
  expect(reachWorkers(page)).toBeGreaterThan(0)
})

test('a machine that changes while it is worked at, and a panel that is left, end what was being worked out', async () => {
  const { page } = await openPage()
  await load(page, flybar.document, 'flybar trainer')
  await show(page, 'read')
  await expect.poll(() => word(page).innerText(), { timeout: 60_000 }).toMatch(/121 × 121 places a map/)
  const first = page.workers().filter(isReach)
  expect(first.length).toBeGreaterThan(0)
  await page.getByRole('button', { name: 'Finer' }).click()
  const bar = page.getByRole('progressbar', { name: 'Reach, worked out so far' })
  await expect.poll(() => bar.evaluate((one) => (one as HTMLProgressElement).value)).toBeGreaterThan(0)
  await page.evaluate(() => window.swashtrueStore?.getState().change({ path: '/servos/0/horn/offset', by: 3 }, 'a horn'))
  await expect.poll(() => page.workers().some((worker) => first.includes(worker))).toBe(false)
  await expect.poll(() => word(page).innerText(), { timeout: 60_000 }).toMatch(/121 × 121 places a map/)
  await show(page, 'fly')
  await expect.poll(() => reachWorkers(page)).toBe(0)
})

test("where no worker can start the page says so and shows no maps: the work is nobody else's", async () => {
  const { page, complaints } = await openPage()
  await page.route(/\/reach[^/]*\.js$/, (route) => route.abort())
  await show(page, 'read')
  await expect.poll(() => word(page).innerText()).toMatch(/^The work stopped: /)
  expect(await page.locator('.reach-says .first').innerText()).toBe('Where on the sticks can this machine go?')
  await page.unroute(/\/reach[^/]*\.js$/)
  await page.getByRole('button', { name: 'Work it out' }).click()
  await expect.poll(() => word(page).innerText(), { timeout: 30_000 }).toMatch(/121 × 121 places a map/)
  // What the browser itself wrote of the file that was kept from it.
  expect(complaints.splice(0).filter((one) => !/ERR_FAILED/.test(one))).toEqual([])
})
