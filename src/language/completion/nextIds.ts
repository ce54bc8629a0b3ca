import { say } from '../../base/messages';
import { formatDay, hasCome } from '../../base/moment';
import { keyText } from '../../records/row';
import type { Row } from '../../records/row';
import type { Pair } from '../../records/things';
import { pairOf } from '../../records/things';
import { slotOf } from '../../schema/slots';
import type { Asked } from './asked';
import { textIn } from './asked';
import type { Suggestion } from './suggestion';

/** Names that go on in counting: all that stands before the number and behind it, the largest number, and its digits where zeros fill it up. */
interface Series {
  readonly before: string;
  readonly behind: string;
  readonly largest: number;
  readonly digits: number;
}

/** So many rows from the end say how a room names its things. */
const LOOKED_AT = 2_000;
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
  const species = textIn(asked, 'species');
  const slot = slotOf(file.schema, 'species');
  const pairSlot = slotOf(file.schema, 'pair');
  const rows = latestRows(asked).filter((row) => file.schema.name !== 'clutches' || row.values[pairSlot] === undefined);
  const seriesOf = (some: readonly Row[]): readonly Series[] => seriesIn(some.map(keyText));
  const near = species === undefined || slot < 0 ? [] : seriesOf(rows.filter((row) => row.values[slot] === species));
  return [...near, ...seriesOf(rows)].slice(0, OFFERED.series).map((series) => ({ value: nextOf(series, asked), kind: 'new name', beside: [say('beside.next-name')] }));
}

/** The other rows of the sheet, from its end. */
function latestRows({ cell: { file, row: own } }: Asked): readonly Row[] {
  const found: Row[] = [];
  for (let i = file.blocks.length - 1; i >= 0 && found.length < LOOKED_AT; i--) {
    const { rows } = file.blocks[i] as (typeof file.blocks)[number];
    for (let j = rows.length - 1; j >= 0; j--) if (rows[j] !== own && keyText(rows[j] as Row) !== '') found.push(rows[j] as Row);
  }
  return found;
}

/** The series that names belong to, that of the first name first. */
function seriesIn(names: readonly string[]): readonly Series[] {
  const all = new Map<string, Series>();
  for (const name of names) {
    const match = /^(.*?)(\d{1,15})(\D*)$/.exec(name);
    if (match === null) continue;
    const [, before = '', digits = '', behind = ''] = match;
    const key = `${before}\n${behind}`;
    const there = all.get(key);
    const width = digits.startsWith('0') ? digits.length : 0;
    all.set(key, { before, behind, largest: Math.max(Number(digits), there?.largest ?? 0), digits: Math.max(width, there?.digits ?? 0) });
  }
  return [...all.values()];
}

/** The first free name behind the largest of a series. */
function nextOf({ before, behind, largest, digits }: Series, { plan: { records }, cell: { file, row: own } }: Asked): string {
  const index = records.index(file.schema.name);
  for (let number = largest + 1; ; number++) {
    const name = `${before}${String(number).padStart(digits, '0')}${behind}`;
    if (index.rows(name).every((row) => row === own)) return name;
  }
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
  const form = new ClutchForm(asked);
  return (given === undefined ? pairs : [given]).flatMap((pair): readonly Suggestion[] => {
    const value = form.nextOf(pair);
    if (value === undefined) return [];
    const next = view.pair(pair)?.next;
    const its = records.pair(pair)?.species;
    return [{ value, kind: 'new name', beside: [...(its === undefined ? [] : [its]), next === undefined ? say('beside.next-name') : say('beside.spawn-expected', formatDay(next.expected))] }];
  });
}

/** How clutches are named after their pairs. */
class ClutchForm {
  readonly #asked: Asked;
  #usual: { readonly between: string; readonly digits: number } | 'none' | undefined;

  constructor(asked: Asked) {
    this.#asked = asked;
  }

  /** The next name of a pair's clutches: as its own go on, else as those of other pairs begin. */
  nextOf(pair: string): string | undefined {
    const { plan, cell } = this.#asked;
    const names = plan.records.clutchRowsOf(pair).filter((row) => row !== cell.row).map(keyText);
    const [own] = seriesIn([...names].reverse());
    if (own !== undefined) return nextOf(own, this.#asked);
    const usual = (this.#usual ??= this.#findUsual() ?? 'none');
    return usual === 'none' ? undefined : nextOf({ before: pair + usual.between, behind: '', largest: 0, digits: usual.digits }, this.#asked);
  }

  #findUsual(): { readonly between: string; readonly digits: number } | undefined {
    const slot = slotOf(this.#asked.cell.file.schema, 'pair');
    for (const row of latestRows(this.#asked)) {
      const pair = row.values[slot] as string | undefined;
      const match = pair === undefined || !keyText(row).startsWith(pair) ? null : /^([._-])(\d+)$/.exec(keyText(row).slice(pair.length));
      if (match !== null) return { between: match[1] as string, digits: (match[2] as string).startsWith('0') ? (match[2] as string).length : 0 };
    }
    return undefined;
  }
}

/** Routines have names that mean something: a keeper's row goes before the one that comes with the tool. */
function routines({ plan: { records } }: Asked): readonly Suggestion[] {
  return [...records.routines.actionOf].map(([value, action]) => ({ value, kind: 'thing', beside: [action] }));
}
