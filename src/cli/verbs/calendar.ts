import { say, textOf } from '../../base/messages';
import { calendarText } from '../../exchange/calendarText';
import { roomEvents } from '../../exchange/roomEvents';
import { storedEvents } from '../../exchange/storedCalendar';
import { entryKinds } from '../../planner/entry';
import type { EntryKind } from '../../planner/entry';
import type { CommandLine } from '../args';
import { complain } from '../complain';
import type { ExitCode, Io } from '../io';
import { putOut, readOut } from '../outFile';
import { namedRooms, readRooms, roomMustBe, unreadSheets } from '../rooms';
import type { Verb } from '../verb';
import { WrongUse } from '../wrongUse';

/** A file for the calendar of a phone. */
export const calendar: Verb = { name: 'calendar', options: ['out', 'days', 'room', 'kind'], formats: ['text'], run };

/** So many days after today, unless the command line says how many. */
const TWO_MONTHS = 60;

async function run({ operands, options }: CommandLine, io: Io): Promise<ExitCode> {
  const kinds = kindsOf(options.kinds);
  const { rooms, unread } = await readRooms(operands.length > 0 ? operands : ['.'], { now: options.now, io });
  if (options.room !== undefined) roomMustBe(options.room, rooms);
  const named = namedRooms(rooms);
  const only = options.room === undefined ? undefined : new Set([options.room]);
  const events = named.flatMap(({ name, plan }) => roomEvents(plan.coming(options.days ?? TWO_MONTHS), { fishroom: name, now: plan.now, zone: plan.records.zone, config: plan.records.config, rooms: only, kinds }));
  const [first] = rooms;
  if (first === undefined) throw new Error('there is no fishroom');
  const common = { name: named.map(({ name }) => name).join(' + '), now: first.plan.now.instant, zone: first.plan.records.zone };
  const missing = unreadSheets(rooms);
  for (const message of [...unread, ...missing]) complain(io, message);
  if (options.out === undefined) io.out.write(calendarText(events, { ...common, stored: new Map() }).text);
  else {
    const before = readOut(options.out, io);
    const stored = storedEvents(before.text);
    if (stored === undefined) throw new WrongUse(say('cli.out.foreign', options.out));
    if (unread.length + missing.length > 0) {
      complain(io, say('cli.calendar.unread', options.out));
      return 2;
    }
    const { text, events: count, added, changed, cancelled } = calendarText(events, { ...common, stored });
    const told = putOut(before, text) === 'same' ? say('cli.calendar.current', options.out, count) : say('cli.calendar.written', options.out, count, added, changed, cancelled);
    io.out.write(`${textOf(told)}\n`);
  }
  return unread.length > 0 ? 2 : 0;
}

function kindsOf(written: readonly string[] | undefined): ReadonlySet<EntryKind> | undefined {
  if (written === undefined) return undefined;
  return new Set(
    written.map((each) => {
      const kind = entryKinds.find((candidate) => candidate === each.trim());
      if (kind === undefined) throw new WrongUse(say('cli.calendar.kind', each, entryKinds.join(', ')));
      return kind;
    }),
  );
}
