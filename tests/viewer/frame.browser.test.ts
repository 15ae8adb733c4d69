/**
 * What a frame costs the page's own script while a stick motion plays, and whether memory grows. Times are printed and
 * not asserted: the machine that runs the tests is shared, and what it draws with is no graphics card.
 */
import type { Page } from 'playwright-core'
import { expect, test } from 'vitest'
import { openPage, useBrowser } from './browser.ts'

useBrowser()

/** Long enough for hundreds of frames, and for the garbage of a motion to be collected several times. */
const WATCHED_MS = 4000
/** What the collector may leave behind after a motion, over what it left before: caches that fill once. */
const LEFT_KB = 400

test('script time a frame, and memory, while the full circle plays beside the ghost', async () => {
  const { page } = await openPage()
  await page.evaluate(() => {
    window.swashtrueStore?.getState().change({ path: '/servos/1/horn/offset', by: 8 }, 'horn')
    window.swashtrueStore?.getState().show({ workspace: 'read' })
    window.swashtrueStore?.getState().startMotion('circle')
  })
  await page.waitForTimeout(2500)
  const used = (): Promise<number> =>
    page.evaluate(async () => {
      const collect = (window as { gc?: () => void }).gc
      for (let k = 0; k < 3; k++) {
        collect?.()
        await new Promise((done) => setTimeout(done, 50))
      }
      return (performance as unknown as { memory: { usedJSHeapSize: number } }).memory.usedJSHeapSize / 1024
    })
  const traced = await trace(page, async () => {
    await page.evaluate(() => window.swashtrueScene?.meter.clear())
    await page.waitForTimeout(WATCHED_MS)
  })
  const meter = await page.evaluate(() => {
    const one = window.swashtrueScene?.meter
    return { frames: one?.frames ?? 0, median: one?.quantileMs(0.5) ?? 0, most: one?.quantileMs(0.95) ?? 0 }
  })
  expect(meter.frames).toBeGreaterThan(5)
  process.stdout.write(
    `page, a frame of a playing motion: reading, posing and writing ${meter.median.toFixed(2)} ms (median), ${meter.most.toFixed(2)} ms (95 %); ` +
      `all script, React's and three's with it, ${(traced / meter.frames).toFixed(2)} ms of processor time a drawn frame, over ${meter.frames} frames\n`,
  )
  const before = await used()
  await page.waitForTimeout(WATCHED_MS)
  const after = await used()
  process.stdout.write(
    `page, memory after ${WATCHED_MS / 1000} s more of it: ${(after - before).toFixed(0)} kB more than before\n`,
  )
  expect(after - before).toBeLessThan(LEFT_KB)
})

test('a page on which nothing moves draws nothing', async () => {
  const { page } = await openPage({ reducedMotion: 'reduce' })
  await page.waitForFunction(() => (window.swashtrueScene?.stage.poses ?? 0) > 0)
  await page.waitForTimeout(1000)
  const frames = () => page.evaluate(() => window.swashtrueScene?.meter.frames)
  const before = await frames()
  await page.waitForTimeout(1000)
  expect(await frames()).toBe(before)
})

interface TraceEvent {
  name: string
  /** processor time of the event's own thread, microseconds: a busy machine does not lengthen it */
  tdur?: number
}

/** Milliseconds of processor time that scripts took on the page's main thread while `during` ran. */
async function trace(page: Page, during: () => Promise<void>): Promise<number> {
  const session = await page.context().newCDPSession(page)
  const events: TraceEvent[] = []
  session.on('Tracing.dataCollected', ({ value }) => events.push(...(value as unknown as TraceEvent[])))
  const complete = new Promise((done) => session.once('Tracing.tracingComplete', done))
  await session.send('Tracing.start', {
    transferMode: 'ReportEvents',
    traceConfig: { includedCategories: ['devtools.timeline'] },
  })
  await during()
  await session.send('Tracing.end')
  await complete
  // Frame callbacks hold the player, the scene and the readouts; what React does later comes by a message to itself.
  return events
    .filter(({ name }) => name === 'FireAnimationFrame' || name === 'HandlePostMessage')
    .reduce((sum, { tdur = 0 }) => sum + tdur / 1000, 0)
}
