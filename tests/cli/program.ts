/**
 * The real program for tests: bundled from the sources as they are now, beside its launcher, in a folder of its own
 * (so that no earlier build is tested by mistake, and no other test's build is touched).
 */
import { spawn, spawnSync } from 'node:child_process';
import { cpSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Readable, Writable } from 'node:stream';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll } from 'vitest';
import { run } from '../../packages/mixing/src/cli/run.ts';

export interface Ended {
  status: number | null;
  out: string;
  err: string;
}

const mixing = fileURLToPath(new URL('../../packages/mixing/', import.meta.url));

/** Bundles the program once a test file; gives how to run it, and a folder for the test's own files. */
export function realProgram() {
  const folder = mkdtempSync(join(tmpdir(), 'swashtrue-'));
  const launcher = join(folder, 'mixing', 'bin', 'swashtrue.js');
  beforeAll(() => {
    cpSync(join(mixing, 'bin'), join(folder, 'mixing', 'bin'), { recursive: true });
    cpSync(join(mixing, 'package.json'), join(folder, 'mixing', 'package.json'));
    // A page's place, so that what serves it can be tested without building the real one.
    mkdirSync(join(folder, 'viewer', 'dist'), { recursive: true });
    writeFileSync(join(folder, 'viewer', 'dist', 'index.html'), '<!doctype html><title>a page</title>');
    const words = ['-c', 'rolldown.config.mjs', '--dir', join(folder, 'mixing', 'dist', 'program'), '--log-level', 'warn'];
    const bundled = spawnSync(process.execPath, ['node_modules/rolldown/bin/cli.mjs', ...words], {
      cwd: mixing,
      encoding: 'utf8',
    });
    if (bundled.status !== 0) throw new Error(`the program could not be bundled: ${bundled.stderr}${bundled.stdout}`);
  }, 60_000);
  afterAll(() => rmSync(folder, { recursive: true, force: true }));
  return {
    folder,
    launcher,
    /** Saves a document (or a text as it is) and gives its path. */
    save(name: string, document: unknown): string {
      const path = join(folder, name);
      writeFileSync(path, typeof document === 'string' ? document : JSON.stringify(document));
      return path;
    },
    run: (words: readonly string[], input = ''): Promise<Ended> => spawned(process.execPath, [launcher, ...words], input),
  };
}

function spawned(command: string, words: readonly string[], input: string): Promise<Ended> {
  return new Promise((resolve, reject) => {
    const child = spawn(command, words, { stdio: 'pipe' });
    let out = '';
    let err = '';
    child.stdout.setEncoding('utf8').on('data', (text: string) => (out += text));
    child.stderr.setEncoding('utf8').on('data', (text: string) => (err += text));
    child.on('error', reject).on('close', (status) => resolve({ status, out, err }));
    // The program may end before it has read everything, as on a bad line.
    child.stdin.on('error', () => undefined).end(input);
  });
}

/** The same program inside this process, for the many runs that would spend their time starting Node. */
export async function runInside(words: readonly string[], input = ''): Promise<Ended> {
  const collect = () => {
    let text = '';
    const stream = new Writable({
      decodeStrings: false,
      write(chunk: string, _encoding, taken) {
        text += chunk;
        taken();
      },
    });
    return { stream, text: () => text };
  };
  const out = collect();
  const err = collect();
  const status = await run(words, { stdin: Readable.from([Buffer.from(input)]), stdout: out.stream, stderr: err.stream });
  return { status, out: out.text(), err: err.text() };
}
