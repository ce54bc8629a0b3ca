import { deepStrictEqual, equal, match, ok } from 'node:assert/strict';
import * as l10n from '@vscode/l10n';
import { runIn, Scratch } from '../../support/commandLine';

const clutches = 'clutch,species,tank,spawned,hatch_expected\nK1,kribensis,T1,2026-03-08T10:00,\nK2,kribensis,T1,never,\n';

describe('the language of the command line', () => {
  let scratch: Scratch;
  beforeEach(() => (scratch = new Scratch({ 'fishroom.json': '{"timezone":"UTC"}', 'clutches.csv': clutches })));
  afterEach(() => {
    scratch.remove();
    l10n.config({ contents: {} });
  });

  it('is German where the environment asks for it, also for what is due and how it came about', async () => {
    const env = { LANG: 'de_DE.UTF-8' };
    const { code, out } = await runIn(scratch.path, ['check'], { env });
    equal(code, 1);
    match(out, /Fehler .*„never“ ist weder Tag noch Zeitpunkt\. Jahr-Monat-Tag schreiben/);
    ok(out.endsWith('1 Fehler, in 1 Datei. Nicht gezeigt: 1 Hinweis; mit --severity hint ist auch das zu sehen.\n'), out);
    match((await runIn(scratch.path, ['due'], { env })).out, /^Heute, Dienstag, 2026-03-10$/m);
    match((await runIn(scratch.path, ['explain', 'K1', 'hatch_expected'], { env })).out, /^Mit +.*hatch_h +\d+ h +eingebaute Artenliste/m);
    equal((await runIn(scratch.path, ['chek'], { env })).err, 'broodsheet: Einen Befehl chek gibt es nicht. War check gemeint?\n');
    match((await runIn(scratch.path, ['--help'], { env })).out, /^Aufruf:$/m);
  });

  it('leaves codes and values of JSON as they are in English', async () => {
    interface Found {
      readonly file: string;
      readonly line: number;
      readonly severity: string;
      readonly code: string;
      readonly message: string;
    }
    const problems = async (lang: string): Promise<readonly Found[]> => {
      const { out } = await runIn(scratch.path, ['check', '--format', 'json'], { env: { LANG: lang } });
      return (JSON.parse(out) as { fishrooms: { problems: Found[] }[] }).fishrooms.flatMap((room) => room.problems);
    };
    const [german, english] = [await problems('de_DE.UTF-8'), await problems('en_GB.UTF-8')];
    const bare = (all: readonly Found[]): unknown => all.map(({ file, line, severity, code }) => ({ file, line, severity, code }));
    deepStrictEqual(bare(german), bare(english));
    deepStrictEqual(german.filter(({ message }, i) => message === english[i]?.message), []);
    const fills = async (lang: string): Promise<string> => (await runIn(scratch.path, ['fill', '--format', 'json'], { env: { LANG: lang } })).out;
    equal(await fills('de_DE.UTF-8'), await fills('C'));
  });

  it('is that of the first of LC_ALL, LC_MESSAGES and LANG that says anything', async () => {
    const title = async (env: Readonly<Record<string, string>>): Promise<string> => (await runIn(scratch.path, ['due'], { env })).out.slice(0, 5);
    equal(await title({ LC_ALL: 'de_AT', LANG: 'en_GB.UTF-8' }), 'Heute');
    equal(await title({ LC_ALL: '', LC_MESSAGES: 'de', LANG: 'en_GB.UTF-8' }), 'Heute');
    equal(await title({ LC_ALL: 'C.UTF-8', LC_MESSAGES: 'de_DE', LANG: 'de_DE' }), 'Today');
  });

  it('is English without a word about it, and for a language that is not there', async () => {
    for (const env of [{}, { LANG: 'fr_FR.UTF-8' }, { LANG: 'POSIX' }, { LANG: 'constructor' }]) match((await runIn(scratch.path, ['due'], { env })).out, /^Today, Tuesday/);
  });
});
