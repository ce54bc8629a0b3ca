/**
 * What a sheet descriptor (`schemas/<sheet>.schema.json`) says, typed. The JSON is Table Schema
 * (https://specs.frictionlessdata.io/table-schema/): `fields`, `primaryKey`, `foreignKeys`, `missingValues`, and per
 * field `name`, `title`, `description`, `type`, `constraints`. Whatever else is declared here is our own and
 * ignored by other readers of Table Schema.
 */

/**
 * What a cell holds, finer than Table Schema's `type`:
 * - `id` names a thing; `ids` several, separated by blanks
 * - `text` anything; `url` an address, or a path seen from the sheet's folder
 * - `enum` one of `constraints.enum`; `codes` several of `words`, separated by blanks
 * - `integer`, `number` with `.` for decimals
 * - `count` a whole number, with `~` before it when it was only estimated
 * - `moment` ISO 8601 day or day and time, with `~` before it when it is only about then; `day` the same without a time
 * - `duration` ISO 8601, or one of `words`, or with `orMoment` a moment
 */
export type FieldKind =
  | 'id'
  | 'ids'
  | 'text'
  | 'url'
  | 'enum'
  | 'codes'
  | 'integer'
  | 'number'
  | 'count'
  | 'moment'
  | 'day'
  | 'duration';

/** Table Schema constraints. Bounds are numbers, for a duration ISO 8601 texts. */
export interface Constraints {
  readonly required?: boolean;
  readonly unique?: boolean;
  readonly enum?: readonly string[];
  readonly minimum?: number | string;
  readonly maximum?: number | string;
  readonly exclusiveMinimum?: number | string;
}

/** A column accepted instead of the SI one named `field`: SI value = (value + offset) × factor. */
export interface UnitOf {
  readonly field: string;
  readonly offset: number;
  readonly factor: number;
}

/** The sheet that a cell refers to, told by another cell of its row. */
export interface ReferencesBy {
  readonly field: string;
  /** Value of that cell → name of the sheet; with any other value the cell refers to nothing. */
  readonly sheets: Readonly<Record<string, SheetName>>;
}

export interface Field {
  readonly name: string;
  readonly title: string;
  /** Plain English for keepers; one or two sentences. */
  readonly description: string;
  readonly type: 'string' | 'integer' | 'number' | 'duration';
  readonly kind: FieldKind;
  readonly constraints: Constraints;
  /** The tool fills this column; every other is the keeper's. */
  readonly computed: boolean;
  /** The unit of the number, as people write it: `mm`, `°C`, `h`. */
  readonly unit?: string;
  readonly unitOf?: UnitOf;
  /** The sheet whose key this cell names; taken from `foreignKeys`, for `ids` (no Table Schema key) from the field. */
  readonly references?: SheetName;
  readonly referencesBy?: ReferencesBy;
  /** A moment later than now is a problem and counts for nothing. */
  readonly notFuture: boolean;
  /** The milestone whose time the cell is. */
  readonly milestone?: 'spawned' | 'hatched' | 'free_swimming';
  /** Rows of one key may repeat when they differ in such a column, and hold where all of them match. */
  readonly filter: boolean;
  /** Words allowed: each in a `codes` cell, one of them in place of a duration. In JSON `"problem-codes"` stands for all of those. */
  readonly words?: readonly string[];
  /** A moment may stand in place of a duration. */
  readonly orMoment: boolean;
}

export type SheetName =
  | 'rooms'
  | 'tanks'
  | 'species'
  | 'pairs'
  | 'fish'
  | 'clutches'
  | 'clutch-log'
  | 'log'
  | 'tank-log'
  | 'readings'
  | 'routines'
  | 'maintenance'
  | 'cultures'
  | 'orders'
  | 'prices';

export interface SheetSchema {
  readonly name: SheetName;
  readonly title: string;
  readonly description: string;
  /** Where the sheet lies in its fishroom; `clutches/**` + `/*.csv` are files named by the id of their thing. */
  readonly path: string;
  /** A register has one row per thing, a log one row per happening. */
  readonly role: 'register' | 'log';
  /** Of a log: the kind of thing its rows are about. */
  readonly thing?: 'clutch' | 'tank';
  readonly fields: readonly Field[];
  readonly fieldNamed: ReadonlyMap<string, Field>;
  /** The column that names the row's thing. Unique unless there are filters. */
  readonly key?: string;
  /** Columns that make rows of one key distinct; empty where the key alone is unique. */
  readonly filters: readonly string[];
  /** Of each two at least one cell is filled. */
  readonly oneOf: readonly (readonly [string, string])[];
}
