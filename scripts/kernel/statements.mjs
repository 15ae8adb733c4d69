/**
 * Statements of the stages in order: loops over places unrolled, returns on the way turned into branches.
 *
 * Only what the stages are written in is understood: constants, lets, loops with known ends, while, do-while, if, returns, arithmetic,
 * Math. Anything else stops the generator, with its place.
 */
import ts from 'typescript';
import { arraySize, bare, evaluate, held, known, purely } from './expressions.mjs';
import { placeOf } from './modules.mjs';
import { scope, text } from './values.mjs';

/** @typedef {import('./values.mjs').Lane} Lane */
/** @typedef {import('./values.mjs').Scope} Scope */
/** @typedef {import('./values.mjs').Statement} Statement */
/** @typedef {import('./values.mjs').Value} Value */

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
  if (ts.isDoStatement(statement) || ts.isWhileStatement(statement)) {
    /** @type {Statement[]} */
    const body = [];
    run(lane, scope(at.module, at), listed(statement.statement), body);
    into.push({
      loop: body,
      while: text(lane, purely(lane, at, statement.expression), statement),
      askFirst: ts.isWhileStatement(statement),
    });
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
