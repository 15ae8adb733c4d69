/**
 * The tolerances document: how far values of the rig may scatter, each as one standard deviation or as a plus-minus
 * bound, in the value's own unit.
 */
import { z } from 'zod';
import { readAs, type DocumentKind, type Rule } from '../rig/document.ts';
import { show, type DocumentFault } from '../rig/fault.ts';
import { formatPointer, isObject, parsePointer, lookUp } from '../rig/pointer.ts';
import { list, named, object, pathText, spread } from '../rig/quantity.ts';
import type { Rig } from '../rig/rig.ts';
import { rigSchema } from '../rig/schema.ts';
import { nodesAlong, tradeOf } from '../rig/walk.ts';

export const TOLERANCES_FORMAT = 'swashtrue-tolerances/1';

/** One value's scatter, in the value's own unit: one standard deviation, or a bound on either side. */
export type ToleranceItem = { path: string; sd: number } | { path: string; plusMinus: number };

export interface Tolerances {
  format: 'swashtrue-tolerances/1';
  items: ToleranceItem[];
}

export const tolerancesSchema = object(
  { words: 'tolerances', about: "each in its value's own unit" },
  {
    format: named(z.literal(TOLERANCES_FORMAT), {
      words: 'format',
      expected: JSON.stringify(TOLERANCES_FORMAT),
      wayOut: `write "format": ${JSON.stringify(TOLERANCES_FORMAT)} at the head of the document`,
    }),
    items: list(
      { words: 'items' },
      object(
        { words: 'item {n}', owner: true, printed: { oneOf: [{ required: ['sd'] }, { required: ['plusMinus'] }] } },
        {
          path: pathText('the value that scatters'),
          sd: spread('sd').exactOptional(),
          plusMinus: spread('plus-minus').exactOptional(),
        },
      ),
    ),
  },
);

const itemsOf = (document: unknown): [Record<string, unknown>, number][] => {
  const items = lookUp(document, ['items']);
  if (!Array.isArray(items)) return [];
  return items.flatMap((item: unknown, i): [Record<string, unknown>, number][] => (isObject(item) ? [[item, i]] : []));
};

const sdOrPlusMinus: Rule = (document) =>
  itemsOf(document).flatMap(([item, i]) =>
    (item.sd === undefined) !== (item.plusMinus === undefined)
      ? []
      : [
          {
            pointer: formatPointer(['items', i]),
            got: item.sd === undefined ? 'neither sd nor plusMinus' : 'both sd and plusMinus',
            expected: 'one of "sd" and "plusMinus"',
            wayOut: 'give one standard deviation, or the bound on either side',
          },
        ],
  );

/** Paths must name numbers, of this rig where one is given, and each once. */
const pathsNameNumbers =
  (rig?: Rig): Rule =>
  (document) => {
    const seen = new Set<string>();
    return itemsOf(document).flatMap(([item, i]): DocumentFault[] => {
      const path = item.path;
      if (typeof path !== 'string') return [];
      const tokens = parsePointer(path);
      const node = tokens && nodesAlong(rigSchema, tokens)?.at(-1);
      const there =
        node !== undefined &&
        tradeOf(node).unit !== undefined &&
        (rig === undefined || typeof lookUp(rig, tokens ?? []) === 'number');
      const twice = seen.has(path);
      seen.add(path);
      if (there && !twice) return [];
      return [
        {
          pointer: formatPointer(['items', i, 'path']),
          got: twice ? `${show(path)} a second time` : show(path),
          expected: twice ? 'each value once' : 'the JSON Pointer of a number of the rig document',
          wayOut: twice ? 'take one of the two out' : 'write it as "/servos/0/link", counting list places from 0',
        },
      ];
    });
  };

/** The kind of document; with a rig, also the values that it must have. */
export function tolerancesDocument(rig?: Rig): DocumentKind<Tolerances> {
  return {
    format: TOLERANCES_FORMAT,
    schema: tolerancesSchema,
    rules: [sdOrPlusMinus, pathsNameNumbers(rig)],
    finish: (parsed) => parsed as Tolerances,
  };
}

export function readTolerances(
  document: unknown,
  rig?: Rig,
): { ok: true; tolerances: Tolerances } | { ok: false; faults: DocumentFault[] } {
  const read = readAs(tolerancesDocument(rig), document);
  return read.ok ? { ok: true, tolerances: read.value } : read;
}
