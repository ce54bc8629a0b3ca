import { readdirSync, readFileSync } from 'node:fs';
import ts from 'typescript';

/** A text in a source: whole, or with places that are filled in when it runs. */
export interface SourceText {
  /** Matches every text that it can become. */
  readonly pattern: RegExp;
  /** The text itself; undefined where there are places in it. */
  readonly whole: string | undefined;
}

/** The TypeScript files in a folder and below it, by path, parsed. */
export function sourcesIn(folder: string): ReadonlyMap<string, ts.SourceFile> {
  const paths = readdirSync(folder, { recursive: true, encoding: 'utf8' }).map((path) => `${folder}/${path.replaceAll('\\', '/')}`);
  const sources = paths.filter((path) => path.endsWith('.ts') && !path.endsWith('.d.ts')).sort();
  return new Map(sources.map((path) => [path, ts.createSourceFile(path, readFileSync(path, 'utf8'), ts.ScriptTarget.ES2022)]));
}

/** Every string and template in a part of a source; those of imports and types left out. */
export function textsIn(part: ts.Node): readonly SourceText[] {
  const found: SourceText[] = [];
  const visit = (node: ts.Node): void => {
    if (ts.isImportDeclaration(node) || ts.isTypeNode(node)) return;
    if (ts.isStringLiteralLike(node)) found.push({ whole: node.text, pattern: exactly(escape(node.text)) });
    if (ts.isTemplateExpression(node)) {
      const spans = node.templateSpans.map(({ literal }) => `[^.]+${escape(literal.text)}`);
      // A place at the beginning may stand for several parts of a code, one further on for a single part.
      found.push({ whole: undefined, pattern: exactly(node.head.text === '' ? `.+${spans.join('').slice('[^.]+'.length)}` : escape(node.head.text) + spans.join('')) });
    }
    ts.forEachChild(node, visit);
  };
  visit(part);
  return found;
}

/** What an expression can come to, without the questions that decide it. */
export function choicesOf(part: ts.Expression): readonly ts.Expression[] {
  if (ts.isParenthesizedExpression(part)) return choicesOf(part.expression);
  return ts.isConditionalExpression(part) ? [...choicesOf(part.whenTrue), ...choicesOf(part.whenFalse)] : [part];
}

/** The arguments of every call of a function by its name. */
export function argumentsOf(source: ts.SourceFile, called: string): readonly (readonly ts.Expression[])[] {
  const found: (readonly ts.Expression[])[] = [];
  const visit = (node: ts.Node): void => {
    if (ts.isCallExpression(node)) {
      const name = ts.isPropertyAccessExpression(node.expression) ? node.expression.name : node.expression;
      if (ts.isIdentifier(name) && name.text === called) found.push(node.arguments);
    }
    ts.forEachChild(node, visit);
  };
  visit(source);
  return found;
}

/** The entries of an object that is written out as `const name = { 'key': 'text' }`. */
export function entriesOf(source: ts.SourceFile, name: string): ReadonlyMap<string, string> {
  const entries = new Map<string, string>();
  for (const statement of source.statements) {
    if (!ts.isVariableStatement(statement)) continue;
    for (const declaration of statement.declarationList.declarations) {
      if (!ts.isIdentifier(declaration.name) || declaration.name.text !== name) continue;
      const value = declaration.initializer;
      const object = value !== undefined && ts.isAsExpression(value) ? value.expression : value;
      if (object === undefined || !ts.isObjectLiteralExpression(object)) continue;
      for (const property of object.properties) {
        if (!ts.isPropertyAssignment(property) || !ts.isStringLiteralLike(property.initializer)) throw new Error(`an entry of ${name} is not written out`);
        entries.set((property.name as ts.Identifier | ts.StringLiteral).text, property.initializer.text);
      }
    }
  }
  if (entries.size === 0) throw new Error(`${source.fileName} has no object ${name}`);
  return entries;
}

function exactly(pattern: string): RegExp {
  return new RegExp(`^${pattern}$`, 's');
}

function escape(text: string): string {
  return text.replaceAll(/[.*+?^${}()|[\]\\]/g, '\\$&');
}
