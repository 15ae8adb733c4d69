/**
 * What a frame costs the page's own script while a stick motion plays, and whether memory grows. Times are printed and
 * not asserted: the machine that runs the tests is shared, and what it draws with is no graphics card.
 */
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
  const profiler = await page.context().newCDPSession(page)
  await profiler.send('Profiler.enable')
  await profiler.send('Profiler.start')
  await page.evaluate(() => window.swashtrueScene?.meter.clear())
  await page.waitForTimeout(WATCHED_MS)
  const { profile } = await profiler.send('Profiler.stop')
  const meter = await page.evaluate(() => {
    const one = window.swashtrueScene?.meter
    return { frames: one?.frames ?? 0, median: one?.quantileMs(0.5) ?? 0, most: one?.quantileMs(0.95) ?? 0 }
  })
  // Everything that is script: ours, React's, three's and the worker's messages; not idle, not the system's drawing.
  const outside = new Set(profile.nodes.filter(({ callFrame }) => ['(idle)', '(program)', '(garbage collector)', '(root)'].includes(callFrame.functionName)).map(({ id }) => id))
  const scriptMs = (profile.samples ?? []).reduce((sum, id, k) => sum + (outside.has(id) ? 0 : (profile.timeDeltas?.[k] ?? 0)), 0) / 1000
  expect(meter.frames).toBeGreaterThan(20)
  process.stdout.write(
    `page, a frame of a playing motion: reading, posing and writing ${meter.median.toFixed(2)} ms (median), ${meter.most.toFixed(2)} ms (95 %); ` +
      `all script with React's and three's ${(scriptMs / meter.frames).toFixed(2)} ms a drawn frame, over ${meter.frames} frames\n`,
  )
  const before = await used()
  await page.waitForTimeout(WATCHED_MS)
  const after = await used()
  process.stdout.write(`page, memory after ${WATCHED_MS / 1000} s more of it: ${(after - before).toFixed(0)} kB more than before\n`)
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
