/**
 * JSON Pointer (RFC 6901): text such as `/servos/1/horn/offset` and the list of its reference tokens.
 * `~1` stands for `/` and `~0` for `~`; the empty text is the whole document.
 */

export type Token = string | number;

/** Splits a pointer into its tokens; undefined where the text is no pointer (not begun with `/`, or a stray `~`). */
export function parsePointer(pointer: string): string[] | undefined {
  if (pointer === '') return [];
  if (!pointer.startsWith('/') || /~(?![01])/.test(pointer)) return undefined;
  const tokens = pointer.slice(1).split('/');
  if (!pointer.includes('~')) return tokens;
  // ~1 before ~0, or "~01" would come out as "/" (RFC 6901, section 4).
  return tokens.map((token) => token.replaceAll('~1', '/').replaceAll('~0', '~'));
}

/** Joins tokens into a pointer. */
export function formatPointer(tokens: readonly PropertyKey[]): string {
  return tokens.map((token) => `/${String(token).replaceAll('~', '~0').replaceAll('/', '~1')}`).join('');
}

/** A token as the place in a list, or undefined: digits without a leading zero (RFC 6901, section 4). */
export function listPlace(token: Token): number | undefined {
  const text = String(token);
  return /^(0|[1-9][0-9]*)$/.test(text) ? Number(text) : undefined;
}

/** The value that a list of tokens names inside `document`; undefined where there is none. */
export function lookUp(document: unknown, tokens: readonly PropertyKey[]): unknown {
  let value = document;
  for (const token of tokens) {
    if (Array.isArray(value)) {
      const place = listPlace(String(token));
      if (place === undefined) return undefined;
      value = value[place];
    } else if (isObject(value) && Object.hasOwn(value, token)) {
      value = value[String(token)];
    } else return undefined;
  }
  return value;
}

/** True for a JSON object: neither a list nor null. */
export function isObject(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}
