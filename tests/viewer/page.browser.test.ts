/** The page as a person uses it: in a browser, by keyboard, pointer and file. */
import { existsSync, readFileSync } from 'node:fs'
import { type Example, examples, predict, prepare, readRig } from '@swashtrue/mixing'
import { expect, test } from 'vitest'
import { openPage, PHONE, stationNumber, useBrowser } from './browser.ts'
import { expectNear } from '../support/expect-near.ts'

useBrowser()

const [benchTrainer, leverTrainer, flybarTrainer] = examples as unknown as [Example, Example, Example]

function rigOf(document: unknown) {
  const read = readRig(document)
  if (!read.ok) throw new Error('the example was refused')
  return read.rig
}
const demo = rigOf(benchTrainer.document)
/** Half of the last digit that the page shows. */
const SHOWN = 0.0051

test('opens at both sizes without a complaint, moves by itself, and draws', async () => {
  for (const size of [{}, PHONE]) {
    const { page } = await openPage({ ...size, calm: false })
    await page.waitForFunction(() => (window.swashtrueScene?.stage.poses ?? 0) > 3)
    const moved = await page.evaluate(() => window.swashtrueStore?.getState().play?.motion)
    expect(moved).toBe('circle')
  }
})

test('stands still on the first visit where less motion is asked for', async () => {
  const { page } = await openPage({ reducedMotion: 'reduce', calm: false })
  await page.waitForFunction(() => (window.swashtrueScene?.stage.poses ?? 0) > 0)
  expect(await page.evaluate(() => window.swashtrueStore?.getState().play)).toBeUndefined()
})

test("elevator by keyboard moves the ring by the library's number", async () => {
  const { page } = await openPage()
  const stick = page.getByRole('slider', { name: 'Cyclic stick' })
  await stick.focus()
  for (let k = 0; k < 5; k++) await page.keyboard.press('ArrowUp')
  await expect.poll(() => stick.getAttribute('aria-valuetext')).toBe('elevator 50\u00a0% forward, aileron 0\u00a0%')
  const { swash } = predict(prepare(demo), { elevator: 0.5, azimuth: 90 })
  await expect.poll(() => stationNumber(page, 'Swashplate', 'fore-aft')).not.toBe(0)
  expectNear(await stationNumber(page, 'Swashplate', 'fore-aft'), swash?.foreAft ?? Number.NaN, SHOWN, 'degree')
  expectNear(await stationNumber(page, 'Swashplate', 'height'), swash?.height ?? Number.NaN, SHOWN, 'mm')
  await page.keyboard.press('Home')
  await expect.poll(() => stick.getAttribute('aria-valuetext')).toBe('elevator 0\u00a0%, aileron 0\u00a0%')
})

test('a stick is dragged by the pointer, and springs to centre only where it is asked to', async () => {
  const { page } = await openPage()
  const stick = page.getByRole('slider', { name: 'Cyclic stick' })
  const box = await stick.boundingBox()
  if (!box) throw new Error('the stick is nowhere')
  const middle = { x: box.x + box.width / 2, y: box.y + box.height / 2 }
  const drag = async (): Promise<void> => {
    await page.mouse.move(middle.x, middle.y)
    await page.mouse.down()
    await page.mouse.move(middle.x + 20, middle.y - 30, { steps: 4 })
  }
  const sticks = () => page.evaluate(() => window.swashtrueStore?.getState().session.sticks)
  await drag()
  expect((await sticks())?.elevator).toBeGreaterThan(0.3)
  expect((await sticks())?.aileron).toBeGreaterThan(0.2)
  await page.mouse.up()
  expect(await sticks()).toMatchObject({ elevator: 0, aileron: 0 })
  await page.getByLabel('Spring to centre').uncheck()
  await drag()
  await page.mouse.up()
  expect((await sticks())?.elevator).toBeGreaterThan(0.3)
})

test('by touch, two thumbs at once', async () => {
  const { page } = await openPage({ ...PHONE })
  await page.getByRole('button', { name: 'Put this card away' }).click()
  const touch = await page.context().newCDPSession(page)
  const centre = async (name: string): Promise<{ x: number; y: number }> => {
    const stick = page.getByRole('slider', { name })
    await stick.scrollIntoViewIfNeeded()
    const box = await stick.boundingBox()
    if (!box) throw new Error(`${name} is nowhere`)
    return { x: box.x + box.width / 2, y: box.y + box.height / 2 }
  }
  const left = await centre('Collective stick')
  const right = await centre('Cyclic stick')
  const points = (dy: number) => [
    { x: left.x, y: left.y - dy, id: 1 },
    { x: right.x, y: right.y + dy, id: 2 },
  ]
  await touch.send('Input.dispatchTouchEvent', { type: 'touchStart', touchPoints: points(0) })
  await touch.send('Input.dispatchTouchEvent', { type: 'touchMove', touchPoints: points(40) })
  const sticks = await page.evaluate(() => window.swashtrueStore?.getState().session.sticks)
  expect(sticks?.collective).toBeGreaterThan(0.5)
  expect(sticks?.elevator).toBeLessThan(-0.5)
  await touch.send('Input.dispatchTouchEvent', { type: 'touchEnd', touchPoints: [] })
})

