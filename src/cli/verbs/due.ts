import { say, textOf } from '../../base/messages';
import { formatDay, formatMoment } from '../../base/moment';
import { weekdayOf } from '../../base/weekday';
import { hasHours, isForTheEarliest } from '../../domain/routines';
import { daySheet, isDaySheet } from '../../exchange/daySheet';
import { dueText } from '../../planner/columns/agenda';
import { whoOf } from '../../planner/entry';
import { clockTime } from '../../planner/feedRounds';
import { roundsOf } from '../../planner/rounds';
import type { DueEntry } from '../../planner/due';
import { isInPlan, isToStart } from '../../planner/liveFood';
import type { FoodToStart } from '../../planner/liveFood';
import type { CommandLine } from '../args';
import { complain } from '../complain';
import { foodLine, jsonOfFood } from '../foodLines';
import { writeLines } from '../io';
import type { ExitCode, Io } from '../io';
import { jsonLines } from '../jsonLines';
import { listingOf } from '../listing';
import type { Listed as ListedOf } from '../listing';
import { putOut, readOut } from '../outFile';
import { namedRooms, placeOfRow, readRooms, roomMustBe, unreadSheets, zoneHint } from '../rooms';
import type { Room } from '../rooms';
import { aligned, paintsFor, parted, visible } from '../text';
import type { Cell, Paints } from '../text';
import type { Verb } from '../verb';
import { WrongUse } from '../wrongUse';

/** What is to be done now and in the next days. */
export const due: Verb = { name: 'due', options: ['days', 'room', 'out'], formats: ['text', 'json', 'html'], run };

/** So many days after today, unless the command line says how many. */
const WEEK = 7;

type Listed = ListedOf<DueEntry>;

async function run(line: CommandLine, io: Io): Promise<ExitCode> {
  const { options } = line;
  if (options.format === 'html') return await print(line, io);
  if (options.out !== undefined) throw new WrongUse(say('cli.out.html-alone'));
  const days = options.days ?? WEEK;
  const { listed, unread, now } = await listingOf(line, io, { days, entriesOf: ({ plan }) => plan.due(days) });
  const rooms = listed.map(({ room }) => room);
  writeLines(io.out, options.format === 'json' ? jsonOf(listed, now) : [...parted(textOfAll(listed, { days, paints: paintsFor(io) })), ...zoneHint(rooms)]);
  for (const message of [...unread, ...unreadSheets(rooms)]) complain(io, message);
  return unread.length > 0 ? 2 : 0;
}

/** The day sheet: of today, unless the command line says how many days more. */
async function print({ operands, options }: CommandLine, io: Io): Promise<ExitCode> {
  const { rooms, unread } = await readRooms(operands.length > 0 ? operands : ['.'], { now: options.now, io });
  if (options.room !== undefined) roomMustBe(options.room, rooms);
  const page = daySheet(namedRooms(rooms), { days: options.days ?? 0, room: options.room });
  for (const message of [...unread, ...unreadSheets(rooms)]) complain(io, message);
  if (options.out === undefined) io.out.write(page);
  else {
    const before = readOut(options.out, io);
    if (before.text !== '' && !isDaySheet(before.text)) throw new WrongUse(say('cli.out.foreign', options.out));
    io.out.write(`${textOf(say(putOut(before, page) === 'same' ? 'cli.out.current' : 'cli.out.done', options.out))}\n`);
  }
  return unread.length > 0 ? 2 : 0;
}

/** Whoever reads how much salt live food takes reads the caution too. */
function jsonOf(listed: readonly Listed[], now: string): Iterable<string> {
  const isOneOfSeveral = listed.length > 1;
  return jsonLines(
    { now },
    {
      due: listed.flatMap(({ room, entries }) => entries.map((entry) => jsonOfEntry(entry, room, isOneOfSeveral))),
      food: listed.flatMap(({ room, food }) => food.filter(({ start }) => start.day >= room.plan.now.day).map((each) => jsonOfFood(each, { folder: room.folder, zone: room.plan.records.zone }))),
    },
    listed.some(({ food }) => food.length > 0) ? { caution: textOf(say('food.caution')) } : {},
  );
}

function jsonOfEntry({ occurrence, action, room: name, tank, pair, clutch, row }: DueEntry, room: Room, isOneOfSeveral: boolean): unknown {
  const { routine, level, state, due: time, from, to } = occurrence;
  const { zone } = room.plan.records;
  return {
    room: name,
    tank,
    pair,
    clutch,
    routine: routine.routine,
    action: textOf(action),
    level,
    due: dueText(time, occurrence, zone),
    from: dueText(from, occurrence, zone),
    to: dueText(to, occurrence, zone),
    state,
    ...placeOfRow(row, room, isOneOfSeveral),
  };
}

interface Told {
  readonly days: number;
  readonly paints: Paints;
}

