import { say, textOf } from '../../base/messages';
import { formatDay, formatMoment } from '../../base/moment';
import type { Moment } from '../../base/moment';
import { weekdayOf } from '../../base/weekday';
import { gramsUp } from '../../domain/liveFood';
import type { FoodDay } from '../../domain/liveFood';
import type { AheadEntry, AheadKind, Sale } from '../../planner/ahead';
import type { CommandLine } from '../args';
import { complain } from '../complain';
import { jsonOfFood } from '../foodLines';
import { writeLines } from '../io';
import type { ExitCode, Io } from '../io';
import { jsonLines } from '../jsonLines';
import { listingOf } from '../listing';
import type { Listed as ListedOf } from '../listing';
import { placeOfRow, unreadSheets, zoneHint } from '../rooms';
import type { Room } from '../rooms';
import { aligned, paintsFor, parted, visible } from '../text';
import type { Cell, Paints } from '../text';
import type { Verb } from '../verb';

/** What is to be expected in the next weeks. */
export const ahead: Verb = { name: 'ahead', options: ['days', 'room'], run };

/** So many days after today, unless the command line says how many. */
const TWO_MONTHS = 60;

const kinds = ['hatch', 'release', 'first-feed', 'next-spawn', 'sale'] as const satisfies readonly AheadKind[];

type Listed = ListedOf<AheadEntry>;

async function run(line: CommandLine, io: Io): Promise<ExitCode> {
  const { options } = line;
  const days = options.days ?? TWO_MONTHS;
  const { listed, unread, now } = await listingOf(line, io, { days, entriesOf: ({ plan }) => plan.ahead(days) });
  const rooms = listed.map(({ room }) => room);
  writeLines(io.out, options.format === 'json' ? jsonOf(listed, now) : [...parted(textOfAll(listed, days, paintsFor(io))), ...zoneHint(rooms)]);
  for (const message of [...unread, ...unreadSheets(rooms)]) complain(io, message);
  return unread.length > 0 ? 2 : 0;
}

/** Whoever reads how much salt live food takes reads the caution too. */
function jsonOf(listed: readonly Listed[], now: string): Iterable<string> {
  const isOneOfSeveral = listed.length > 1;
  return jsonLines(
    { now },
    {
      ahead: listed.flatMap(({ room, entries }) => entries.map((entry) => jsonOfEntry(entry, room, isOneOfSeveral))),
      food: listed.flatMap(({ room, food }) => food.map((each) => jsonOfFood(each, { folder: room.folder, zone: room.plan.records.zone }))),
    },
    listed.some(({ food }) => food.length > 0) ? { caution: textOf(say('food.caution')) } : {},
  );
}

function jsonOfEntry({ kind, room: name, tank, pair, clutch, species, from, expected, to, observations, row, sale }: AheadEntry, room: Room, isOneOfSeveral: boolean): unknown {
  const told = (moment: Moment): string => whenOf(moment, room);
  return { kind, room: name, tank, pair, clutch, species, expected: told(expected), from: told(from), to: told(to), observations, ...(sale === undefined ? {} : jsonOfSale(sale)), ...placeOfRow(row, room, isOneOfSeveral) };
}

function jsonOfSale({ minMm, heldUntil, fish, total, uncounted }: Sale): object {
  return { min_mm: minMm ?? null, fish: fish ?? null, total, uncounted, hold_until: heldUntil === undefined ? null : formatDay(heldUntil.day) };
}

/** A day where only the day is known. */
function whenOf(moment: Moment, { plan }: Room): string {
  return moment.bare ? formatDay(moment.day) : formatMoment(moment, plan.records.zone);
}

function* textOfAll(listed: readonly Listed[], days: number, paints: Paints): Generator<readonly string[]> {
  for (const { room, entries, food } of listed) {
    if (listed.length > 1) yield [paints.heading(visible(room.folder))];
    for (const kind of kinds) {
      const ofKind = entries.filter((entry) => entry.kind === kind);
      if (ofKind.length > 0) yield [paints.heading(textOf(say(`cli.ahead.${kind}`))), ...aligned(ofKind.map((entry) => rowOf(entry, room, paints)), '  ')];
    }
    const weeks = weeksOf(food, room.plan.now.day);
    if (weeks.length > 0) yield [paints.heading(textOf(say('cli.ahead.food'))), ...aligned(weeks, '  ')];
    if (entries.length + weeks.length === 0) yield [textOf(say('cli.ahead.nothing', formatDay(room.plan.now.day + days)))];
  }
}

function rowOf({ kind, tank, pair, clutch, species, from, expected, to, observations, sale }: AheadEntry, room: Room, paints: Paints): Cell[] {
  const told = (moment: Moment): string => whenOf(moment, room).replace('T', ' ');
  const isNow = sale !== undefined && expected.day <= room.plan.now.day;
  return [
    { text: isNow ? textOf(say('cli.ahead.now')) : `${weekdayOf(expected.day)}, ${told(expected)}` },
    { text: visible(tank) },
    { text: visible(kind === 'next-spawn' ? pair : clutch) },
    { text: visible(species) },
    ...(sale === undefined ? [] : cellsOf(sale)),
    { text: isNow ? '' : textOf(observations === 0 ? say('cli.ahead.window', told(from), told(to)) : say('cli.ahead.window.learned', told(from), told(to), observations)), paint: paints.quiet },
  ];
}

/** Grams of cysts week by week, which is what has to be in the cupboard; `due` says of each day what to start. */
function weeksOf(food: readonly FoodDay[], today: number): Cell[][] {
  const weeks = new Map<number, number[]>();
  for (const { day, amount, coveredBy } of food) {
    if (amount === undefined || coveredBy.length > 0) continue;
    const week = Math.floor((day - today) / 7);
    const grams = weeks.get(week) ?? [];
    grams.push(amount.grams);
    weeks.set(week, grams);
  }
  return [...weeks].map(([week, grams]): Cell[] => {
    const [first, last] = [today + 7 * week, today + 7 * week + 6];
    const inAll = grams.reduce((sum, each) => sum + each, 0);
    return [{ text: textOf(say('cli.ahead.week', formatDay(first), formatDay(last))) }, { text: textOf(say('cli.ahead.grams', gramsUp(inAll))) }, { text: textOf(say('cli.ahead.grams-a-day', gramsUp(Math.max(...grams)))) }];
  });
}

/** How long, how many, and how many of the species in all. */
function cellsOf({ minMm, fish, total, uncounted }: Sale): Cell[] {
  return [
    { text: minMm === undefined ? '' : textOf(say('cli.ahead.from-mm', minMm)) },
    { text: fish === undefined ? textOf(say('cli.ahead.uncounted')) : textOf(say('cli.ahead.fish', fish)) },
    { text: uncounted === 0 ? textOf(say('cli.ahead.total', total)) : textOf(say('cli.ahead.total.uncounted', total, uncounted)) },
  ];
}
