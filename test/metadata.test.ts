import { deepStrictEqual, ok, strictEqual } from 'node:assert/strict';
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import ts from 'typescript';
import lock from '../package-lock.json';
import manifest from '../package.json';
import nls from '../package.nls.json';
import fishroomSchema from '../schemas/fishroom.schema.json';
import { LineIndex } from '../src/base/lines';
import type * as Build from '../src/build/translations.mjs';
import { NodeFileStore } from '../src/cli/nodeFileStore';
import { CsvDocument } from '../src/csv/document';
import { computedHeaders } from '../src/planner/columns/registry';
import { Plan } from '../src/planner/plan';
import { findFishrooms } from '../src/records/discovery';
import { readAll } from '../src/records/load';
import { schemas } from '../src/schema/catalog';
import { defaultSpeciesText } from '../src/schema/defaults';
import { problemCodes, severityOf } from '../src/schema/problemCodes';
import { codeIn, headingsOf, sectionOf, tableRowsOf } from './support/markdown';
import { berlin, moment } from './support/moments';
import { argumentsOf, choicesOf, entriesOf, sourcesIn, textsIn } from './support/sourceTexts';

const readme = readFileSync('README.md', 'utf8');
const developers = readFileSync('DEVELOPERS.md', 'utf8');
const samples = readFileSync('samples/README.md', 'utf8');
const sources = sourcesIn('src');
const codes: ReadonlySet<string> = new Set(problemCodes);

/** The words in single backticks of one cell or sentence. */
function only(cell: string | undefined): string {
  const [word = ''] = codeIn(cell ?? '');
  return word;
}

function sorted(values: Iterable<string>): readonly string[] {
  return [...new Set(values)].sort();
}

describe('package.json', () => {
  it('has a licence that LICENSE holds, and a version that the lock file and the change log know', () => {
    strictEqual(manifest.license, 'MIT');
    ok(readFileSync('LICENSE', 'utf8').startsWith('MIT License\n'));
    strictEqual(lock.version, manifest.version);
    strictEqual(lock.packages[''].version, manifest.version);
    ok(headingsOf(readFileSync('CHANGELOG.md', 'utf8')).some((heading) => heading.startsWith(`## ${manifest.version},`)), 'CHANGELOG.md lacks the version');
  });

  it('points to files that the build makes or that are there', () => {
    const build = readFileSync('src/build/build.mjs', 'utf8');
    for (const file of [manifest.main, manifest.browser, manifest.bin.broodsheet]) ok(build.includes(`outfile: '${file.replace('./', '')}'`), `nothing builds ${file}`);
    ok(existsSync(manifest.icon));
    for (const { url } of manifest.contributes.jsonValidation) ok(existsSync(nls[url.slice(1, -1) as keyof typeof nls]), url);
    for (const script of Object.values(manifest.scripts)) for (const [path] of script.matchAll(/\S+\.mjs/g)) ok(existsSync(path), path);
  });

  it('asks for the VS Code that the types are of', () => {
    strictEqual(manifest.devDependencies['@types/vscode'], manifest.engines.vscode.slice(1));
  });

  it('takes every text from package.nls.json, and leaves none there unused', () => {
    const asked = [...JSON.stringify(manifest).matchAll(/"%([^%"]+)%"/g)].map(([, key]) => key ?? '');
    deepStrictEqual(sorted(asked), sorted(Object.keys(nls)));
  });
});

describe('commands', () => {
  const contributed = manifest.contributes.commands.map(({ command }) => command);

  it('have a title in the category Broodsheet, and stand with it in README.md', () => {
    const rows = tableRowsOf(sectionOf(readme, '## In VS Code')).map(([cell = '']) => codeIn(cell));
    for (const { command, title, category } of manifest.contributes.commands) {
      strictEqual(category, 'Broodsheet');
      const text = nls[title.slice(1, -1) as keyof typeof nls];
      ok(rows.some(([shown, id]) => shown === `Broodsheet: ${text}` && id === command), `README.md lacks ${command} with its title "${text}"`);
    }
  });

  it('are those that src/vscode registers, each once', () => {
    const registered = [...sources].flatMap(([path, source]) => (path.startsWith('src/vscode/') ? argumentsOf(source, 'registerCommand') : []));
    deepStrictEqual(registered.map(([id]) => (id !== undefined && ts.isStringLiteral(id) ? id.text : '')).sort(), [...contributed].sort());
  });
});