function* textOfAll(listed: readonly Listed[], { days, paints }: Told): Generator<readonly string[]> {
  for (const each of listed) {
    const { room } = each;
    const { plan } = room;
    const today = plan.now.day;
    const order = plan.walkingOrder();
    if (listed.length > 1) yield [paints.heading(visible(room.folder))];
    const overdue = each.entries.filter(({ occurrence }) => occurrence.state === 'overdue');
    const others = each.entries.filter((entry) => entry.occurrence.state !== 'overdue' && !isInPlan(entry, each.food, { now: plan.now, zone: plan.records.zone }));
    const toStart = each.food.filter((food): food is FoodToStart => isToStart(food, plan.now));
    if (overdue.length > 0) yield section(textOf(say('cli.due.overdue', overdue.length)), overdue, { ...each, order, day: today, paints, isOverdue: true });
    let isQuiet = overdue.length === 0;
    for (let day = today; day <= today + days; day++) {
      const ofDay = others.filter(({ occurrence }) => (day === today ? occurrence.due.day <= today : occurrence.due.day === day));
      const lines = toStart.filter(({ start }) => start.day === day).map((food) => `  ${foodLine(food, plan.records.zone)}`);
      if (ofDay.length + lines.length === 0) continue;
      isQuiet = false;
      const [title = '', ...rows] = section(dayName(day, today), ofDay, { ...each, order, day, paints, isOverdue: false });
      yield [title, ...lines, ...rows];
    }
    if (toStart.length > 0) yield [textOf(say('food.caution'))];
    if (isQuiet) yield [textOf(say('cli.due.nothing', formatDay(today + days)))];
  }
}

function dayName(day: number, today: number): string {
  const code = day === today ? 'cli.due.today' : day === today + 1 ? 'cli.due.tomorrow' : 'cli.due.day';
  return textOf(say(code, weekdayOf(day), formatDay(day)));
}

interface Sectioned extends Listed {
  /** Walking order of its tanks. */
  readonly order: (a: DueEntry, b: DueEntry) => number;
  readonly day: number;
  readonly paints: Paints;
  readonly isOverdue: boolean;
}

/** A day, or what is overdue: room by room in walking order, the feeding first. */
function section(title: string, entries: readonly DueEntry[], at: Sectioned): readonly string[] {
  const rooms = new Map<string, DueEntry[]>();
  for (const entry of [...entries].sort(at.order)) {
    const group = groupOf(entry);
    const there = rooms.get(group);
    if (there === undefined) rooms.set(group, [entry]);
    else there.push(entry);
  }
  const rows: Cell[][] = [];
  for (const [room, all] of rooms) {
    // Who keeps no rooms need not read that there are none.
    if (room !== '' || rooms.size > 1) rows.push([{ text: room === '' ? textOf(say('cli.due.no-room')) : visible(room), paint: at.paints.heading }]);
    for (const { minute, tanks, action } of roundsOf(all, { day: at.day, now: at.room.plan.now, config: at.room.plan.records.config, zone: at.room.plan.records.zone })) {
      rows.push([{ text: `  ${minute === undefined ? '' : clockTime(minute)}` }, { text: '' }, { text: '' }, { text: textOf(tanks.length === 1 ? say('cli.due.round.one', action, tanks[0] as string) : say('cli.due.round', action, tanks.length, tanks.join(' '))) }]);
    }
    for (const entry of all) if (entry.occurrence.level !== 'round') rows.push(rowOf(entry, at));
  }
  return [at.paints.heading(title), ...aligned(rows, '  ')];
}

/** The room that an entry is told under; '' for none. Cultures stand anywhere. */
function groupOf({ room, row }: DueEntry): string {
  return room === '' && row.path === 'cultures.csv' ? textOf(say('cli.due.cultures')) : room;
}

function rowOf({ occurrence, action, tank, clutch, pair, row }: DueEntry, { room, day, paints, isOverdue }: Sectioned): Cell[] {
  const { routine, due: time, from, to, isExpected, state } = occurrence;
  const { zone } = room.plan.records;
  const words = (moment: typeof time): string => dueText(moment, occurrence, zone).replace('T', ' ');
  const hours = hasHours(routine) && !time.bare && time.day === day ? formatMoment(time, zone).slice(-5) : '';
  const when: string[] = [];
  if (isOverdue || time.day < day) when.push(textOf(say('cli.due.since', words(time))));
  if (isExpected && state === 'upcoming' && !isForTheEarliest(routine) && words(from) !== words(to)) when.push(textOf(say('cli.due.window', words(from), words(to))));
  return [{ text: `  ${hours}` }, { text: visible(tank) }, { text: visible(whoOf({ tank, clutch, pair, row })) }, { text: visible(textOf(action)) }, { text: when.join('; '), paint: paints.quiet }];
}
