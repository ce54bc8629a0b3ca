import { compareTexts } from '../base/order';
import { say } from '../base/messages';
import type { Message } from '../base/messages';
import { formatMoment, isFuture } from '../base/moment';
import type { Moment } from '../base/moment';
import type { Span } from '../base/span';
import { tellUnknown } from '../records/references';
import { firstRecord } from '../records/header';
import { keyText } from '../records/row';
import type { CellFault, Row } from '../records/row';
import { latestIn } from '../records/sheetFile';
import type { SheetFile } from '../records/sheetFile';
import { slotOf } from '../schema/slots';
import { severityOf } from '../schema/problemCodes';
import type { ProblemCode, Severity } from '../schema/problemCodes';
import type { CellChange } from './cellChange';
import { configProblems } from './configProblems';
import type { Evaluation } from './evaluation';
import { fillsOf } from './fills';
import { acceptFix, addColumnFix, addRowFix, padRowFix, suggestionFix, takeOutFix } from './fixes';
import type { Found } from './found';
import { isHandKept } from './handKept';
import { cellSpan, placeOf, spanOf } from './places';
import type { Fix, Problem, Related } from './problem';
import { staleRowsIn, unreadSource } from './unreadSource';

interface Told {
  readonly code: ProblemCode;
  readonly message: Message;
  readonly span: Span;
  readonly related?: (() => readonly Related[]) | undefined;
  readonly fixes?: (() => readonly Fix[]) | undefined;
}

/** A problem whose related places and fixes are worked out when somebody looks at them. */
class ToldProblem implements Problem {
  readonly file: string;
  readonly code: ProblemCode;
  readonly message: Message;
  readonly span: Span;
  readonly #told: Told;
  #related: readonly Related[] | undefined;
  #fixes: readonly Fix[] | undefined;

  constructor(file: string, told: Told) {
    this.file = file;
    this.code = told.code;
    this.message = told.message;
    this.span = told.span;
    this.#told = told;
  }

  get severity(): Severity {
    return severityOf(this.code);
  }

