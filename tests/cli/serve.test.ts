/** The page's server: the right kinds of file, this machine only, nothing from outside its folder. */
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { request } from 'node:http';
import { networkInterfaces, tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { OPENED_RIG, type PageServer, portFrom, ServeError, servePage } from '../../packages/mixing/src/cli/serve.ts';

const folder = mkdtempSync(join(tmpdir(), 'page-'));
const directory = join(folder, 'page');
const openedRig = JSON.stringify({ format: 'swashtrue-rig/1', name: 'Ä machine' });
let server: PageServer;

beforeAll(async () => {
  mkdirSync(join(directory, 'assets'), { recursive: true });
  writeFileSync(join(directory, 'index.html'), '<!doctype html><title>page</title>');
  for (const name of ['code.js', 'look.css', 'face.woff2', 'kernel.wasm', 'icon.svg', 'data.json'])
    writeFileSync(join(directory, 'assets', name), name);
  writeFileSync(join(directory, 'app.webmanifest'), '{}');
  writeFileSync(join(folder, 'secret.txt'), 'not for the page');
  server = await servePage({ directory, openedRig });
});

afterAll(async () => {
  await server.close();
  rmSync(folder, { recursive: true });
});

/** A request with its path and Host exactly as given: `fetch` would tidy `..` away. */
function ask(path: string, { method = 'GET', host }: { method?: string; host?: string } = {}) {
  const { hostname, port } = new URL(server.address);
  return new Promise<{ status: number; type: string; body: string }>((resolve, reject) => {
    const asked = request({ hostname, port, path, method, headers: host === undefined ? {} : { host } }, (response) => {
      let body = '';
      response.setEncoding('utf8').on('data', (text: string) => {
        body += text;
      });
      response.on('end', () => resolve({ status: response.statusCode ?? 0, type: response.headers['content-type'] ?? '', body }));
    });
    asked.on('error', reject).end();
  });
}

test.each([
  ['/', /^text\/html/],
  ['/index.html', /^text\/html/],
  ['/assets/code.js', /^(text|application)\/javascript/],
  ['/assets/look.css', /^text\/css/],
  ['/assets/face.woff2', /^font\/woff2/],
  ['/assets/kernel.wasm', /^application\/wasm/],
  ['/assets/icon.svg', /^image\/svg\+xml/],
  ['/assets/data.json', /^application\/json/],
  ['/app.webmanifest', /^application\/manifest\+json/],
])('%s is given as %s', async (path, type) => {
  const given = await ask(path);
  expect(given.status).toBe(200);
  expect(given.type).toMatch(type);
});

test.each([
  '/../secret.txt',
  '/assets/../../secret.txt',
  '/%2e%2e/secret.txt',
  '/..%2fsecret.txt',
  '/assets/%2e%2e%2f%2e%2e%2fsecret.txt',
  '/..\\secret.txt',
  '//secret.txt',
  '/secret.txt',
  '/%',
  '/%00',
])('%s leads nowhere', async (path) => {
  const given = await ask(path);
  expect(given.status).toBe(404);
  expect(given.body).not.toContain('not for the page');
});

test('the rig document stands at its fixed place, byte for byte', async () => {
  const given = await ask(OPENED_RIG);
  expect(given).toMatchObject({ status: 200, body: openedRig });
  expect(server.address, 'the address tells the page to look there').toMatch(/\/\?opened$/);
  expect((await ask('/?opened')).status).toBe(200);
  expect(given.type).toMatch(/^application\/json/);
});

test('started without a document, its place is empty and the page is there', async () => {
  const bare = await servePage({ directory });
  expect((await fetch(new URL(OPENED_RIG, bare.address))).status).toBe(404);
  expect((await fetch(bare.address)).status).toBe(200);
  expect(bare.address).toMatch(/\/$/);
  await bare.close();
});

test('a request by another name, or to change something, is refused', async () => {
  expect((await ask('/', { host: 'elsewhere.example' })).status).toBe(403);
  expect((await ask('/', { host: 'localhost:1' })).status).toBe(200);
  expect((await ask('/', { method: 'POST' })).status).toBe(405);
});

const outward = Object.values(networkInterfaces())
  .flatMap((list) => list ?? [])
  .filter((one) => !one.internal && one.family === 'IPv4');

test(`the port is closed on the machine's other addresses (${outward.length} here)`, async () => {
  expect(new URL(server.address).hostname).toBe('127.0.0.1');
  const { port } = new URL(server.address);
  for (const { address } of outward) {
    await expect(fetch(`http://${address}:${port}/`)).rejects.toThrow();
  }
});

test('a port in use, a port that is none and a page not built are each said', async () => {
  const { port } = new URL(server.address);
  await expect(servePage({ directory, port: Number(port) })).rejects.toThrow(
    /^port \d+: got one that is in use, expected a free port/,
  );
  await expect(servePage({ directory: join(folder, 'nothing') })).rejects.toThrow(/got no built page.*npm run build/);
  for (const wrong of ['http', '-1', '65536', '80.5', ' 80', '1e3']) expect(() => portFrom(wrong)).toThrow(ServeError);
  expect([portFrom(undefined), portFrom(''), portFrom('0'), portFrom('65535')]).toEqual([0, 0, 0, 65535]);
});

test('a page that is built again while it is served is given as it is then, and an older one’s files are no more', async () => {
  const old = join(directory, 'assets', 'old.js');
  writeFileSync(old, 'old');
  expect((await ask('/assets/old.js')).body).toBe('old');
  rmSync(old);
  writeFileSync(join(directory, 'assets', 'new.js'), 'new');
  expect((await ask('/assets/old.js')).status).toBe(404);
  expect((await ask('/assets/new.js')).body).toBe('new');
});
