import type { Span } from '../base/span';
import type { Plan } from '../planner/plan';
import { insideOf } from './cells';

/** Where a cell leads: an address of the net or of mail, or a path seen from the folder of its sheet, with `/` between folders. */
export type LinkTarget = { readonly kind: 'address'; readonly address: string } | { readonly kind: 'path'; readonly path: string };

export interface Link {
  readonly span: Span;
  /** The cell's text, of which `linkTarget` tells where it leads. */
  readonly text: string;
}

/** Where a text of a `url` column leads; undefined for prose and for every other scheme, so that no cell runs a command or opens a file elsewhere. */
export function linkTarget(text: string): LinkTarget | undefined {
  if (/^(?:https?:\/\/[^\s/]|mailto:[^\s@]+@)[^\s]*$/i.test(text)) return { kind: 'address', address: text };
  const path = text.replaceAll('\\', '/');
  if (path.startsWith('/') || /[:\p{Cc}]/u.test(path) || !/[^/.\s][^/]*\.[\p{L}\p{N}]{1,5}$/u.test(path)) return undefined;
  return { kind: 'path', path };
}

/** Addresses in prose, without the full stop, comma or bracket behind them. */
const ADDRESSES = /\b(?:https?:\/\/|mailto:)[^\s<>"]*[^\s<>".,;:!?)\]]/gi;

/** Columns of prose in which addresses lead somewhere. */
const PROSE: ReadonlySet<string> = new Set(['source']);

/** What leads somewhere in the cells of a sheet: the whole cell of a `url` column, and addresses in what is told about sources. */
export function linksIn(plan: Plan, path: string): readonly Link[] {
  const file = plan.records.file(path);
  if (file === undefined || file.blocked !== undefined) return [];
  const columns = file.header.columns.flatMap(({ field, slot }, column) => (slot >= 0 && field !== undefined && (field.kind === 'url' || PROSE.has(field.name)) ? [{ column, slot, isProse: field.kind !== 'url' }] : []));
  if (columns.length === 0) return [];
  const links: Link[] = [];
  for (const row of file.rows()) {
    for (const { column, slot, isProse } of columns) {
      const text = row.value(slot);
      if (typeof text !== 'string' || (isProse ? !text.includes(':') : linkTarget(text) === undefined)) continue;
      const { source, span } = insideOf(file, file.recordOf(row), column);
      if (!isProse) links.push({ span, text });
      else for (const { 0: address, index } of source.matchAll(ADDRESSES)) if (linkTarget(address) !== undefined) links.push({ span: { start: span.start + index, end: span.start + index + address.length }, text: address });
    }
  }
  return links;
}
