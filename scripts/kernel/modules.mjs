/** The stages' sources as syntax trees, and what a name in one of them stands for, followed through its imports. */
import { readFileSync } from 'node:fs';
import { dirname, resolve } from 'node:path';
import ts from 'typescript';

/** @typedef {{ file: string, tree: ts.SourceFile }} Module */
/** @typedef {{ module: Module, node: ts.FunctionDeclaration | ts.VariableDeclaration }} Declared */

/** @type {Map<string, Module>} */
const modules = new Map();

/**
 * @param {string} file
 * @returns {Module}
 */
export function moduleOf(file) {
  let module = modules.get(file);
  if (!module) {
    module = { file, tree: ts.createSourceFile(file, readFileSync(file, 'utf8'), ts.ScriptTarget.Latest, true) };
    modules.set(file, module);
  }
  return module;
}

/**
 * The function or constant that a name stands for at the top of a module; undefined where the module has no such name.
 * @param {Module} module
 * @param {string} name
 * @returns {Declared | undefined}
 */
export function declared(module, name) {
  for (const statement of module.tree.statements) {
    if (ts.isFunctionDeclaration(statement) && statement.name?.text === name) return { module, node: statement };
    if (ts.isVariableStatement(statement)) {
      const node = statement.declarationList.declarations.find((one) => ts.isIdentifier(one.name) && one.name.text === name);
      if (node) return { module, node };
    }
    if (ts.isImportDeclaration(statement) && ts.isStringLiteral(statement.moduleSpecifier)) {
      const named = statement.importClause?.namedBindings;
      const one = named && ts.isNamedImports(named) ? named.elements.find((element) => element.name.text === name) : undefined;
      if (one)
        return declared(
          moduleOf(resolve(dirname(module.file), statement.moduleSpecifier.text)),
          (one.propertyName ?? one.name).text,
        );
    }
  }
  return undefined;
}

/**
 * Where a piece of source stands, for a message.
 * @param {ts.Node} node
 */
export function placeOf(node) {
  const tree = node.getSourceFile();
  const { line } = tree.getLineAndCharacterOfPosition(node.getStart());
  return `${tree.fileName}:${line + 1}: ${node.getText().slice(0, 80)}`;
}
