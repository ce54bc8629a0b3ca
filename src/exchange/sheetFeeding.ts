import { say, textOf } from '../base/messages';
import { formatDay } from '../base/moment';
import { weekdayOf } from '../base/weekday';
import type { Feeding } from '../planner/entry';
import type { FishroomConfig } from '../records/config';
import { clockTime, FeedDays } from '../planner/feedRounds';
import { element } from './html';
import type { Html } from './html';

/** Of so many days there is room beside each other. */
const DAYS_BESIDE = 7;

interface Line {
  readonly when: string;
  readonly what: string;
  /** How many boxes there are on each day. */
  readonly times: Map<number, number>;
}

/** The feeding of one room as rounds, the days beside each other with a box for each round; undefined where nobody is fed. */
export function feedingTables(feedings: readonly Feeding[], { first, last, config }: { readonly first: number; readonly last: number; readonly config: FishroomConfig }): Html | undefined {
  const tables: Html[] = [];
  for (let day = first; day <= last; day += DAYS_BESIDE) {
    const table = feedingTable(feedings, { first: day, last: Math.min(last, day + DAYS_BESIDE - 1), config });
    if (table !== undefined) tables.push(table);
  }
  return tables.length === 0 ? undefined : element('div', {}, element('h2', {}, textOf(say('calendar.kind.feeding'))), ...tables);
}

function feedingTable(feedings: readonly Feeding[], { first, last, config }: { readonly first: number; readonly last: number; readonly config: FishroomConfig }): Html | undefined {
  const lines = linesOf(feedings, { first, last, config });
  if (lines.length === 0) return undefined;
  const days = Array.from({ length: last - first + 1 }, (_, i) => first + i);
  const boxes = (count: number): readonly (Html | string)[] => (count === 0 ? ['–'] : Array.from({ length: count }, () => element('span', { class: 'box' })));
  const cells = (line: Line): readonly Html[] => [element('td', { class: 'when' }, line.when), element('td', {}, line.what)];
  if (days.length === 1) return element('table', {}, element('tbody', {}, ...lines.map((line) => element('tr', {}, element('td', { class: 'tick' }, ...boxes(line.times.get(first) ?? 0)), ...cells(line)))));
  const heads = days.map((day) => element('th', { class: 'day' }, weekdayOf(day).slice(0, 2), element('br', {}), formatDay(day).slice(5)));
  return element(
    'table',
    {},
    element('thead', {}, element('tr', {}, element('th', { class: 'when' }), element('th', {}), ...heads)),
    element('tbody', {}, ...lines.map((line) => element('tr', {}, ...cells(line), ...days.map((day) => element('td', { class: 'day' }, ...boxes(line.times.get(day) ?? 0)))))),
  );
}

/** Rounds with the same food for the same tanks are one line, on whichever days they are. */
function linesOf(feedings: readonly Feeding[], { first, last, config }: { readonly first: number; readonly last: number; readonly config: FishroomConfig }): readonly Line[] {
  const lines = new Map<string, Line & { readonly order: number }>();
  const fed = new FeedDays(feedings, config);
  for (let day = first; day <= last; day++) {
    for (const { minute, times, action, tanksByRoom } of fed.on(day)?.turns ?? []) {
      const tanks = [...tanksByRoom.values()].flat();
      const what = `${action}: ${tanks.length === 1 ? (tanks[0] as string) : `${textOf(say('exchange.sheet.tanks', tanks.length))}: ${tanks.join(' ')}`}`;
      const when = minute === undefined ? '' : clockTime(minute);
      const key = JSON.stringify([when, what]);
      let line = lines.get(key);
      if (line === undefined) lines.set(key, (line = { when, what, times: new Map(), order: minute ?? 0 }));
      line.times.set(day, times);
    }
  }
  return [...lines.values()].sort((a, b) => a.order - b.order);
}
