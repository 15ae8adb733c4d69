/** `report`: a sheet to print and keep. */
import { stat, writeFile } from 'node:fs/promises';
import { resolve } from 'node:path';
import { diagnosisOf } from '../diagnosis/index.ts';
import { posterior } from '../diagnosis/posterior.ts';
import { planFrom } from '../plan/plan.ts';
import { type ReportInput, reportHtml } from '../report/report.ts';
import { readBench } from './bench.ts';
import { readRigFile } from './input.ts';
import { LineWriter } from './lines.ts';
import { refusalOf } from './refusal.ts';
import type { Streams } from './streams.ts';

export interface ReportOptions {
  out: string;
  json?: boolean;
}

export async function runReport(
  rigFile: string,
  readingsFile: string | undefined,
  options: ReportOptions,
  streams: Streams,
): Promise<number> {
  await keepInputs(options.out, [rigFile, readingsFile]);
  const made = new Date().toISOString().slice(0, 16).replace('T', ' ');
  let input: ReportInput;
  if (readingsFile === undefined) input = { record: await readRigFile(rigFile, streams), made };
  else {
    const { record, readings } = await readBench(rigFile, readingsFile, streams);
    const believed = posterior(record, readings);
    input = { record, readings, diagnosis: diagnosisOf(believed, readings), plan: planFrom(believed, readings), made };
  }
  await writeFile(options.out, reportHtml(input));
  const out = new LineWriter(streams.stdout);
  out.line(options.json === true ? JSON.stringify({ out: options.out }) : `The sheet is in ${options.out}: open it in a browser and print it.`);
  await out.end();
  return 0;
}

/** Refuses to write the sheet over a document that it is made from. */
async function keepInputs(out: string, inputs: readonly (string | undefined)[]): Promise<void> {
  for (const file of inputs) {
    if (file === undefined || file === '-') continue;
    const same = resolve(file) === resolve(out) || (await sameFile(file, out));
    if (same) {
      throw refusalOf('--out', [
        { pointer: '', got: `${out}, the document that is read`, expected: 'another file', wayOut: 'name a new file, as sheet.html' },
      ]);
    }
  }
}

async function sameFile(a: string, b: string): Promise<boolean> {
  try {
    const [one, other] = await Promise.all([stat(a), stat(b)]);
    return one.ino === other.ino && one.dev === other.dev;
  } catch {
    return false;
  }
}
