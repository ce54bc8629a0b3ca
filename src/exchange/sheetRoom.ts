import { say, textOf } from '../base/messages';
import { formatDay, nearestMinuteOfDay } from '../base/moment';
import type { Moment } from '../base/moment';
import type { Zone } from '../base/zone';
import { whoOf } from '../planner/entry';
import type { Entry, Feeding } from '../planner/entry';
import type { FishroomConfig } from '../records/config';
import { clockTime } from '../planner/feedRounds';
import { dayWords, isCarried, isSpread, momentWords, saleLines } from './entryText';
import { foodTitle, foodWhom } from './foodText';
import { element } from './html';
import type { Html } from './html';
import { cautionsOn } from './jobGuide';
import { blank, blanksOf } from './sheetBlanks';
import { feedingTables } from './sheetFeeding';

/** As many broods are named in a line; of more their number tells more. */
const NAMED = 6;

/** What is to be done in one room. */
export interface RoomJobs {
  /** In walking order, in one tank by moment. */
  readonly entries: readonly Entry[];
  readonly feedings: readonly Feeding[];
}

export interface SheetDays {
  /** Days since 1970-01-01, the last one too. The first is today. */
  readonly first: number;
  readonly last: number;
  readonly now: Moment;
  readonly zone: Zone;
  readonly config: FishroomConfig;
}

/** The page of a room: what is overdue, each day, what may come, lines for notes. Each entry stands there once. */
export function roomPage(heading: Html, { entries, feedings }: RoomJobs, days: SheetDays): Html {
  const { first, last } = days;
  const parted = new Map<Part, Entry[]>();
  for (const entry of entries) {
    const at = partOf(entry, days);
    const others = parted.get(at);
    if (others === undefined) parted.set(at, [entry]);
    else others.push(entry);
  }
  const part = (title: string, at: Part): readonly Html[] => {
    const rows = (parted.get(at) ?? []).map((entry) => rowOf(entry, days));
    return rows.length === 0 ? [] : [element('h2', {}, title), element('table', {}, element('tbody', {}, ...rows))];
  };
  const fed = feedingTables(feedings, days);
  const parts = [...part(textOf(say('exchange.sheet.overdue')), 'overdue'), ...(fed === undefined ? [] : [fed])];
  for (let day = first; day <= last; day++) parts.push(...part(day === first ? textOf(say('exchange.sheet.today', dayWords(day))) : dayWords(day), day));
  parts.push(...part(textOf(say('exchange.sheet.may-come')), 'later'), ...part(textOf(say('calendar.kind.sale')), 'for sale'));
  if (parts.length === 0) parts.push(element('p', {}, textOf(say('exchange.sheet.nothing', dayWords(last)))));
  const cautions = new Set(entries.flatMap(cautionsOn).map(textOf));
  return element('section', {}, heading, ...parts, ...[...cautions].map((caution) => element('p', { class: 'caution' }, caution)), notes());
}

/** A day, or what belongs to none of them. */
type Part = number | 'overdue' | 'later' | 'for sale';

/** Fish that are ready to sell are no work of any day, unless a routine asks to offer them. */
function partOf({ state, due, kind, occurrence }: Entry, { first, last }: SheetDays): Part {
  if (state === 'overdue') return 'overdue';
  if (kind === 'sale' && occurrence === undefined) return 'for sale';
  return due.day > last ? 'later' : Math.max(first, due.day);
}

function rowOf(entry: Entry, days: SheetDays): Html {
  const { due, tank, tanks, species, food } = entry;
  const isTimed = entry.hasHours && !due.bare && !isSpread(entry, true) && !isCarried(entry, days.first) && due.day >= days.first;
  const what = food === undefined ? textOf(entry.action) : foodTitle(food);
  const details = [...(food === undefined ? [] : foodWhom(food, { most: NAMED })), [...whenLines(entry, days), ...saleLines(entry)].join(' · ')].filter((line) => line !== '');
  const where = tanks.length > 1 ? tanks.join(' ') : tank;
  const whom = whoOf(entry);
  const isNowhere = where === '' && whom === '';
  return element(
    'tr',
    {},
    element('td', { class: 'tick' }, element('span', { class: 'box' })),
    ...(isNowhere ? [] : [element('td', { class: 'whom' }, element('b', {}, where), where === '' || whom === '' ? undefined : ' · ', whom, species === '' ? undefined : element('div', { class: 'quiet' }, species))]),
    element('td', isNowhere ? { colspan: '2' } : {}, isTimed ? element('b', {}, `${clockTime(nearestMinuteOfDay(due, days.zone))} `) : undefined, what, ...details.map((line) => element('div', { class: 'quiet' }, line))),
    element('td', { class: 'write' }, ...blanksOf(entry)),
  );
}

/** Since when, or between when and when; nothing where the day above it says all. */
function whenLines(entry: Entry, { first, zone }: SheetDays): readonly string[] {
  const { due, from, to, hasHours, isExpected } = entry;
  const isToTheHour = hasHours && !due.bare;
  const words = (moment: Moment): string => (isToTheHour ? momentWords(moment, { isToTheHour, zone }) : formatDay(moment.day));
  if (isCarried(entry, first) || (due.day < first && !isSpread(entry, isToTheHour))) return [textOf(say('exchange.sheet.since', words(due)))];
  if (!isSpread(entry, isToTheHour)) return [];
  return [textOf(say(isExpected ? 'exchange.sheet.between' : 'exchange.sheet.from-to', words(from), words(to)))];
}

function notes(): Html {
  return element('div', { class: 'notes' }, blank(textOf(say('exchange.sheet.dead'))), blank(textOf(say('exchange.sheet.notes'))), blank(''), blank(''));
}
