/** What `diagnose`, `plan` and `report` take: a record and the readings of its machine. */
import type { ReadingsDocument } from '../diagnosis/readings.ts';
import { readingsDocument } from '../diagnosis/readings-document.ts';
import type { Rig } from '../rig/rig.ts';
import { onceStdin, readDocument, readRigFile } from './input.ts';
import type { Streams } from './streams.ts';

export interface Bench {
  record: Rig;
  readings: ReadingsDocument;
}

/** Reads both documents; the readings are checked on the machine that the record describes. Throws Refusal. */
export async function readBench(rigFile: string, readingsFile: string, streams: Streams): Promise<Bench> {
  onceStdin(rigFile, readingsFile);
  const record = await readRigFile(rigFile, streams);
  return { record, readings: await readDocument(readingsDocument(record), readingsFile, streams) };
}
