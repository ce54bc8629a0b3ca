import { equal } from 'node:assert/strict';
import * as l10n from '@vscode/l10n';
import german from '../../../l10n/bundle.l10n.de.json';
import { say, textOf, translated } from '../../../src/base/messages';
import { schemaNamed } from '../../../src/schema/catalog';

describe('texts', () => {
  afterEach(() => l10n.config({ contents: {} }));

  it('are in the language of the bundle, with what stands in their places', () => {
    equal(textOf(say('header-missing', 'tank')), 'The column tank is missing.');
    l10n.config({ contents: german });
    equal(textOf(say('header-missing', 'tank')), 'Die Spalte tank fehlt.');
  });

  it('of the schemas are in that language too, and any other stays as it is', () => {
    const field = schemaNamed('clutches').fieldNamed.get('tank');
    l10n.config({ contents: german });
    equal(translated(field?.title ?? ''), 'Becken');
    equal(translated(field?.description ?? ''), 'Das Becken, in dem abgelaicht oder abgesetzt wurde.');
    equal(translated('A column of my own'), 'A column of my own');
  });
});
