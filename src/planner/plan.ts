import type { Message } from '../base/messages';
import type { Moment } from '../base/moment';
import type { TextEdit } from '../base/textEdit';
import type { Zone } from '../base/zone';
import type { FoodDay } from '../domain/liveFood';
import { Records } from '../records/records';
import type { FileChange } from '../records/records';
import type { Row } from '../records/row';
import type { SheetName } from '../schema/descriptor';
import { absentCells } from './absentCells';
import type { AbsentCells, RecordRange } from './absentCells';
import { aheadUntil } from './ahead';
import type { AheadEntry } from './ahead';
import type { Fills } from './cellChange';
import { livesBetween } from './lives';
import type { ClutchLife } from './lives';
import { memoriesIn } from './clutchMemory';
import { missingColumns } from './columns/missing';
import { comingUntil } from './coming';
import type { ComingDays } from './coming';
import { dueUntil, Places } from './due';
import type { DueEntry, Placed } from './due';
import { explainAt, explainCell } from './explain';
import type { Explanation } from './explanation';
import { fillsOf } from './fills';
import { Evaluation } from './evaluation';
import { liveFood, LONGEST_HATCH } from './liveFood';
import { possiblePairs } from './possiblePairs';
import type { PossiblePair } from './possiblePairs';
import type { Problem } from './problem';
import { problemsOf } from './problems';
import { skillOf } from './skill';
import type { SkillReport } from './skillTally';
import type { PlanView } from './states';
import { unreadSources } from './unreadSource';

/**
 * A fishroom's records with all that follows from them at one moment: problems, computed cells, explanations. It is kept
 * up to date file by file, and always equals a plan made afresh.
 */
export class Plan {
  readonly records: Records;
  readonly #evaluation: Evaluation;

  /** `machineZone` holds where the fishroom names none; `now` is an instant in ms. */
  constructor({ machineZone, now }: { readonly machineZone: Zone; readonly now: number }) {
    this.records = new Records(machineZone);
    this.#evaluation = new Evaluation(this.records, now);
  }

  get now(): Moment {
    return this.#evaluation.now;
  }

  /** What is known of each thing. */
  get view(): PlanView {
    return this.#evaluation;
  }

  /** Takes changed files; returns the paths whose problems or fills may be others now. */
  apply(batch: readonly FileChange[]): ReadonlySet<string> {
    return this.#evaluation.update(this.records.apply(batch));
  }

  /** Moves the clock; returns the paths whose problems or fills may be others now. */
  setNow(instant: number): ReadonlySet<string> {
    return this.#evaluation.setNow(instant);
  }

  /** The earliest instant at which time alone may change something. */
  get nextChange(): number {
    return this.#evaluation.nextChange;
  }

  /** The fishroom's files, in order of their names. */
  paths(): readonly string[] {
    const paths = [...this.records.files()].map(({ path }) => path);
    if (this.problems('fishroom.json').length > 0) paths.push('fishroom.json');
    return paths.sort((a, b) => (a < b ? -1 : 1));
  }

