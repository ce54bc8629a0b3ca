import { LineIndex } from '../base/lines';
import type { Span } from '../base/span';
import type { Plan } from '../planner/plan';

/** Line and column, both from 1; columns count UTF-16 units, a byte order mark is none. */
export interface LineAndColumn {
  readonly line: number;
  readonly column: number;
}

const byteOrderMark = 0xfeff;

/** Turns offsets in a fishroom's files into lines and columns, each file's text as the plan has it when it's asked. */
export class Places {
  readonly #plan: Plan;
  readonly #config: string;
  readonly #indexes = new Map<string, { readonly text: string; readonly lines: LineIndex }>();

  /** `config` is the text of `fishroom.json`, which is no sheet of the plan. */
  constructor(plan: Plan, config: string) {
    this.#plan = plan;
    this.#config = config;
  }

  textOf(file: string): string {
    return this.#plan.records.file(file)?.doc.text() ?? this.#config;
  }

  at(file: string, offset: number): LineAndColumn {
    const { text, lines } = this.#indexOf(file);
    const { line, character } = lines.positionAt(offset);
    const unseen = line === 0 && character > 0 && text.charCodeAt(0) === byteOrderMark ? 1 : 0;
    return { line: line + 1, column: character + 1 - unseen };
  }

  start({ file, span }: { readonly file: string; readonly span: Span }): LineAndColumn {
    return this.at(file, span.start);
  }

  /** The offset at which a line begins, counted from 1; undefined for a line that the file doesn't have. */
  startOfLine(file: string, line: number): number | undefined {
    return this.#indexOf(file).lines.startOf(line - 1);
  }

  #indexOf(file: string): { readonly text: string; readonly lines: LineIndex } {
    const text = this.textOf(file);
    let index = this.#indexes.get(file);
    if (index?.text !== text) this.#indexes.set(file, (index = { text, lines: new LineIndex(text) }));
    return index;
  }
}
