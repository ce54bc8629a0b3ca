import { quoteCell } from '../../src/csv/quote';
import { schemaNamed } from '../../src/schema/catalog';
import type { SheetName } from '../../src/schema/descriptor';

/** A row by the names of its columns; what isn't named is empty. */
export type Cells = Readonly<Record<string, string | number | undefined>>;

/** A sheet's text with all its columns in SI units, the computed ones empty; with `keeper` only these of the others. */
export function sheetText(sheet: SheetName, rows: Iterable<Cells>, keeper?: readonly string[]): string {
  const fields = schemaNamed(sheet).fields.filter((field) => field.computed || (keeper?.includes(field.name) ?? field.unitOf === undefined));
  const names = fields.map(({ name }) => name);
  let text = `${names.join(',')}\n`;
  for (const row of rows) text += `${names.map((name) => quoteCell(String(row[name] ?? ''), ',')).join(',')}\n`;
  return text;
}