  /** The file's problems in order of place, each once; none for a file that isn't there. */
  problems(path: string): readonly Problem[] {
    return problemsOf(path, this.#evaluation);
  }

  /** What the rules find about the thing of a register's row, what is accepted too: each code with what it says first. */
  foundAbout(row: Row): ReadonlyMap<string, Message> {
    const found = new Map<string, Message>();
    for (const { code, message } of this.#evaluation.found.about(row)) if (!found.has(code)) found.set(code, message);
    return found;
  }

  /** Computed cells of the file that aren't what they should be; none where the file can't be read. */
  fills(path: string, options: { readonly overwrite?: boolean } = {}): Fills {
    return fillsOf(path, this.#evaluation, options.overwrite === true);
  }

  /** Sheets that are there but could never be read, so that nothing of them is in anything that is told; in order of their names. */
  unreadPaths(): readonly string[] {
    return this.records.unread.all();
  }

  /** Sheets that could never be read, because of which computed cells of a file are left alone. */
  unreadSources(path: string): readonly string[] {
    const file = this.records.file(path);
    return file === undefined ? [] : unreadSources(file, this.records);
  }

  /** Edits that add the headers of the computed columns that the file doesn't have, with empty cells. */
  missingColumns(path: string): readonly TextEdit[] {
    return missingColumns(this.records.file(path));
  }

  /** What a fill would write in some records if the file had computed columns that it doesn't have, or those of them that are wanted. */
  absentCells(path: string, records: RecordRange, wanted?: ReadonlySet<string>): readonly AbsentCells[] {
    const file = this.records.file(path);
    return file === undefined ? [] : absentCells({ file, records, wanted }, this.#evaluation);
  }

  /** What is to be done now, and what falls due within so many days after today: what is overdue first, then by its moment. */
  due(days: number): readonly DueEntry[] {
    return dueUntil(this.now.day + days, this.#evaluation.stock, this.#evaluation);
  }

  /**
   * Brine shrimp for the feeds of today and later that are started by so many days after today: one plan a day for the
   * whole fishroom. Days for which a culture is running are among them, and say so.
   */
  liveFood(days: number): readonly FoodDay[] {
    const today = this.now.day;
    return liveFood({ first: today, last: today + days + LONGEST_HATCH }, this.#evaluation.stock.clutches, this.#evaluation).filter(({ start }) => start.day <= today + days);
  }

  /** What is to be expected within so many days after today: hatches, first feeds, next spawns, in order of when. */
  ahead(days: number): readonly AheadEntry[] {
    return aheadUntil(this.now.day + days, this.#evaluation.stock, this.#evaluation);
  }

  /** What is due and what is coming until so many days after today are over, each thing once, and who is fed on which of these days. */
  coming(days: number): ComingDays {
    return comingUntil(this.now.day + days, this.#evaluation.stock, this.#evaluation);
  }

  /** The broods that live or are expected to on some of the days from one to another (days since 1970-01-01), as they are written. */
  lives(range: { readonly first: number; readonly last: number }): readonly ClutchLife[] {
    return livesBetween(range, memoriesIn(this.records.file('clutches.csv')), this.#evaluation);
  }

  /** Compares places by the walk through the rooms: rooms as they stand in their sheet, tanks by position. */
  placeOrder(): (a: Placed, b: Placed) => number {
    const places = new Places(this.#evaluation);
    return (a, b) => places.compare(a, b);
  }

  /** Compares entries by the walk through the rooms: rooms as they stand in their sheet, tanks by position; in one tank by moment. */
  walkingOrder(): (a: DueEntry, b: DueEntry) => number {
    const places = new Places(this.#evaluation);
    return (a, b) => places.compare(a, b) || a.occurrence.due.instant - b.occurrence.due.instant;
  }

  /** The pairs that could be made of a species' fish, the least related first; no more than `most`. */
  possiblePairs(species: string, most: number): readonly PossiblePair[] {
    return possiblePairs(species, most, this.#evaluation);
  }

  /** How good the forecasts of the past were, each made with only what was known then. */
  skill(): SkillReport {
    return skillOf(this.#evaluation);
  }

  /** How the computed cell at an offset came about; undefined where there is none. */
  explain(path: string, offset: number): Explanation | undefined {
    return explainAt(path, offset, this.#evaluation);
  }

  /** The same by record (0 is the header row) and header, also where the file has no such column. */
  explainCell(path: string, record: number, header: string): Explanation | undefined {
    return explainCell({ path, record, header }, this.#evaluation);
  }

  /** Rows of registers whose key is this id; of files that can't be read there are none. */
  placesOf(id: string): readonly { readonly path: string; readonly record: number; readonly sheet: SheetName }[] {
    const places: { path: string; record: number; sheet: SheetName }[] = [];
    for (const file of this.records.files()) {
      if (file.schema.role !== 'register' || file.blocked !== undefined) continue;
      const row = this.records.index(file.schema.name).row(id);
      if (row !== undefined) places.push({ path: file.path, record: file.recordOf(row), sheet: file.schema.name });
    }
    return places;
  }
}

