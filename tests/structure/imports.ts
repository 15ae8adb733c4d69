/**
 * Which way imports go, and a sentence for each that goes another way.
 * Takes source texts by path from the top; gives sentences. Nothing is read here, so that a test can plant a breach.
 */
import { posix } from 'node:path';
import ts from 'typescript';

export type Sources = ReadonlyMap<string, string>;

const LIBRARY = 'packages/mixing/src/';
const PAGE = 'packages/viewer/src/';

/** The signal path: what a stage may import besides its own folder. The tail leaves the main path after the servo. */
const STAGES: Record<string, string[]> = {
  transmitter: ['quantities', 'numerics'],
  servo: ['quantities', 'numerics', 'transmitter'],
  swashplate: ['quantities', 'numerics', 'servo'],
  rotor: ['quantities', 'numerics', 'swashplate'],
  flybar: ['quantities', 'numerics', 'rotor'],
  tail: ['quantities', 'numerics', 'servo'],
};
/** What is computed from the whole may use it and any stage of it, so that no formula is written twice. */
const WHOLE = ['quantities', 'numerics', ...Object.keys(STAGES), 'rig'];
const FOLDERS: Record<string, string[]> = {
  quantities: [],
  numerics: ['quantities'],
  ...STAGES,
  rig: ['quantities', 'numerics', ...Object.keys(STAGES)],
  examples: [],
  units: WHOLE,
  batch: WHOLE,
  coupling: WHOLE,
  envelope: [...WHOLE, 'batch'],
  tolerance: WHOLE,
  diagnosis: WHOLE,
  plan: [...WHOLE, 'diagnosis', 'tail check'],
  drawing: [...WHOLE, 'envelope'],
  report: [...WHOLE, 'coupling', 'diagnosis', 'plan', 'tail check'],
  'tail check': WHOLE,
};

/** The tail's check stands beside its stage, where it is looked for; it is computed from the whole, and the stage knows nothing of it. */
const TAIL_CHECK = /^tail\/check[\w-]*\.ts$/;

/** The document's types are the words that every stage speaks; they leave nothing behind when compiled. */
const WORDS = `${LIBRARY}rig/rig.ts`;

/** Only these files of rig/ may run a validator: the rest of it is on the way of every pose. */
const SCHEMA_FILES = /^packages\/mixing\/src\/rig\/(quantity|schema(-\w+)?|json-schema)\.ts$/;
const POSING = ['prepare', 'pose', 'predict', 'figure'].map((name) => `${LIBRARY}rig/${name}.ts`);
/** The batch's threads in Node, which the package offers apart from its index. */
const NODE_ONLY = /^packages\/mixing\/src\/batch\/node(-thread)?\.ts$/;
const SCREEN = /^(react|react-dom|three|@react-three\/.+)$/;

interface Import {
  /** a path from the top, or a package's name */
  to: string;
  isPackage: boolean;
  typeOnly: boolean;
}

/** The sentences for `sources`, with the packages that the library declares. */
export function breaches(sources: Sources, declared: readonly string[]): string[] {
  const imports = new Map([...sources].map(([path, text]) => [path, importsOf(path, text)]));
  const said: string[] = [];
  for (const [path, list] of imports) {
    for (const one of list) {
      const says = path.startsWith(LIBRARY)
        ? libraryBreach(path, one, declared)
        : path.startsWith(PAGE)
          ? pageBreach(path, one)
          : undefined;
      if (says !== undefined) said.push(`${path} imports ${one.to}: ${says}`);
    }
    if (!path.startsWith(LIBRARY)) continue;
    for (const [packageName, way] of packagesReached(path, imports)) {
      const says = reachBreach(path, packageName);
      if (says !== undefined) said.push(`${way.join(' imports ')} imports ${packageName}: ${says}`);
    }
  }
  return said;
}

function libraryBreach(path: string, { to, isPackage, typeOnly }: Import, declared: readonly string[]): string | undefined {
  const from = folderOf(path);
  if (isPackage) {
    if (SCREEN.test(to)) return 'the library knows no screen; what draws belongs in packages/viewer';
    if (from === 'cli') return isNode(to) || declared.includes(to) ? undefined : 'packages/mixing/package.json does not list it';
    if (isNode(to) && NODE_ONLY.test(path)) return undefined;
    if (isNode(to)) return 'the library runs in a browser too; what needs the system belongs in cli/';
    if (to === 'commander' || to === 'sirv') return 'the command line and its server belong in cli/';
    if (from === 'quantities') return 'quantities/ imports nothing';
    if (to === 'zod' && from === 'rig' && !typeOnly && !SCHEMA_FILES.test(path))
      return 'in rig/ only the schema files run the validator';
    return declared.includes(to) ? undefined : 'packages/mixing/package.json does not list it';
  }
  if (!to.startsWith(LIBRARY)) return 'the library imports nothing outside its own sources';
  if (NODE_ONLY.test(to) && !NODE_ONLY.test(path)) return 'a page takes this too, and has no such threads';
  const into = folderOf(to);
  if (from === into || from === 'cli') return undefined;
  if (from === '') return into === 'cli' ? 'the command line stands on the library, not the other way round' : undefined;
  if (to === WORDS && typeOnly && from !== 'quantities') return undefined;
  const allowed = FOLDERS[from];
  if (allowed === undefined)
    return `${from}/ has no place yet in the order of folders; give it one in tests/structure/imports.ts`;
  if (allowed.includes(into)) return undefined;
  return `${from}/ may import ${allowed.length > 0 ? allowed.map((name) => `${name}/`).join(', ') : 'nothing'}, not ${into === '' ? 'the whole library' : `${into}/`}`;
}

