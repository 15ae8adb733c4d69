/** A browser for the page's tests: one for a file of tests, a fresh profile for each page, complaints collected. */
import { type Browser, type BrowserContextOptions, chromium, type Page } from 'playwright-core'
import { afterAll, afterEach, beforeAll, expect, inject } from 'vitest'
import '../support/provided.ts'
import type {} from '../support/built-page.ts'
import type { PageStore } from '../../packages/viewer/src/state/store.ts'

declare global {
  interface Window {
    swashtrueStore?: PageStore
  }
}

export const PHONE = { viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true, deviceScaleFactor: 2 } as const
export const DESK = { viewport: { width: 1440, height: 900 } } as const

export interface Opened {
  page: Page
  /** errors that the page wrote to its console or threw, and requests that left it */
  complaints: string[]
}

let browser: Browser
const opened: Opened[] = []

/** Call once in a file: starts the browser, closes each test's pages, and fails a test whose page complained. */
export function useBrowser(): void {
  beforeAll(async () => {
    browser = await chromium.launch({
      executablePath: inject('chromium'),
      // As root Chromium needs no sandbox; the precise heap is for the test that watches it.
      args: ['--no-sandbox', '--enable-precise-memory-info', '--js-flags=--expose-gc'],
    })
  })
  afterEach(async () => {
    const all = opened.splice(0)
    for (const { page } of all) await page.context().close()
    expect(all.flatMap(({ complaints }) => complaints)).toEqual([])
  })
  afterAll(() => browser.close())
}

export async function openPage(options: BrowserContextOptions & { calm?: boolean; address?: string } = {}): Promise<Opened> {
  const { calm = true, address = inject('page'), ...rest } = options
  const context = await browser.newContext({ serviceWorkers: 'block', ...DESK, ...rest })
  const page = await context.newPage()
  page.setDefaultTimeout(20_000)
  const complaints: string[] = []
  page.on('console', (message) => message.type() === 'error' && complaints.push(message.text()))
  page.on('pageerror', (error) => complaints.push(`thrown: ${error.message}`))
  page.on('request', (request) => {
    const { protocol, origin } = new URL(request.url())
    if (protocol.startsWith('http') && origin !== new URL(address).origin) complaints.push(`left the page: ${request.url()}`)
  })
  await page.goto(address)
  await page.getByRole('heading', { name: 'Swashtrue' }).waitFor()
  // The first minute's motion would move the sticks under a test that does not mean it.
  if (calm) await page.evaluate(() => window.swashtrueStore?.getState().stopMotion())
  const one = { page, complaints }
  opened.push(one)
  return one
}

/** The live number of a station of the signal path, as it stands on the page. */
export async function stationNumber(page: Page, station: string, line: string): Promise<number> {
  const place = page.locator('.station', { hasText: station }).locator('.lines > div', { hasText: line }).locator('dd')
  const text = await place.innerText()
  return Number(text.replace('\u2212', '-').replace(/[^\d.+-]/g, ''))
}
