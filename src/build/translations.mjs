import { readdirSync, readFileSync } from 'node:fs';
import { basename } from 'node:path';
import ts from 'typescript';
import { filesIn } from './filesIn.mjs';
import { inRoot, root } from './paths.mjs';

/** Texts by the text or name under which they are asked for. @typedef {Readonly<Record<string, string>>} Texts */

/**
 * One file of translated texts. `english` has every text that belongs into it, in order, by its key: the English text itself in a bundle, a name in
 * package.nls.*.json. `places` says where a text comes from, for people who read of a fault.
 * @typedef {{ language: string, file: string, texts: Texts, english: Texts, places: Texts }} Translation
 */

/** Texts that are the same in a language as in English. @type {Readonly<Record<string, readonly string[]>>} */
const same = { de: ['{0}', '{0}, {1}', '{0} {1}', '{0}: {1}', 'in {0}', '{0}, in {1}.', '{0} → {1}', '{0} h', 'broodsheet: {0}', 'Information', 'Name', 'Routine', 'pH'] };

/** Every file of translated texts there is. @returns {readonly Translation[]} */
export function translations() {
  const manifest = json('package.nls.json');
  const ofManifest = readdirSync(root).filter((name) => /^package\.nls\..+\.json$/.test(name)).map((file) => ({ file, english: manifest, places: Object.fromEntries(Object.keys(manifest).map((name) => [name, name])) }));
  const places = englishTexts();
  const english = Object.fromEntries(Object.keys(places).map((text) => [text, text]));
  const bundles = filesIn('l10n', /\/bundle\.l10n\..+\.json$/).map((file) => ({ file, english, places }));
  return [...bundles, ...ofManifest].map((each) => ({ ...each, texts: json(each.file), language: /\.([\w-]+)\.json$/.exec(each.file)?.[1] ?? '' }));
}

/** What is wrong with a translation, one sentence each. @param {Translation} translation @returns {readonly string[]} */
export function faultsOf({ language, file, texts, english, places }) {
  const keys = Object.keys(english);
  const faults = Object.keys(texts).flatMap((key) => (key in english ? [] : [`${file} has a text that nobody asks for: ${JSON.stringify(key)}`]));
  for (const key of keys) {
    const original = english[key] ?? '';
    const text = texts[key] ?? '';
    const at = `${file}, ${places[key] ?? ''}`;
    if (text === '') faults.push(`${at}: lacks ${JSON.stringify(original)}`);
    // A path leads to another file in each language.
    else if (!original.startsWith('./')) {
      for (const [what, words] of [['places', placesIn], ['words of the format', formatWordsIn]]) {
        const [wanted, found] = [original, text].map((each) => [...new Set(/** @type {(text: string) => readonly string[]} */ (words)(each))].sort().join(' '));
        if (wanted !== found) faults.push(`${at}: has other ${String(what)} than the English text (${found || 'none'}; English: ${wanted || 'none'}): ${JSON.stringify(text)}`);
      }
      if (text === original && same[language]?.includes(text) !== true) faults.push(`${at}: is the same as in English: ${JSON.stringify(text)}`);
    }
  }
  const kept = keys.filter((key) => key in texts);
  if (faults.length === 0 && Object.keys(texts).join('\n') !== kept.join('\n')) faults.push(`${file} is not in the order of the English texts; npm run texts sorts it`);
  return faults;
}

/**
 * The schema of fishroom.json in each language there is, by the path at which package.nls.*.json looks for it: VS Code shows its descriptions as they stand
 * in the file.
 * @returns {ReadonlyMap<string, string>}
 */
export function translatedSchemas() {
  return new Map(
    translations().flatMap(({ file, language, texts }) => {
      if (!basename(file).startsWith('bundle.')) return [];
      const schema = JSON.parse(readFileSync(inRoot('schemas/fishroom.schema.json'), 'utf8'), (key, value) => (isTold(key, value) ? (texts[value] ?? value) : value));
      return [[`dist/fishroom.schema.${language}.json`, `${JSON.stringify(schema, null, 2)}\n`]];
    }),
  );
}

/** All English texts of a bundle with where each stands first, in the order of the catalogue and of the schemas. @returns {Texts} */
function englishTexts() {
  /** @type {Record<string, string>} */
  const found = {};
  for (const [code, text] of catalogue()) found[text] ??= code;
  for (const path of filesIn('schemas', /\.schema\.json$/)) {
    JSON.parse(readFileSync(inRoot(path), 'utf8'), (key, value) => {
      if (isTold(key, value)) found[value] ??= path;
      return value;
    });
  }
  return found;
}

/** The codes and texts of src/base/messages.ts. @returns {readonly (readonly [code: string, text: string])[]} */
function catalogue() {
  const path = 'src/base/messages.ts';
  /** @type {(readonly [string, string])[]} */
  const entries = [];
  /** @param {ts.Node} node */
  const visit = (node) => {
    if (ts.isPropertyAssignment(node) && ts.isStringLiteralLike(node.name) && ts.isStringLiteralLike(node.initializer)) entries.push([node.name.text, node.initializer.text]);
    ts.forEachChild(node, visit);
  };
  visit(ts.createSourceFile(path, readFileSync(inRoot(path), 'utf8'), ts.ScriptTarget.ES2022));
  return entries;
}

/** Whether people read it. @param {string} key @param {unknown} value @returns {value is string} */
function isTold(key, value) {
  return (key === 'title' || key === 'description') && typeof value === 'string';
}

/** @param {string} text */
function placesIn(text) {
  return text.match(/\{\d+\}/g) ?? [];
}

/** What is never translated: options, columns and settings of two words, names of files, moments and lengths of time. @param {string} text */
function formatWordsIn(text) {
  return text.match(/(?<![\w-])--[a-z]+|\b[a-z]+(?:_[a-z\d]+)+\b|[\w-]+\.(?:csv|json)\b|\bbroodsheet\.\w+|\b\d{4}-\d\d-\d\d(?:T\d\d:\d\d)?|\bP(?:\d+D|T\d+H)\b/g) ?? [];
}

/** @param {string} path @returns {Texts} */
function json(path) {
  return JSON.parse(readFileSync(inRoot(path), 'utf8'));
}