  get related(): readonly Related[] {
    return (this.#related ??= this.#told.related?.() ?? []);
  }

  get fixes(): readonly Fix[] {
    return (this.#fixes ??= this.#told.fixes?.() ?? []);
  }
}

/** All problems of a file in the order of the text, each once. Fixes are worked out when asked for. */
export function problemsOf(path: string, evaluation: Evaluation): readonly Problem[] {
  if (path === 'fishroom.json') return configProblems(evaluation.records);
  const file = evaluation.records.file(path);
  if (file === undefined) return [];
  const told = file.blocked === undefined ? readable(file, evaluation) : blocked(file);
  return told.map((one) => new ToldProblem(path, one)).sort(inOrder);
}

/** By place; at the same place by what they say, so that the order doesn't tell how the records came to be as they are. */
function inOrder(a: Problem, b: Problem): number {
  const byPlace = a.span.start - b.span.start || a.span.end - b.span.end;
  return byPlace !== 0 ? byPlace : compareTexts(a.code, b.code) || compareTexts(JSON.stringify([a.message, a.related]), JSON.stringify([b.message, b.related]));
}

function blocked(file: SheetFile): readonly Told[] {
  if (file.blocked === 'csv-encoding') {
    const start = file.badAt ?? 0;
    return [{ code: 'csv-encoding', message: say('csv-encoding'), span: { start, end: Math.min(start + 1, file.doc.length) } }];
  }
  if (file.blocked === 'csv-conflict') {
    const [first, ...others] = file.conflicts;
    const related = (): readonly Related[] => others.map((span) => ({ file: file.path, span, message: say('csv-conflict.other') }));
    return [{ code: 'csv-conflict', message: say('csv-conflict'), span: first as Span, related }];
  }
  if (file.blocked === 'header-missing') {
    const span = { start: file.doc.rowSpan(0).start, end: file.doc.rowSpan(firstRecord(file.doc)).start };
    return [{ code: 'header-missing', message: say('header-missing.empty'), span, fixes: () => [takeOutFix(file, span)] }];
  }
  // A quote that never closes takes in all that follows: where text stands after a mark in it, that is the fault.
  const issues = file.doc.issues.filter(({ kind }, i, all) => kind !== 'unclosed-quote' || all[i + 1] === undefined);
  return issues.map(({ kind, span }) => ({ code: 'csv-quote', message: say(kind === 'unclosed-quote' ? 'csv-quote.unclosed' : 'csv-quote.after'), span }));
}

function readable(file: SheetFile, evaluation: Evaluation): readonly Told[] {
  const headerSpan = file.doc.rowCount === 0 ? { start: 0, end: 0 } : file.doc.rowSpan(0);
  const found = evaluation.found.in(file.path).filter(({ owner, code }) => !isAccepted(owner, code));
  // One list written out: as arguments of a call, so many would overflow the stack.
  return [
    ...(file.mixedLineEnds ? [{ code: 'csv-line-ends' as const, message: say('csv-line-ends'), span: headerSpan }] : []),
    ...file.header.faults.map((fault) => headerFault(file, fault, headerSpan)),
    ...orphan(file, evaluation, headerSpan),
    ...cellFaults(file),
    ...unknownReferences(file, evaluation),
    ...clashes(file, evaluation),
    ...future(file, evaluation),
    ...found.map((one) => ruleProblem(file, one, evaluation)),
    ...stale(file, evaluation),
  ];
}

function headerFault(file: SheetFile, fault: CellFault, whole: Span): Told {
  const span = fault.column === undefined ? whole : file.doc.span(0, fault.column);
  const missing = fault.code === 'header-missing' && file.header.columns.length > 0 ? fault.message.args : undefined;
  return {
    code: fault.code,
    message: fault.message,
    span,
    fixes: () =>
      missing === undefined
        ? fault.suggestions.map((value) => suggestionFix(file, 0, { column: fault.column as number, value, safe: false }))
        : missing.map((header) => addColumnFix(file, String(header))),
  };
}

function orphan(file: SheetFile, { records }: Evaluation, span: Span): readonly Told[] {
  if (file.thing === undefined) return [];
  const thing = file.thing;
  const sheet = file.schema.thing === 'clutch' ? 'clutches' : 'tanks';
  const index = records.targets.index(sheet);
  if (index === undefined || index.has(thing)) return [];
  return [{ code: 'log-orphan', message: say('log-orphan', thing, `${sheet}.csv`), span, fixes: () => addRowFix(records, sheet, thing) }];
}

function cellFaults(file: SheetFile): readonly Told[] {
  const told: Told[] = [];
  for (const block of file.blocks) {
    for (const row of block.faulty) {
      for (const fault of row.faults) if (!isAccepted(row, fault.code)) told.push(cellProblem(file, row, fault));
    }
  }
  return told;
}

function cellProblem(file: SheetFile, row: Row, fault: CellFault): Told {
  const { column, code, message, suggestions } = fault;
  const safe = suggestions.length === 1 && message.code.endsWith('.blanks');
  return {
    code,
    message,
    span: cellSpan(file, row, column),
    fixes: () =>
      column === undefined ? padRowFix(file, file.recordOf(row)) : suggestions.map((value) => suggestionFix(file, file.recordOf(row), { column, value, safe })),
  };
}

function unknownReferences(file: SheetFile, { records }: Evaluation): readonly Told[] {
  const unknown = records
    .unknownIn(file.path)
    .filter(({ row }) => row.wellFormed && !isAccepted(row, 'ref-unknown'))
    .flatMap(({ row, references }) => references.map((reference) => ({ row, reference, cell: file.cellText(row, reference.column) ?? '' })));
  return tellUnknown(unknown, records.targets).map(({ row, fault }, i) => {
    const { sheet, id } = (unknown[i] as (typeof unknown)[number]).reference;
    const problem = cellProblem(file, row, fault);
    return { ...problem, fixes: () => [...(problem.fixes?.() ?? []), ...addRowFix(records, sheet, id)] };
  });
}

function clashes(file: SheetFile, { records }: Evaluation): readonly Told[] {
  if (file.schema.role !== 'register') return [];
  const told: Told[] = [];
  for (const [first, ...others] of records.index(file.schema.name).clashes()) {
    if (first?.path !== file.path) continue;
    const span = spanOf(file, first, undefined);
    const name = keyText(first);
    for (const row of others) {
      if (isAccepted(row, 'id-duplicate')) continue;
      const same = row.value(0) === first.value(0);
      told.push({
        code: 'id-duplicate',
        message: same ? say('id-duplicate', name) : say('id-duplicate.case', keyText(row), name),
        span: spanOf(file, row, undefined),
        related: () => [{ file: file.path, span, message: say('related.first') }],
      });
    }
  }
  return told;
}

function future(file: SheetFile, { now, zone }: Evaluation): readonly Told[] {
  const told: Told[] = [];
  for (const block of file.blocks) {
    if (latestIn(block, file.header) <= now.instant) continue;
    for (const row of block.rows) {
      if (!row.wellFormed || isAccepted(row, 'time-future')) continue;
      for (const { column, slot } of file.header.notFuture) {
        const time = row.value(slot) as Moment | undefined;
        if (time === undefined || !isFuture(time, now)) continue;
        told.push({ code: 'time-future', message: say('time-future', formatMoment(time, zone)), span: cellSpan(file, row, column) });
      }
    }
  }
  return told;
}

/** Whether the keeper knows: the code stands in the row's own `accept` cell. */
function isAccepted(row: Row, code: ProblemCode): boolean {
  const { schema, header } = row.block.file;
  if (!header.columnOf.has('accept')) return false;
  const accepted = row.value(slotOf(schema, 'accept')) as readonly string[] | undefined;
  return accepted?.includes(code) === true;
}

function ruleProblem(file: SheetFile, found: Found, { records }: Evaluation): Told {
  return {
    code: found.code,
    message: found.message,
    span: spanOf(file, found.row, found.header),
    related: () =>
      found.related.flatMap(({ row, header, message }) => {
        const place = placeOf({ row, header }, records);
        return place === undefined ? [] : [{ ...place, message }];
      }),
    fixes: () => [...(found.fixes?.() ?? []), ...(severityOf(found.code) === 'error' ? [] : acceptFix(found.owner, found.code, records))],
  };
}

function staleMessage(header: string, rows: number, handKept: boolean): Message {
  if (handKept) return say(rows === 1 ? 'computed-stale.hand-kept.one' : 'computed-stale.hand-kept', header, rows);
  return say(rows === 1 ? 'computed-stale.one' : 'computed-stale', header, rows);
}

function stale(file: SheetFile, evaluation: Evaluation): readonly Told[] {
  const fills = new ColumnFills(file, evaluation);
  const { records } = evaluation;
  return file.header.computed.flatMap(({ column, field }, i) => {
    const rows = records.unread.isEmpty ? (file.staleCounts[i] ?? 0) : staleRowsIn(file, i, records).length;
    if (rows === 0 || unreadSource(file, field.name, records) !== undefined) return [];
    const handKept = isHandKept(file, i, evaluation);
    return [
      {
        code: 'computed-stale' as const,
        message: staleMessage(field.name, rows, handKept),
        span: file.doc.span(0, column),
        fixes: () => fillColumnFixes(file, field.name, fills),
      },
    ];
  });
}

/** The column filled but for what the keeper wrote there, and filled whole, which is not to be done unasked. */
function fillColumnFixes(file: SheetFile, header: string, fills: ColumnFills): readonly Fix[] {
  const [ours, all] = [fills.of(header, { overwrite: false }), fills.of(header, { overwrite: true })];
  const fix = (cells: readonly CellChange[], safe: boolean): Fix => ({
    title: say(!safe ? 'fix.fill-column.over' : cells.length === 1 ? 'fix.fill-column.one' : 'fix.fill-column', cells.length, header),
    safe,
    edits: [{ file: file.path, edits: cells.flatMap(({ edits }) => edits) }],
  });
  return [...(ours.length > 0 ? [fix(ours, true)] : []), ...(all.length > ours.length ? [fix(all, false)] : [])];
}

/**
 * What a fill would change in each column of a file. Whoever asks for all columns, one after the other, has it worked out
 * once; of a long register that was never filled it is very much, so it is held no longer than memory allows.
 */
class ColumnFills {
  readonly #file: SheetFile;
  readonly #evaluation: Evaluation;
  readonly #known = new Map<boolean, { readonly doc: SheetFile['doc']; readonly changes: WeakRef<ReadonlyMap<string, readonly CellChange[]>> }>();

  constructor(file: SheetFile, evaluation: Evaluation) {
    this.#file = file;
    this.#evaluation = evaluation;
  }

  /** In the text as it is now. */
  of(header: string, { overwrite }: { readonly overwrite: boolean }): readonly CellChange[] {
    const { doc, path } = this.#file;
    const known = this.#known.get(overwrite);
    let changes = known?.doc === doc ? known.changes.deref() : undefined;
    if (changes === undefined) {
      changes = byHeader(fillsOf(path, this.#evaluation, overwrite).changes);
      this.#known.set(overwrite, { doc, changes: new WeakRef(changes) });
    }
    return changes.get(header) ?? [];
  }
}

function byHeader(changes: readonly CellChange[]): ReadonlyMap<string, readonly CellChange[]> {
  const columns = new Map<string, CellChange[]>();
  for (const change of changes) {
    const column = columns.get(change.header);
    if (column === undefined) columns.set(change.header, [change]);
    else column.push(change);
  }
  return columns;
}
