/**
 * Serves the built page on this machine alone, for `view` and `npm start`.
 * Takes the folder of the page, a port (0: any free one) and, where there is one, the rig document that the page is to
 * open; gives the address. The document stands at a fixed URL beside the page (`OPENED_RIG`), where the page looks.
 */
import { existsSync, statSync } from 'node:fs';
import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import sirv from 'sirv';

/** Where the page finds the rig document that it was started with; 404 where it was started without one. */
export const OPENED_RIG = '/opened.rig.json';
/** On the address where there is such a document: the page asks for it only then, since asking in vain is an error on its console. */
const OPENED_QUERY = '?opened';

const LOOPBACK = '127.0.0.1';

export interface PageServer {
  /** as typed into a browser */
  address: string;
  close(): Promise<void>;
}

export interface Serving {
  /** folder of the built page; left out: the one built in this clone */
  directory?: string;
  /** 0 or left out: any free port */
  port?: number;
  /** a rig document as JSON text */
  openedRig?: string;
}

/** The page can't be served; the message says what was got, what was expected and the way out. */
export class ServeError extends Error {
  override name = 'ServeError';
}

/** The folder into which this clone's page is built: the same way up from the sources as from the bundled program. */
export function builtPageDirectory(): string {
  return fileURLToPath(new URL('../../../viewer/dist/', import.meta.url));
}

/** A port as written in an environment variable or an option: nothing means any free one, 0. Throws ServeError. */
export function portFrom(written: string | undefined, name = 'PORT'): number {
  if (written === undefined || written === '') return 0;
  const port = /^\d{1,5}$/.test(written) ? Number(written) : Number.NaN;
  if (!(port <= 65535)) {
    throw new ServeError(
      `${name}: got ${JSON.stringify(written)}, expected a whole number from 0 to 65535; leave it out for any free port`,
    );
  }
  return port;
}

/** Starts serving; resolves once the address answers. Throws ServeError. */
export async function servePage({ directory = builtPageDirectory(), port = 0, openedRig }: Serving = {}): Promise<PageServer> {
  if (!existsSync(join(directory, 'index.html'))) {
    throw new ServeError(
      'page: got no built page, expected packages/viewer/dist/index.html; run `npm run build` at the top of the clone',
    );
  }
  const files = filesOf(directory);
  const server = createServer((request, response) => answer(request, response, files, openedRig));
  await listening(server, port);
  const { port: got } = server.address() as AddressInfo;
  return { address: `http://${LOOPBACK}:${got}/${openedRig === undefined ? '' : OPENED_QUERY}`, close: () => closed(server) };
}

type Files = (request: IncomingMessage, response: ServerResponse, next: () => void) => void;

/**
 * The folder's files, listed anew where the page was built again while it is served: an older page's files are gone then,
 * and reading one that is listed but gone would end the program.
 */
function filesOf(directory: string): Files {
  let files: Files | undefined;
  let listed = '';
  return (request, response, next) => {
    const now = [directory, join(directory, 'assets'), join(directory, 'index.html')]
      .map((path) => statSync(path, { throwIfNoEntry: false })?.mtimeMs)
      .join(' ');
    if (files === undefined || now !== listed) {
      listed = now;
      // It lists the folder's files and serves those names only, so that no path leads out of the folder.
      files = sirv(directory, { etag: true, setHeaders: (served) => served.setHeader('Cache-Control', 'no-cache') });
    }
    files(request, response, next);
  };
}

function answer(request: IncomingMessage, response: ServerResponse, files: Files, openedRig: string | undefined): void {
  response.setHeader('X-Content-Type-Options', 'nosniff');
  response.setHeader('Referrer-Policy', 'no-referrer');
  const refuse = (status: number, says: string) =>
    response.writeHead(status, { 'Content-Type': 'text/plain; charset=utf-8' }).end(`${says}\n`);

  // A page from elsewhere could have its own name resolved to this machine; only the machine's own names are answered.
  if (!/^(127\.0\.0\.1|localhost|\[::1\])(:\d+)?$/i.test(request.headers.host ?? '')) {
    refuse(403, 'This server answers on this machine only.');
  } else if (request.method !== 'GET' && request.method !== 'HEAD') {
    response.setHeader('Allow', 'GET, HEAD');
    refuse(405, 'This server only gives the page.');
  } else if (new URL(request.url ?? '/', 'http://loopback').pathname === OPENED_RIG) {
    if (openedRig === undefined) refuse(404, 'The page was started without a rig document.');
    else response.writeHead(200, { 'Content-Type': 'application/json', 'Cache-Control': 'no-store' }).end(openedRig);
  } else {
    files(request, response, () => refuse(404, 'There is no such file.'));
  }
}

function listening(server: Server, port: number): Promise<void> {
  return new Promise((resolve, reject) => {
    server.once('error', (error: NodeJS.ErrnoException) => {
      const taken = error.code === 'EADDRINUSE' ? 'one that is in use' : `${error.code ?? error.message}`;
      reject(new ServeError(`port ${port}: got ${taken}, expected a free port; give another one, or none for any that is free`));
    });
    server.listen(port, LOOPBACK, resolve);
  });
}

function closed(server: Server): Promise<void> {
  return new Promise((resolve, reject) => {
    server.close((error) => (error ? reject(error) : resolve()));
    server.closeAllConnections();
  });
}
