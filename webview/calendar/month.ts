import { html } from 'lit-html';
import type { TemplateResult } from 'lit-html';
import type { CalendarTexts, MonthDay, MonthLine, MonthModel } from '../../src/protocol/calendar';
import { iconOf } from './icons';

/** A month as a grid of days with one tab stop; the chosen day's list stands beside it. */
export function monthView(month: MonthModel, { texts, chosen, choose }: { readonly texts: CalendarTexts; readonly chosen: number; readonly choose: (day: number) => void }): TemplateResult {
  const days = month.weeks.flat();
  // The tab stop is the chosen day where it is seen, else today or the first of the month.
  const stop = days.some(({ day }) => day === chosen) ? chosen : (days.find(({ position }) => position === 'today')?.day ?? month.first);
  return html`
    <div class="month" role="grid" aria-label=${month.title} data-grid data-wraps>
      <div class="weekdays" role="row">${month.weekdays.map((name) => html`<div role="columnheader">${name}</div>`)}</div>
      ${month.weeks.map((week) => html`<div class="week" role="row" data-line>${week.map((day) => cell(day, { texts, chosen, stop, choose }))}</div>`)}
    </div>
  `;
}

function cell(day: MonthDay, { texts, chosen, stop, choose }: { readonly texts: CalendarTexts; readonly chosen: number; readonly stop: number; readonly choose: (day: number) => void }): TemplateResult {
  const { position, isOfMonth, label, lines, more, told } = day;
  return html`
    <div
      class="day is-${position} ${isOfMonth ? '' : 'is-beside'}"
      role="gridcell"
      tabindex=${day.day === stop ? 0 : -1}
      aria-selected=${day.day === chosen ? 'true' : 'false'}
      aria-current=${position === 'today' ? 'date' : 'false'}
      data-cell
      data-day=${day.day}
      @click=${() => choose(day.day)}
      @focus=${() => choose(day.day)}
    >
      <span class="unseen">${told}</span>
      <div aria-hidden="true">
        <div class="number">${label}${position === 'today' ? html` <span class="today">${texts.today}</span>` : ''}</div>
        ${lines.map(line)}${more > 0 ? html`<div class="more">+${more} ${texts['lines-more']}</div>` : ''}
      </div>
    </div>
  `;
}

function line({ kind, text, whom, isExpected }: MonthLine): TemplateResult {
  return html`<div class="line is-${kind} ${isExpected ? 'is-expected' : ''}">${iconOf(kind)}${whom === '' ? '' : html`<span class="whom">${whom}</span> `}<span class="text">${text}</span></div>`;
}
