import { say, textOf } from '../../base/messages';
import { kinshipText } from '../../planner/columns/lineage';
import type { PossiblePair } from '../../planner/possiblePairs';
import { nearest } from '../../schema/nearest';
import type { CommandLine } from '../args';
import { complain } from '../complain';
import { writeLines } from '../io';
import type { ExitCode, Io } from '../io';
import { jsonLines } from '../jsonLines';
import { readRooms, unreadSheets } from '../rooms';
import type { Room } from '../rooms';
import { aligned, paintsFor, visible } from '../text';
import type { Paints } from '../text';
import type { Verb } from '../verb';
import { WrongUse } from '../wrongUse';

/** Which fish of a species could be put together, the least related first. */
export const kin: Verb = { name: 'kin', options: ['in', 'top'], run };

/** So many pairs, unless the command line says how many. */
const MOST = 20;

async function run({ operands, options }: CommandLine, io: Io): Promise<ExitCode> {
  const [species, ...more] = operands;
  if (species === undefined || more.length > 0) throw new WrongUse(say('cli.kin.operands'));
  const { rooms, unread, now } = await readRooms([options.in ?? '.'], { now: options.now, io });
  mustHave(species, rooms);
  const found = rooms.map(({ folder, plan }) => ({ folder, pairs: plan.possiblePairs(species, options.top ?? MOST) })).filter(({ pairs }) => pairs.length > 0);
  // Fish of two fishrooms may have the same name.
  const folderOf = (folder: string): object => (found.length > 1 ? { folder } : {});
  if (options.format === 'json') writeLines(io.out, jsonLines({ now, species }, { pairs: found.flatMap(({ folder, pairs }) => pairs.map((pair) => ({ ...folderOf(folder), ...jsonOf(pair) }))) }));
  else writeLines(io.out, textLines(found, species, paintsFor(io)));
  for (const message of [...unread, ...unreadSheets(rooms)]) complain(io, message);
  return unread.length > 0 ? 2 : 0;
}

function mustHave(species: string, rooms: readonly Room[]): void {
  const known = new Set(rooms.flatMap(({ plan }) => [...(plan.records.file('fish.csv')?.rows() ?? [])].map((row) => row.value(1) as string | undefined)).filter((id) => id !== undefined));
  if (known.size === 0) throw new WrongUse(say('cli.kin.no-fish'));
  if (known.has(species)) return;
  const near = nearest(species, [...known]);
  throw new WrongUse(near === undefined ? say('cli.kin.species', species, [...known].sort().join(', ')) : say('cli.kin.species.near', species, near));
}

function jsonOf({ male, female, kinship, pair }: PossiblePair): object {
  return { male, female, kinship: kinship === undefined ? null : Number(kinshipText(kinship)), pair: pair ?? null };
}

interface RoomPairs {
  readonly folder: string;
  readonly pairs: readonly PossiblePair[];
}

function* textLines(found: readonly RoomPairs[], species: string, paints: Paints): Generator<string> {
  if (found.length === 0) yield textOf(say('cli.kin.none', species));
  for (const { folder, pairs } of found) {
    if (found.length > 1) yield paints.heading(visible(folder));
    yield* roomLines(pairs, species, paints);
  }
}

function* roomLines(pairs: readonly PossiblePair[], species: string, paints: Paints): Generator<string> {
  yield paints.heading(textOf(say('cli.kin.title', species)));
  yield* aligned(
    pairs.map(({ male, female, kinship, pair }) => [
      { text: kinship === undefined ? textOf(say('cli.kin.unknown')) : kinshipText(kinship) },
      { text: visible(male) },
      { text: visible(female) },
      { text: pair === undefined ? '' : textOf(say('cli.kin.pair', visible(pair))), paint: paints.quiet },
    ]),
    '  ',
  );
}