function pageBreach(path: string, { to, isPackage }: Import): string | undefined {
  if (!isPackage)
    return to.startsWith('packages/mixing/')
      ? 'the page uses the library by its name, @swashtrue/mixing, and no inner file of it'
      : undefined;
  if (isNode(to)) return 'the page runs in a browser';
  if (path.startsWith(`${PAGE}state/`) && SCREEN.test(to))
    return 'the state is plain, without React or three, so that it can be tested and run in a worker';
  return undefined;
}

function reachBreach(path: string, packageName: string): string | undefined {
  const from = folderOf(path);
  if (from in STAGES) return 'a stage is plain arithmetic and reaches no package';
  // A refused case names the nearest known key, which needs the distance between words and nothing else.
  if (POSING.includes(path) && packageName !== 'fastest-levenshtein')
    return 'a pose is plain arithmetic: nothing on its way reaches a package';
  if (from === 'rig' && packageName === 'mathjs') return 'rig/ takes numbers only; units are read in units/';
  return undefined;
}

/** Packages that a file's compiled code loads, each with the files on the way to it. */
function packagesReached(start: string, imports: ReadonlyMap<string, Import[]>): Map<string, string[]> {
  const reached = new Map<string, string[]>();
  const ways: string[][] = [[start]];
  const seen = new Set([start]);
  for (let way = ways.shift(); way !== undefined; way = ways.shift()) {
    for (const { to, isPackage, typeOnly } of imports.get(way.at(-1) ?? '') ?? []) {
      if (typeOnly) continue;
      if (isPackage) {
        if (!reached.has(to)) reached.set(to, way);
      } else if (!seen.has(to)) {
        seen.add(to);
        ways.push([...way, to]);
      }
    }
  }
  return reached;
}

/** The library's folder of a file: `servo`; '' for a file at its top. */
function folderOf(path: string): string {
  if (TAIL_CHECK.test(path.slice(LIBRARY.length))) return 'tail check';
  const [folder = '', ...rest] = path.slice(LIBRARY.length).split('/');
  return rest.length > 0 ? folder : '';
}

const isNode = (name: string) => name.startsWith('node:');

function importsOf(path: string, text: string): Import[] {
  const found: Import[] = [];
  const add = (written: string, typeOnly: boolean) => {
    const isPackage = !written.startsWith('.');
    found.push({ to: isPackage ? packageOf(written) : posix.join(posix.dirname(path), written), isPackage, typeOnly });
  };
  const visit = (node: ts.Node): void => {
    if (ts.isImportDeclaration(node) && ts.isStringLiteral(node.moduleSpecifier)) {
      // Under verbatimModuleSyntax `import { type A }` still loads the file; only `import type` leaves nothing behind.
      add(node.moduleSpecifier.text, node.importClause?.isTypeOnly === true);
    } else if (ts.isExportDeclaration(node) && node.moduleSpecifier && ts.isStringLiteral(node.moduleSpecifier)) {
      add(node.moduleSpecifier.text, node.isTypeOnly);
    } else if (ts.isCallExpression(node) && node.expression.kind === ts.SyntaxKind.ImportKeyword) {
      const [what] = node.arguments;
      if (what && ts.isStringLiteral(what)) add(what.text, false);
    } else if (ts.isImportTypeNode(node) && ts.isLiteralTypeNode(node.argument) && ts.isStringLiteral(node.argument.literal)) {
      add(node.argument.literal.text, true);
    }
    ts.forEachChild(node, visit);
  };
  visit(ts.createSourceFile(path, text, ts.ScriptTarget.Latest));
  return found;
}

/** `mathjs/number` is of mathjs, `@react-three/fiber/native` of @react-three/fiber. */
function packageOf(written: string): string {
  if (isNode(written)) return written;
  return written.split('/', written.startsWith('@') ? 2 : 1).join('/');
}
