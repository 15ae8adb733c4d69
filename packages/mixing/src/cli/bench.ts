/** What `diagnose`, `plan` and `report` take: a record and the readings of its machine, and places of readings in words. */
import { readingsDocument } from '../diagnosis/readings-document.ts';
import type { ReadingPlace, ReadingsDocument } from '../diagnosis/readings.ts';
import { unitOfMeasure } from '../diagnosis/readings-schema.ts';
import type { Rig } from '../rig/rig.ts';
import { onceStdin, readDocument, readRigFile } from './input.ts';
import type { Streams } from './streams.ts';
import { caseInWords, signed } from './words.ts';

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

/** "blade-pitch 1, collective +1, blade 1 at 90 deg" */
export function placeInWords({ measure, of, sticks, mode, azimuth, teeter, yawRate, flipped }: ReadingPlace): string {
  const turned = measure === 'blade-pitch' || measure === 'blade-play' || measure === 'paddle-pitch';
  const kase = {
    ...sticks,
    ...(mode === undefined ? {} : { mode }),
    ...(turned ? { azimuth } : {}),
    ...(teeter === 0 ? {} : { teeter }),
    ...(yawRate === 0 ? {} : { yawRate }),
  };
  return `${measure} ${of}, ${caseInWords(kase)}${flipped ? ', gauge turned end for end' : ''}`;
}

/** "+3.2 deg, give or take 0.4" */
export function shownInWords({ measure, value, sd }: ReadingPlace & { value: number; sd: number }): string {
  return `${signed(value, 1)} ${unitOfMeasure(measure) === 'mm' ? 'mm' : 'deg'}, give or take ${sd.toFixed(1)}`;
}

export const chance = (probability: number) => `${Math.round(probability * 100)} %`;
