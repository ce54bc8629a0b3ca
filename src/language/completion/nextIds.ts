import { say } from '../../base/messages';
import { formatDay, hasCome } from '../../base/moment';
import { ClutchNames, latestRows, nextOf, seriesIn } from '../../planner/nextNames';
import type { Naming, Series } from '../../planner/nextNames';
import { keyText } from '../../records/row';
import type { Row } from '../../records/row';
import type { Pair } from '../../records/things';
import { pairOf } from '../../records/things';
import { slotOf } from '../../schema/slots';
import type { Asked } from './asked';
import { textIn } from './asked';
import type { Suggestion } from './suggestion';

/** So many series, and so many pairs, are offered. */
const OFFERED = { series: 12, pairs: 40 } as const;

/** The next free names of the row's own thing, by the patterns that the room follows: of a clutch, that of its pair. */
export function nextIds(asked: Asked): readonly Suggestion[] {
  const { schema } = asked.cell.file;
  if (schema.name === 'routines') return routines(asked);
  const all = [...(schema.name === 'clutches' ? clutchNames(asked) : []), ...goingOn(asked)];
  const names = new Map<string, Suggestion>();
  for (const suggestion of all) if (!names.has(suggestion.value)) names.set(suggestion.value, suggestion);
  return [...names.values()];
}

/** Names that go on from the latest rows; those of the row's species first. */
function goingOn(asked: Asked): readonly Suggestion[] {
  const { file } = asked.cell;
  const naming = namingOf(asked);
  const species = textIn(asked, 'species');
  const slot = slotOf(file.schema, 'species');
  const pairSlot = slotOf(file.schema, 'pair');
  const rows = latestRows(naming).filter((row) => file.schema.name !== 'clutches' || row.value(pairSlot) === undefined);
  const seriesOf = (some: readonly Row[]): readonly Series[] => seriesIn(some.map(keyText));
  const near = species === undefined || slot < 0 ? [] : seriesOf(rows.filter((row) => row.value(slot) === species));
  return [...near, ...seriesOf(rows)].slice(0, OFFERED.series).map((series) => ({ value: nextOf(series, naming), kind: 'new name', beside: [say('beside.next-name')] }));
}

/** Of the row's pair; where the row names none, of each that still breeds, the one that should spawn about now first. */
function clutchNames(asked: Asked): readonly Suggestion[] {
  const { view, records } = asked.plan;
  const given = textIn(asked, 'pair');
  const species = textIn(asked, 'species');
  const rows = given === undefined ? [...records.index('pairs').ids()].flatMap((id) => records.index('pairs').row(id) ?? []) : [];
  const nearOf = ({ pair }: Pair): number => {
    const next = view.pair(pair)?.next;
    return next === undefined ? Number.MAX_SAFE_INTEGER : Math.abs(next.expected - view.now.day);
  };
  const pairs = rows
    .map(pairOf)
    .filter((pair) => !hasCome(pair.retired, view.now) && (species === undefined || pair.species === species))
    .map((pair) => ({ pair: pair.pair, near: nearOf(pair) }))
    .sort((a, b) => a.near - b.near)
    .slice(0, OFFERED.pairs)
    .map(({ pair }) => pair);
  const form = new ClutchNames(namingOf(asked));
  return (given === undefined ? pairs : [given]).flatMap((pair): readonly Suggestion[] => {
    const value = form.nextOf(pair);
    if (value === undefined) return [];
    const next = view.pair(pair)?.next;
    const its = records.pair(pair)?.species;
    return [{ value, kind: 'new name', beside: [...(its === undefined ? [] : [its]), next === undefined ? say('beside.next-name') : say('beside.spawn-expected', formatDay(next.expected))] }];
  });
}

function namingOf({ plan: { records }, cell: { file, row } }: Asked): Naming {
  return { records, file, row };
}

/** Routines have names that mean something: a keeper's row goes before the one that comes with the tool. */
function routines({ plan: { records } }: Asked): readonly Suggestion[] {
  return [...records.routines.actionOf].map(([value, action]) => ({ value, kind: 'thing', beside: [action] }));
}
