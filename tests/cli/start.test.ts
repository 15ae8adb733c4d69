/** What `npm start` hands over to, as built: the story of the demo, then the page at the address printed. */
import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { createServer } from 'node:net';
import type { AddressInfo } from 'node:net';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { demoStory } from '../../packages/mixing/src/cli/demo-story.ts';
import { examples } from '../../packages/mixing/src/examples/examples.ts';
import { rigOf } from '../support/answer.ts';
import { realProgram } from './program.ts';

const program = realProgram();

function started(port: string) {
  const script = join(program.folder, 'mixing', 'dist', 'program', 'start.js');
  const child = spawn(process.execPath, [script], { env: { ...process.env, PORT: port }, stdio: ['ignore', 'pipe', 'pipe'] });
  const told = { out: '', err: '' };
  child.stdout.setEncoding('utf8').on('data', (text: string) => {
    told.out += text;
  });
  child.stderr.setEncoding('utf8').on('data', (text: string) => {
    told.err += text;
  });
  return { child, told, closed: once(child, 'close') as Promise<[number | null, string | null]> };
}

/** A port that was free a moment ago. */
async function freePort(): Promise<string> {
  const server = createServer().listen(0, '127.0.0.1');
  await once(server, 'listening');
  const { port } = server.address() as AddressInfo;
  server.close();
  await once(server, 'close');
  return String(port);
}

test('it tells the demo document’s story, serves the page at the port asked for, and ends when interrupted', async () => {
  const port = await freePort();
  const { child, told, closed } = started(port);
  while (!told.out.includes('The page is at')) await once(child.stdout, 'data');
  expect(told.out).toContain(demoStory(rigOf(examples[0].document)));
  const address = /http:\S+/.exec(told.out.split('\n').at(-2) ?? '')?.[0] ?? 'no address in the last line';
  expect(address).toBe(`http://127.0.0.1:${port}/`);
  expect(await (await fetch(address)).text()).toContain('a page');
  child.kill('SIGINT');
  expect(await closed).toEqual([0, null]);
});

test('a port that is none is said after the story, and it fails', async () => {
  const { told, closed } = started('eighty');
  expect(await closed).toEqual([1, null]);
  expect(told.err).toMatch(/^PORT: got "eighty", expected a whole number from 0 to 65535/);
});
