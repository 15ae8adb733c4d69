/**
 * One round of a pass's loop with every stage it calls written out: calls inlined, loops over places unrolled, small
 * arrays turned into variables, and what is fixed for a prepared rig read once before the loop.
 *
 * A value is one of
 *   number, boolean   known now
 *   path              a place in a prepared rig, fixed while the pass runs: `p.ring.balls`
 *   scalars           a small array whose places have become variables
 *   stream            an array that is read and written for good
 *   record            a constant object of numbers
 *   code              an expression in the kernel's own variables
 *
 * Only what the stages are written in is understood: constants, lets, loops with known ends, do-while, if, returns, arithmetic,
 * Math. Anything else stops the generator, with its place. Operations keep their order, so that a kernel's numbers are the
 * stages' own to the last bit.
 */
import ts from 'typescript';
import { declared, placeOf } from './modules.mjs';

/** @typedef {import('./modules.mjs').Module} Module */
/** @typedef {{ kind: 'number', value: number } | { kind: 'boolean', value: boolean } | { kind: 'code', text: string } | { kind: 'path', text: string } | { kind: 'stream', text: string } | { kind: 'scalars', name: string, size: number } | { kind: 'record', values: Map<string, Value> } | { kind: 'none' }} Value */
/** @typedef {{ line: string } | { if: string, then: Statement[], else: Statement[] } | { do: Statement[], while: string }} Statement */
/** @typedef {{ values: Map<string, Value>, outer: Scope | undefined, module: Module }} Scope */

/** What all lanes of one kernel share: the constants read before its loop. */
export class Constants {
  /** @type {Map<string, string>} */
  names = new Map();

  /**
   * @param {string} path
   * @returns {string}
   */
  named(path) {
    let name = this.names.get(path);
    if (name === undefined) {
      name = `k${this.names.size}`;
      this.names.set(path, name);
    }
    return name;
  }
}

const MATH = new Set(['sqrt', 'abs', 'floor', 'sin', 'cos', 'atan', 'hypot']);

/** One lane: its variables end in `suffix`. */
export class Lane {
  /** variables that need a declaration of their own: places of small arrays, results of branches */
  variables = new Set();
  #count = 0;
  /** @type {Map<ts.Node, string>} */
  #arrays = new Map();

  /**
   * @param {Constants} constants
   * @param {string} suffix
   */
  constructor(constants, suffix) {
    this.constants = constants;
    this.suffix = suffix;
  }

  /** @param {string} name */
  fresh(name) {
    return `${name}${this.#count++}${this.suffix}`;
  }

  /** @param {string} name */
  variable(name) {
    const made = this.fresh(name);
    this.variables.add(made);
    return made;
  }

  /**
   * @param {ts.Node} node the declaration of a small array
   * @param {string} name
   */
  array(node, name) {
    let made = this.#arrays.get(node);
    if (made === undefined) {
      made = this.fresh(name);
      this.#arrays.set(node, made);
    }
    return made;
  }
}

/** @param {number} value */
const numberText = (value) =>
  value < 0 || Object.is(value, -0) ? `(${value})` : Number.isNaN(value) ? 'Number.NaN' : String(value);

/**
 * @param {Lane} lane
 * @param {Value} value
 * @param {ts.Node} at
 * @returns {string} the value as an operand
 */
export function text(lane, value, at) {
  switch (value.kind) {
    case 'number':
      return numberText(value.value);
    case 'boolean':
      return String(value.value);
    case 'code':
      return value.text;
    case 'path':
      return lane.constants.named(value.text);
    default:
      throw new Error(`${placeOf(at)}: got ${value.kind}, expected a number`);
  }
}

/**
 * @param {Module} module
 * @param {Scope} [outer]
 * @returns {Scope}
 */
