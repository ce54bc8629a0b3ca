import type { Message } from '../base/messages';
import type { FoodDay } from '../domain/liveFood';
import type { CommandLine } from './args';
import type { Io } from './io';
import { readRooms, roomMustBe } from './rooms';
import type { Room } from './rooms';

/** What a verb lists of a fishroom. */
export interface Listed<Entry> {
  readonly room: Room;
  readonly entries: readonly Entry[];
  /** Live food of so many days, for the whole fishroom: none where one room alone is asked for. */
  readonly food: readonly FoodDay[];
}

export interface Listing<Entry> {
  readonly listed: readonly Listed<Entry>[];
  readonly unread: readonly Message[];
  readonly now: string;
}

/** Reads the fishrooms of a command line and lists what is asked of each: of all its rooms, or of the one that the command line names. Throws WrongUse. */
export async function listingOf<Entry extends { readonly room: string }>(
  { operands, options }: CommandLine,
  io: Io,
  { days, entriesOf }: { readonly days: number; readonly entriesOf: (room: Room) => readonly Entry[] },
): Promise<Listing<Entry>> {
  const { rooms, unread, now } = await readRooms(operands.length > 0 ? operands : ['.'], { now: options.now, io });
  const { room: only } = options;
  if (only !== undefined) roomMustBe(only, rooms);
  const listed = rooms.map((room): Listed<Entry> => ({
    room,
    entries: entriesOf(room).filter((entry) => only === undefined || entry.room === only),
    food: only === undefined ? room.plan.liveFood(days) : [],
  }));
  return { listed, unread, now };
}
