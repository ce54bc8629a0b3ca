import type { Moment, Writable } from '../base/moment';
import { cellsIn, cellValue } from '../csv/block';
import type { CsvBlock } from '../csv/block';
import type { Value } from '../schema/value';
import type { Header } from './header';

/** Where the values of a sheet's fields are kept. */
export interface CellLayout {
  /** By slot, the place of a field among those that hold nothing but moments; undefined for another field. */
  readonly momentPlaces: readonly (number | undefined)[];
  readonly moments: number;
  /** By slot, the column of a field that may say anything: it is left in the text until somebody asks. */
  readonly textColumns: readonly (number | undefined)[];
}

/** What stands in a slot of moments that is empty; no day is so far off. */
const NONE = -0x8000_0000;
const BARE = 1;
const ABOUT = 2;

/**
 * What the records of a block say, field by field. A long register has very many moments, and most are looked at in
 * passing: they are kept as figures and made whenever somebody asks, so that two looks at one cell give two equal moments.
 */
export class Cells {
  readonly #csv: CsvBlock;
  readonly #layout: CellLayout;
  /** By slot; a field of which no cell has a value has no list. */
  readonly #values: (Value[] | undefined)[] = [];
  readonly #instants: Float64Array;
  /** Four times the day, and what kind of moment it is. */
  readonly #days: Int32Array;

  constructor(csv: CsvBlock, { layout }: Pick<Header, 'layout'>) {
    this.#csv = csv;
    this.#layout = layout;
    const moments = csv.rowCount * layout.moments;
    this.#instants = new Float64Array(moments);
    this.#days = new Int32Array(moments).fill(NONE);
  }

  /** The value of a field in a record; undefined where the cell is empty, can't be read, or has no column. */
  at(record: number, slot: number): Value {
    const place = this.#layout.momentPlaces[slot];
    if (place !== undefined) return this.#moment(place * this.#csv.rowCount + record);
    const column = this.#layout.textColumns[slot];
    return column === undefined ? this.#values[slot]?.[record] : this.#text(record, column);
  }

  /** Takes a value; of a moment only what it says is kept, so that one object may be filled for the next. */
  set(record: number, slot: number, value: Value): void {
    const place = this.#layout.momentPlaces[slot];
    if (place !== undefined) {
      if (value !== undefined) this.#put(place * this.#csv.rowCount + record, value as Moment);
      return;
    }
    let values = this.#values[slot];
    if (values === undefined) {
      if (value === undefined) return;
      values = this.#values[slot] = new Array<Value>(this.#csv.rowCount).fill(undefined);
    }
    values[record] = value;
  }

  /** Fills a moment with what stands in a field that holds moments; false, and the moment as it was, where `at` gives undefined. */
  fill(moment: Writable<Moment>, record: number, slot: number): boolean {
    const place = this.#layout.momentPlaces[slot];
    if (place === undefined) return false;
    const at = place * this.#csv.rowCount + record;
    const day = this.#days[at] as number;
    if (day === NONE) return false;
    moment.instant = this.#instants[at] as number;
    moment.day = day >> 2;
    moment.bare = (day & BARE) !== 0;
    moment.about = (day & ABOUT) !== 0;
    return true;
  }

  /** Takes over what a record says that stands in another block now. */
  take(record: number, from: Cells, before: number): void {
    for (let slot = 0; slot < from.#values.length; slot++) if (from.#values[slot] !== undefined) this.set(record, slot, from.#values[slot]?.[before]);
    for (let place = 0; place < this.#layout.moments; place++) {
      const [to, at] = [place * this.#csv.rowCount + record, place * from.#csv.rowCount + before];
      this.#instants[to] = from.#instants[at] as number;
      this.#days[to] = from.#days[at] as number;
    }
  }

  #put(at: number, { instant, day, bare, about }: Moment): void {
    this.#instants[at] = instant;
    this.#days[at] = 4 * day + (bare ? BARE : 0) + (about ? ABOUT : 0);
  }

  #moment(at: number): Moment | undefined {
    const day = this.#days[at];
    if (day === undefined || day === NONE) return undefined;
    return { instant: this.#instants[at] as number, day: day >> 2, bare: (day & BARE) !== 0, about: (day & ABOUT) !== 0 };
  }

  #text(record: number, column: number): string | undefined {
    if (column >= cellsIn(this.#csv, record)) return undefined;
    return cellValue(this.#csv, (this.#csv.rowEdges[record] as number) + column) || undefined;
  }
}
