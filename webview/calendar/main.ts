import '@vscode/codicons/dist/codicon.css';
import '../shared/chart.css';
import './calendar.css';
import { render } from 'lit-html';
import type { CalendarQuery, FromCalendar, Target, ToCalendar } from '../../src/protocol/calendar';
import { registerControls } from '../shared/controls';
import { acquireHost } from '../shared/host';
import { cellByKey } from '../shared/roving';
import { page } from './page';
import type { Deeds } from './page';
import { begin, isSameTarget, keptOf, reduce, targetFrom } from './state';
import type { Action, Kept } from './state';

/** So long a pointer rests on something before it is asked why. */
const REST = 150;
/** So long after something changed it is kept, in ms. */
const KEEP = 100;

registerControls();
const host = acquireHost<FromCalendar, Kept>();
const kept = host.getState();
const root = document.createElement('div');
root.className = 'calendar';
document.body.append(root);

let state = begin(kept);
let isDrawing = false;
/** Whether the focus goes to what is asked in place. */
let goesToForm = false;
/** Whether the focus goes to the list of the day as soon as that is the one that is drawn. */
let goesToList = false;
/** Whether the chart comes into sight as soon as it is drawn, beside the line that it is about. */
let goesToChart = false;
/** A day that gets the focus as soon as it is there. */
let dayToFocus: number | undefined;
/** Where a view that was just restored is to be scrolled to, until it is as long as that or somebody goes elsewhere. */
let scrollTo = kept?.scrolled;
let pointed: ReturnType<typeof setTimeout> | undefined;
let keeping: ReturnType<typeof setTimeout> | undefined;

function act(action: Action): void {
  const before = state;
  state = reduce(state, action);
  if (state === before) return;
  if (state.target !== undefined) {
    // What was pointed at when the window was closed is asked about again.
    const isOther = !isSameTarget(before.target, state.target) || (before.model === undefined && state.model !== undefined);
    if (isOther) host.postMessage({ kind: 'why', target: state.target });
    if (state.isCharted && (isOther || !before.isCharted)) host.postMessage({ kind: 'chart', target: state.target });
  }
  if (state.asked !== undefined && state.asked.key !== before.asked?.key) goesToForm = true;
  if (state.isCharted !== before.isCharted) goesToChart = state.isCharted;
  draw();
}

function draw(): void {
  if (isDrawing) return;
  isDrawing = true;
  requestAnimationFrame(() => {
    isDrawing = false;
    const scrolled = scroller();
    const focused = focusedCell();
    render(page(state, { deeds, seen: { top: scrolled?.scrollTop ?? 0, height: scrolled?.clientHeight ?? window.innerHeight } }), root);
    if (focused !== undefined && document.hasFocus() && (document.activeElement === null || document.activeElement === document.body)) focusNear(focused);
    afterDrawing();
  });
}

/** Where the focus is in a grid; who answers what is asked in place is at the line above. */
function focusedCell(): { readonly grid: string; readonly at: number } | undefined {
  const line = document.activeElement?.closest('[data-line]') ?? document.activeElement?.closest('.asked-row')?.previousElementSibling;
  const grid = line?.closest('[data-grid]');
  if (line === undefined || line === null || grid === undefined || grid === null) return undefined;
  return { grid: grid.getAttribute('aria-label') ?? '', at: [...grid.querySelectorAll('[data-line]')].indexOf(line) };
}

/** What was done is gone with its line: the focus goes to what stands there now, so that nobody has to begin from the top again. */
function focusNear({ grid, at }: { readonly grid: string; readonly at: number }): void {
  const same = [...root.querySelectorAll('[data-grid]')].find((each) => each.getAttribute('aria-label') === grid);
  const lines = [...(same?.querySelectorAll('[data-line]') ?? [])];
  lines[Math.min(at, lines.length - 1)]?.querySelector<HTMLElement>('[data-cell]')?.focus();
}

function afterDrawing(): void {
  const now = scroller();
  if (now !== null && scrollTo !== undefined && state.model !== undefined) {
    const before = now.scrollTop;
    now.scrollTop = scrollTo;
    if (now.scrollTop > scrollTo - 1) scrollTo = undefined;
    if (now.scrollTop !== before) draw();
  }
  if (goesToList) {
    goesToList = false;
    root.querySelector<HTMLElement>('.pane [data-cell][tabindex="0"]')?.focus();
  }
  const chart = goesToChart ? root.querySelector('.pane .is-chart') : null;
  if (chart !== null) {
    goesToChart = false;
    root.querySelector('.pane .item.is-chosen')?.scrollIntoView({ block: 'nearest' });
    chart.scrollIntoView({ block: 'start' });
  }
  const day = dayToFocus === undefined ? null : root.querySelector<HTMLElement>(`[data-day="${dayToFocus}"][tabindex="0"]`);
  if (day !== null && state.model?.body.view === 'month' && state.model.body.month.first === dayToFocus) {
    dayToFocus = undefined;
    day.focus();
  }
  // Once: who goes elsewhere meanwhile isn't called back.
  if (goesToForm) {
    goesToForm = false;
    const first = root.querySelector<HTMLInputElement>('.asked [data-first]');
    first?.focus();
    if (first instanceof HTMLInputElement) first.select();
  }
  keepLater();
}

function scroller(): HTMLElement | null {
  return root.querySelector<HTMLElement>('[data-scrolls]');
}

