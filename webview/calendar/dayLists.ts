import { html, nothing } from 'lit-html';
import type { TemplateResult } from 'lit-html';
import { repeat } from 'lit-html/directives/repeat.js';
import type { AskedInPlace, CalendarItem, CalendarTexts, DayList, DaySection } from '../../src/protocol/calendar';
import { icon, iconOf } from './icons';
import type { Asked, State } from './state';

/** What can be done in a list. */
export interface ListDeeds {
  readonly done: (key: string) => void;
  readonly open: (key: string) => void;
  readonly takeWay: (way: string) => void;
  readonly answer: (name: string, value: string) => void;
  readonly write: () => void;
  readonly cancel: () => void;
}

interface Listed {
  readonly texts: CalendarTexts;
  readonly state: State;
  readonly deeds: ListDeeds;
  /** The entry that is the tab stop of the list. */
  readonly stop: string | undefined;
}

/** Days with what falls on them, as one grid with one tab stop. */
export function listsView(lists: readonly DayList[], { label, texts, state, deeds }: Omit<Listed, 'stop'> & { readonly label: string }): TemplateResult {
  const keys = lists.flatMap(({ sections }) => sections.flatMap(({ items }) => items.map(({ key }) => key)));
  const chosen = state.target?.of === 'entry' ? state.target.key : undefined;
  const stop = chosen !== undefined && keys.includes(chosen) ? chosen : keys[0];
  return html`<div class="lists" role="grid" aria-label=${label} data-grid>${repeat(
    lists,
    ({ day }) => day,
    (list) => dayList(list, { texts, state, deeds, stop }),
  )}</div>`;
}

function dayList({ title, distance, sections }: DayList, listed: Listed): TemplateResult {
  return html`
    <div class="day-title" role="row"><div role="rowheader"><h2>${title}</h2><span class="distance">${distance}</span></div></div>
    ${repeat(
      sections,
      // What was pressed stays the same line when another room comes before it.
      ({ room, isOverdue }) => JSON.stringify([room, isOverdue]),
      (each) => section(each, listed),
    )}
  `;
}

function section({ title, isOverdue, feeds, items }: DaySection, listed: Listed): TemplateResult {
  return html`
    <div class="room ${isOverdue ? 'is-overdue' : ''}" role="row"><div role="rowheader"><h3>${isOverdue ? iconOf('overdue') : nothing}${title}</h3></div></div>
    ${feeds.map(({ time, what, tanks }) => html`<div class="feed" role="row"><div role="gridcell" class="feed-cell">${iconOf('feeding')}<span class="time">${time}</span><span class="what">${what}</span> <span class="tanks">${tanks}</span></div></div>`)}
    ${repeat(
      items,
      ({ key }) => key,
      (item) => row(item, listed),
    )}
  `;
}

function row(item: CalendarItem, listed: Listed): TemplateResult {
  const { texts, state, deeds, stop } = listed;
  const { key, kind, what, whom, tank, time, when, state: how, isExpected, deed } = item;
  const isChosen = state.target?.of === 'entry' && state.target.key === key;
  const asked = state.asked?.key === key ? state.asked : undefined;
  return html`
    <div class="item is-${how} ${isExpected ? 'is-expected' : ''} ${isChosen ? 'is-chosen' : ''}" role="row" aria-selected=${isChosen ? 'true' : 'false'} data-line>
      <div role="gridcell" class="item-cell">
        <button class="item-text" tabindex=${key === stop ? 0 : -1} data-cell data-target="entry:${key}" @click=${() => deeds.open(key)}>
          ${iconOf(kind)}<span class="time">${time}</span> <span class="what">${what}</span> <span class="whom">${whom}</span> <span class="tank">${tank}</span> <span class="when">${when}</span> <span class="unseen">${texts.open}</span>
        </button>
      </div>
      ${deed !== 'none'
        ? html`<div role="gridcell"><button class="deed" tabindex="-1" data-cell data-target="entry:${key}" @click=${() => deeds.done(key)}>${icon('check')}<span>${texts[deed]}</span> <span class="unseen">${what} ${whom}</span></button></div>`
        : html`<div role="gridcell" class="no-deed"></div>`}
    </div>
    ${asked === undefined ? nothing : html`<div role="row" class="asked-row"><div role="gridcell">${form(asked, `${what} ${whom}`, listed)}</div></div>`}
  `;
}

/** What is asked in place before it is written: which way, where there are several, and what belongs to it. */
function form({ ways, way, answers }: Asked, what: string, { texts, deeds }: Listed): TemplateResult {
  const chosen = ways.find((each) => each.way === way);
  // Now is mostly right; what was counted is what has to be typed.
  const first = Math.max(0, chosen?.fields.findIndex(({ name }) => name !== 'time') ?? 0);
  const submit = (event: Event): void => {
    event.preventDefault();
    deeds.write();
  };
  const onKey = (event: KeyboardEvent): void => {
    if (event.key === 'Escape') deeds.cancel();
  };
  return html`
    <form class="asked" aria-label=${what} @submit=${submit} @keydown=${onKey}>
      ${ways.length > 1
        ? html`<div class="asked-ways" role="radiogroup" aria-label=${what}>
            ${ways.map((each) => html`<label class="choice"><input type="radio" name="way" value=${each.way} .checked=${each.way === way} ?data-first=${each.way === way} @change=${() => deeds.takeWay(each.way)} /><span>${each.label}</span></label>`)}
          </div>`
        : nothing}
      ${(chosen?.fields ?? []).map((field, i) => html`<label class="asked-field"><span>${field.label}</span>${control(field, { value: answers[field.name] ?? '', isFirst: i === first && ways.length === 1, deeds })}</label>`)}
      ${chosen?.caution === undefined ? nothing : html`<p class="caution">${icon('warning')}${chosen.caution}</p>`}
      <div class="asked-deeds"><button class="primary" type="submit">${texts.write}</button><button type="button" @click=${deeds.cancel}>${texts.cancel}</button></div>
    </form>
  `;
}

/** A likely answer is there already. */
function control({ name, choices, isTyped, isNeeded }: AskedInPlace, { value, isFirst, deeds }: { readonly value: string; readonly isFirst: boolean; readonly deeds: ListDeeds }): TemplateResult {
  const take = (event: Event): void => deeds.answer(name, (event.target as HTMLInputElement | HTMLSelectElement).value);
  if (!isTyped) {
    return html`<select name=${name} ?required=${isNeeded} ?data-first=${isFirst} @change=${take}>${choices.map((choice) => html`<option value=${choice.value} ?selected=${choice.value === value}>${choice.label}</option>`)}</select>`;
  }
  const list = `choices-${name}`;
  return html`
    <input name=${name} .value=${value} ?required=${isNeeded} ?data-first=${isFirst} autocomplete="off" list=${choices.length > 0 ? list : nothing} @input=${take} />
    ${choices.length > 0 ? html`<datalist id=${list}>${choices.map((choice) => html`<option value=${choice.value}>${choice.label}</option>`)}</datalist>` : nothing}
  `;
}
