/**
 * The value of an expression of the stages, with the functions that it calls written out. Operations keep their order, so
 * that a kernel's numbers are the stages' own to the last bit.
 */
import ts from 'typescript';
import { declared, placeOf } from './modules.mjs';
import { run } from './statements.mjs';
import { numberText, scope, text } from './values.mjs';

/** @typedef {import('./modules.mjs').Module} Module */
/** @typedef {import('./values.mjs').Lane} Lane */
/** @typedef {import('./values.mjs').Scope} Scope */
/** @typedef {import('./values.mjs').Statement} Statement */
/** @typedef {import('./values.mjs').Value} Value */

const MATH = new Set(['sqrt', 'abs', 'floor', 'sin', 'cos', 'atan', 'hypot']);

/**
 * @param {Lane} lane
 * @param {Scope} at
 * @param {ts.Identifier} node
 * @returns {Value}
 */
function lookUp(lane, at, node) {
  const name = node.text;
  for (let one = /** @type {Scope | undefined} */ (at); one; one = one.outer) {
    const value = one.values.get(name);
    if (value) return value;
  }
  if (name === 'undefined') return { kind: 'none' };
  const found = declared(at.module, name);
  if (!found || !ts.isVariableDeclaration(found.node) || !found.node.initializer)
    throw new Error(`${placeOf(node)}: the name is not known here`);
  return constant(lane, found.module, found.node, name);
}

/**
 * @param {Lane} lane
 * @param {Module} module
 * @param {ts.VariableDeclaration} node
 * @param {string} name
 * @returns {Value}
 */
function constant(lane, module, node, name) {
  const made = bare(/** @type {ts.Expression} */ (node.initializer));
  const size = arraySize(lane, scope(module), made);
  if (size !== undefined) return { kind: 'scalars', name: lane.array(node, name), size };
  return evaluate(lane, scope(module), made, []);
}

/**
 * @param {ts.Expression} node
 * @returns {ts.Expression}
 */
export function bare(node) {
  let inner = node;
  while (ts.isParenthesizedExpression(inner) || ts.isAsExpression(inner) || ts.isNonNullExpression(inner))
    inner = inner.expression;
  return inner;
}

/**
 * The size of a small array that an expression makes; undefined where it makes none.
 * @param {Lane} lane
 * @param {Scope} at
 * @param {ts.Expression} node
 */
export function arraySize(lane, at, node) {
  if (!ts.isNewExpression(node) || !/^(Float64|Uint8)Array$/.test(node.expression.getText())) return undefined;
  const [length] = node.arguments ?? [];
  const size = length && evaluate(lane, at, length, []);
  if (size?.kind !== 'number') throw new Error(`${placeOf(node)}: got an array whose length is not known, expected a number`);
  return size.value;
}

/** @type {Record<string, (a: number, b: number) => number | boolean>} */
const KNOWN = {
  '+': (a, b) => a + b,
  '-': (a, b) => a - b,
  '*': (a, b) => a * b,
  '/': (a, b) => a / b,
  '<': (a, b) => a < b,
  '>': (a, b) => a > b,
  '<=': (a, b) => a <= b,
  '>=': (a, b) => a >= b,
  '===': (a, b) => a === b,
  '!==': (a, b) => a !== b,
};

/** @param {Value} value @returns {value is { kind: 'number', value: number } | { kind: 'path', text: string }} */
const isFixed = (value) => value.kind === 'number' || value.kind === 'path';

/** @param {{ kind: 'number', value: number } | { kind: 'path', text: string }} value */
const fixedText = (value) => (value.kind === 'number' ? numberText(value.value) : value.text);

/** @param {number | boolean} value @returns {Value} */
export const known = (value) => (typeof value === 'number' ? { kind: 'number', value } : { kind: 'boolean', value });

/**
 * The value of an expression; what must be done first (a call's statements) is added to `into`.
 * @param {Lane} lane
 * @param {Scope} at
 * @param {ts.Expression} whole
 * @param {Statement[]} into
 * @returns {Value}
 */
