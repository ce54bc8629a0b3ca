import { say, textOf } from '../../base/messages';
import type { Explanation } from '../../planner/explanation';
import type { Place } from '../../planner/problem';
import type { CommandLine } from '../args';
import { complain } from '../complain';
import { writeLines } from '../io';
import type { ExitCode, Io } from '../io';
import { readRooms, shown, zoneHint } from '../rooms';
import type { Room } from '../rooms';
import { lineOf, targetOf } from '../target';
import type { Target } from '../target';
import { aligned, paintsFor, visible } from '../text';
import type { Cell, Paints } from '../text';
import type { Verb } from '../verb';
import { WrongUse } from '../wrongUse';

/** How a computed cell came about. */
export const explain: Verb = { name: 'explain', options: ['in'], run };

async function run({ operands, options }: CommandLine, io: Io): Promise<ExitCode> {
  const [row, header, ...more] = operands;
  if (row === undefined || header === undefined || more.length > 0) throw new WrongUse(say('cli.explain.operands'));
  const { rooms, unread, now } = await readRooms([options.in ?? '.'], { now: options.now, io });
  const target = targetOf(row, header, { rooms, cwd: io.cwd });
  const { room, file, record } = target;
  const explanation = room.plan.explainCell(file.path, record, header);
  if (explanation === undefined) throw new WrongUse(say('cli.explain.nothing', shown(room.folder, file.path), lineOf(room, file, record), header));
  writeLines(io.out, options.format === 'json' ? [JSON.stringify(jsonOf(explanation, target, now))] : textLines(explanation, target, paintsFor(io)));
  for (const message of unread) complain(io, message);
  return unread.length > 0 ? 2 : 0;
}

function jsonOf({ header, value, formula, inputs, constants, window, notes }: Explanation, { room, file, record }: Target, now: string): unknown {
  return {
    now,
    folder: room.folder,
    file: file.path,
    line: lineOf(room, file, record),
    header,
    value,
    formula: textOf(formula),
    inputs: inputs.map((input) => ({ name: textOf(input.name), value: input.value, ...(input.place === undefined ? nowhere : placeIn(room, input.place)) })),
    constants: constants.map(({ name, value: amount, unit, source, place }) => ({
      name: textOf(name),
      value: amount,
      unit: unit ?? null,
      source: textOf(source),
      ...(place === undefined ? {} : { file: place.file, line: placeIn(room, place).line }),
    })),
    window: window ?? null,
    notes: notes.map(textOf),
  };
}

/** An input that stands in no file. */
const nowhere = { file: null, line: null, column: null };

function placeIn({ places }: Room, { file, span }: Place): { readonly file: string; readonly line: number; readonly column: number } {
  return { file, ...places.at(file, span.start) };
}

function* textLines({ header, value, formula, inputs, constants, window, notes }: Explanation, { room, file, record }: Target, paints: Paints): Generator<string> {
  const where = (place: Place | undefined): string => (place === undefined ? '' : visible(`${shown(room.folder, place.file)}:${placeIn(room, place).line}`));
  yield paints.heading(`${header}  ${value === '' ? textOf(say('cli.explain.empty')) : visible(value)}`);
  yield paints.quiet(visible(`${shown(room.folder, file.path)}:${lineOf(room, file, record)}`));
  yield '';
  const sections: Section[] = [
    { title: textOf(say('cli.explain.how')), rows: [[{ text: visible(textOf(formula)) }]] },
    { title: textOf(say('cli.explain.window')), rows: window === undefined ? [] : [[{ text: textOf(say('cli.explain.window.days', window.from, window.to, window.expected)) }]] },
    { title: textOf(say('cli.explain.inputs')), rows: inputs.map((input) => [{ text: visible(textOf(input.name)) }, { text: visible(input.value) }, { text: where(input.place), paint: paints.quiet }]) },
    {
      title: textOf(say('cli.explain.constants')),
      rows: constants.map(({ name, value: amount, unit, source, place }) => [
        { text: visible(textOf(name)) },
        { text: visible(unit === undefined ? amount : `${amount} ${unit}`) },
        { text: [visible(textOf(source)), where(place)].filter((part) => part !== '').join('  '), paint: paints.quiet },
      ]),
    },
    { title: textOf(say('cli.explain.notes')), rows: notes.map((note) => [{ text: visible(textOf(note)) }]) },
  ];
  yield* sectionLines(sections);
  yield* zoneHint([room]);
}

interface Section {
  readonly title: string;
  readonly rows: readonly (readonly Cell[])[];
}

/** Every section beside its title; those without rows are left out. */
function sectionLines(sections: readonly Section[]): string[] {
  const margin = Math.max(...sections.map(({ title }) => title.length)) + 2;
  return sections.flatMap(({ title, rows }) => aligned(rows, '').map((line, index) => (index === 0 ? title : '').padEnd(margin) + line));
}
