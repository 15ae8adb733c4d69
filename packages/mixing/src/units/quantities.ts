/**
 * Quantities that a person writes as text, "14 mm", "0.55 in", "1.2 ms", "10 deg", "0.2 rad", "50 %", into plain numbers
 * in the document's own unit, wherever (and only where) the document expects a quantity. By the units of mathjs.
 */
import { create, createUnitDependencies, unitDependencies, type FactoryFunctionMap, type Unit as MathUnit } from 'mathjs';
import type { z } from 'zod';
import { unitAt } from '../rig/describe.ts';
import { show, type DocumentFault } from '../rig/fault.ts';
import { formatPointer, isObject, type Token } from '../rig/pointer.ts';
import type { Unit } from '../rig/quantity.ts';
import { childOf, tradeOf } from '../rig/walk.ts';

// mathjs types its dependency maps as possibly undefined under noUncheckedIndexedAccess; they are plain objects.
const math = create({ ...unitDependencies, ...createUnitDependencies } as FactoryFunctionMap, { number: 'number' });
// A base unit of its own, so that a percentage is no bare number and "0.5" is not taken for one.
math.createUnit('percent');

const EXAMPLES: Record<Exclude<Unit, ''>, string> = {
  mm: '"14 mm", "1.4 cm" or "0.55 in"',
  degree: '"10 deg" or "0.2 rad"',
  us: '"1520 us" or "1.52 ms"',
  percent: '"50 %"',
  'degree/us': '"0.1 deg/us"',
  'us/(degree/s)': '"2 us/(deg/s)"',
  'degree/s': '"60 deg/s"',
};

/** The number that a text means in `unit`; a text of why not where it means none. */
export function numberIn(unit: Exclude<Unit, ''>, text: string): { ok: true; value: number } | { ok: false; got: string } {
  const plain = text.trim().replaceAll('°', ' deg').replaceAll(/[µμ]s/g, 'us').replace(/%$/, ' percent');
  let parsed: MathUnit;
  try {
    parsed = math.unit(plain);
  } catch {
    return { ok: false, got: `${show(text)}, which is no quantity` };
  }
  // "14" alone has no unit, and "mm" alone no number, though mathjs reads both.
  if (!/[0-9]/.test(plain.slice(0, 3)) || !parsed.equalBase(math.unit(unit))) {
    const bare = /^[-+.0-9eE]+$/.test(plain);
    return { ok: false, got: bare ? `${show(text)}, a text without a unit` : `${show(text)}, another kind of quantity` };
  }
  // Fifteen digits hold what was written; the sixteenth is the conversion's rounding (0.55 in is 13.969999999999999 mm).
  const value = Number(parsed.toNumber(unit).toPrecision(15));
  return Number.isFinite(value) ? { ok: true, value } : { ok: false, got: `${show(text)}, which is no finite quantity` };
}

/**
 * The document with its texts turned into numbers, and a fault for each that is none; such a text stays where it is.
 * What the schema does not know (keys of the writer's own) is not looked at. The document itself is left as it was.
 */
export function resolveQuantities(schema: z.ZodType, document: unknown): { document: unknown; faults: DocumentFault[] } {
  const faults: DocumentFault[] = [];
  const resolve = (node: z.core.$ZodType, value: unknown, path: readonly Token[], beside: unknown): unknown => {
    if (typeof value === 'string') {
      const unit = unitOf(node, beside);
      if (unit === '') return value;
      const read = numberIn(unit, value);
      if (read.ok) return read.value;
      faults.push({
        pointer: formatPointer(path),
        got: read.got,
        expected: tradeOf(node).expected ?? `a quantity in ${unit}`,
        wayOut: `write a plain number, or a number and its unit, as ${EXAMPLES[unit]}`,
      });
      return value;
    }
    if (Array.isArray(value)) {
      return value.map((item: unknown, i) => {
        const child = childOf(node, i);
        return child === undefined ? item : resolve(child, item, [...path, i], value);
      });
    }
    if (!isObject(value)) return value;
    // Own entries one by one, so that a key such as "__proto__" stays the odd key that it is.
    return Object.fromEntries(
      Object.entries(value).map(([key, item]) => {
        const child = childOf(node, key);
        return [key, child === undefined ? item : resolve(child, item, [...path, key], value)];
      }),
    );
  };
  return { document: resolve(schema, document, [], undefined), faults };
}

function unitOf(node: z.core.$ZodType, beside: unknown): Unit {
  const { unit, unitFrom } = tradeOf(node);
  if (unitFrom === undefined || !isObject(beside)) return unit ?? '';
  if (unitFrom !== 'path') return unitFrom(beside);
  return typeof beside.path === 'string' ? unitAt(beside.path) : '';
}
