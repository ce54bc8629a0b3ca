import type { Plan } from '../planner/plan';
import { cardOf } from './cards/registry';
import { cellAt, insideOf } from './cells';
import type { Cell } from './cells';
import { columnHelp } from './columnHelp';
import type { HoverText } from './hoverText';
import { idAt } from './ids';
import { whyText } from './whyText';
import { meaningOf } from './words';

/** What is to be told about what stands at an offset: a column's name, an id, a computed cell, a word; undefined for all else. */
export function hoverAt(plan: Plan, path: string, offset: number): HoverText | undefined {
  const cell = cellAt(plan, path, offset);
  if (cell?.field === undefined || offset < cell.span.start || offset > cell.span.end) return undefined;
  const { file, field, span } = cell;
  if (cell.record === 0) return { ...columnHelp(file.schema, field), span };
  if (field.computed) {
    const explanation = plan.explainCell(path, cell.record, field.name);
    return explanation === undefined ? undefined : { ...whyText(explanation, { field, text: cell.text }), span };
  }
  const naming = idAt(plan, path, offset);
  if (naming !== undefined) {
    const card = cardOf(plan, naming);
    return card === undefined ? undefined : { ...card, span: naming.span };
  }
  return wordAt(cell, offset);
}

/** Of a cell with several words the one that is meant. */
function wordAt({ file, record, column, field, row }: Cell, offset: number): HoverText | undefined {
  if (row === undefined || field === undefined || (field.kind !== 'enum' && field.kind !== 'codes')) return undefined;
  const { source, span } = insideOf(file, record, column);
  for (const { 0: word, index } of source.matchAll(/\S+/g)) {
    const start = span.start + index;
    const meaning = meaningOf(field.name, word);
    if (offset >= start && offset <= start + word.length && meaning !== undefined) return { title: word, beside: field.name, parts: [{ kind: 'text', text: meaning }], span: { start, end: start + word.length } };
  }
  return undefined;
}