/** Where one is need not be kept in each frame: to ask how far it is scrolled just after drawing would make the browser lay all out at once. */
function keepLater(): void {
  keeping ??= setTimeout(() => {
    keeping = undefined;
    if (state.model !== undefined) host.setState(keptOf(state, scrollTo ?? scroller()?.scrollTop ?? 0));
  }, KEEP);
}

function show(query: CalendarQuery, fishroom?: string): void {
  act({ kind: 'asksFor', query, fishroom });
  host.postMessage({ kind: 'show', ask: state.ask, query, fishroom: fishroom ?? state.fishroom });
}

/** From a day of the month on to the month before or after, whose first day then has the focus. */
function turnsMonth(key: 'PageUp' | 'PageDown'): boolean {
  const body = state.model?.body;
  if (body?.view !== 'month' || document.activeElement?.matches('[data-day]') !== true) return false;
  const day = key === 'PageUp' ? body.month.before : body.month.after;
  dayToFocus = day;
  show({ ...state.query, day });
  return true;
}

/** After an answer was given, back to where it was asked for. */
function returnTo(key: string): void {
  requestAnimationFrame(() => {
    for (const cell of root.querySelectorAll<HTMLElement>('[data-cell]')) if (cell.dataset['target'] === `entry:${key}`) return cell.focus();
  });
}

const deeds: Deeds = {
  ask: show,
  choose: (day) => act({ kind: 'day', day }),
  open: (key) => host.postMessage({ kind: 'open', target: { of: 'entry', key } }),
  openRow: (row) => {
    if (row.kind !== 'room') host.postMessage({ kind: 'open', target: { of: row.kind, id: row.id } });
  },
  done: (key) => {
    if (state.doing === key) return;
    act({ kind: 'done', key });
    host.postMessage({ kind: 'done', key });
  },
  takeWay: (way) => act({ kind: 'way', way }),
  answer: (name, value) => act({ kind: 'answer', name, value }),
  write: () => {
    const { asked } = state;
    if (asked === undefined || asked.isSent) return;
    act({ kind: 'sent' });
    host.postMessage({ kind: 'done', key: asked.key, answer: { way: asked.way, answers: asked.answers } });
  },
  cancel: () => {
    const key = state.asked?.key;
    act({ kind: 'cancel' });
    if (key !== undefined) returnTo(key);
  },
  showChart: (isCharted) => act({ kind: 'charted', isCharted }),
  takeBack: () => host.postMessage({ kind: 'takeBack' }),
};

function targetAt(event: Event): Target | undefined {
  return event.target instanceof Element ? targetFrom(event.target.closest<HTMLElement>('[data-target]')?.dataset['target']) : undefined;
}

/** Closes the filters but the one in which something happened; who was in one goes on at its name. */
function closeFilters(but: Node | undefined): void {
  for (const open of root.querySelectorAll<HTMLDetailsElement>('details[data-filter][open]')) {
    if (but !== undefined && open.contains(but)) continue;
    if (but === undefined && open.contains(document.activeElement)) open.querySelector<HTMLElement>('summary')?.focus();
    open.open = false;
  }
}

for (const move of ['wheel', 'pointerdown', 'keydown']) root.addEventListener(move, () => (scrollTo = undefined), { capture: true, passive: true });
root.addEventListener('focusin', (event) => {
  const target = targetAt(event);
  if (target !== undefined) act({ kind: 'target', target });
});
root.addEventListener('pointerover', (event) => {
  const target = targetAt(event);
  clearTimeout(pointed);
  if (target !== undefined) pointed = setTimeout(() => act({ kind: 'target', target }), REST);
});
root.addEventListener('keydown', (event) => {
  if (event.key === 'Escape') closeFilters(undefined);
  if (event.target instanceof Element && event.target.closest('.asked') !== null) return;
  if (event.key === 'Enter' || event.key === ' ') {
    const cell = event.target instanceof HTMLElement && event.target.matches('[data-cell]:not(button)') ? event.target : undefined;
    if (cell === undefined) return;
    event.preventDefault();
    // A day leads on to its list, a row of the season to its text.
    if (cell.dataset['day'] === undefined) cell.click();
    else {
      goesToList = true;
      draw();
    }
    return;
  }
  if ((event.key === 'PageUp' || event.key === 'PageDown') && turnsMonth(event.key)) {
    event.preventDefault();
    return;
  }
  const grid = event.target instanceof Element ? event.target.closest('[data-grid]') : null;
  const to = grid === null ? undefined : cellByKey(event, grid);
  if (to === undefined) return;
  event.preventDefault();
  to.focus();
  to.scrollIntoView({ block: 'nearest' });
});
root.addEventListener('click', (event) => {
  // A filter that is open closes when something else is chosen.
  if (event.target instanceof Node) closeFilters(event.target);
});
root.addEventListener('scroll', (event) => {
  if (event.target !== scroller()) return;
  if (state.model?.body.view === 'strip') draw();
  else keepLater();
}, { capture: true, passive: true });
window.addEventListener('resize', draw);
window.addEventListener('message', (event: MessageEvent<ToCalendar>) => act({ kind: 'received', message: event.data }));

host.postMessage({ kind: 'ready', ...(kept === undefined ? {} : { fishroom: kept.fishroom, query: kept.query }) });
