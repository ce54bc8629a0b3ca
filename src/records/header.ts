import { say } from '../base/messages';
import type { Message } from '../base/messages';
import type { CsvDocument } from '../csv/document';
import { casterOf } from '../schema/cast';
import type { Caster } from '../schema/cast';
import type { Field, SheetSchema, UnitOf } from '../schema/descriptor';
import { nearest } from '../schema/nearest';
import { slotOf } from '../schema/slots';
import type { CellLayout } from './cells';
import { recurringCellsOf } from './recurringCells';
import type { RecurringCells } from './recurringCells';
import type { CellFault } from './row';

export interface Column {
  readonly header: string;
  readonly field: Field | undefined;
  /** Place of the value in a row's `values`: the field's own, or that of the SI field it stands for. -1: not read. */
  readonly slot: number;
}

/** How the cells of a column become values. */
export interface ReadColumn {
  readonly column: number;
  readonly slot: number;
  readonly cast: Caster;
  /** Where the same texts stand again and again. */
  readonly recurring: RecurringCells | undefined;
  /** Whether any moment may stand there, with its hour or without. */
  readonly isMoment: boolean;
  /** SI value = (value + offset) × factor, for a column in another unit. */
  readonly unit: UnitOf | undefined;
}

/** What the first record says about the columns. */
export interface Header {
  readonly columns: readonly Column[];
  /** Column of a field by its name; undefined where it isn't there. */
  readonly columnOf: ReadonlyMap<string, number>;
  readonly computed: readonly { readonly column: number; readonly field: Field }[];
  /** Columns whose cells are read: all but the computed, the unknown, and those in which anything may stand. */
  readonly read: readonly ReadColumn[];
  /** Columns in which no cell may be empty, and groups of columns of which one cell must be filled. */
  readonly required: readonly number[];
  readonly oneOf: readonly (readonly number[])[];
  /** Columns of moments that may not be later than now. */
  readonly notFuture: readonly { readonly column: number; readonly slot: number }[];
  readonly faults: readonly CellFault[];
  readonly layout: CellLayout;
  readonly text: string;
}

/** Of a text that nobody has read yet. */
export const NO_HEADER: Header = { columns: [], columnOf: new Map(), computed: [], read: [], required: [], oneOf: [], notFuture: [], faults: [], layout: { momentPlaces: [], moments: 0, textColumns: [] }, text: '' };

/** What was last read of each kind of sheet under the same columns of the keeper's own. */
const lastRead = new WeakMap<ReadonlySet<string>, Map<SheetSchema, Header>>();

/** Reads the header of a sheet. Thousands of logs have the same one: it is made once for all that are read one after the other. */
export function readHeader(doc: CsvDocument, schema: SheetSchema, extraColumns: ReadonlySet<string>): Header {
  const text = doc.blocks[0]?.text ?? '';
  let last = lastRead.get(extraColumns);
  if (last === undefined) lastRead.set(extraColumns, (last = new Map<SheetSchema, Header>()));
  let header = last.get(schema);
  if (header?.text !== text) last.set(schema, (header = headerOf(doc, schema, { extraColumns, text })));
  return header;
}

function headerOf(doc: CsvDocument, schema: SheetSchema, { extraColumns, text }: { readonly extraColumns: ReadonlySet<string>; readonly text: string }): Header {
  const columns: Column[] = [];
  const columnOf = new Map<string, number>();
  const unknown = new FirstFaults('header-unknown');
  const duplicate = new FirstFaults('header-duplicate');
  const count = doc.rowCount === 0 || isEmptyRecord(doc, 0) ? 0 : doc.cellCount(0);
  for (let column = 0; column < count; column++) {
    const header = doc.value(0, column);
    const field = schema.fieldNamed.get(header);
    const taken = field !== undefined && (columnOf.has(header) || (field.unitOf !== undefined && columnOf.has(field.unitOf.field)) || hasAlternative(schema, columnOf, header));
    if (taken) {
      duplicate.tell(column, () => ({ code: 'header-duplicate', column, message: say('header-duplicate', header), suggestions: [] }));
      columns.push(unread(header));
      continue;
    }
    if (field === undefined && !extraColumns.has(header)) unknown.tell(column, () => unknownHeader(header, column, schema, columnOf));
    if (field !== undefined) columnOf.set(header, column);
    columns.push(columnFor(header, field, schema));
  }
  const faults = [...unknown.all(), ...duplicate.all(), ...missingHeaders(schema, columnOf, columns.length)];
  const computed = columns.flatMap(({ field }, column) => (field?.computed === true ? [{ column, field }] : []));
  const read = columns.flatMap(({ field, slot }, column) => (field === undefined || slot < 0 || isTextKind(field) ? [] : [readColumn(field, { column, slot, schema })]));
  const required = columns.flatMap(({ field }, column) => (field?.constraints.required === true && !mayComeFromElsewhere(field, schema) ? [column] : []));
  const oneOf = schema.oneOf.map((group) => group.flatMap((name) => columnOf.get(name) ?? [])).filter((group) => group.length > 0);
  const notFuture = columns.flatMap(({ field, slot }, column) => (field?.notFuture === true ? [{ column, slot }] : []));
  return { columns, columnOf, computed, read, required, oneOf, notFuture, faults, layout: layoutOf(schema, columns), text };
}

