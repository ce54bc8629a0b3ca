import { quoteCell } from '../../csv/quote';
import type { Span } from '../../base/span';
import type { Plan } from '../../planner/plan';
import { sheetReferredTo } from '../../records/references';
import { cellAt } from '../cells';
import { askedAt } from './asked';
import type { Asked } from './asked';
import { eventsFitting } from './events';
import { headersMissing } from './headers';
import { idsFitting } from './ids';
import { momentsFitting } from './moments';
import { nextIds } from './nextIds';
import type { Picked, Suggestion } from './suggestion';
import { wordsFitting } from './words';

export interface Completions {
  /** What each suggestion takes the place of: all that stands in the cell, or one word of several. Within one line. */
  readonly span: Span;
  /** The best first. */
  readonly suggestions: readonly (Suggestion & { readonly insert: string })[];
  /** There are more, which further typing brings up. */
  readonly isIncomplete: boolean;
}

/** What may be written at an offset; undefined where nothing can be told: in text, numbers and computed cells, and in files that can't be read. */
export function completionsAt(plan: Plan, path: string, offset: number): Completions | undefined {
  const cell = cellAt(plan, path, offset);
  const asked = cell === undefined ? undefined : askedAt(plan, cell, offset);
  if (asked === undefined) return undefined;
  const { suggestions, isIncomplete } = picked(asked);
  if (suggestions.length === 0) return undefined;
  const { delimiter } = asked.cell.file.doc;
  const insert = (value: string): string => (asked.isQuoted ? value.replaceAll('"', '""') : quoteCell(value, delimiter));
  return { span: asked.span, suggestions: suggestions.map((suggestion) => ({ ...suggestion, insert: insert(suggestion.value) })), isIncomplete };
}

const NOTHING: Picked = { suggestions: [], isIncomplete: false };

function picked(asked: Asked): Picked {
  const { file, field, record, row } = asked.cell;
  if (record === 0) return whole(headersMissing(asked));
  if (field === undefined || field.computed) return NOTHING;
  const sheet = field.references ?? (row === undefined ? undefined : sheetReferredTo(file, row, field));
  if (sheet !== undefined) return idsFitting(asked, sheet);
  switch (field.kind) {
    case 'id':
      return field.name === file.schema.key ? whole(nextIds(asked)) : NOTHING;
    case 'enum':
      return whole(field.name === 'event' ? eventsFitting(asked) : wordsFitting(asked, field));
    case 'codes':
    case 'duration':
      return whole(wordsFitting(asked, field));
    case 'moment':
    case 'day':
      return whole(momentsFitting(asked, field));
    default:
      return NOTHING;
  }
}

function whole(suggestions: readonly Suggestion[]): Picked {
  return { suggestions, isIncomplete: false };
}
