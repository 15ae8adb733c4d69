/**
 * A document's JSON Schema (2020-12), printed from the schema that reads it: the same bounds and choices, what the
 * trade says as descriptions with their unit, texts with units where they are read, and keys beginning `x-` anywhere.
 * Rules between places (counts, balls in one line) are said in words only where JSON Schema cannot say them.
 */
import { z } from 'zod';
import { trade, type Unit } from './quantity.ts';
import { bare } from './walk.ts';

const WRITTEN: Record<Unit, string> = {
  mm: 'mm',
  degree: 'degrees',
  us: 'microseconds',
  percent: 'percent',
  'degree/us': 'degrees a microsecond',
  'us/(degree/s)': 'microseconds per degree a second',
  'degree/s': 'degrees a second',
  '': '',
};

/** What begins with a number and goes on with a unit; the units themselves are checked when the text is read. */
const QUANTITY_TEXT = '^\\s*[-+]?([0-9]+\\.?[0-9]*|\\.[0-9]+)([eE][-+]?[0-9]+)?\\s*\\S';

export function jsonSchemaOf(schema: z.ZodType, title: string): Record<string, unknown> {
  const printed = z.toJSONSchema(schema, {
    target: 'draft-2020-12',
    io: 'input',
    override: ({ zodSchema, jsonSchema }) => {
      const node = jsonSchema as Record<string, unknown>;
      if (node.type === 'object') {
        node.additionalProperties = false;
        node.patternProperties = { '^x-': {} };
      }
      // zod calls this for a default's wrapper too, with the inner schema's keys already on it
      if (bare(zodSchema) !== zodSchema) return;
      const says = trade.get(zodSchema as unknown as z.ZodType);
      if (says === undefined) return;
      Object.assign(node, says.printed);
      const { unit, unitFrom } = says;
      const about = [says.words, says.about].filter((part) => part !== undefined && part !== '').join(': ');
      const inUnit = unit === undefined || unit === '' || about.includes(WRITTEN[unit]) ? about : `${about} (${WRITTEN[unit]})`;
      const quantity = (unit !== undefined && unit !== '') || unitFrom !== undefined;
      if (quantity && node.type === 'number') {
        const { type, minimum, maximum, exclusiveMinimum } = node;
        for (const key of ['type', 'minimum', 'maximum', 'exclusiveMinimum']) delete node[key];
        const number = Object.fromEntries(
          Object.entries({ type, minimum, maximum, exclusiveMinimum }).filter(([, value]) => value !== undefined),
        );
        node.anyOf = [number, { type: 'string', pattern: QUANTITY_TEXT }];
      }
      if (inUnit !== '') node.description = inUnit.replace('{n}', 'n').replace('{name}', '');
    },
  }) as Record<string, unknown>;
  const { $schema, ...rest } = printed;
  return { $schema, title, ...rest };
}
