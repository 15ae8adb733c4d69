/**
 * What a pass's expressions come to, and the names that a lane of its kernel gives them. A value is one of
 *   number, boolean   known now
 *   path              fixed while the pass runs: a place in a prepared rig, `p.ring.balls`, or reckoned from such
 *   scalars           a small array whose places have become variables
 *   stream            an array that is read and written for good
 *   record            a constant object of numbers
 *   code              an expression in the kernel's own variables
 */
import { placeOf } from './modules.mjs';

/** @typedef {import('typescript').Node} Node */
/** @typedef {import('./modules.mjs').Module} Module */
/** @typedef {{ kind: 'number', value: number } | { kind: 'boolean', value: boolean } | { kind: 'code', text: string } | { kind: 'path', text: string } | { kind: 'stream', text: string } | { kind: 'scalars', name: string, size: number } | { kind: 'record', values: Map<string, Value> } | { kind: 'none' }} Value */
/** @typedef {{ line: string } | { if: string, then: Statement[], else: Statement[] } | { loop: Statement[], while: string, askFirst: boolean }} Statement */
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

/** One lane: its variables end in `suffix`. */
export class Lane {
  /** variables that need a declaration of their own: places of small arrays, results of branches */
  variables = new Set();
  #count = 0;
  /** @type {Map<Node, string>} */
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
   * @param {Node} node the declaration of a small array
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
export const numberText = (value) =>
  value < 0 || Object.is(value, -0) ? `(${value})` : Number.isNaN(value) ? 'Number.NaN' : String(value);

/**
 * @param {Lane} lane
 * @param {Value} value
 * @param {Node} at
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