test('a horn mis-set says which horn and which way, shows the ghost, and undo and redo go both ways', async () => {
  const { page } = await openPage()
  await page.getByRole('tab', { name: 'Mis-set' }).click()
  await page.getByRole('button', { name: 'Servo 2', exact: true }).click()
  for (let k = 0; k < 8; k++) await page.getByRole('button', { name: 'Horn, angle: more' }).click()
  const verdict = page.locator('.verdict')
  await expect
    .poll(() => verdict.innerText())
    .toMatch(/Before the stick moves the swashplate leans 2\.8 degrees forward: servo 2's horn stands 8 degrees high/)
  expect(await page.evaluate(() => window.swashtrueScene?.stage.ghost?.group.visible)).toBe(true)
  await page.getByRole('button', { name: /^Undo/ }).click()
  await expect.poll(() => verdict.innerText()).toMatch(/stands 7 degrees high/)
  await page.keyboard.press('Control+Shift+z')
  await expect.poll(() => verdict.innerText()).toMatch(/stands 8 degrees high/)
  await page.getByRole('button', { name: /^Put right/ }).click()
  await expect.poll(() => verdict.innerText()).toMatch(/the machine answers true/)
})

test('leads swapped at the servo: both leads change places, and the sentence says so', async () => {
  const { page } = await openPage()
  await page.getByRole('button', { name: 'Servo 1', exact: true }).click()
  await page.getByRole('group', { name: 'Its lead is in' }).getByRole('button', { name: 'Output 3' }).click()
  await expect
    .poll(() => page.locator('.verdict').innerText())
    .toMatch(/Right aileron rolls the machine left: the side servos' leads are swapped/)
  expect(await page.locator('.change-list li').count()).toBe(2)
})

test('a wrong sign is blamed for its own stick; what the record does under the other is said of the record', async () => {
  const { page } = await openPage()
  const document = readFileSync(new URL('../answers/rigs/worked-120.rig.json', import.meta.url))
  await page
    .locator('input[type=file]')
    .setInputFiles({ name: 'worked.rig.json', mimeType: 'application/json', buffer: document })
  await expect.poll(() => page.locator('.machine-name').innerText()).toBe('worked 120')
  await page.getByRole('tab', { name: 'Mis-set' }).click()
  await page.getByRole('button', { name: 'Transmitter', exact: true }).click()
  await page.getByRole('button', { name: 'Turn the sign of the elevator value' }).click()
  await expect
    .poll(() => page.locator('.verdict p').allInnerTexts())
    .toEqual([
      'Forward elevator tips the machine back: the elevator value has the wrong sign.',
      'As recorded, right aileron also tips the machine back, by 37 percent: its disc answers 20 degrees out of line, which phase would cure.',
    ])
})

test('reload resumes where one was', async () => {
  const { page } = await openPage()
  await page.getByRole('button', { name: 'Servo 3', exact: true }).click()
  await page.getByRole('button', { name: 'Link: more' }).click()
  await page.getByRole('slider', { name: 'Cyclic stick' }).focus()
  await page.keyboard.press('ArrowLeft')
  const before = await page.evaluate(() => window.swashtrueStore?.getState().session)
  // Longer than the quiet that the autosave waits for.
  await page.waitForTimeout(600)
  await page.reload()
  await page.getByRole('heading', { name: 'Not as recorded' }).waitFor()
  expect(await page.evaluate(() => window.swashtrueStore?.getState().session)).toEqual(before)
})

const drop = (page: import('playwright-core').Page, name: string, text: string): Promise<void> =>
  page.evaluate(
    ([file, content]) => {
      const data = new DataTransfer()
      data.items.add(new File([content], file, { type: 'application/json' }))
      document
        .querySelector('.page')
        ?.dispatchEvent(new DragEvent('drop', { dataTransfer: data, bubbles: true, cancelable: true }))
    },
    [name, text] as const,
  )

test('a document that is dragged in opens and draws; a bad one is refused fault by fault and loses nothing', async () => {
  const { page } = await openPage()
  await drop(page, 'lever.rig.json', JSON.stringify(leverTrainer.document))
  await expect.poll(() => page.locator('.machine-name').innerText()).toBe('lever trainer')
  await page.waitForFunction(() => window.swashtrueScene?.stage.machine !== undefined)
  const broken = { ...(leverTrainer.document as object), swsh: { height: 1 }, linkStep: 0 }
  await drop(page, 'broken.rig.json', JSON.stringify(broken))
  const notice = page.getByRole('alert')
  await notice.waitFor()
  expect(await notice.innerText()).toMatch(/was not opened: it has 2 faults/)
  expect(await notice.innerText()).toMatch(/\/swsh/)
  expect(await notice.innerText()).toMatch(/\/linkStep/)
  expect(await page.locator('.machine-name').innerText()).toBe('lever trainer')
  await notice.getByRole('button', { name: 'Dismiss' }).click()
  await page.getByRole('button', { name: /^Undo/ }).click()
  await expect.poll(() => page.locator('.machine-name').innerText()).toBe('bench trainer')
})

test('a document is chosen from a file and saved with its changes', async () => {
  const { page } = await openPage()
  await page.locator('input[type=file]').setInputFiles({
    name: 'flybar.rig.json',
    mimeType: 'application/json',
    buffer: Buffer.from(JSON.stringify(flybarTrainer.document)),
  })
  await expect.poll(() => page.locator('.machine-name').innerText()).toBe('flybar trainer')
  await page.evaluate(() => window.swashtrueStore?.getState().change({ path: '/servos/0/link', by: 0.4 }, 'link'))
  const [download] = await Promise.all([page.waitForEvent('download'), page.getByRole('button', { name: 'Save' }).click()])
  expect(download.suggestedFilename()).toBe('flybar-trainer.rig.json')
  const path = await download.path()
  const saved = rigOf(JSON.parse(readFileSync(path, 'utf8')))
  expectNear(saved.servos[0].link, rigOf(flybarTrainer.document).servos[0].link + 0.4, 1e-9, 'mm')
  expect(existsSync(path)).toBe(true)
})

test('a pose that cannot be reached says which part and by how much, and the last good one stays, dimmed', async () => {
  const { page } = await openPage()
  await page.evaluate(() => window.swashtrueStore?.getState().setSticks({ elevator: 0.5 }, 'stick'))
  await page.waitForFunction(() => (window.swashtrueScene?.stage.poses ?? 0) > 0)
  await page.waitForTimeout(300)
  const drawn = () =>
    page.evaluate(() => {
      const found = { ball: [] as number[], opacity: [] as number[] }
      window.swashtrueScene?.stage.machine?.group.traverse((object) => {
        if (object.userData['ball'] !== '/blades/0/armBall') return
        found.ball = object.matrixWorld.elements.slice(12, 15)
        found.opacity = [(object as unknown as { material: { opacity: number } }).material.opacity]
      })
      return found
    })
  const before = await drawn()
  expect(before.opacity).toEqual([1])
  await page.evaluate(() => window.swashtrueStore?.getState().change({ path: '/rotor/links/0', by: 60 }, 'link'))
  await expect
    .poll(() => page.locator('.verdict').innerText())
    .toMatch(/The machine cannot be posed here, for blade 1's link misses by [\d.]+ mm/)
  await expect.poll(async () => (await drawn()).opacity[0]).toBeLessThan(0.5)
  expect((await drawn()).ball).toEqual(before.ball)
})

test("every drawn ball in the browser's scene is the library's, after a drag of the rotor too", async () => {
  const { page } = await openPage()
  await page.evaluate(() => {
    window.swashtrueStore?.getState().setStand({ rotorDeg: 137 }, 'rotor')
    window.swashtrueStore?.getState().setSticks({ elevator: 0.4, collective: 0.2 }, 'stick')
  })
  await page.waitForFunction(() => (window.swashtrueScene?.stage.poses ?? 0) > 0)
  await page.waitForTimeout(200)
  const armBall = await page.evaluate(() => {
    let at: number[] | undefined
    window.swashtrueScene?.stage.group.updateMatrixWorld(true)
    window.swashtrueScene?.stage.machine?.group.traverse((object) => {
      if (object.userData['ball'] === '/blades/0/armBall') at = object.matrixWorld.elements.slice(12, 15)
    })
    return at
  })
  const { figure } = await import('@swashtrue/mixing')
  const expected = figure(prepare(demo), { elevator: 0.4, collective: 0.2, azimuth: 137 }).blades?.[0]?.armBall ?? [0, 0, 0]
  const [X = 0, Y = 0, Z = 0] = armBall ?? []
  expectNear([-Z, -X, Y], expected, 1e-6, 'mm')
})

test('what is wrong here: a fault out of sight, a guess, and the answer', async () => {
  const { page } = await openPage()
  await page.getByRole('button', { name: 'Put this card away' }).click()
  await page.getByRole('button', { name: 'Forward is not forward' }).click()
  expect(await page.locator('.verdict').innerText()).toMatch(/Something on this machine is not as recorded/)
  await page.getByRole('group', { name: 'Your guess' }).getByRole('button', { name: 'Two leads are swapped' }).click()
  await expect
    .poll(() => page.locator('.riddle-answer').innerText())
    .toMatch(/Forward elevator .*: the leads of servos 1 and 2 are swapped/)
  await page.getByRole('button', { name: 'Put it right' }).click()
  await expect.poll(() => page.locator('.verdict').innerText()).toMatch(/the machine answers true/)
})

test('the first minute: push, set wrong, be told which horn and which way, put right', async () => {
  const { page } = await openPage()
  const card = page.getByRole('complementary', { name: 'First look' })
  await card.getByRole('button', { name: 'Push elevator' }).click()
  await card.getByRole('button', { name: 'Set it wrong and push elevator' }).click({ timeout: 20_000 })
  await expect
    .poll(() => page.locator('.verdict').innerText())
    .toMatch(/leans 2\.4 degrees right .*: servo 1's horn stands 8 degrees high/)
  await card.getByRole('button', { name: 'Put it right' }).click()
  await card.getByRole('button', { name: 'It leans' }).waitFor()
})
