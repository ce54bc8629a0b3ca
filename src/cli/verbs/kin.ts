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
  const pairs = rooms.flatMap(({ plan }) => plan.possiblePairs(species, options.top ?? MOST));
  if (options.format === 'json') writeLines(io.out, jsonLines({ now, species }, { pairs: pairs.map(jsonOf) }));
  else writeLines(io.out, textLines(pairs, species, paintsFor(io)));
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

function jsonOf({ male, female, kinship, pair }: PossiblePair): unknown {
  return { male, female, kinship: kinship === undefined ? null : Number(kinshipText(kinship)), pair: pair ?? null };
}

function* textLines(pairs: readonly PossiblePair[], species: string, paints: Paints): Generator<string> {
  if (pairs.length === 0) {
    yield textOf(say('cli.kin.none', species));
    return;
  }
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