describe('the walkthrough', () => {
  const steps = manifest.contributes.walkthroughs.flatMap((walkthrough) => walkthrough.steps);
  const text = (key: string): string => nls[key.slice(1, -1) as keyof typeof nls];

  it('has drawings that are packed, without sentences and without a style sheet, which VS Code keeps out', () => {
    ok(readFileSync('.vscodeignore', 'utf8').includes('!src/vscode/walkthrough/**'));
    for (const { media } of steps) {
      const drawing = readFileSync(media.svg, 'utf8');
      ok(!/<style|class=|#[0-9a-f]{3}/i.test(drawing), media.svg);
      ok(text(media.altText).length > 20, media.altText);
    }
  });

  it('leads only to commands and words that are there', () => {
    const own = new Set(manifest.contributes.commands.map(({ command }) => command));
    const named = steps.flatMap(({ description, completionEvents }) => [...text(description).matchAll(/\(command:([\w.]+)/g)].map(([, command = '']) => command).concat(completionEvents.flatMap((event) => /^onCommand:(.+)/.exec(event)?.[1] ?? [])));
    ok(named.length >= steps.length);
    deepStrictEqual(named.filter((command) => command.startsWith('broodsheet.') && !own.has(command)), []);
    const words = steps.flatMap(({ completionEvents }) => completionEvents.flatMap((event) => /^onContext:(.+)/.exec(event)?.[1] ?? []));
    deepStrictEqual(words.filter((word) => ![...sources.values()].some(({ text: source }) => source.includes(`'setContext', '${word}'`))), []);
  });
});

describe('settings', () => {
  const contributed = Object.entries(manifest.contributes.configuration.properties);

  it('are those that src/vscode reads', () => {
    const read = [...sources.values()].flatMap(({ text }) => [...text.matchAll(/getConfiguration\('(\w+)'[^;\n]*?\)\.get(?:<\w+>)?\('(\w+)'/g)].map(([, section, name]) => `${section ?? ''}.${name ?? ''}`));
    const watched = [...sources.values()].flatMap((source) => argumentsOf(source, 'affectsConfiguration').map(([name]) => (name !== undefined && ts.isStringLiteral(name) ? name.text : '')));
    const names = contributed.map(([name]) => name);
    deepStrictEqual(sorted(read), sorted(names));
    deepStrictEqual(sorted(watched), sorted(names));
  });

  it('stand in README.md and have a default and a description', () => {
    const rows = tableRowsOf(sectionOf(readme, '## In VS Code')).map(([cell]) => only(cell));
    for (const [name, setting] of contributed) {
      ok(rows.includes(name), name);
      ok('default' in setting && setting.markdownDescription.startsWith('%setting.'), name);
    }
  });
});

describe('problem codes', () => {
  const section = sectionOf(readme, '## Problems');
  const rows = tableRowsOf(section);
  const later = section.split('\n').find((line) => line.startsWith('These codes are reserved')) ?? '';
  const reported = rows.map(([cell]) => only(cell));

  it('stand in README.md with their severities', () => {
    const stated = [...rows.map(([cell, severity = '']) => [only(cell), severity]), ...[...later.matchAll(/`([a-z-]+)` \((\w+)\)/g)].map(([, code = '', severity = '']) => [code, severity])];
    deepStrictEqual(stated.map((each) => each.join(' ')).sort(), problemCodes.map((code) => `${code} ${severityOf(code)}`).sort());
    ok(rows.every((row) => row.length === 4 && row.every((cell) => cell !== '')), 'a code without meaning or advice');
  });

  it('are told apart in README.md: reported ones are found somewhere in src, reserved ones nowhere', () => {
    const named = [...sources].flatMap(([path, source]) => (/\/(?:problemCodes|messages)\.ts$/.test(path) ? [] : textsIn(source).flatMap(({ whole }) => whole ?? [])));
    deepStrictEqual(sorted(named.filter((text) => codes.has(text))), sorted(reported));
  });

  it('that `accept` silences are those of the rules', () => {
    const sentence = section.split('\n').find((line) => line.includes('silences')) ?? '';
    const ofRules = [...sources].flatMap(([path, source]) => (path.startsWith('src/planner/rules/') ? textsIn(source).flatMap(({ whole }) => whole ?? []) : []));
    // A rule's value-required is about a cell that the row can't do without.
    const silenced = ofRules.filter((text) => codes.has(text) && text !== 'value-required');
    deepStrictEqual(sorted(codeIn(sentence).filter((word) => codes.has(word))), sorted(silenced));
  });
});

describe('sheets in README.md', () => {
  const chapter = sectionOf(readme, '## The sheets');
  const headings = headingsOf(chapter);

  /** The path of a sheet as keepers read it. */
  const named = (path: string): string => path.replace('clutches/**/*', 'clutches/<clutch>').replace('tanks/**/*', 'tanks/<tank>');

  it('are those of schemas/, and fishroom.json', () => {
    deepStrictEqual(headings.flatMap(codeIn).sort(), [...schemas.map(({ path }) => named(path)), 'fishroom.json'].sort());
  });

  for (const schema of schemas) {
    it(`have the columns of ${schema.name}, and who fills them`, () => {
      const heading = headings.find((each) => codeIn(each).includes(named(schema.path))) ?? '';
      const [first = '', second] = codeIn(heading);
      // Two sheets with one description: what only one of them has says so.
      const other = named(schema.path) === first ? second : first;
      const rows = tableRowsOf(sectionOf(chapter, heading)).filter(([, filler = '']) => ['you', 'Broodsheet', 'nobody'].includes(filler.split(/[ ,]/)[0] ?? ''));
      const mine = rows.filter(([, , what = '']) => other === undefined || !what.includes(`only in \`${other}\``));
      const filled = new Set(computedHeaders(schema.name));
      deepStrictEqual(
        mine.map(([column, filler = '']) => `${only(column)}: ${filler}`).sort(),
        schema.fields.map(({ name, computed, constraints }) => `${name}: ${computed ? (filled.has(name) ? 'Broodsheet' : 'nobody yet') : constraints.required === true ? 'you, needed' : 'you'}`).sort(),
      );
    });
  }

  it('name every word that a clutch or tank log knows as an event, and every way of care', () => {
    for (const [name, column, page] of [
      ['clutch-log', 'event', sectionOf(chapter, '### `clutches/<clutch>.csv`, `log.csv`')],
      ['tank-log', 'event', sectionOf(chapter, '### `tanks/<tank>.csv`, `readings.csv`')],
      ['species', 'care', sectionOf(chapter, '### `species.csv`')],
      ['clutches', 'outcome', sectionOf(chapter, '### `clutches.csv`')],
      ['clutches', 'stage', sectionOf(chapter, '### `clutches.csv`')],
    ] as const) {
      const words = schemas.find((schema) => schema.name === name)?.fieldNamed.get(column)?.constraints.enum ?? [];
      ok(words.length > 0, `${name} has no words for ${column}`);
      deepStrictEqual(words.filter((word) => !codeIn(page).includes(word)), [], `${name}.${column}`);
    }
  });

  it('name every built-in species, and how many there are', () => {
    const page = sectionOf(chapter, '### `species.csv`');
    const list = CsvDocument.parse(defaultSpeciesText);
    const ids = Array.from({ length: list.rowCount - 1 }, (_, i) => list.value(i + 1, 0));
    ok(page.includes(`${ids.length} species are built in`));
    deepStrictEqual(ids.filter((id) => !codeIn(page).includes(id)), []);
  });

  it('name every setting of fishroom.json', () => {
    const settings = tableRowsOf(sectionOf(chapter, '### `fishroom.json`')).flatMap(([cell = '']) => codeIn(cell));
    deepStrictEqual([...settings].sort(), Object.keys(fishroomSchema.properties).filter((name) => name !== '$schema').sort());
  });
});

describe('texts', () => {
  const messages = sources.get('src/base/messages.ts');
  if (messages === undefined) throw new Error('src/base/messages.ts is not there');
  const templates = entriesOf(messages, 'texts');
  const others = [...sources].filter(([path]) => path !== 'src/base/messages.ts').map(([, source]) => source);
  const said = others.flatMap((source) => argumentsOf(source, 'say').flatMap(([code]) => (code === undefined ? [] : choicesOf(code).flatMap(textsIn))));

  it('are all there that are said', () => {
    deepStrictEqual(said.filter(({ pattern }) => ![...templates.keys()].some((code) => pattern.test(code))).map(({ pattern }) => pattern.source), []);
  });

  it('are all said somewhere', () => {
    // Some codes wait in a table or a variable of their type until they are said.
    const waiting = others.flatMap((source) => textsIn(source).filter(({ whole }) => whole?.includes('.') === true));
    const built = others.flatMap(({ text, fileName }) =>
      [...text.matchAll(/(?:: MessageCode|const code) = (`[^`]+`)/g)].flatMap(([, template = '']) => textsIn(ts.createSourceFile(fileName, template, ts.ScriptTarget.ES2022))),
    );
    const used = [...said, ...waiting, ...built];
    const wholes = new Set(used.flatMap(({ whole }) => whole ?? []));
    const patterns = used.flatMap(({ whole, pattern }) => (whole === undefined ? [pattern] : []));
    deepStrictEqual([...templates.keys()].filter((code) => !wholes.has(code) && !patterns.some((pattern) => pattern.test(code))), []);
  });

  it('of help name the options that README.md names', () => {
    const options = (text: string): readonly string[] => sorted([...text.matchAll(/(?<![\w-])--[a-z]+/g)].map(([option]) => option));
    const help = [...templates].filter(([code]) => /^cli\.help(\.|$)/.test(code)).map(([, text]) => text);
    deepStrictEqual(options(sectionOf(readme, '## Command line')), options(`${help.join('\n')} --help`));
  });
});

describe('translations', () => {
  let build: typeof Build;
  let files: ReturnType<typeof build.translations>;
  before(async () => {
    // Not bundled with the tests: it finds the project from where it lies.
    build = (await import(pathToFileURL(resolve('src/build/translations.mjs')).href)) as typeof build;
    files = build.translations();
  });

  it('are there in German, of the catalogue with the schemas and of package.nls.json', () => {
    deepStrictEqual(files.map(({ file, language }) => `${language}: ${file}`).sort(), ['de: l10n/bundle.l10n.de.json', 'de: package.nls.de.json']);
  });

  it('have every text, each with the same places and words of the format, and no other text', () => {
    const faults = files.flatMap(build.faultsOf);
    ok(faults.length === 0, `${faults.join('\n')}\n"npm run texts" leaves an empty place for each text that is missing; fill those.`);
  });

  it('show by these checks what is wrong', () => {
    const [bundle] = files;
    if (bundle === undefined) throw new Error('there is no translation');
    const english = { 'Add {0}': 'Add {0}', 'Read clutches.csv': 'Read clutches.csv', Tank: 'Tank', Room: 'Room' };
    const faulty = (texts: Readonly<Record<string, string>>): readonly string[] => build.faultsOf({ ...bundle, file: 'f', english, places: { 'Add {0}': 'add', 'Read clutches.csv': 'read', Tank: 'tank', Room: 'room' }, texts });
    deepStrictEqual(faulty({ 'Add {0}': '{0} anfügen', 'Read clutches.csv': 'clutches.csv lesen', Tank: 'Becken', Room: 'Raum' }), []);
    deepStrictEqual(faulty({ 'Add {0}': 'anfügen', 'Read clutches.csv': 'bruten.csv lesen', Tank: 'Tank', Old: 'Alt' }), [
      'f has a text that nobody asks for: "Old"',
      'f, add: has other places than the English text (none; English: {0}): "anfügen"',
      'f, read: has other words of the format than the English text (bruten.csv; English: clutches.csv): "bruten.csv lesen"',
      'f, tank: is the same as in English: "Tank"',
      'f, room: lacks "Room"',
    ]);
    deepStrictEqual(faulty({ 'Read clutches.csv': 'clutches.csv lesen', 'Add {0}': '{0} anfügen', Tank: 'Becken', Room: 'Raum' }), ['f is not in the order of the English texts; npm run texts sorts it']);
  });

  it('give each column and sheet its title and description', () => {
    const bundle = files.find(({ file }) => file.startsWith('l10n/'))?.texts ?? {};
    const told = schemas.flatMap(({ title, description, fields }) => [title, description, ...fields.flatMap((field) => [field.title, field.description])]);
    ok(told.length > 300, `found ${told.length} texts`);
    deepStrictEqual(told.filter((text) => (bundle[text] ?? '') === ''), []);
  });

  it('of fishroom.json are made where package.nls.*.json looks for them, with the same rules', () => {
    const made = build.translatedSchemas();
    const named = files.flatMap(({ texts }) => texts['schema.fishroom'] ?? []);
    deepStrictEqual([...made.keys()].map((path) => `./${path}`), named);
    for (const text of made.values()) {
      const told: string[] = [];
      const rules = (schema: string): unknown =>
        JSON.parse(schema, (key, value: unknown) => {
          if ((key !== 'title' && key !== 'description') || typeof value !== 'string') return value;
          told.push(value);
          return undefined;
        });
      deepStrictEqual(rules(text), rules(JSON.stringify(fishroomSchema)));
      const [translated, english] = [told.slice(0, told.length / 2), told.slice(told.length / 2)];
      ok(english.length > 20, `found ${english.length} texts`);
      deepStrictEqual(translated.filter((each, i) => each === english[i]), []);
    }
  });

  it('are packed with the extension', () => {
    const ignored = readFileSync('.vscodeignore', 'utf8').split('\n');
    for (const line of ['!l10n/**', '!package.nls.*.json', '!dist/fishroom.schema.*.json']) ok(ignored.includes(line), line);
    strictEqual(manifest.l10n, './l10n');
  });
});

describe('DEVELOPERS.md', () => {
  it('names files and folders that are there', () => {
    const tops = readdirSync('.');
    const paths = codeIn(developers).filter((code) => /^[\w.@/-]+$/.test(code) && (tops.includes(code) || /^(?:\.ci|l10n|samples|schemas|src|test|webview)(?:\/|$)/.test(code)));
    ok(paths.length > 30, `found ${paths.length} paths`);
    deepStrictEqual(paths.filter((path) => !existsSync(path)), []);
  });

  it('has a row for each folder of src and for the screens, in which it stands', () => {
    const rows = tableRowsOf(sectionOf(developers, '## The way of the data')).map(([cell]) => only(cell));
    const folders = readdirSync('src', { withFileTypes: true }).filter((entry) => entry.isDirectory()).map(({ name }) => `src/${name}`);
    deepStrictEqual(sorted(rows), sorted([...folders, 'webview']));
  });

  it('names every script of package.json, and no page names another', () => {
    const scripts = Object.keys(manifest.scripts);
    const namedIn = (page: string): readonly string[] => sorted([...page.matchAll(/\bnpm (?:run )?(test:?\w*|start|(?<=run )[\w:]+)/g)].map(([, script]) => script ?? ''));
    deepStrictEqual(namedIn(developers), sorted(scripts));
    deepStrictEqual([...namedIn(readme), ...namedIn(samples)].filter((script) => !scripts.includes(script)), []);
  });

  it('lists every package with its exact version and its licence', () => {
    const rows = tableRowsOf(sectionOf(developers, '## Dependencies'));
    const wanted: Readonly<Record<string, string>> = { ...manifest.dependencies, ...manifest.devDependencies };
    const real = Object.entries(wanted).map(([name, version]) => {
      const { license } = JSON.parse(readFileSync(`node_modules/${name}/package.json`, 'utf8')) as { license: string };
      return `${name} ${version} ${license}`;
    });
    deepStrictEqual(rows.map(([name, version = '', licence = '']) => `${only(name)} ${version} ${licence}`).sort(), real.sort());
    ok(rows.every(([, , , reason = '']) => reason !== ''), 'a package without a reason');
  });
});

describe('links', () => {
  it('of all pages lead to headings and files that are there', () => {
    for (const [folder, page] of [['', readme], ['', developers], ['samples/', samples]] as const) {
      for (const [, target = ''] of page.matchAll(/\]\(([^)\s]+)\)/g)) {
        if (/^https?:/.test(target)) continue;
        const [file = '', anchor] = target.split('#');
        if (file !== '') ok(existsSync(folder + file), `${folder}${file} is not there`);
        else ok(headingsOf(page).some((heading) => heading.replace(/^#+ /, '').toLowerCase().replaceAll(' ', '-') === anchor), `there is no heading for #${anchor ?? ''}`);
      }
    }
  });

  it('of README.md to pictures lead to some that are packed with it', () => {
    const packed = new Set(readFileSync('.vscodeignore', 'utf8').split('\n'));
    const pictures = [...readme.matchAll(/!\[[^\]]+\]\(([^)\s]+)\)/g)].map(([, target = '']) => target);
    ok(pictures.length > 8, `found ${pictures.length} pictures`);
    deepStrictEqual(pictures.filter((picture) => !packed.has(`!${picture}`)), []);
  });

  it('of README.md are none that the packer of the extension refuses', () => {
    // It rewrites relative ones to addresses of a repository, which package.json doesn't name, unless it is told not to.
    const relative = [...readme.matchAll(/\]\((?!https?:|#)([^)\s]+)\)/g)].map(([, target]) => target);
    ok(relative.length === 0 || readFileSync('src/build/package.mjs', 'utf8').includes('--no-rewrite-relative-links'), relative.join(', '));
  });
});

describe('samples/README.md', () => {
  interface Shown {
    readonly file: string;
    readonly line: number;
    readonly code: string;
  }

  async function problemsOf(sample: string): Promise<readonly Shown[]> {
    const store = new NodeFileStore(resolve('samples', sample));
    const [fishroom] = await findFishrooms(store);
    if (fishroom === undefined) throw new Error(`${sample} is no fishroom`);
    const plan = new Plan({ machineZone: berlin, now: moment('2026-06-10T09:00', berlin).instant });
    plan.apply(await readAll(store, fishroom));
    return plan.paths().flatMap((path) => {
      const lines = new LineIndex(plan.records.file(path)?.doc.text() ?? '');
      return plan.problems(path).map(({ file, code, span }) => ({ file, code, line: lines.positionAt(span.start).line + 1 }));
    });
  }

  it('says of the messy sample what is found there, and where', async () => {
    const found = await problemsOf('messy');
    const rows = tableRowsOf(sectionOf(samples, '## messy: which line shows what')).map(([place = '', code]) => ({ file: only(place), line: /(\d+)$/.exec(place)?.[1], code: only(code) }));
    ok(rows.length > 40, `found ${rows.length} rows`);
    deepStrictEqual(rows.filter((row) => !found.some(({ file, line, code }) => file === row.file && code === row.code && (row.line === undefined || String(line) === row.line))), []);
  });

  it('names the codes that the real-looking sample shows', async () => {
    const found = new Set<string>((await problemsOf('three-rooms')).map(({ code }) => code));
    const named = codeIn(sectionOf(samples, '## three-rooms: what to look at')).filter((word) => codes.has(word));
    ok(named.length > 4, `found ${named.length} codes`);
    deepStrictEqual(sorted(named.filter((code) => !found.has(code))), []);
  });

  it('names the codes that no sample shows', async () => {
    const found = new Set<string>([...(await problemsOf('messy')), ...(await problemsOf('three-rooms'))].map(({ code }) => code));
    const reported = tableRowsOf(sectionOf(readme, '## Problems')).map(([cell]) => only(cell));
    const said = samples.split('\n').find((line) => line.startsWith('No sample shows')) ?? '';
    deepStrictEqual(sorted(codeIn(said)), sorted(reported.filter((code) => !found.has(code))));
  });
});
