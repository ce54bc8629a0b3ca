import { say, textOf } from '../../base/messages';
import type { Problem } from '../../planner/problem';
import type { Severity } from '../../schema/problemCodes';
import { severities } from '../args';
import type { CommandLine } from '../args';
import { complain } from '../complain';
import { writeLines } from '../io';
import type { ExitCode, Io } from '../io';
import { readRooms, shown, zoneHint } from '../rooms';
import type { Room } from '../rooms';
import { aligned, countOf, paintsFor, visible } from '../text';
import type { Cell, Paints } from '../text';
import type { Verb } from '../verb';

/** What is wrong or due in the records. */
export const check: Verb = { name: 'check', options: ['severity'], run };

interface Checked {
  readonly room: Room;
  /** Those to show, by file. */
  readonly shown: readonly { readonly path: string; readonly problems: readonly Problem[] }[];
}

async function run({ operands, options }: CommandLine, io: Io): Promise<ExitCode> {
  const { rooms, unread, now } = await readRooms(operands.length > 0 ? operands : ['.'], { now: options.now, io });
  const tally = new Map<Severity, number>(severities.map((severity) => [severity, 0]));
  // A person would not see the rest for the hints: one for every column that grew a day older.
  const least = options.severity ?? (options.format === 'json' ? 'hint' : 'information');
  const asked = severities.slice(0, severities.indexOf(least) + 1);
  const checked = rooms.map((room): Checked => {
    const files = room.plan.paths().map((path) => {
      const problems = room.plan.problems(path);
      for (const { severity } of problems) tally.set(severity, (tally.get(severity) ?? 0) + 1);
      return { path, problems: problems.filter(({ severity }) => asked.includes(severity)) };
    });
    return { room, shown: files.filter(({ problems }) => problems.length > 0) };
  });
  writeLines(io.out, options.format === 'json' ? jsonOf(checked, now) : textOfAll(checked, { asked, tally, io }));
  for (const message of unread) complain(io, message);
  if (unread.length > 0) return 2;
  return tally.get('error') === 0 ? 0 : 1;
}

/** One problem a line, so that files of many can be written piece by piece, compared and searched. */
function* jsonOf(checked: readonly Checked[], now: string): Generator<string> {
  yield `{"now":${JSON.stringify(now)},"fishrooms":[`;
  for (const [index, { room, shown: files }] of checked.entries()) {
    yield `{"folder":${JSON.stringify(room.folder)},"problems":[`;
    let isFirst = true;
    for (const { problems } of files) {
      for (const problem of problems) {
        yield (isFirst ? '' : ',') + JSON.stringify(jsonOfProblem(problem, room));
        isFirst = false;
      }
    }
    yield index < checked.length - 1 ? ']},' : ']}';
  }
  yield ']}';
}

function jsonOfProblem({ file, span, severity, code, message, related, fixes }: Problem, { places }: Room): unknown {
  const end = places.at(file, span.end);
  return {
    file,
    ...places.at(file, span.start),
    endLine: end.line,
    endColumn: end.column,
    severity,
    code,
    message: textOf(message),
    related: related.map((other) => ({ file: other.file, line: places.at(other.file, other.span.start).line, message: textOf(other.message) })),
    fixes: fixes.map(({ title }) => textOf(title)),
  };
}

interface Shown {
  readonly asked: readonly Severity[];
  readonly tally: ReadonlyMap<Severity, number>;
  readonly io: Io;
}

function* textOfAll(checked: readonly Checked[], { asked, tally, io }: Shown): Generator<string> {
  const paints = paintsFor(io);
  for (const { room, shown: files } of checked) {
    for (const { path, problems } of files) {
      yield paints.heading(visible(shown(room.folder, path)));
      yield* aligned(problems.flatMap((problem) => rowsOf(problem, room, paints)), '  ');
      yield '';
    }
  }
  yield summary(checked, { asked, tally });
  yield* zoneHint(checked.map(({ room }) => room));
}

function rowsOf({ file, span, severity, code, message, related }: Problem, room: Room, paints: Paints): Cell[][] {
  const { line, column } = room.places.at(file, span.start);
  const rows: Cell[][] = [
    [
      { text: `${line}:${column}` },
      { text: textOf(say(`cli.severity.${severity}`)), paint: paints.severity[severity] },
      { text: code, paint: paints.quiet },
      { text: visible(textOf(message)) },
    ],
  ];
  for (const other of related) {
    const place = `${shown(room.folder, other.file)}:${room.places.at(other.file, other.span.start).line}`;
    rows.push([{ text: '' }, { text: '' }, { text: '' }, { text: `${visible(textOf(other.message))}  ${visible(place)}`, paint: paints.quiet }]);
  }
  return rows;
}

function summary(checked: readonly Checked[], { asked, tally }: Omit<Shown, 'io'>): string {
  const read = countOf('files', checked.reduce((sum, { room }) => sum + room.plan.paths().length, 0));
  const files = countOf('files', checked.reduce((sum, each) => sum + each.shown.length, 0));
  const listed = counts(asked, tally);
  const unasked = severities.filter((severity) => !asked.includes(severity) && tally.get(severity) !== 0);
  const hidden = counts(unasked, tally);
  const least = unasked.at(-1);
  if (least === undefined) return textOf(listed === '' ? say('cli.check.clean', read) : say('cli.check.summary', listed, files));
  return textOf(listed === '' ? say('cli.check.clean-shown', read, hidden, least) : say('cli.check.summary-shown', listed, files, hidden, least));
}

function counts(of: readonly Severity[], tally: ReadonlyMap<Severity, number>): string {
  const counted = of.flatMap((severity) => {
    const count = tally.get(severity) ?? 0;
    return count === 0 ? [] : [countOf(`${severity}s`, count)];
  });
  return counted.join(', ');
}
