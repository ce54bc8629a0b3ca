import { html } from 'lit-html';
import type { TemplateResult } from 'lit-html';
import type { MonthLine } from '../../src/protocol/calendar';

const icons: Readonly<Record<MonthLine['kind'], string>> = {
  overdue: 'warning',
  hatch: 'circle-large',
  'first-feed': 'star-empty',
  'free-swimming': 'send',
  check: 'eye',
  feeding: 'sync',
  count: 'list-ordered',
  move: 'arrow-swap',
  water: 'beaker',
  'live-food': 'clockface',
  maintenance: 'tools',
  'next-spawn': 'heart',
  sale: 'tag',
  order: 'package',
};

/** The icon of a kind of entry; its word stands beside it. */
export function iconOf(kind: MonthLine['kind']): TemplateResult {
  return icon(icons[kind]);
}

export function icon(name: string): TemplateResult {
  return html`<span class="codicon codicon-${name}" aria-hidden="true"></span>`;
}
