/**
 * Two rounds of a loop woven into one, statement by statement: a processor then works at both, where one alone would have
 * it wait for each division and root. Both lanes hold the same statements in the same order; only their names differ.
 */
/** @typedef {import('./values.mjs').Statement} Statement */

/**
 * @param {Statement[]} first
 * @param {Statement[]} second
 * @returns {Statement[]}
 */
export function weave(first, second) {
  if (first.length !== second.length)
    throw new Error(`Lanes: got ${first.length} and ${second.length} statements, expected as many in both`);
  return first.flatMap((one, k) => {
    const two = /** @type {Statement} */ (second[k]);
    // A branch may go one way in one lane and the other way in the other, so that each keeps its own.
    if (!('loop' in one)) return [one, two];
    if (!('loop' in two)) throw new Error('Lanes: got a loop in one only, expected it in both');
    // A lane that is done goes on with the other: a loop that is woven must not mind a round too many.
    return [{ loop: weave(one.loop, two.loop), while: `${one.while} || ${two.while}`, askFirst: one.askFirst }];
  });
}

/**
 * @param {Statement[]} statements
 * @param {string} indent
 * @returns {string[]} lines
 */
export function printed(statements, indent) {
  const inside = `${indent}  `;
  return statements.flatMap((one) => {
    if ('line' in one) return [`${indent}${one.line}`];
    if ('loop' in one) {
      const [head, foot] = one.askFirst ? [`while (${one.while}) {`, '}'] : ['do {', `} while (${one.while});`];
      return [`${indent}${head}`, ...printed(one.loop, inside), `${indent}${foot}`];
    }
    const no = one.else.length > 0 ? [`${indent}} else {`, ...printed(one.else, inside)] : [];
    return [`${indent}if (${one.if}) {`, ...printed(one.then, inside), ...no, `${indent}}`];
  });
}
