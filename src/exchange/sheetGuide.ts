import { say, textOf } from '../base/messages';
import { entryKinds } from '../planner/entry';
import type { EntryKind } from '../planner/entry';
import { element } from './html';
import type { Html } from './html';
import { adviceOn, houseRules } from './jobGuide';
import { blank } from './sheetBlanks';

/** The page for whoever minds the rooms while the keeper is away: whom to call, what always holds, and of each kind of job that is listed what it means and what not to do. */
export function guidePage(heading: Html, kinds: ReadonlySet<EntryKind>): Html {
  const said = (code: 'keeper' | 'veterinarian' | 'rules' | 'jobs' | 'boxes' | 'common-practice'): string => textOf(say(`exchange.sheet.${code}`));
  const rows = entryKinds.filter((kind) => kinds.has(kind)).map((kind) => {
    const { means, beware } = adviceOn(kind);
    return element('tr', {}, element('td', { class: 'kind' }, textOf(say(`calendar.kind.${kind}`))), element('td', {}, textOf(means), ' ', element('b', {}, textOf(beware))));
  });
  return element(
    'section',
    { class: 'guide' },
    heading,
    blank(said('keeper')),
    blank(said('veterinarian')),
    element('h2', {}, said('rules')),
    element('ul', {}, ...houseRules().map((rule) => element('li', {}, textOf(rule)))),
    ...(rows.length === 0 ? [] : [element('h2', {}, said('jobs')), element('p', {}, said('boxes')), element('table', {}, element('tbody', {}, ...rows))]),
    element('p', { class: 'quiet' }, said('common-practice')),
  );
}
