import * as l10n from '@vscode/l10n';
import german from '../../l10n/bundle.l10n.de.json';
import type { Io } from './io';

/** The translations, by language (ISO 639). */
const bundles: ReadonlyMap<string, Record<string, string>> = new Map([['de', german]]);

/** Has all texts in the language of the environment where there is a translation, else in English. */
export function speakAsIn(env: Io['env']): void {
  l10n.config({ contents: bundles.get(languageOf(env)) ?? {} });
}

/** The language of messages as POSIX has it: the first of these that says anything holds, such as `de_AT.UTF-8`. */
function languageOf(env: Io['env']): string {
  const locale = [env['LC_ALL'], env['LC_MESSAGES'], env['LANG']].find((each) => each !== undefined && each !== '') ?? '';
  return /^[A-Za-z]+/.exec(locale)?.[0].toLowerCase() ?? '';
}
