import { say, textOf } from '../base/messages';
import { formatMoment } from '../base/moment';
import type { Plan } from '../planner/plan';
import { roomName } from '../planner/roomName';
import type { Entry, EntryKind, Feeding } from '../planner/entry';
import { STYLE, STYLE_HASH } from './daySheetStyle';
import { dayWords } from './entryText';
import { element } from './html';
import type { Html } from './html';
import { guidePage } from './sheetGuide';
import { roomPage } from './sheetRoom';
import type { SheetDays } from './sheetRoom';

/** A fishroom as it is told of on paper. */
export interface SheetFishroom {
  readonly name: string;
  readonly plan: Plan;
}

export interface SheetOptions {
  /** So many days after today; with any the page for whoever minds the rooms comes first. */
  readonly days: number;
  /** Only this room. */
  readonly room?: string | undefined;
}

/** Names the program that wrote a page; it is how its own pages are known again, so it never changes. */
const GENERATOR = 'Broodsheet day sheet';

/** Whether a text is a day sheet that was written before. */
export function isDaySheet(page: string): boolean {
  return page.startsWith('<!DOCTYPE html>') && page.slice(0, 2000).includes(`<meta name="generator" content="${GENERATOR}"/>`);
}

/**
 * A page to print for each room in walking order, with what is to be done in some days, as one HTML file that needs nothing else: no script, no font, no
 * picture. Each fishroom's days begin with its own today.
 */
export function daySheet(fishrooms: readonly SheetFishroom[], { days, room }: SheetOptions): string {
  const pages = fishrooms.flatMap((fishroom) => pagesOf(fishroom, { days, room }));
  const title = [textOf(say('exchange.sheet.one-day')), ...fishrooms.map(({ name }) => name)].join(' · ');
  const head = element(
    'head',
    {},
    element('meta', { charset: 'utf-8' }),
    element('meta', { 'http-equiv': 'Content-Security-Policy', content: `default-src 'none'; style-src 'sha256-${STYLE_HASH}'` }),
    element('meta', { name: 'generator', content: GENERATOR }),
    element('meta', { name: 'viewport', content: 'width=device-width' }),
    element('title', {}, title),
    // As it is: it is ours, and a quotation mark in it would be another byte for its hash.
    { html: `<style>${STYLE}</style>` },
  );
  return `<!DOCTYPE html>\n${element('html', { lang: textOf(say('exchange.language')) }, head, element('body', {}, ...pages)).html}\n`;
}

function pagesOf({ name, plan }: SheetFishroom, { days, room: only }: SheetOptions): readonly Html[] {
  const { now } = plan;
  const { zone, config } = plan.records;
  const sheet: SheetDays = { first: now.day, last: now.day + days, now, zone, config };
  const coming = plan.coming(days);
  const order = plan.placeOrder();
  const isWanted = ({ room }: { readonly room: string }): boolean => only === undefined || room === only;
  const entries = coming.entries.filter(isWanted).sort((a, b) => order(a, b) || a.due.instant - b.due.instant);
  const feedings = coming.feedings.filter(isWanted);
  const rooms = new Map<string, { readonly entries: Entry[]; readonly feedings: Feeding[] }>();
  const jobsIn = (room: string): { readonly entries: Entry[]; readonly feedings: Feeding[] } => {
    let jobs = rooms.get(room);
    if (jobs === undefined) rooms.set(room, (jobs = { entries: [], feedings: [] }));
    return jobs;
  };
  for (const { room } of [...entries, ...feedings].sort(order)) jobsIn(room);
  for (const entry of entries) jobsIn(entry.room).entries.push(entry);
  for (const feeding of feedings) jobsIn(feeding.room).feedings.push(feeding);
  if (rooms.size === 0) jobsIn(only ?? '');
  const dates = days === 0 ? dayWords(sheet.first) : textOf(say('exchange.sheet.days', dayWords(sheet.first), dayWords(sheet.last)));
  const asOf = textOf(say('exchange.sheet.as-of', formatMoment(now, zone).replace('T', ' ')));
  const unread = plan.unreadPaths().map((path) => element('p', {}, element('strong', {}, textOf(say('exchange.sheet.unread', path)))));
  const heading = (title: string): Html => element('header', {}, element('h1', {}, title), element('p', {}, dates), element('p', { class: 'quiet' }, [name, asOf].filter((part) => part !== '').join(' · ')), ...unread);
  const kinds = new Set<EntryKind>([...entries.map(({ kind }) => kind), ...(feedings.length === 0 ? [] : (['feeding'] as const))]);
  const guide = days === 0 ? [] : [guidePage(heading(textOf(say('exchange.sheet.guide'))), kinds)];
  return [...guide, ...[...rooms].map(([room, jobs]) => roomPage(heading(room === '' ? textOf(say('exchange.sheet.all-rooms')) : roomName(room, plan.records)), jobs, sheet))];
}
