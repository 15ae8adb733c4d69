/** `report`: a sheet to print and keep. */
import { diagnosisOf } from '../diagnosis/index.ts';
import { posterior } from '../diagnosis/posterior.ts';
import { planFrom } from '../plan/plan.ts';
import { reportHtml } from '../report/report.ts';
import { readBench } from './bench.ts';
import { readRigFile } from './input.ts';
import type { Streams } from './streams.ts';
import { refuseOverwriting, writeOut } from './write.ts';

export interface ReportOptions {
  out: string;
  json?: boolean;
}

export async function runReport(
  rig: string,
  readingsFile: string | undefined,
  options: ReportOptions,
  streams: Streams,
): Promise<number> {
  await refuseOverwriting(options.out, [rig, readingsFile]);
  const html = await sheet(rig, readingsFile, streams);
  await writeOut(options.out, html);
  streams.stdout.write(options.json === true ? `${JSON.stringify({ out: options.out })}\n` : `Written: ${options.out}\n`);
  return 0;
}

async function sheet(rig: string, readingsFile: string | undefined, streams: Streams): Promise<string> {
  const made = minuteOf(new Date());
  if (readingsFile === undefined) return reportHtml({ record: await readRigFile(rig, streams), made });
  const { record, readings } = await readBench(rig, readingsFile, streams);
  if (!readings.readings.some((item) => item.kind === 'reading' || item.kind === 'moves'))
    return reportHtml({ record, readings, made });
  // One belief for both: it is the dear part.
  const believed = posterior(record, readings);
  return reportHtml({ record, readings, diagnosis: diagnosisOf(believed), plan: planFrom(believed, readings), made });
}

/** The time at the bench, as "2026-05-04 18:20". */
function minuteOf(date: Date): string {
  const two = (value: number) => String(value).padStart(2, '0');
  return `${date.getFullYear()}-${two(date.getMonth() + 1)}-${two(date.getDate())} ${two(date.getHours())}:${two(date.getMinutes())}`;
}
