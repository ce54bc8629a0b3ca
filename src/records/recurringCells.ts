import { standsAt } from '../base/ascii';
import type { Zone } from '../base/zone';
import type { CsvBlock } from '../csv/block';
import { casterOf } from '../schema/cast';
import type { Caster } from '../schema/cast';
import type { Field, SheetSchema } from '../schema/descriptor';
import { CastFailure } from '../schema/value';
import type { Value } from '../schema/value';

/** Longer texts are hardly ever written twice: a moment with its hour, a note. */
const LONGEST = 12;
const SLOTS = 1024;

const recurring = new WeakMap<Field, RecurringCells>();

/** What reads the cells of a field in which the same few texts stand again and again; undefined where each row has its own. */
export function recurringCellsOf(field: Field, schema: SheetSchema): RecurringCells | undefined {
  if (field.name === schema.key || field.kind === 'text' || field.kind === 'url') return undefined;
  let cells = recurring.get(field);
  if (cells === undefined) recurring.set(field, (cells = new RecurringCells(casterOf(field))));
  return cells;
}

/**
 * Reads each text once and gives all cells that say the same one value: a long register names few tanks, pairs and days,
 * and one text for each is soon compared and takes up little. What was read last in a slot of the table stays there.
 */
export class RecurringCells {
  readonly #cast: Caster;
  readonly #texts: (string | undefined)[] = [];
  readonly #values: Value[] = [];
  #zone: Zone | undefined;

  constructor(cast: Caster) {
    this.#cast = cast;
  }

  /** The value of a cell as it is written, or why it is none. */
  read(csv: CsvBlock, cell: number, zone: Zone): Value | CastFailure {
    const { text, codes } = csv;
    const start = csv.edges[cell] as number;
    const end = (csv.edges[cell + 1] as number) - 1;
    const length = end - start;
    if (length > LONGEST) return this.#cast(text.slice(start, end), zone);
    if (zone !== this.#zone) this.#forget(zone);
    let hash = length;
    for (let at = start; at < end; at++) hash = (Math.imul(hash, 31) + (codes[at] as number)) | 0;
    const slot = (hash ^ (hash >>> 10)) & (SLOTS - 1);
    const known = this.#texts[slot];
    if (known?.length === length && standsAt(csv, start, known)) return this.#values[slot];
    const written = text.slice(start, end);
    const value = this.#cast(written, zone);
    if (value instanceof CastFailure) return value;
    this.#texts[slot] = written;
    this.#values[slot] = value;
    return value;
  }

  /** What a text means may hang on the zone. */
  #forget(zone: Zone): void {
    this.#zone = zone;
    this.#texts.length = 0;
    this.#values.length = 0;
    for (let slot = 0; slot < SLOTS; slot++) {
      this.#texts.push(undefined);
      this.#values.push(undefined);
    }
  }
}
