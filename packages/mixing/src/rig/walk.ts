/**
 * Walking a schema and a document side by side: which node of the schema a path names, which keys the schema does not
 * know, and which values are quantities.
 */
import type { z } from 'zod';
import { nearest, type DocumentFault } from './fault.ts';
import { formatPointer, isObject, listPlace, type Token } from './pointer.ts';
import { trade, type Trade } from './quantity.ts';

type Node = z.core.$ZodType;
/** The parts of a zod definition that a walk needs; zod types each kind apart. */
interface Definition {
  type: string;
  shape?: Record<string, Node>;
  element?: Node;
  items?: readonly Node[];
  innerType?: Node;
  options?: readonly Node[];
}

const definition = (node: Node): Definition => node._zod.def as unknown as Definition;

/** The node beneath defaults and optionals. */
export function bare(node: Node): Node {
  let inner = node;
  for (;;) {
    const { innerType } = definition(inner);
    if (innerType === undefined) return inner;
    inner = innerType;
  }
}

/** True where the key may be missing and stays missing: no default fills it in. */
export const staysAbsent = (node: Node): boolean => definition(node).type === 'optional';

/** What the trade says about a node. */
export const tradeOf = (node: Node): Trade => trade.get(bare(node) as z.ZodType) ?? {};

/** The node of a key or list place inside a node; undefined where the schema knows none. */
export function childOf(node: Node, token: Token): Node | undefined {
  const at = definition(bare(node));
  if (at.type === 'object') {
    const key = String(token);
    return at.shape !== undefined && Object.hasOwn(at.shape, key) ? at.shape[key] : undefined;
  }
  const place = listPlace(token);
  if (place === undefined) return undefined;
  if (at.type === 'array') return at.element;
  if (at.type === 'tuple') return at.items?.[place];
  return undefined;
}

/** The keys that an object node knows, [] for any other node. */
export function keysOf(node: Node): string[] {
  const { shape } = definition(bare(node));
  return shape === undefined ? [] : Object.keys(shape);
}

/** The nodes from the root (left out) to the end of a path; undefined where the schema knows no such path. */
export function nodesAlong(root: Node, tokens: readonly Token[]): Node[] | undefined {
  const nodes: Node[] = [];
  let node: Node = root;
  for (const token of tokens) {
    const child = childOf(node, token);
    if (child === undefined) return undefined;
    nodes.push(child);
    node = child;
  }
  return nodes;
}

/** Calls `visit` for every value of a document that the schema knows, the outer before the inner. */
export function visit(root: Node, document: unknown, found: (node: Node, value: unknown, path: readonly Token[]) => void): void {
  const step = (node: Node, value: unknown, path: readonly Token[]) => {
    found(node, value, path);
    if (Array.isArray(value)) {
      value.forEach((item: unknown, i) => {
        const child = childOf(node, i);
        if (child !== undefined) step(child, item, [...path, i]);
      });
    } else if (isObject(value)) {
      for (const key of Object.keys(value)) {
        const child = childOf(node, key);
        if (child !== undefined) step(child, value[key], [...path, key]);
      }
    }
  };
  step(root, document, []);
}

/** A fault for every key that the schema does not know and that does not begin with `x-`. */
export function unknownKeys(root: Node, document: unknown): DocumentFault[] {
  const faults: DocumentFault[] = [];
  visit(root, document, (node, value, path) => {
    const known = keysOf(node);
    if (known.length === 0 || !isObject(value)) return;
    for (const key of Object.keys(value)) {
      if (key.startsWith('x-') || known.includes(key)) continue;
      // Of two equally near keys the one that is not written yet is more likely meant.
      const written = (name: string) => Number(Object.hasOwn(value, name));
      const like = nearest(
        key,
        known.toSorted((a, b) => written(a) - written(b)),
      );
      const shown = JSON.stringify(key.length > 60 ? `${key.slice(0, 57)}...` : key);
      faults.push({
        pointer: formatPointer([...path, key]),
        got: `the unknown key ${shown}`,
        expected: `a key that is known here; the nearest is ${JSON.stringify(like)}`,
        wayOut: `rename or remove it; a key of your own must begin with "x-"`,
      });
    }
  });
  return faults;
}

/** True where a text stands in place of a quantity, so that the units (half a second to load) are needed at all. */
export function holdsTextQuantity(root: Node, document: unknown): boolean {
  let found = false;
  visit(root, document, (node, value) => {
    if (typeof value !== 'string') return;
    const { unit, unitFrom } = tradeOf(node);
    found ||= (unit !== undefined && unit !== '') || unitFrom !== undefined;
  });
  return found;
}
