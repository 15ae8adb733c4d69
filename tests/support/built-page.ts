/** For the browser's tests: builds the page if its sources have changed, serves it, and tells them where. */
import type { TestProject } from 'vitest/node';
import { servePage } from '../../packages/mixing/src/cli/serve.ts';
import { browser } from '../../scripts/browser.mjs';
import { buildPage } from '../../scripts/build.mjs';
import './provided.ts';

export default async function setup(project: TestProject): Promise<() => Promise<void>> {
  buildPage();
  const server = await servePage();
  project.provide('page', server.address);
  project.provide('chromium', browser());
  return () => server.close();
}
