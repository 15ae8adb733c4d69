/** `schema`: the JSON Schema (2020-12) of each document, as its reader uses it. */
import type { z } from 'zod';
import { READINGS_FORMAT, readingsSchema } from '../diagnosis/readings-schema.ts';
import { TARGETS_FORMAT, targetsSchema } from '../plan/targets-document.ts';
import { jsonSchemaOf } from '../rig/json-schema.ts';
import { RIG_FORMAT, rigSchema } from '../rig/schema.ts';
import { TOLERANCES_FORMAT, tolerancesSchema } from '../tolerance/tolerances-document.ts';
import { LineWriter } from './lines.ts';
import type { Streams } from './streams.ts';

export const SCHEMAS = {
  rig: [rigSchema, RIG_FORMAT],
  readings: [readingsSchema, READINGS_FORMAT],
  targets: [targetsSchema, TARGETS_FORMAT],
  tolerances: [tolerancesSchema, TOLERANCES_FORMAT],
} satisfies Record<string, [z.ZodType, string]>;

export async function runSchema(kind: keyof typeof SCHEMAS, options: { json?: boolean }, streams: Streams): Promise<number> {
  const [schema, format] = SCHEMAS[kind];
  const out = new LineWriter(streams.stdout);
  out.line(JSON.stringify(jsonSchemaOf(schema, format), undefined, options.json === true ? undefined : 2));
  await out.end();
  return 0;
}
