import type { Changes } from './changes';
import { drop, getSet } from './groups';
import { NO_REFERENCES, ReferenceCheck } from './references';
import type { Reference, ReferenceTargets } from './references';
import { inWrittenOrder } from './row';
import type { Row } from './row';
import type { SheetFile } from './sheetFile';

/** Some rows of a file, or all of them. */
export interface RowsOfFile {
  readonly file: SheetFile;
  readonly rows: readonly Row[] | 'all';
}

/**
 * Ids that rows name and a sheet doesn't have, kept from change to change. Files that came as a whole are looked through
 * when somebody first asks for one: a fill doesn't.
 */
export class UnknownReferences {
  readonly #targets: ReferenceTargets;
  readonly #files: ReadonlyMap<string, SheetFile>;
  readonly #ofRow = new Map<Row, readonly Reference[]>();
  readonly #rowsOfFile = new Map<string, Set<Row>>();
  /** Files that nobody has asked for yet. */
  readonly #waiting = new Set<SheetFile>();

  constructor(targets: ReferenceTargets, files: ReadonlyMap<string, SheetFile>) {
    this.#targets = targets;
    this.#files = files;
  }

  /** The file's rows with such ids, in written order. */
  in(path: string): readonly { readonly row: Row; readonly references: readonly Reference[] }[] {
    const file = this.#files.get(path);
    if (file !== undefined && this.#waiting.delete(file)) this.#check(file, file.rows());
    return inWrittenOrder(this.#rowsOfFile.get(path)).map((row) => ({ row, references: this.#ofRow.get(row) ?? [] }));
  }

  /** All rows of a file are others now. */
  replaced(file: SheetFile): void {
    this.#waiting.add(file);
  }

  /** Rows that went from a file, which may be gone itself. */
  forget(file: SheetFile, rows: readonly Row[]): void {
    for (const row of rows) this.#set(file, row, NO_REFERENCES);
    if (!this.#files.has(file.path)) this.#waiting.delete(file);
  }

  /** Looks at rows that came, and at those for which an id came or went; tells the files of these. */
  update(added: readonly RowsOfFile[], changes: Changes): void {
    const sheets = new Set<string>([...changes.appeared, ...changes.sheetsWithGone()]);
    for (const { file, rows } of added) {
      if (rows === 'all' || rows.length === file.rowCount) this.#waiting.add(file);
      else if (!this.#waiting.has(file)) this.#check(file, rows);
    }
    if (sheets.size > 0) for (const file of this.#files.values()) if (!this.#waiting.has(file)) this.#recheck(file, sheets, changes);
    const renamed = new Set(changes.sheetsWithOtherIds());
    if (renamed.size === 0) return;
    for (const [row, references] of this.#ofRow) {
      const file = this.#files.get(row.path);
      if (file === undefined || !references.some(({ sheet }) => renamed.has(sheet))) continue;
      // Which id was likely meant may be another now, even where the reference stays unknown.
      changes.files.add(file.path);
      if (references.some(({ sheet, id }) => changes.isNew(sheet, id))) this.#check(file, [row]);
    }
  }

  #check(file: SheetFile, rows: Iterable<Row>): void {
    const check = new ReferenceCheck(file, this.#targets);
    for (const row of rows) this.#set(file, row, check.unknownIn(row));
  }

  #recheck(file: SheetFile, sheets: ReadonlySet<string>, changes: Changes): void {
    const mayName = file.header.columns.some(
      ({ field }) => (field?.references !== undefined && sheets.has(field.references)) || Object.values(field?.referencesBy?.sheets ?? {}).some((sheet) => sheets.has(sheet)),
    );
    if (!mayName) return;
    const check = new ReferenceCheck(file, this.#targets);
    for (const row of file.rows()) {
      const before = this.#ofRow.get(row) ?? NO_REFERENCES;
      const after = check.unknownIn(row);
      if (before.length === 0 && after.length === 0) continue;
      this.#set(file, row, after);
      changes.files.add(file.path);
    }
  }

  #set(file: SheetFile, row: Row, references: readonly Reference[]): void {
    if (references.length === 0) {
      if (this.#ofRow.size === 0 || !this.#ofRow.delete(row)) return;
      drop(this.#rowsOfFile, file.path, row);
    } else {
      this.#ofRow.set(row, references);
      getSet(this.#rowsOfFile, file.path).add(row);
    }
  }
}
