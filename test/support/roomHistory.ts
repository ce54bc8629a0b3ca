import fc from 'fast-check';
import { applyEdits } from '../../src/base/textEdit';
import type { TextEdit } from '../../src/base/textEdit';
import { CsvDocument } from '../../src/csv/document';
import { deleteRow, insertRow, setCell } from '../../src/csv/edits';
import { Plan } from '../../src/planner/plan';
import type { FileText } from '../../src/records/fileStore';
import type { FileChange } from '../../src/records/records';
import { berlin, moment } from './moments';
import { anySheetPlan, otherHeader, otherWord, roomPaths, sheetText } from './randomRoom';
import type { SheetPlan } from './randomRoom';

/** What somebody does to the room; numbers pick the place by what is there then. */
export interface Deed {
  readonly kind: 'cell' | 'row' | 'copy' | 'delete' | 'header' | 'type' | 'quote' | 'mark' | 'heal' | 'write' | 'remove' | 'latin' | 'clock';
  readonly path: number;
  readonly row: number;
  readonly column: number;
  readonly pick: number;
  readonly sheet: SheetPlan;
}

export const anyDeed: fc.Arbitrary<Deed> = fc.record({
  kind: fc.constantFrom('cell', 'cell', 'cell', 'cell', 'cell', 'row', 'copy', 'delete', 'header', 'type', 'type', 'quote', 'mark', 'heal', 'heal', 'heal', 'write', 'write', 'remove', 'latin', 'clock', 'clock'),
  path: fc.nat(999),
  row: fc.nat(999),
  column: fc.nat(999),
  pick: fc.nat(999),
  sheet: anySheetPlan,
});

const start = moment('2026-06-10T09:00', berlin).instant;
const hour = 3_600_000;

/** The room as plain texts, beside the plan that is kept up to date. */
export class Room {
  readonly plan = new Plan({ machineZone: berlin, now: start });
  readonly files = new Map<string, FileText>();
  /** The text of each file when it could last be read. */
  readonly #readable = new Map<string, FileText>();
  #now = start;

  /** Makes a few changes at once; returns the paths that the plan says they may have touched. */
  change(deeds: readonly Deed[]): ReadonlySet<string> {
    const batch: FileChange[] = [];
    const taken = new Set<string>();
    let clock: number | undefined;
    for (const deed of deeds) {
      if (deed.kind === 'clock') {
        clock = this.#now + (deed.pick % 3 === 0 ? -1 : 1) * ([0.2, 3, 9, 30, 24 * 9, 24 * 60][deed.row % 6] as number) * hour;
        continue;
      }
      const path = this.#pathFor(deed);
      if (taken.has(path)) continue;
      taken.add(path);
      const change = this.#changeOf(deed, path);
      if (change === undefined) continue;
      batch.push(change);
      this.#note(change);
    }
    const touched = new Set(batch.length === 0 ? [] : this.plan.apply(batch));
    if (clock !== undefined) for (const path of this.moveClock(clock)) touched.add(path);
    this.#noteReadable();
    return touched;
  }

  /** Moves the clock to an instant. */
  moveClock(instant: number): ReadonlySet<string> {
    this.#now = instant;
    return this.plan.setNow(instant);
  }

  /** Gives a file another text; undefined: it goes. */
  take(path: string, text: string | undefined): ReadonlySet<string> {
    const change: FileChange = { path, file: text === undefined ? undefined : { text } };
    const touched = this.plan.apply([change]);
    this.#note(change);
    this.#noteReadable();
    return touched;
  }

  begin(texts: ReadonlyMap<string, string>): void {
    for (const [path, text] of texts) this.files.set(path, { text });
    this.plan.apply([...this.files].map(([path, file]) => ({ path, file })));
    this.#noteReadable();
  }