export function evaluate(lane, at, whole, into) {
  const node = bare(whole);
  if (ts.isNumericLiteral(node)) return { kind: 'number', value: Number(node.text) };
  if (node.kind === ts.SyntaxKind.TrueKeyword) return { kind: 'boolean', value: true };
  if (node.kind === ts.SyntaxKind.FalseKeyword) return { kind: 'boolean', value: false };
  if (ts.isIdentifier(node)) return lookUp(lane, at, node);
  if (ts.isPropertyAccessExpression(node)) return property(lane, at, node, into);
  if (ts.isElementAccessExpression(node)) return element(lane, at, node, into);
  if (ts.isObjectLiteralExpression(node)) return record(lane, at, node);
  if (ts.isCallExpression(node)) return call(lane, at, node, into);
  if (ts.isPrefixUnaryExpression(node)) return prefix(lane, at, node, into);
  if (ts.isBinaryExpression(node)) return binary(lane, at, node, into);
  if (ts.isConditionalExpression(node)) return conditional(lane, at, node, into);
  throw new Error(`${placeOf(node)}: this kind of expression is not understood`);
}

/** @param {Lane} lane @param {Scope} at @param {ts.PropertyAccessExpression} node @param {Statement[]} into @returns {Value} */
function property(lane, at, node, into) {
  const name = node.name.text;
  const whole = node.getText();
  if (whole === 'Math.PI') return known(Math.PI);
  if (whole === 'Number.NaN') return known(Number.NaN);
  if (whole === 'Number.MIN_VALUE') return known(Number.MIN_VALUE);
  const of = evaluate(lane, at, node.expression, into);
  if (of.kind === 'path') return { kind: 'path', text: `${of.text}.${name}` };
  if (of.kind === 'stream' && name === 'length') return { kind: 'code', text: `${of.text}.length` };
  const value = of.kind === 'record' ? of.values.get(name) : undefined;
  if (!value)
    throw new Error(`${placeOf(node)}: got a property of ${of.kind}, expected one of a prepared rig or a constant record`);
  return value;
}

/** @param {Lane} lane @param {Scope} at @param {ts.ElementAccessExpression} node @param {Statement[]} into @returns {Value} */
function element(lane, at, node, into) {
  const of = evaluate(lane, at, node.expression, into);
  const place = evaluate(lane, at, node.argumentExpression, into);
  if (of.kind === 'path') {
    if (place.kind === 'number') return { kind: 'path', text: `${of.text}[${place.value}]` };
    if (place.kind === 'path') return { kind: 'path', text: `${of.text}[${place.text}]` };
    return { kind: 'code', text: `(${lane.constants.named(of.text)}[${text(lane, place, node)}] as number)` };
  }
  if (of.kind === 'stream') return { kind: 'code', text: `(${of.text}[${text(lane, place, node)}] as number)` };
  if (of.kind === 'scalars') {
    if (place.kind === 'number') return { kind: 'code', text: placeName(lane, of, place.value, node) };
    // which of a few variables is known only with the rig: a chain of choices, the same at every round
    const which = text(lane, place, node);
    let chain = placeName(lane, of, of.size - 1, node);
    for (let k = of.size - 2; k >= 0; k--) chain = `(${which} === ${k} ? ${placeName(lane, of, k, node)} : ${chain})`;
    return { kind: 'code', text: chain };
  }
  throw new Error(`${placeOf(node)}: got a place in ${of.kind}, expected one in an array`);
}

/** @param {Lane} lane @param {Value & { kind: 'scalars' }} array @param {number} place @param {ts.Node} node */
function placeName(lane, array, place, node) {
  if (!(place >= 0 && place < array.size))
    throw new Error(`${placeOf(node)}: got place ${place}, expected one below ${array.size}`);
  const name = `${array.name}_${place}`;
  lane.variables.add(name);
  return name;
}

/** @param {Lane} lane @param {Scope} at @param {ts.ObjectLiteralExpression} node @returns {Value} */
function record(lane, at, node) {
  /** @type {Map<string, Value>} */
  const values = new Map();
  for (const one of node.properties) {
    if (!ts.isPropertyAssignment(one)) throw new Error(`${placeOf(one)}: got this, expected name: number`);
    values.set(one.name.getText(), evaluate(lane, at, one.initializer, []));
  }
  return { kind: 'record', values };
}

