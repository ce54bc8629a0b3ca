import { say, textOf } from '../../base/messages';
import { compareMoments } from '../../base/moment';
import type { Moment } from '../../base/moment';
import type { Stage } from '../../domain/ladder';
import type { Entry } from '../../planner/entry';
import type { ClutchLife } from '../../planner/lives';
import type { Zone } from '../../base/zone';
import { dayMs, wallDays } from '../../base/zone';
import type { DayWords } from './dayWords';
import type { Selection } from './selection';

/** Days across, rooms, tanks and broods down. Places on it are days from its first one, with fractions. */
export interface StripModel {
  readonly title: string;
  readonly firstDay: number;
  readonly days: number;
  /** Now; outside of the days where they aren't of today. */
  readonly now: number;
  readonly ticks: readonly { readonly at: number; readonly text: string; readonly isMonth: boolean }[];
  readonly rows: readonly StripRow[];
}

export type StripRow =
  | { readonly kind: 'room'; readonly id: string; readonly label: string; readonly blocks: readonly Block[]; readonly told: string }
  | { readonly kind: 'tank'; readonly id: string; readonly label: string; readonly beside: string; readonly blocks: readonly Block[]; readonly told: string }
  | { readonly kind: 'clutch'; readonly id: string; readonly label: string; readonly beside: string; readonly bands: readonly Band[]; readonly edges: readonly Edge[]; readonly told: string };

/** A job in the tank, or a window in which its pair is expected to spawn. */
export interface Block {
  readonly kind: 'job' | 'spawn';
  readonly text: string;
  readonly from: number;
  readonly to: number;
  /** The middle of a window. */
  readonly at: number | undefined;
  readonly key: string;
}

/** A stage of a brood. */
export interface Band {
  readonly stage: Stage | 'unanswered';
  readonly word: string;
  readonly from: number;
  readonly to: number;
  /** From where its word can be read: behind the window in which it begins. */
  readonly clear: number;
  readonly isExpected: boolean;
}

/** The 80 % window in which one stage gives way to the next, and its middle. */
export interface Edge {
  readonly from: number;
  readonly at: number;
  readonly to: number;
}

export interface StripSource {
  readonly lives: readonly ClutchLife[];
  /** Of these the jobs and the expected spawns. */
  readonly entries: readonly Entry[];
  readonly tanks: readonly { readonly tank: string; readonly room: string }[];
  readonly selection: Selection;
  readonly words: DayWords;
  readonly now: Moment;
  readonly zone: Zone;
  readonly roomName: (room: string) => string;
}

/** Rooms in walking order with their tanks, each with what is in it on the days; tanks in which nothing is to be seen are left out. */
export function stripOf(source: StripSource, { firstDay, days }: { readonly firstDay: number; readonly days: number }): StripModel {
  const { lives, tanks, selection, words, now, zone, roomName } = source;
  const range = { firstDay, days };
  const at = (moment: Moment): number => place(wallDays(moment.instant, zone) - firstDay);
  const inTank = new Map<string, ClutchLife[]>();
  for (const life of lives) {
    if (selection.species?.includes(life.species) === false) continue;
    const there = inTank.get(life.tank);
    if (there === undefined) inTank.set(life.tank, [life]);
    else there.push(life);
  }
  const { ofTanks, ofRooms } = blocksIn(source, range);
  const known = new Set(tanks.map(({ tank }) => tank));
  // What stands in no tank of the register is shown at the end, so that nothing is out of sight.
  const elsewhere = [...new Set([...inTank.keys(), ...ofTanks.keys()])].filter((tank) => !known.has(tank)).map((tank) => ({ tank, room: '' }));
  const rows: StripRow[] = [];
  const told = (label: string, all: readonly Block[]): string => [label, ...all.map(({ text, from, to }) => textOf(say('calendar.told.block', text, words.day(firstDay + Math.floor(from)), words.day(firstDay + Math.ceil(to) - 1))))].join(', ');
  let room: string | undefined;
  for (const { tank, room: of } of [...tanks, ...elsewhere]) {
    const here = inTank.get(tank) ?? [];
    const own = ofTanks.get(tank) ?? [];
    const ofRoom = ofRooms.get(of) ?? [];
    if (selection.rooms?.includes(of) === false) continue;
    const isSeen = here.length + own.length > 0;
    if (of !== room && (isSeen || ofRoom.length > 0)) {
      const label = of === '' ? textOf(say('calendar.no-room')) : roomName(of);
      rows.push({ kind: 'room', id: of, label, blocks: ofRoom, told: told(label, ofRoom) });
      room = of;
    }
    if (!isSeen) continue;
    const label = tank === '' ? textOf(say('calendar.no-tank')) : tank;
    rows.push({ kind: 'tank', id: tank, label, beside: [...new Set(here.map(({ species }) => species))].join(', '), blocks: own, told: told(label, own) });
    for (const life of here.sort((a, b) => compareMoments(spawnOf(a), spawnOf(b)))) rows.push(clutchRow(life, { at, words, now, days }));
  }
  return { title: textOf(say('calendar.window', words.short(firstDay), words.short(firstDay + days - 1))), firstDay, days, now: at(now), ticks: ticksOf(range, words), rows };
}