  #noteReadable(): void {
    for (const [path, file] of this.files) if (this.plan.records.file(path)?.blocked === undefined) this.#readable.set(path, file);
  }

  /** A plan made afresh. Where a file can't be read now, it has first been given as it was when it last could be. */
  afresh(): Plan {
    const plan = new Plan({ machineZone: berlin, now: this.#now });
    const blocked = [...this.files].filter(([path]) => this.plan.records.file(path)?.blocked !== undefined);
    const first = new Map(this.files);
    for (const [path] of blocked) {
      const before = this.#readable.get(path);
      if (before !== undefined) first.set(path, before);
    }
    plan.apply([...first].map(([path, file]) => ({ path, file })));
    if (blocked.length > 0) plan.apply(blocked.map(([path, file]) => ({ path, file })));
    return plan;
  }

  #pathFor({ kind, path }: Deed): string {
    const there = [...this.files.keys()].filter((name) => name !== 'fishroom.json').sort();
    if (kind === 'write' || there.length === 0) return roomPaths[path % roomPaths.length] as string;
    if (kind === 'remove') return [...this.files.keys()].sort()[path % this.files.size] as string;
    const broken = there.filter((name) => this.plan.records.file(name)?.blocked !== undefined);
    if (kind === 'heal' && broken.length > 0) return broken[path % broken.length] as string;
    return there[path % there.length] as string;
  }

  #changeOf(deed: Deed, path: string): FileChange | undefined {
    const file = this.files.get(path);
    if (deed.kind === 'write' || path === 'fishroom.json') return deed.kind === 'remove' ? { path, file: undefined } : { path, file: { text: sheetText(path, deed.sheet) } };
    if (file === undefined) return undefined;
    switch (deed.kind) {
      case 'remove':
        return { path, file: undefined };
      case 'latin':
        return { path, file: { text: file.text, badAt: Math.min(deed.row, file.text.length) } };
      case 'heal': {
        const before = this.#readable.get(path);
        return before === undefined ? undefined : { path, file: before };
      }
      default:
        return { path, edits: editsOf(deed, path, file.text) };
    }
  }

  #note(change: FileChange): void {
    const { path } = change;
    if ('edits' in change) {
      const file = this.files.get(path) as FileText;
      this.files.set(path, { ...file, text: applyEdits(file.text, change.edits) });
    } else if (change.file === undefined) {
      this.files.delete(path);
      this.#readable.delete(path);
    } else {
      this.files.set(path, change.file);
    }
  }
}

const typed = ['', 'x', ',', '\n', '"', '7', '<<<<<<< HEAD\n', '2026-06-10', '\r\n', 'T1', '~', '\n\n'];

function editsOf({ kind, row, column, pick, sheet }: Deed, path: string, text: string): readonly TextEdit[] {
  const doc = CsvDocument.parse(text);
  const record = doc.rowCount < 2 ? 0 : 1 + (row % (doc.rowCount - 1));
  const line = (): readonly string[] => {
    const other = CsvDocument.parse(sheetText(path, sheet));
    const at = other.rowCount < 2 ? 0 : 1 + (pick % (other.rowCount - 1));
    return Array.from({ length: doc.rowCount === 0 ? 1 : doc.cellCount(0) }, (_, i) => (i < other.cellCount(at) ? other.value(at, i) : ''));
  };
  switch (kind) {
    case 'cell': {
      if (doc.rowCount === 0) return [];
      const cell = column % doc.cellCount(record);
      return setCell(doc, record, cell, otherWord(path, cell < doc.cellCount(0) ? doc.value(0, cell) : '', pick));
    }
    case 'row':
      return doc.rowCount === 0 ? [] : insertRow(doc, Math.max(1, record), line());
    case 'copy':
      return doc.rowCount === 0 ? [] : insertRow(doc, 1 + (pick % doc.rowCount), Array.from({ length: doc.cellCount(record) }, (_, i) => doc.value(record, i)));
    case 'delete':
      return doc.rowCount < 2 ? [] : deleteRow(doc, record);
    case 'header':
      return doc.rowCount === 0 ? [] : setCell(doc, 0, column % doc.cellCount(0), otherHeader(path, pick));
    case 'quote':
      return [{ start: row % (text.length + 1), end: row % (text.length + 1), text: '"' }];
    case 'mark': {
      const at = record < doc.rowCount ? doc.rowSpan(record).start : text.length;
      return [{ start: at, end: at, text: pick % 2 === 0 ? '<<<<<<< HEAD\n' : '>>>>>>> other\n' }];
    }
    default: {
      const at = (row * 7 + column) % (text.length + 1);
      return [{ start: at, end: Math.min(text.length, at + ([0, 0, 0, 1, 2, 9][pick % 6] as number)), text: typed[pick % typed.length] as string }];
    }
  }
}