/** @param {Lane} lane @param {Scope} at @param {ts.PrefixUnaryExpression} node @param {Statement[]} into @returns {Value} */
function prefix(lane, at, node, into) {
  const value = evaluate(lane, at, node.operand, into);
  if (node.operator === ts.SyntaxKind.MinusToken) {
    if (value.kind === 'number') return known(-value.value);
    return value.kind === 'path'
      ? { kind: 'path', text: `(-${value.text})` }
      : { kind: 'code', text: `(-${text(lane, value, node)})` };
  }
  if (node.operator === ts.SyntaxKind.ExclamationToken) {
    return value.kind === 'boolean' ? known(!value.value) : { kind: 'code', text: `!${text(lane, value, node)}` };
  }
  throw new Error(`${placeOf(node)}: this sign is not understood`);
}

/** @param {Lane} lane @param {Scope} at @param {ts.BinaryExpression} node @param {Statement[]} into @returns {Value} */
function binary(lane, at, node, into) {
  const sign = node.operatorToken.getText();
  const left = evaluate(lane, at, node.left, into);
  if (sign === '&&' || sign === '||') {
    if (left.kind === 'boolean') return left.value === (sign === '&&') ? evaluate(lane, at, node.right, into) : left;
    return { kind: 'code', text: `(${text(lane, left, node)} ${sign} ${text(lane, purely(lane, at, node.right), node)})` };
  }
  const right = evaluate(lane, at, node.right, into);
  const fold = KNOWN[sign];
  if (!fold) throw new Error(`${placeOf(node)}: this operation is not understood`);
  if (left.kind === 'number' && right.kind === 'number') return known(fold(left.value, right.value));
  // What is made of fixed values alone is fixed too, and reckoned once, before the loop.
  if (isFixed(left) && isFixed(right) && /^[-+*/]$/.test(sign)) {
    return { kind: 'path', text: `(${fixedText(left)} ${sign} ${fixedText(right)})` };
  }
  return { kind: 'code', text: `(${text(lane, left, node)} ${sign} ${text(lane, right, node)})` };
}

/**
 * The value of an expression that may be left undone, and so must not need statements of its own.
 * @param {Lane} lane @param {Scope} at @param {ts.Expression} node @returns {Value}
 */
export function purely(lane, at, node) {
  /** @type {Statement[]} */
  const done = [];
  const value = evaluate(lane, at, node, done);
  if (done.length > 0) throw new Error(`${placeOf(node)}: a call here may be left undone; call it in a statement before`);
  return value;
}

/** @param {Lane} lane @param {Scope} at @param {ts.ConditionalExpression} node @param {Statement[]} into @returns {Value} */
function conditional(lane, at, node, into) {
  const asked = evaluate(lane, at, node.condition, into);
  if (asked.kind === 'boolean') return evaluate(lane, at, asked.value ? node.whenTrue : node.whenFalse, into);
  const yes = text(lane, purely(lane, at, node.whenTrue), node);
  const no = text(lane, purely(lane, at, node.whenFalse), node);
  return { kind: 'code', text: `(${text(lane, asked, node)} ? ${yes} : ${no})` };
}

/** @param {Lane} lane @param {Scope} at @param {ts.CallExpression} node @param {Statement[]} into @returns {Value} */
function call(lane, at, node, into) {
  const name = node.expression.getText();
  const given = node.arguments.map((argument) => evaluate(lane, at, argument, into));
  if (name.startsWith('Math.') && MATH.has(name.slice(5))) {
    return { kind: 'code', text: `${name}(${given.map((value) => text(lane, value, node)).join(', ')})` };
  }
  const found = ts.isIdentifier(node.expression) ? declared(at.module, name) : undefined;
  if (!found || !ts.isFunctionDeclaration(found.node) || !found.node.body)
    throw new Error(`${placeOf(node)}: the function is not known here`);
  const inside = scope(found.module);
  found.node.parameters.forEach((parameter, k) => {
    const value = given[k] ?? (parameter.initializer ? evaluate(lane, inside, parameter.initializer, into) : undefined);
    if (!value) throw new Error(`${placeOf(node)}: got no ${parameter.name.getText()}, expected one`);
    inside.values.set(parameter.name.getText(), held(lane, value, parameter.name.getText(), into));
  });
  return run(lane, inside, found.node.body.statements, into) ?? { kind: 'none' };
}

/**
 * A value that what follows cannot change: an expression is put in a constant of its own.
 * @param {Lane} lane @param {Value} value @param {string} name @param {Statement[]} into @returns {Value}
 */
export function held(lane, value, name, into) {
  if (value.kind !== 'code') return value;
  const made = lane.fresh(name);
  into.push({ line: `const ${made} = ${value.text};` });
  return { kind: 'code', text: made };
}
