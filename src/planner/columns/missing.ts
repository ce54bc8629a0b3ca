import type { TextEdit } from '../../base/textEdit';
import type { CsvDocument } from '../../csv/document';
import { insertColumn } from '../../csv/edits';
import type { SheetFile } from '../../records/sheetFile';
import { computedHeaders } from './registry';

/** Edits that add, behind the last column, the computed columns that a file doesn't have, with empty cells. */
export function missingColumns(file: SheetFile | undefined): readonly TextEdit[] {
  if (file === undefined || file.blocked !== undefined || file.doc.rowCount === 0) return [];
  const headers = computedHeaders(file.schema.name).filter((header) => !file.header.columnOf.has(header));
  if (headers.length === 0) return [];
  return addColumns(file.doc, headers);
}

/** Edits that add columns behind the last one, with empty cells in every row. */
export function addColumns(doc: CsvDocument, headers: readonly string[]): readonly TextEdit[] {
  const names = headers.join(doc.delimiter);
  const blanks = doc.delimiter.repeat(headers.length - 1);
  const marker = insertColumn(doc, doc.cellCount(0), () => '');
  // Every edit adds one delimiter behind a row's last cell: the further columns go in at the same place.
  return marker.map((edit, i) => ({ ...edit, text: edit.text + (i === 0 ? names : blanks) }));
}