/** The first record in which anything stands; 0 where none does. */
export function firstRecord(doc: CsvDocument): number {
  for (let record = 0; record < doc.rowCount; record++) if (!isEmptyRecord(doc, record)) return record;
  return 0;
}

/** Whether nothing stands in a record but delimiters, quotation marks and blanks. */
function isEmptyRecord(doc: CsvDocument, record: number): boolean {
  const count = doc.cellCount(record);
  for (let column = 0; column < count; column++) if (doc.value(record, column).trim() !== '') return false;
  return true;
}

function readColumn(field: Field, { column, slot, schema }: { readonly column: number; readonly slot: number; readonly schema: SheetSchema }): ReadColumn {
  const { kind, unitOf } = field;
  return { column, slot, cast: casterOf(field), recurring: recurringCellsOf(field, schema), isMoment: kind === 'moment', unit: unitOf };
}

function isTextKind({ kind }: Field): boolean {
  return kind === 'text' || kind === 'url';
}

function layoutOf({ fields }: SheetSchema, columns: readonly Column[]): CellLayout {
  let moments = 0;
  const momentPlaces = fields.map(({ kind, computed }) => (!computed && (kind === 'moment' || kind === 'day') ? moments++ : undefined));
  const textColumns = fields.map((_, slot) => placeIn(columns, ({ field, slot: own }) => own === slot && field !== undefined && isTextKind(field)));
  return { momentPlaces, moments, textColumns };
}

function placeIn(columns: readonly Column[], isIt: (column: Column) => boolean): number | undefined {
  const place = columns.findIndex(isIt);
  return place < 0 ? undefined : place;
}

/** So many columns are told one by one; a sheet that has more of them is not what it should be, and one word for the others says that. */
const TOLD = 20;

class FirstFaults {
  readonly #code: 'header-unknown' | 'header-duplicate';
  readonly #first: CellFault[] = [];
  #more = 0;
  #next = 0;

  constructor(code: 'header-unknown' | 'header-duplicate') {
    this.#code = code;
  }

  tell(column: number, fault: () => CellFault): void {
    if (this.#first.length < TOLD) {
      this.#first.push(fault());
      return;
    }
    if (this.#more === 0) this.#next = column;
    this.#more++;
  }

  all(): readonly CellFault[] {
    if (this.#more === 0) return this.#first;
    return [...this.#first, { code: this.#code, column: this.#next, message: say(`${this.#code}.more`, this.#more), suggestions: [] }];
  }
}

const UNNAMED: Column = { header: '', field: undefined, slot: -1 };

function unread(header: string): Column {
  return header === '' ? UNNAMED : { ...UNNAMED, header };
}

function columnFor(header: string, field: Field | undefined, schema: SheetSchema): Column {
  if (field === undefined) return unread(header);
  if (field.computed) return { ...UNNAMED, header, field };
  const target = field.unitOf?.field ?? field.name;
  return { header, field, slot: slotOf(schema, target) };
}

/** A species' blank care is taken from the row that it is like, or from the species that come with the tool. */
function mayComeFromElsewhere(field: Field, schema: SheetSchema): boolean {
  return schema.name === 'species' && field.name === 'care';
}

function hasAlternative(schema: SheetSchema, columnOf: ReadonlyMap<string, number>, header: string): boolean {
  return schema.fields.some(({ name, unitOf }) => unitOf?.field === header && columnOf.has(name));
}

function unknownHeader(header: string, column: number, schema: SheetSchema, present: ReadonlyMap<string, number>): CellFault {
  if (header === '') return { code: 'header-unknown', column, message: say('header-unknown.unnamed'), suggestions: [] };
  const near = nearest(header, schema.fields.map(({ name }) => name).filter((name) => !present.has(name)));
  return near === undefined
    ? { code: 'header-unknown', column, message: say('header-unknown', header), suggestions: [] }
    : { code: 'header-unknown', column, message: say('header-unknown.near', header, near), suggestions: [near] };
}

/** Required columns that aren't there, told at the header as a whole. An empty file lacks its header altogether. */
function missingHeaders(schema: SheetSchema, columnOf: ReadonlyMap<string, number>, count: number): readonly CellFault[] {
  const missing: CellFault[] = [];
  const tell = (message: Message): void => {
    missing.push({ code: 'header-missing', column: undefined, message, suggestions: [] });
  };
  const isThere = (name: string): boolean =>
    columnOf.has(name) || schema.fields.some((field) => field.unitOf?.field === name && columnOf.has(field.name));
  const required = schema.fields.filter(({ name, constraints, computed }) => constraints.required === true && !computed && !isThere(name));
  if (count === 0 && required.length > 0) {
    tell(say('header-missing.all', required.map(({ name }) => name).join(', ')));
    return missing;
  }
  for (const { name } of required) tell(say('header-missing', name));
  for (const [one, other] of schema.oneOf) if (!isThere(one) && !isThere(other)) tell(say('header-missing.either', one, other));
  return missing;
}
