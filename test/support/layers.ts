import { builtinModules } from 'node:module';
import { posix } from 'node:path';
import ts from 'typescript';
import manifest from '../../package.json';

/** An import, export-from, import() or require() of a source file. */
export interface Import {
  readonly specifier: string;
  readonly typeOnly: boolean;
}

const core = ['base', 'csv', 'schema', 'domain', 'records', 'planner'] as const;
const asked = ['language', 'views', 'acts'] as const;

/** The layers a layer may import from beside itself; `schemas`, `l10n` and `manifest` stand for the data files of these names, `test` for the tests' host. */
const mayImport: Readonly<Record<string, readonly string[]>> = {
  base: [],
  csv: ['base'],
  schema: ['base', 'schemas'],
  domain: ['base'],
  records: ['base', 'csv', 'schema', 'domain'],
  planner: ['base', 'csv', 'schema', 'domain', 'records'],
  language: core,
  views: core,
  acts: core,
  exchange: [...core, ...asked],
  protocol: ['base', 'views'],
  cli: [...core, ...asked, 'exchange', 'manifest', 'l10n'],
  vscode: [...core, ...asked, 'exchange', 'protocol'],
  webview: ['base', 'protocol'],
  build: ['test'],
};

const typesAlone = new Set(['protocol']);
const withNode = new Set(['cli', 'build']);
const compositionRoots = new Set(['src/vscode/extension.ts', 'src/cli/main.ts']);

/** What is wrong with the imports of one file, as sentences. @param path from the project's folder, with '/' */
export function layerViolations(path: string, text: string): string[] {
  const layer = layerOf(path);
  const known = layer === undefined ? undefined : mayImport[layer];
  if (layer === undefined || known === undefined) return [`${path} is in no known layer`];
  return importsOf(path, text).flatMap((each) => {
    const reason = isRelative(each.specifier)
      ? whyNotRelative({ path, layer, allowed: known }, each)
      : whyNotPackage(layer, each.specifier);
    return reason === undefined ? [] : [`${path} imports ${each.specifier}: ${reason}`];
  });
}

/** The circles among files that import each other's values, each as the paths along it. @param texts by path from the project's folder */
export function importCycles(texts: ReadonlyMap<string, string>): string[][] {
  const cycles: string[][] = [];
  const done = new Set<string>();
  const visit = (path: string, trail: readonly string[]): void => {
    const at = trail.indexOf(path);
    if (at >= 0) cycles.push([...trail.slice(at), path]);
    if (at >= 0 || done.has(path)) return;
    for (const { specifier, typeOnly } of importsOf(path, texts.get(path) ?? '')) {
      const target = isRelative(specifier) && !typeOnly ? `${resolved(path, specifier)}.ts` : undefined;
      if (target !== undefined && texts.has(target)) visit(target, [...trail, path]);
    }
    done.add(path);
  };
  for (const path of texts.keys()) visit(path, []);
  return cycles;
}

/** All imports of a file, those of types too, in their order. */
export function importsOf(path: string, text: string): Import[] {
  const found: Import[] = [];
  const add = (node: ts.Node | undefined, typeOnly: boolean): void => {
    if (node !== undefined && ts.isStringLiteralLike(node)) found.push({ specifier: node.text, typeOnly });
  };
  const visit = (node: ts.Node): void => {
    if (ts.isImportDeclaration(node)) add(node.moduleSpecifier, node.importClause?.phaseModifier === ts.SyntaxKind.TypeKeyword);
    else if (ts.isExportDeclaration(node)) add(node.moduleSpecifier, node.isTypeOnly);
    else if (ts.isImportTypeNode(node)) add(ts.isLiteralTypeNode(node.argument) ? node.argument.literal : undefined, true);
    else if (ts.isExternalModuleReference(node)) add(node.expression, false);
    else if (ts.isCallExpression(node) && isLoading(node.expression)) add(node.arguments[0], false);
    ts.forEachChild(node, visit);
  };
  visit(ts.createSourceFile(path, text, ts.ScriptTarget.ES2022));
  return found;
}

function isLoading(called: ts.Expression): boolean {
  return called.kind === ts.SyntaxKind.ImportKeyword || (ts.isIdentifier(called) && called.text === 'require');
}

function isRelative(specifier: string): boolean {
  return specifier.startsWith('.') || specifier.startsWith('/');
}

function resolved(path: string, specifier: string): string {
  return posix.join(posix.dirname(path), specifier);
}

function layerOf(path: string): string | undefined {
  if (path === 'package.json') return 'manifest';
  const [top, next, ...rest] = path.split('/');
  if (top === 'src') return rest.length > 0 ? next : undefined;
  return top;
}

/** The feature a file belongs to: of the editor, a verb of the command line, a web view. */
function featureOf(path: string): string | undefined {
  const feature = /^(?:src\/vscode\/features|src\/cli\/verbs|webview)\/([^/.]+)/.exec(path);
  return feature?.[1] === 'shared' ? undefined : feature?.[0];
}

interface Importer {
  readonly path: string;
  readonly layer: string;
  readonly allowed: readonly string[];
}

function whyNotRelative({ path, layer, allowed }: Importer, { specifier, typeOnly }: Import): string | undefined {
  const target = resolved(path, specifier);
  const targetLayer = layerOf(target);
  const feature = featureOf(target);
  if (targetLayer !== layer) {
    if (targetLayer === undefined || !allowed.includes(targetLayer)) return `${layer} may not import ${targetLayer ?? 'that'}`;
    return typesAlone.has(layer) && !typeOnly ? `${layer} may import types alone` : undefined;
  }
  if (feature === undefined || feature === featureOf(path) || compositionRoots.has(path)) return undefined;
  return featureOf(path) === undefined ? 'only the composition root imports features' : 'features may not import each other';
}

function whyNotPackage(layer: string, specifier: string): string | undefined {
  if (specifier === 'vscode') return layer === 'vscode' ? undefined : 'vscode is for src/vscode alone';
  const name = specifier.split('/', specifier.startsWith('@') ? 2 : 1).join('/');
  if (specifier.startsWith('node:') || builtinModules.includes(name)) return withNode.has(layer) ? undefined : `${layer} may not use Node`;
  if (layer === 'build' || name in manifest.dependencies) return undefined;
  return `${name} is not among the dependencies`;
}
