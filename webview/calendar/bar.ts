import { html, nothing } from 'lit-html';
import type { TemplateResult } from 'lit-html';
import type { CalendarModel, CalendarQuery, CalendarTexts, CalendarView, Choice } from '../../src/protocol/calendar';
import { icon } from './icons';
import type { State } from './state';

const views: readonly CalendarView[] = ['month', 'strip', 'list'];

/** What the bar asks for. */
export type Ask = (query: CalendarQuery, fishroom?: string) => void;

/** Which way to look, where in time, and at what of the fishroom. */
export function bar(state: State, ask: Ask): TemplateResult {
  const { texts, model, query, fishrooms, fishroom } = state;
  if (texts === undefined || model === undefined) return html``;
  const look = (view: CalendarView): void => ask({ ...query, view, day: undefined, days: undefined });
  return html`
    <div class="bar">
      <div class="ways" role="group" aria-label=${texts.calendar}>
        ${views.map((view) => html`<vscode-button appearance=${view === query.view ? 'primary' : 'secondary'} aria-pressed=${view === query.view ? 'true' : 'false'} @click=${() => look(view)}>${texts[view]}</vscode-button>`)}
      </div>
      ${time(model, { texts, query, ask })}
      <h1 class="title">${titleOf(model)}</h1>
      <div class="filters">
        ${fishrooms.length > 1
          ? html`<label class="pick"><span>${texts.fishroom}</span><select @change=${(event: Event) => ask({ view: query.view, selection: {} }, (event.target as HTMLSelectElement).value)}>${fishrooms.map(({ value, label }) => html`<option value=${value} ?selected=${value === fishroom}>${label}</option>`)}</select></label>`
          : nothing}
        ${filter('rooms', model.rooms, { texts, query, ask })} ${filter('species', model.species, { texts, query, ask })} ${filter('kinds', model.kinds, { texts, query, ask })}
      </div>
    </div>
  `;
}

function titleOf({ body }: CalendarModel): string {
  switch (body.view) {
    case 'month':
      return body.month.title;
    case 'strip':
      return body.strip.title;
    case 'list':
      return body.title;
  }
}

interface Asking {
  readonly texts: CalendarTexts;
  readonly query: CalendarQuery;
  readonly ask: Ask;
}

/** Earlier, today, later; of a season how much of it. A list always begins with today. */
function time({ body, today }: CalendarModel, { texts, query, ask }: Asking): TemplateResult | typeof nothing {
  if (body.view === 'list') return nothing;
  const [before, after] = body.view === 'month' ? [body.month.before, body.month.after] : [body.before, body.after];
  const to = (day: number | undefined): void => ask({ ...query, day });
  return html`
    <div class="time" role="group" aria-label=${texts.when}>
      <vscode-button appearance="icon" aria-label=${texts.earlier} title=${texts.earlier} @click=${() => to(before)}>${icon('chevron-left')}</vscode-button>
      <vscode-button appearance="secondary" @click=${() => to(body.view === 'month' ? today : undefined)}>${texts.today}</vscode-button>
      <vscode-button appearance="icon" aria-label=${texts.later} title=${texts.later} @click=${() => to(after)}>${icon('chevron-right')}</vscode-button>
      ${body.view === 'strip'
        ? html`<label class="pick"><span>${texts.span}</span><select @change=${(event: Event) => ask({ ...query, days: Number((event.target as HTMLSelectElement).value) })}>${body.spans.map(({ value, label }) => html`<option value=${value} ?selected=${Number(value) === body.strip.days}>${label}</option>`)}</select></label>`
        : nothing}
    </div>
  `;
}

/** What of the rooms, species or kinds is shown: all, unless some are ticked. */
function filter(name: 'rooms' | 'species' | 'kinds', choices: readonly Choice[], { texts, query, ask }: Asking): TemplateResult | typeof nothing {
  if (choices.length < 2) return nothing;
  const chosen: readonly string[] | undefined = query.selection[name];
  const toggle = (value: string, isOn: boolean): void => {
    const before = chosen ?? [];
    const after = isOn ? [...before, value] : before.filter((each) => each !== value);
    ask({ ...query, selection: { ...query.selection, [name]: after.length === 0 || after.length === choices.length ? undefined : after } });
  };
  const shown = chosen === undefined ? texts.all : chosen.length === 1 ? (choices.find(({ value }) => value === chosen[0])?.label ?? '') : String(chosen.length);
  return html`
    <details class="filter" data-filter>
      <summary>${texts[name]}: ${shown}</summary>
      <div class="filter-choices" role="group" aria-label=${texts[name]}>
        ${choices.map(({ value, label }) => html`<label class="choice"><input type="checkbox" .checked=${chosen?.includes(value) === true} @change=${(event: Event) => toggle(value, (event.target as HTMLInputElement).checked)} /><span>${label}</span></label>`)}
      </div>
    </details>
  `;
}
