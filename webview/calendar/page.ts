import { html, nothing } from 'lit-html';
import type { TemplateResult } from 'lit-html';
import type { CalendarTexts, StripRow } from '../../src/protocol/calendar';
import { bar } from './bar';
import type { Ask } from './bar';
import { listsView } from './dayLists';
import type { ListDeeds } from './dayLists';
import { chartFigure } from '../shared/chart';
import { monthView } from './month';
import { isSameTarget } from './state';
import type { State } from './state';
import { stripView } from './strip';
import type { Seen } from './strip';

/** What the keeper can do on the screen. */
export interface Deeds extends ListDeeds {
  readonly ask: Ask;
  readonly choose: (day: number) => void;
  readonly openRow: (row: StripRow) => void;
  readonly takeBack: () => void;
  readonly showChart: (isCharted: boolean) => void;
}

/** The whole screen. */
export function page(state: State, { deeds, seen }: { readonly deeds: Deeds; readonly seen: Seen }): TemplateResult {
  const { texts, nothing: why } = state;
  if (texts === undefined) return html``;
  if (why !== undefined) return html`<main class="nothing"><p>${why}</p></main>`;
  return html`${bar(state, deeds.ask)}${body(state, { texts, deeds, seen })}${foot(state, { texts, deeds })}`;
}

function body(state: State, { texts, deeds, seen }: { readonly texts: CalendarTexts; readonly deeds: Deeds; readonly seen: Seen }): TemplateResult {
  const { model } = state;
  if (model === undefined) return html`<main><p class="empty">${texts.loading}</p></main>`;
  const empty = model.empty === undefined ? nothing : html`<p class="empty">${model.empty}</p>`;
  switch (model.body.view) {
    case 'month': {
      const chosen = state.day ?? model.today;
      const lists = model.body.lists.filter(({ day }) => day === chosen);
      const drawn = chart(state);
      return html`
        <main class="with-pane">
          <div class="view is-month">${empty}${monthView(model.body.month, { texts, chosen, choose: deeds.choose })}</div>
          <aside class="pane ${drawn === nothing ? '' : 'is-shared'}" aria-label=${texts.details}>
            <div class="pane-part">${lists.length > 0 ? listsView(lists, { label: texts.details, texts, state, deeds }) : html`<p class="empty">${texts.none}</p>`}</div>
            ${drawn === nothing ? nothing : html`<div class="pane-part is-chart">${drawn}</div>`}
          </aside>
        </main>
      `;
    }
    case 'list': {
      const { days, mayShowMore, lists } = model.body;
      return html`
        <main class=${state.isCharted ? 'with-pane' : ''}>
          <div class="view is-list" data-scrolls>
            ${empty}${listsView(lists, { label: texts.list, texts, state, deeds })}
            ${mayShowMore ? html`<vscode-button class="more-days" appearance="secondary" @click=${() => deeds.ask({ ...state.query, days: days + 14 })}>${texts.more}</vscode-button>` : nothing}
          </div>
          ${chartPane(state, texts)}
        </main>
      `;
    }
    case 'strip':
      return html`
        <main class=${state.isCharted ? 'with-pane' : ''}>
          <div class="view is-strip" data-scrolls>${empty}${stripView(model.body.strip, { texts, state, seen, open: deeds.openRow })}</div>
          ${chartPane(state, texts)}
          <p class="legend" aria-hidden="true"><span class="key band is-recorded"></span>${texts['legend-recorded']}<span class="key band is-expected"></span>${texts['legend-expected']}<span class="key edge"></span>${texts['legend-window']}</p>
        </main>
      `;
  }
}

function chartPane(state: State, texts: CalendarTexts): TemplateResult | typeof nothing {
  return state.isCharted ? html`<aside class="pane" aria-label=${texts.chart}>${chart(state)}</aside>` : nothing;
}

/** Of what was pointed at last; it stays until something else is. */
function chart({ isCharted, chart: outcome }: State): TemplateResult | typeof nothing {
  if (!isCharted || outcome === undefined) return nothing;
  return outcome.kind === 'chart' ? chartFigure(outcome.chart, 'beside') : html`<p class="empty"><strong>${outcome.title}</strong> ${outcome.why}</p>`;
}

/** Why what is pointed at is there, and what the last act came to. It always takes the same room, so that nothing jumps. */
function foot(state: State, { texts, deeds }: { readonly texts: CalendarTexts; readonly deeds: Deeds }): TemplateResult {
  const { target, why, told } = state;
  const shown = target !== undefined && why !== undefined && isSameTarget(why.target, target) ? why : undefined;
  return html`
    <footer class="foot">
      <div class="why" id="why">
        ${shown === undefined
          ? html`<p class="hint">${texts.hint}</p>`
          : html`<p class="why-title">${shown.why.title}</p>${shown.why.lines.map((line) => html`<p>${line}</p>`)}`}
      </div>
      <div class="told">
        <vscode-button appearance=${state.isCharted ? 'primary' : 'secondary'} aria-pressed=${state.isCharted ? 'true' : 'false'} @click=${() => deeds.showChart(!state.isCharted)}>${texts.chart}</vscode-button>
        <span role="status" aria-live="polite">${told?.text ?? ''}</span>${told?.isDone === true ? html`<vscode-button appearance="secondary" @click=${deeds.takeBack}>${texts.back}</vscode-button>` : nothing}</div>
    </footer>
  `;
}
