/**
 * The built page in a headless browser. Every error of the page's own, and everything that its content policy had to
 * stop, is kept, so that a test can say that there was none.
 */
import { type Browser, type BrowserContextOptions, chromium, type Page } from 'playwright-core';
import { inject } from 'vitest';

export interface OpenPage {
  page: Page;
  /** uncaught errors and console errors, as they come (a refusal by the content policy is one of these) */
  errors: string[];
}

/** Starts the browser; a test file does so once, in `beforeAll`, and closes it in `afterAll`. */
export function startBrowser(): Promise<Browser> {
  // As root, as in a container, Chromium starts only without its sandbox; it visits nothing but the page.
  return chromium.launch({ executablePath: inject('chromium'), args: process.getuid?.() === 0 ? ['--no-sandbox'] : [] });
}

/** A fresh profile on the page; the service worker is kept out, because a cached page is not the one under test. */
export async function openPage(browser: Browser, path = '', options: BrowserContextOptions = {}): Promise<OpenPage> {
  const context = await browser.newContext({ viewport: { width: 1280, height: 720 }, serviceWorkers: 'block', ...options });
  const page = await context.newPage();
  const errors: string[] = [];
  page.on('pageerror', (error) => errors.push(String(error)));
  page.on('console', (message) => {
    if (message.type() === 'error') errors.push(`${message.text()} (${message.location().url})`);
  });
  await page.goto(new URL(path, inject('page')).href);
  return { page, errors };
}
