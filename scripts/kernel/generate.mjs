/**
 * Makes the kernels: for each passes file its `.kernel.ts`, in which every loop stands written out, two rounds at a time.
 * `npm run kernels` writes them; a test fails while one is not what its sources make of it.
 *
 * A kernel takes what it reads of a rig as one array of doubles (its `...Fixed` fills one). Not the rig itself: an engine
 * compiles for the shapes of objects it has seen, and a second rig whose numbers are whole where the first's were not makes
 * it throw that code away; what it then made in the middle of a running loop was seen to take three times as long for good.
 */
import { writeFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import ts from 'typescript';
import { moduleOf, placeOf } from './modules.mjs';
import { run } from './statements.mjs';
import { Constants, Lane, scope } from './values.mjs';
import { printed, weave } from './weave.mjs';

const SOURCES = fileURLToPath(new URL('../../packages/mixing/src', import.meta.url));

/** Files whose exported functions are passes, from the library's sources. */
export const PASSES = ['rotor/round-the-disc.ts', 'batch/passes.ts'];

/** @param {string} passes */
export const kernelFile = (passes) => join(SOURCES, passes.replace(/\.ts$/, '.kernel.ts'));

/**
 * The text of a passes file's kernel.
 * @param {string} passes
 */
export function kernelText(passes) {
  const module = moduleOf(join(SOURCES, passes));
  const made = module.tree.statements
    .filter(ts.isFunctionDeclaration)
    .filter((one) => one.modifiers?.some((word) => word.kind === ts.SyntaxKind.ExportKeyword));
  return [
    `/** Made by scripts/kernel from ${basename(passes)} and the stages that it calls; change those, and run \`npm run kernels\`. */`,
    ...typeImports(module, made),
    ...made.flatMap((node) => ['', ...pass(module, node)]),
    '',
  ].join('\n');
}

/**
 * Imports of the types that the passes' parameters have.
 * @param {import('./modules.mjs').Module} module
 * @param {ts.FunctionDeclaration[]} made
 * @returns {string[]} lines
 */
function typeImports(module, made) {
  const wanted = new Set(made.flatMap((node) => node.parameters.map((one) => one.type?.getText() ?? '')));
  return module.tree.statements.flatMap((statement) => {
    if (!ts.isImportDeclaration(statement)) return [];
    const named = statement.importClause?.namedBindings;
    const names =
      named && ts.isNamedImports(named) ? named.elements.map((one) => one.name.text).filter((name) => wanted.has(name)) : [];
    return names.length > 0 ? [`import type { ${names.join(', ')} } from ${statement.moduleSpecifier.getText()};`] : [];
  });
}

/**
 * @param {import('./modules.mjs').Module} module
 * @param {ts.FunctionDeclaration} node
 * @returns {string[]} lines
 */
function pass(module, node) {
  const [loop] = node.body?.statements ?? [];
  if (!loop || !ts.isForStatement(loop) || !loop.initializer || !ts.isVariableDeclarationList(loop.initializer)) {
    throw new Error(`${placeOf(node)}: got this pass, expected one loop: for (let i = from; i < to; i++) { ... }`);
  }
  const counter = /** @type {ts.VariableDeclaration} */ (loop.initializer.declarations[0]);
  const index = counter.name.getText();
  const from = counter.initializer?.getText() ?? '';
  const to = loop.condition && ts.isBinaryExpression(loop.condition) ? loop.condition.right.getText() : '';
  const constants = new Constants();
  const lanes = ['a', 'b'].map((suffix) => {
    const lane = new Lane(constants, suffix);
    const at = scope(module);
    for (const parameter of node.parameters) at.values.set(parameter.name.getText(), parameterValue(parameter));
    const inside = scope(module, at);
    inside.values.set(index, { kind: 'code', text: `${index}_${suffix}` });
    /** @type {import('./values.mjs').Statement[]} */
    const statements = [];
    run(lane, inside, ts.isBlock(loop.statement) ? loop.statement.statements : [loop.statement], statements);
    return { lane, statements };
  });
  const [a, b] = /** @type {[typeof lanes[0], typeof lanes[0]]} */ (lanes);
  const body = printed(weave(a.statements, b.statements), '    ');
  const variables = [...a.lane.variables, ...b.lane.variables];
  const fixed = [...constants.names];
  const name = node.name?.text ?? '';
  const given = (/** @type {(kind: string) => boolean} */ wanted) =>
    node.parameters
      .filter((one) => wanted(parameterValue(one).kind))
      .map(
        (one) =>
          `${one.name.getText()}: ${one.type
            ?.getText()
            .replace(/^Whole$/, 'number')
            .replace(/^Fixed$/, 'Float64Array')}`,
      );
  const taking =
    fixed.length > 0 ? ['fixed: Float64Array', ...given((kind) => kind !== 'path')] : given((kind) => kind !== 'path');
  return [
    ...(fixed.length > 0
      ? fixer(
          name,
          given((kind) => kind === 'path'),
          fixed.map(([path]) => path),
        )
      : []),
    `export function ${name}(${taking.join(', ')}): void {`,
    ...fixed.map(([, short], k) => `  const ${short} = fixed[${k}] as number;`),
    `  for (let ${index} = ${from}; ${index} < ${to}; ${index} += 2) {`,
    `    const ${index}_a = ${index};`,
    // the last of an odd number is done twice over, which changes nothing
    `    const ${index}_b = ${index} + 1 < ${to} ? ${index} + 1 : ${index};`,
    // NaN and not 0, which an engine may take for a whole number, and the variable with it
    ...(variables.length > 0 ? [`    let ${variables.map((one) => `${one} = Number.NaN`).join(', ')};`] : []),
    ...body,
    '  }',
    '}',
  ];
}

/**
 * The function that fills the array of doubles which a pass takes.
 * @param {string} name
 * @param {string[]} parameters
 * @param {string[]} paths
 * @returns {string[]} lines
 */
function fixer(name, parameters, paths) {
  return [
    `/** What \`${name}\` reads of a rig, in the order in which it does. */`,
    `export function ${name}Fixed(${parameters.join(', ')}, fixed = new Float64Array(${paths.length})): Float64Array<ArrayBuffer> {`,
    ...paths.map((path, k) => `  fixed[${k}] = ${checked(path)};`),
    '  return fixed;',
    '}',
    '',
  ];
}

/** A place in a prepared rig: every list in it may be shorter than asked, says the compiler; these are not. */
const checked = (/** @type {string} */ path) => path.replaceAll(/\]/g, ']!');

/**
 * @param {ts.ParameterDeclaration} parameter
 * @returns {import('./values.mjs').Value}
 */
function parameterValue(parameter) {
  const name = parameter.name.getText();
  const type = parameter.type?.getText() ?? '';
  if (type === 'Whole') return { kind: 'code', text: name };
  // A prepared rig, a part of one, a number or an array called so is fixed while the pass runs; bare arrays are what it works on.
  return type.endsWith('Array') ? { kind: 'stream', text: name } : { kind: 'path', text: name };
}

if (process.argv[1] && import.meta.url === pathToFileURL(process.argv[1]).href) {
  for (const passes of PASSES) writeFileSync(kernelFile(passes), kernelText(passes));
}
