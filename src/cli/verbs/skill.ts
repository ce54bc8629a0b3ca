import { say, textOf } from '../../base/messages';
import type { Message } from '../../base/messages';
import type { Score } from '../../domain/skill';
import { FEWEST } from '../../planner/skillTally';
import type { SkillLine, SkillReport, SkillUnit, TrialLine } from '../../planner/skillTally';
import type { CommandLine } from '../args';
import { complain } from '../complain';
import { writeLines } from '../io';
import type { ExitCode, Io } from '../io';
import { jsonLines } from '../jsonLines';
import { readRooms, unreadSheets, zoneHint } from '../rooms';
import type { Room } from '../rooms';
import { aligned, paintsFor, visible } from '../text';
import type { Cell, Paints } from '../text';
import type { Verb } from '../verb';

/** How good the forecasts of the past were. */
export const skill: Verb = { name: 'skill', options: [], run };

interface Told {
  readonly room: Room;
  readonly report: SkillReport;
}

async function run({ operands, options }: CommandLine, io: Io): Promise<ExitCode> {
  const { rooms, unread, now } = await readRooms(operands.length > 0 ? operands : ['.'], { now: options.now, io });
  const told = rooms.map((room): Told => ({ room, report: room.plan.skill() }));
  writeLines(io.out, options.format === 'json' ? jsonOf(told, now) : [...textLines(told, paintsFor(io)), ...zoneHint(rooms)]);
  for (const message of [...unread, ...unreadSheets(rooms)]) complain(io, message);
  return unread.length > 0 ? 2 : 0;
}

function jsonOf(told: readonly Told[], now: string): Iterable<string> {
  const folderOf = ({ folder }: Room): object => (told.length > 1 ? { folder } : {});
  return jsonLines(
    { now },
    {
      skill: told.flatMap(({ room, report }) => report.lines.map((line) => ({ ...folderOf(room), ...jsonOfLine(line) }))),
      tried: told.flatMap(({ room, report }) => report.trials.map((line) => ({ ...folderOf(room), ...jsonOfTrial(line) }))),
    },
  );
}

function jsonOfLine({ quantity, species, pair, unit, ...score }: SkillLine): object {
  return { quantity, ...(species !== undefined && { species }), ...(pair !== undefined && { pair }), n: score.n, ...jsonOfScore(score), unit };
}

function jsonOfTrial({ trial, quantity, unit, tried, filled }: TrialLine): object {
  return { trial, quantity, n: tried.n, ...jsonOfScore(tried), unit, filled: jsonOfScore(filled) };
}

function jsonOfScore({ n, held, mae, maeProfile, maeMean }: Score): object {
  const rounded = (value: number): number => Number(value.toFixed(2));
  return { held, held_pct: Number(((100 * held) / n).toFixed(1)), mae: rounded(mae), mae_profile: rounded(maeProfile), mae_mean: maeMean === undefined ? null : rounded(maeMean) };
}

function* textLines(told: readonly Told[], paints: Paints): Generator<string> {
  let isFirst = true;
  for (const { room, report } of told) {
    if (!isFirst) yield '';
    isFirst = false;
    if (told.length > 1) yield paints.heading(visible(room.folder));
    yield* reportLines(report, paints);
  }
}

function* reportLines({ lines, trials }: SkillReport, paints: Paints): Generator<string> {
  if (lines.length === 0) yield textOf(say('cli.skill.none'));
  const isOneSpecies = new Set(lines.flatMap(({ species }) => species ?? [])).size === 1;
  for (const total of lines) {
    if (total.species !== undefined || total.pair !== undefined) continue;
    yield textOf(sentenceOf(total));
    if (total.n < FEWEST) continue;
    const parts = lines.filter((line) => line.quantity === total.quantity && line.n >= FEWEST && (line.pair !== undefined || (line.species !== undefined && !isOneSpecies)));
    yield* aligned(parts.map((line) => rowOf(line, paints)), '  ');
  }
  const enough = trials.filter(({ tried }) => tried.n >= FEWEST);
  if (enough.length === 0) return;
  yield '';
  yield paints.heading(textOf(say('cli.skill.tried')));
  for (const { trial, unit, tried, filled } of enough) {
    yield textOf(say(`cli.skill.tried.${trial}`, tried.n, percent(tried), size(tried.mae, unit), percent(filled), size(filled.mae, unit)));
  }
}

function sentenceOf({ quantity, unit, n, held, mae, maeProfile, maeMean }: SkillLine): Message {
  const name = textOf(say(`cli.skill.${quantity}`));
  if (n < FEWEST) return n === 1 ? say('cli.skill.few.one', name, FEWEST) : say('cli.skill.few', name, n, FEWEST);
  const told = [name, n, held, percent({ n, held }), size(mae, unit), size(maeProfile, unit)] as const;
  return maeMean === undefined ? say('cli.skill.line.no-mean', ...told) : say('cli.skill.line', ...told, size(maeMean, unit));
}

function rowOf({ species, pair, unit, n, held, mae, maeProfile, maeMean }: SkillLine, paints: Paints): Cell[] {
  const others = [textOf(say('cli.skill.part.profile', size(maeProfile, unit))), ...(maeMean === undefined ? [] : [textOf(say('cli.skill.part.mean', size(maeMean, unit)))])];
  return [
    { text: pair === undefined ? visible(species ?? '') : textOf(say('cli.skill.pair', visible(pair))) },
    { text: textOf(say('cli.skill.part.n', n)) },
    { text: textOf(say('cli.skill.part.held', percent({ n, held }))) },
    { text: textOf(say('cli.skill.part.missed', size(mae, unit))) },
    { text: others.join('; '), paint: paints.quiet },
  ];
}

function percent({ n, held }: Pick<Score, 'n' | 'held'>): number {
  return Math.round((100 * held) / n);
}

function size(value: number, unit: SkillUnit): string {
  return textOf(say(unit === 'h' ? 'cli.skill.hours' : 'cli.skill.days', value.toFixed(1)));
}
