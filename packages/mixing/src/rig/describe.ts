/**
 * A path into the rig document in words of the trade: "/servos/1/horn/offset" is "servo 2 (left rear)'s horn offset".
 * The words stand beside the schema.
 */
import { isObject, listPlace, parsePointer, lookUp } from './pointer.ts';
import type { Unit } from './quantity.ts';
import type { Rig } from './rig.ts';
import { rigSchema } from './schema.ts';
import { nodesAlong, tradeOf } from './walk.ts';

/** The unit of the value at a path: '' for a plain number, a word, a choice, or a path that the document lacks. */
export function unitAt(path: string): Unit {
  const tokens = parsePointer(path);
  const node = tokens && nodesAlong(rigSchema, tokens)?.at(-1);
  return node === undefined ? '' : (tradeOf(node).unit ?? '');
}

/** The path in words; the path itself where the document knows no such key. */
export function describePath(rig: Rig, path: string): string {
  const tokens = parsePointer(path);
  const nodes = tokens && nodesAlong(rigSchema, tokens);
  if (tokens === undefined || nodes === undefined || nodes.length === 0) return path === '' ? 'the rig' : path;
  let owner = '';
  let words: string[] = [];
  nodes.forEach((node, i) => {
    const says = tradeOf(node);
    const token = tokens[i] ?? '';
    const value = lookUp(rig, tokens.slice(0, i + 1));
    const name = isObject(value) && typeof value.name === 'string' ? value.name : '';
    const n = (listPlace(token) ?? 0) + 1;
    const own = (says.words ?? token)
      .replace('{n}', String(n))
      // a servo that was never named is called by its place, which is said already
      .replace('{name}', name === '' || name === `servo ${n}` ? '' : ` (${name})`);
    // A list's place that is named in full ("blade 2 link") takes the place of the list's own name ("blade links").
    if (own.includes(String(n)) && listPlace(token) !== undefined) words.pop();
    if (own !== '') words.push(own);
    if (says.owner === true && i < nodes.length - 1) {
      owner = words.join(' ');
      words = [];
    }
  });
  return owner === '' ? words.join(' ') : `${owner}'s ${words.join(' ')}`;
}