export const scope = (module, outer) => ({ values: new Map(), outer, module });

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
function bare(node) {
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
function arraySize(lane, at, node) {
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
const known = (value) => (typeof value === 'number' ? { kind: 'number', value } : { kind: 'boolean', value });

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
function purely(lane, at, node) {
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
function held(lane, value, name, into) {
  if (value.kind !== 'code') return value;
  const made = lane.fresh(name);
  into.push({ line: `const ${made} = ${value.text};` });
  return { kind: 'code', text: made };
}

/**
 * Runs statements in order; gives what they return.
 * @param {Lane} lane
 * @param {Scope} at
 * @param {readonly ts.Statement[]} statements
 * @param {Statement[]} into
 * @returns {Value | undefined} nothing where the end is reached without a return
 */
export function run(lane, at, statements, into) {
  for (let k = 0; k < statements.length; k++) {
    const statement = /** @type {ts.Statement} */ (statements[k]);
    if (ts.isReturnStatement(statement))
      return statement.expression ? held(lane, evaluate(lane, at, statement.expression, into), 'r', into) : { kind: 'none' };
    if (ts.isIfStatement(statement)) {
      const asked = evaluate(lane, at, statement.expression, into);
      if (asked.kind === 'boolean' || asked.kind === 'none') {
        const taken = asked.kind === 'boolean' && asked.value ? statement.thenStatement : statement.elseStatement;
        const value = taken && run(lane, scope(at.module, at), listed(taken), into);
        if (value) return value;
        continue;
      }
      const condition = text(lane, asked, statement);
      if (returns(statement.thenStatement)) {
        // What comes after is done only where this is not: the branch's other side.
        const rest = [...(statement.elseStatement ? listed(statement.elseStatement) : []), ...statements.slice(k + 1)];
        return branch(lane, at, condition, listed(statement.thenStatement), rest, into);
      }
      branch(
        lane,
        at,
        condition,
        listed(statement.thenStatement),
        statement.elseStatement ? listed(statement.elseStatement) : [],
        into,
      );
      continue;
    }
    const value = step(lane, at, statement, into);
    if (value) return value;
  }
  return undefined;
}

/** @param {ts.Statement} statement @returns {readonly ts.Statement[]} */
const listed = (statement) => (ts.isBlock(statement) ? statement.statements : [statement]);

/** @param {ts.Statement} statement @returns {boolean} */
const returns = (statement) => listed(statement).some((one) => ts.isReturnStatement(one));

/**
 * @param {Lane} lane
 * @param {Scope} at
 * @param {string} condition
 * @param {readonly ts.Statement[]} yes
 * @param {readonly ts.Statement[]} no
 * @param {Statement[]} into
 * @returns {Value | undefined}
 */
function branch(lane, at, condition, yes, no, into) {
  /** @type {Statement[]} */
  const then = [];
  /** @type {Statement[]} */
  const other = [];
  const one = run(lane, scope(at.module, at), yes, then);
  const two = run(lane, scope(at.module, at), no, other);
  into.push({ if: condition, then, else: other });
  if (!one && !two) return undefined;
  const result = lane.variable('r');
  for (const [value, side] of /** @type {[Value | undefined, Statement[]][]} */ ([
    [one, then],
    [two, other],
  ])) {
    if (!value || value.kind === 'none') continue;
    // one variable, one type: a yes or no is 1 or 0
    const plain = value.kind === 'boolean' ? known(value.value ? 1 : 0) : value;
    side.push({ line: `${result} = ${text(lane, plain, /** @type {ts.Node} */ (yes[0]))};` });
  }
  return { kind: 'code', text: result };
}

/**
 * @param {Lane} lane
 * @param {Scope} at
 * @param {ts.Statement} statement
 * @param {Statement[]} into
 * @returns {Value | undefined}
 */
function step(lane, at, statement, into) {
  if (ts.isVariableStatement(statement)) {
    const mutable = (statement.declarationList.flags & ts.NodeFlags.Let) !== 0;
    for (const node of statement.declarationList.declarations) declare(lane, at, node, mutable, into);
    return undefined;
  }
  if (ts.isBlock(statement)) return run(lane, scope(at.module, at), statement.statements, into);
  if (ts.isForStatement(statement)) return unroll(lane, at, statement, into);
  if (ts.isDoStatement(statement)) {
    /** @type {Statement[]} */
    const body = [];
    run(lane, scope(at.module, at), listed(statement.statement), body);
    into.push({ do: body, while: text(lane, purely(lane, at, statement.expression), statement) });
    return undefined;
  }
  if (ts.isExpressionStatement(statement)) {
    const node = bare(statement.expression);
    if (ts.isBinaryExpression(node) && /^[-+*/]?=$/.test(node.operatorToken.getText())) assign(lane, at, node, into);
    else if (ts.isPostfixUnaryExpression(node))
      into.push({ line: `${text(lane, evaluate(lane, at, node.operand, into), node)}++;` });
    else if (ts.isCallExpression(node)) evaluate(lane, at, node, into);
    else throw new Error(`${placeOf(node)}: this statement is not understood`);
    return undefined;
  }
  throw new Error(`${placeOf(statement)}: this statement is not understood`);
}

/** @param {Lane} lane @param {Scope} at @param {ts.VariableDeclaration} node @param {boolean} mutable @param {Statement[]} into */
function declare(lane, at, node, mutable, into) {
  const name = node.name.getText();
  if (!node.initializer) throw new Error(`${placeOf(node)}: got no first value, expected one`);
  const size = arraySize(lane, at, bare(node.initializer));
  if (size !== undefined) {
    at.values.set(name, { kind: 'scalars', name: lane.fresh(name), size });
    return;
  }
  const value = evaluate(lane, at, node.initializer, into);
  if (!mutable) {
    at.values.set(name, held(lane, value, name, into));
    return;
  }
  const made = lane.variable(name);
  into.push({ line: `${made} = ${text(lane, value, node)};` });
  at.values.set(name, { kind: 'code', text: made });
}

/** @param {Lane} lane @param {Scope} at @param {ts.ForStatement} node @param {Statement[]} into @returns {Value | undefined} */
function unroll(lane, at, node, into) {
  const list = node.initializer;
  const counter = list && ts.isVariableDeclarationList(list) ? list.declarations[0] : undefined;
  if (!counter?.initializer || !node.condition || node.incrementor?.getText() !== `${counter.name.getText()}++`) {
    throw new Error(`${placeOf(node)}: got this loop, expected for (let i = known; i < known; i++)`);
  }
  const start = evaluate(lane, at, counter.initializer, into);
  if (start.kind !== 'number') throw new Error(`${placeOf(node)}: where the loop starts is not known`);
  for (let value = start.value; ; value++) {
    const inside = scope(at.module, at);
    inside.values.set(counter.name.getText(), known(value));
    const goes = evaluate(lane, inside, node.condition, into);
    if (goes.kind !== 'boolean') throw new Error(`${placeOf(node)}: where the loop ends is not known`);
    if (!goes.value) return undefined;
    const returned = run(lane, inside, listed(node.statement), into);
    if (returned) return returned;
  }
}

/** @param {Lane} lane @param {Scope} at @param {ts.BinaryExpression} node @param {Statement[]} into */
function assign(lane, at, node, into) {
  const sign = node.operatorToken.getText();
  const value = text(lane, evaluate(lane, at, node.right, into), node);
  const target = bare(node.left);
  const place = evaluate(lane, at, target, into);
  if (place.kind !== 'code')
    throw new Error(`${placeOf(node)}: got ${place.kind} to assign to, expected a variable or a place in an array`);
  // a stream's place is read as `(work[3] as number)`, and written without
  const written = place.text.replace(/^\((.*) as number\)$/, '$1');
  into.push({ line: sign === '=' ? `${written} = ${value};` : `${written} = ${place.text} ${sign[0]} ${value};` });
}
