/** `view`: serves the page on a loopback port, with a rig document opened where one is given, until it is interrupted. */
import { once } from 'node:events';
import { readRigFile } from './input.ts';
import { Refusal } from './refusal.ts';
import { portFrom, ServeError, servePage } from './serve.ts';
import type { Streams } from './streams.ts';

export interface ViewOptions {
  port?: string;
  json?: boolean;
}

export async function runView(file: string | undefined, options: ViewOptions, streams: Streams): Promise<number> {
  const rig = file === undefined ? undefined : await readRigFile(file, streams);
  const ended = new AbortController();
  const end = () => ended.abort();
  try {
    const port = portFrom(options.port, '--port');
    const server = await servePage({ port, ...(rig === undefined ? {} : { openedRig: JSON.stringify(rig) }) });
    streams.stdout.write(options.json === true ? `${JSON.stringify({ address: server.address })}\n` : `${server.address}\n`);
    process.on('SIGINT', end).on('SIGTERM', end);
    if (!ended.signal.aborted) await once(ended.signal, 'abort');
    await server.close();
    return 0;
  } catch (error) {
    if (error instanceof ServeError) throw new Refusal([error.message]);
    throw error;
  } finally {
    process.off('SIGINT', end).off('SIGTERM', end);
  }
}
