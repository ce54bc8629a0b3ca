import { html, nothing } from 'lit-html';
import type { TemplateResult } from 'lit-html';
import { repeat } from 'lit-html/directives/repeat.js';
import type { Band, Block, CalendarTexts, Edge, StripModel, StripRow } from '../../src/protocol/calendar';
import { placed } from '../shared/placed';
import { icon } from './icons';
import type { State } from './state';

/** Height of a row in CSS pixels; the style sheet has the same. */
const ROW = 26;
/** So many rows are drawn beyond what is seen, for scrolling by keys. */
const BEYOND = 6;

/** What part of a strip is on the screen, in CSS pixels. */
export interface Seen {
  readonly top: number;
  readonly height: number;
}

/** Days across, rooms, tanks and broods down. Only the rows on the screen are drawn. */
export function stripView(strip: StripModel, { texts, state, seen, open }: { readonly texts: CalendarTexts; readonly state: State; readonly seen: Seen; readonly open: (row: StripRow) => void }): TemplateResult {
  const { rows, ticks, days, now } = strip;
  const first = Math.max(0, Math.floor(seen.top / ROW) - BEYOND);
  const last = Math.min(rows.length, Math.ceil((seen.top + seen.height) / ROW) + BEYOND);
  const drawn = rows.slice(first, last).map((row, i) => ({ row, at: first + i }));
  const { target } = state;
  const stop = target === undefined || target.of === 'entry' ? -1 : rows.findIndex(({ kind, id }) => kind === target.of && id === target.id);
  const tabStop = stop >= 0 ? stop : rows.findIndex(({ kind }) => kind !== 'room');
  const share = (at: number): string => `${(at / days) * 100}%`;
  return html`
    <div class="strip-head" aria-hidden="true">
      <div class="strip-label"></div>
      <div class="strip-days">
        ${ticks.map(({ at, text, isMonth }) => html`<span class="tick ${isMonth ? 'is-month' : ''}" ${placed({ left: share(at) })}>${text}</span>`)}
        ${now >= 0 && now <= days ? html`<span class="now-label" ${placed({ left: share(now) })}>${texts.today}</span>` : nothing}
      </div>
    </div>
    <div class="strip-body" role="grid" aria-label=${strip.title} aria-rowcount=${rows.length} data-grid ${placed({ height: `${rows.length * ROW}px` })}>
      <div class="strip-days strip-lines" aria-hidden="true">
        ${ticks.map(({ at, isMonth }) => html`<span class="line-at ${isMonth ? 'is-month' : ''}" ${placed({ left: share(at) })}></span>`)}
        ${now >= 0 && now <= days ? html`<span class="now" ${placed({ left: share(now) })}></span>` : nothing}
      </div>
      ${repeat(
        drawn,
        ({ at }) => at,
        ({ row, at }) => stripRow(row, { at, share, days, isStop: at === tabStop, isChosen: at === stop, open }),
      )}
    </div>
  `;
}

/** The target of a row as `data-target` has it; '' for a room. */
function targetOf(row: StripRow): string {
  return row.kind === 'room' ? '' : `${row.kind}:${row.id}`;
}

interface Drawn {
  readonly at: number;
  readonly share: (at: number) => string;
  readonly days: number;
  readonly isStop: boolean;
  readonly isChosen: boolean;
  readonly open: (row: StripRow) => void;
}

function stripRow(row: StripRow, drawn: Drawn): TemplateResult {
  const { at, isStop, isChosen, open } = drawn;
  const place = placed({ transform: `translateY(${at * ROW}px)` });
  if (row.kind === 'room') return html`<div class="strip-row is-room" role="row" aria-rowindex=${at + 1} ${place}><div role="rowheader" class="strip-label"><span class="unseen">${row.told}</span><span aria-hidden="true">${row.label}</span></div><span class="strip-days" aria-hidden="true">${row.blocks.map((each) => block(each, drawn))}</span></div>`;
  return html`
    <div class="strip-row is-${row.kind} ${isChosen ? 'is-chosen' : ''}" role="row" aria-rowindex=${at + 1} aria-selected=${isChosen ? 'true' : 'false'} data-line ${place}>
      <div role="gridcell" class="strip-cell" tabindex=${isStop ? 0 : -1} data-cell data-row=${at} data-target=${targetOf(row)} @click=${() => open(row)}>
        <span class="unseen">${row.told}</span>
        <span class="strip-label" aria-hidden="true"><span class="label">${row.label}</span> <span class="beside">${row.beside}</span></span>
        <span class="strip-days" aria-hidden="true">${row.kind === 'clutch' ? [row.bands.map((each) => band(each, drawn)), row.edges.map((each) => edge(each, drawn)), row.bands.map((each) => word(each, drawn))] : row.blocks.map((each) => block(each, drawn))}</span>
      </div>
    </div>
  `;
}

function between(from: number, to: number, { share, days }: Drawn): { readonly left: string; readonly width: string } {
  const [start, end] = [Math.max(0, from), Math.min(days, to)];
  return { left: share(start), width: share(Math.max(0, end - start)) };
}

function band({ stage, from, to, isExpected }: Band, drawn: Drawn): TemplateResult {
  return html`<span class="band is-${stage} ${isExpected ? 'is-expected' : 'is-recorded'}" ${placed(between(from, to, drawn))}></span>`;
}

/** Behind the window in which a stage begins, so that the hatching doesn't cover it. */
function word({ stage, word: text, clear, to, isExpected }: Band, drawn: Drawn): TemplateResult | typeof nothing {
  if (Math.max(0, clear) >= to || clear >= drawn.days) return nothing;
  return html`<span class="word-at is-${stage} ${isExpected ? 'is-expected' : ''}" ${placed(between(clear, to, drawn))}><span class="word">${text}</span></span>`;
}

function edge({ from, at, to }: Edge, drawn: Drawn): TemplateResult {
  return html`<span class="edge" ${placed(between(from, to, drawn))}></span>${at >= 0 && at <= drawn.days ? html`<span class="middle" ${placed({ left: drawn.share(at) })}></span>` : nothing}`;
}

function block({ kind, text, from, to, at }: Block, drawn: Drawn): TemplateResult {
  return html`
    <span class="block is-${kind}" ${placed(between(from, to, drawn))}>${kind === 'job' ? icon('tools') : icon('heart')}<span class="word">${text}</span></span>
    ${at !== undefined && at >= 0 && at <= drawn.days ? html`<span class="middle" ${placed({ left: drawn.share(at) })}></span>` : nothing}
  `;
}
