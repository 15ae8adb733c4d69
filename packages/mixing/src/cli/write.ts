/** Files that a command makes. What was read is never written over. */
import { stat, writeFile } from 'node:fs/promises';
import { isObject } from '../rig/pointer.ts';
import { type Refusal, refusalOf } from './refusal.ts';

const refused = (got: string, expected: string, wayOut: string): Refusal =>
  refusalOf('--out', [{ pointer: '', got, expected, wayOut }]);

/** Refuses an output file that is one of the files read, by whatever name or link. Asked before any work is done. */
export async function refuseOverwriting(out: string, inputs: readonly (string | undefined)[]): Promise<void> {
  const target = await stat(out).catch(() => undefined);
  if (target === undefined) return;
  for (const input of inputs) {
    const read = input === undefined || input === '-' ? undefined : await stat(input).catch(() => undefined);
    if (read === undefined || read.dev !== target.dev || read.ino !== target.ino) continue;
    throw refused(`${out}, the document that is read`, 'another file', 'name a new file, as sheet.html');
  }
}

/** Writes a file; a place that cannot be written is refused. */
export async function writeOut(out: string, text: string): Promise<void> {
  try {
    await writeFile(out, text);
  } catch (error) {
    const code = isObject(error) ? String(error.code) : '';
    const got = { ENOENT: 'in no folder', ENOTDIR: 'in no folder', EISDIR: 'a folder', EACCES: 'where nothing may be written' }[
      code
    ];
    if (got === undefined) throw error;
    throw refused(`${out}, ${got}`, 'a file to write', 'correct the path');
  }
}
