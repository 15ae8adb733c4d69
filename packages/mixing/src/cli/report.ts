/** `report`: a sheet to print and keep. */
import { diagnosisOf } from '../diagnosis/index.ts';
import { posterior } from '../diagnosis/posterior.ts';
import { planFrom } from '../plan/plan.ts';
import { type ReportInput, reportHtml } from '../report/report.ts';
import { readBench } from './bench.ts';
import { readRigFile } from './input.ts';
import { LineWriter } from './lines.ts';
import type { Streams } from './streams.ts';
import { refuseOverwriting, writeOut } from './write.ts';

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
  await refuseOverwriting(options.out, [rigFile, readingsFile]);
  const made = minuteOf(new Date());
  let input: ReportInput;
  if (readingsFile === undefined) input = { record: await readRigFile(rigFile, streams), made };
  else {
    const { record, readings } = await readBench(rigFile, readingsFile, streams);
    // One belief for both: it is the dear part.
    const believed = posterior(record, readings);
    input = { record, readings, diagnosis: diagnosisOf(believed, readings), plan: planFrom(believed, readings), made };
  }
  await writeOut(options.out, reportHtml(input));
  const out = new LineWriter(streams.stdout);
  out.line(
    options.json === true
      ? JSON.stringify({ out: options.out })
      : `The sheet is in ${options.out}: open it in a browser and print it.`,
  );
  await out.end();
  return 0;
}

/** The time at the bench, as "2026-05-04 18:20". */
function minuteOf(date: Date): string {
  const two = (value: number) => String(value).padStart(2, '0');
  return `${date.getFullYear()}-${two(date.getMonth() + 1)}-${two(date.getDate())} ${two(date.getHours())}:${two(date.getMinutes())}`;
}