function spawnOf({ stages, row }: ClutchLife): Moment {
  const first = stages[0]?.begins;
  if (first === undefined) throw new Error(`a brood of ${row.path} has no spawn`);
  return first;
}

interface Laid {
  readonly at: (moment: Moment) => number;
  readonly words: DayWords;
  readonly now: Moment;
  readonly days: number;
}

function clutchRow({ clutch, pair, stages, ended, isUnanswered }: ClutchLife, { at, words, now, days }: Laid): StripRow {
  const bands: Band[] = [];
  const edges: Edge[] = [];
  const told: string[] = [];
  // Without an end the last stage goes on; of a brood that nobody answered for only what was seen is told, up to now.
  const end = ended === undefined ? (isUnanswered ? Math.max(0, at(now)) : days) : at(ended);
  stages.forEach(({ stage, begins, from, to, basis }, i) => {
    const next = stages[i + 1];
    const band = { stage, word: textOf(say(`calendar.stage.${stage}`)), from: at(begins), to: next === undefined ? end : at(next.begins), clear: Math.max(at(begins), at(to)), isExpected: basis === 'expected' };
    const isSpread = basis === 'expected' && to.day > from.day;
    told.push(textOf(isSpread ? say('calendar.told.window', band.word, words.day(begins.day), words.short(from.day), words.short(to.day)) : say(basis === 'expected' ? 'calendar.told.expected' : 'calendar.told.recorded', band.word, words.day(begins.day))));
    if (band.to > 0 && band.from < days && band.to > band.from) bands.push(band);
    if (basis === 'expected' && to.instant > from.instant && at(to) > 0 && at(from) < days) edges.push({ from: at(from), at: at(begins), to: at(to) });
  });
  if (isUnanswered) {
    bands.push({ stage: 'unanswered', word: textOf(say('calendar.stage.unanswered')), from: end, to: days, clear: end, isExpected: true });
    told.push(textOf(say('calendar.told.unanswered')));
  }
  if (ended !== undefined) told.push(textOf(say('calendar.told.ended', words.day(ended.day))));
  return { kind: 'clutch', id: clutch, label: clutch, beside: pair, bands, edges, told: [clutch, pair, ...told].filter((part) => part !== '').join(', ') };
}

interface Blocks {
  readonly ofTanks: ReadonlyMap<string, readonly Block[]>;
  /** Jobs that touch a whole room. */
  readonly ofRooms: ReadonlyMap<string, readonly Block[]>;
}

function blocksIn({ entries, zone, selection }: StripSource, { firstDay, days }: { readonly firstDay: number; readonly days: number }): Blocks {
  const [ofTanks, ofRooms] = [new Map<string, Block[]>(), new Map<string, Block[]>()];
  const add = (to: Map<string, Block[]>, id: string, block: Block): void => {
    const there = to.get(id);
    if (there === undefined) to.set(id, [block]);
    else there.push(block);
  };
  const at = (moment: Moment): number => place(wallDays(moment.instant, zone) - firstDay);
  for (const { kind, key, action, from, to, due, tank, tanks, room, pair, species } of entries) {
    if (kind !== 'maintenance' && kind !== 'next-spawn') continue;
    if (selection.kinds?.includes(kind) === false || (kind === 'next-spawn' && selection.species?.includes(species) === false)) continue;
    // A bare day is all of it.
    const [start, end] = [from.bare ? from.day - firstDay : at(from), to.bare ? to.day + 1 - firstDay : at(to)];
    if (end <= 0 || start >= days) continue;
    if (kind === 'next-spawn') add(ofTanks, tank, { kind: 'spawn', text: textOf(say('calendar.spawn-of', pair)), from: start, to: end, at: at(due), key });
    const job: Block = { kind: 'job', text: textOf(action), from: start, to: end, at: undefined, key };
    if (kind === 'maintenance' && tank === '') add(ofRooms, room, job);
    if (kind === 'maintenance' && tank !== '') for (const each of tanks) add(ofTanks, each, job);
  }
  return { ofTanks, ofRooms };
}

/** Days, weeks or months, so that about a dozen are named. */
function ticksOf({ firstDay, days }: { readonly firstDay: number; readonly days: number }, words: DayWords): StripModel['ticks'] {
  const step = days <= 21 ? 1 : days <= 100 ? 7 : 0;
  const ticks: { at: number; text: string; isMonth: boolean }[] = [];
  for (let i = 0; i < days; i++) {
    const day = firstDay + i;
    const isMonth = new Date(day * dayMs).getUTCDate() === 1;
    // Weeks begin with their Monday: 1970-01-01 was a Thursday.
    const isNamed = step === 1 || isMonth || (step === 7 && (day + 3) % 7 === 0 && !isNearMonth(day));
    if (isNamed) ticks.push({ at: i, text: step === 1 ? words.day(day) : words.short(day), isMonth });
  }
  return ticks;
}

/** Whether the name of a week would run into that of a month. */
function isNearMonth(day: number): boolean {
  const date = (of: number): number => new Date(of * dayMs).getUTCDate();
  return date(day) <= 4 || date(day + 4) <= 4;
}

/** To about a second: more digits only make what is sent longer. */
function place(days: number): number {
  return Math.round(days * 100_000) / 100_000;
}
