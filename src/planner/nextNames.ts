import { keyText } from '../records/row';
import type { Row } from '../records/row';
import type { Records } from '../records/records';
import type { SheetFile } from '../records/sheetFile';
import { slotOf } from '../schema/slots';

/** A register in which a new name is wanted, and the row that will have it where that is there already. */
export interface Naming {
  readonly records: Records;
  readonly file: SheetFile;
  readonly row?: Row | undefined;
}

/** Names that go on in counting: all that stands before the number and behind it, the largest number, and its digits where zeros fill it up. */
export interface Series {
  readonly before: string;
  readonly behind: string;
  readonly largest: number;
  readonly digits: number;
}

/** So many rows from the end say how a room names its things. */
const LOOKED_AT = 2_000;

/** The other rows of the sheet, from its end. */
export function latestRows({ file, row: own }: Naming): readonly Row[] {
  const found: Row[] = [];
  for (let i = file.blocks.length - 1; i >= 0 && found.length < LOOKED_AT; i--) {
    const { rows } = file.blocks[i] as (typeof file.blocks)[number];
    for (let j = rows.length - 1; j >= 0; j--) if (rows[j] !== own && keyText(rows[j] as Row) !== '') found.push(rows[j] as Row);
  }
  return found;
}

/** The series that names belong to, that of the first name first. */
export function seriesIn(names: readonly string[]): readonly Series[] {
  const all = new Map<string, Series>();
  for (const name of names) {
    const match = /^(.*?)(\d{1,15})(\D*)$/.exec(name);
    if (match === null) continue;
    const [, before = '', digits = '', behind = ''] = match;
    const key = `${before}\n${behind}`;
    const there = all.get(key);
    const width = digits.startsWith('0') ? digits.length : 0;
    all.set(key, { before, behind, largest: Math.max(Number(digits), there?.largest ?? 0), digits: Math.max(width, there?.digits ?? 0) });
  }
  return [...all.values()];
}

/** The first free name behind the largest of a series. */
export function nextOf({ before, behind, largest, digits }: Series, { records, file, row: own }: Naming): string {
  const index = records.index(file.schema.name);
  for (let number = largest + 1; ; number++) {
    const name = `${before}${String(number).padStart(digits, '0')}${behind}`;
    if (index.rows(name).every((row) => row === own)) return name;
  }
}

/** How clutches are named after their pairs. */
export class ClutchNames {
  readonly #naming: Naming;
  #usual: { readonly between: string; readonly digits: number } | 'none' | undefined;

  /** `file` is the register of clutches. */
  constructor(naming: Naming) {
    this.#naming = naming;
  }

  /** The next name of a pair's clutches: as its own go on, else as those of other pairs begin. */
  nextOf(pair: string): string | undefined {
    const { records, row: ownRow } = this.#naming;
    const names = records.clutchRowsOf(pair).filter((row) => row !== ownRow).map(keyText);
    const [own] = seriesIn([...names].reverse());
    if (own !== undefined) return nextOf(own, this.#naming);
    const usual = (this.#usual ??= this.#findUsual() ?? 'none');
    return usual === 'none' ? undefined : nextOf({ before: pair + usual.between, behind: '', largest: 0, digits: usual.digits }, this.#naming);
  }

  #findUsual(): { readonly between: string; readonly digits: number } | undefined {
    const slot = slotOf(this.#naming.file.schema, 'pair');
    for (const row of latestRows(this.#naming)) {
      const pair = row.value(slot) as string | undefined;
      const match = pair === undefined || !keyText(row).startsWith(pair) ? null : /^([._-])(\d+)$/.exec(keyText(row).slice(pair.length));
      if (match !== null) return { between: match[1] as string, digits: (match[2] as string).startsWith('0') ? (match[2] as string).length : 0 };
    }
    return undefined;
  }
}
