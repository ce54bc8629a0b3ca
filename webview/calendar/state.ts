import type { CalendarModel, CalendarQuery, CalendarTexts, ChartOutcome, Choice, ShortWhy, Target, ToCalendar, WayAsked } from '../../src/protocol/calendar';

/** All that the screen shows. */
export interface State {
  readonly texts: CalendarTexts | undefined;
  readonly fishrooms: readonly Choice[];
  readonly fishroom: string | undefined;
  /** What was asked for last; the model may still be that of the query before. */
  readonly query: CalendarQuery;
  /** How often something was asked for. */
  readonly ask: number;
  readonly model: CalendarModel | undefined;
  /** There is nothing that could be shown, and why. */
  readonly nothing: string | undefined;
  /** The day whose list stands beside the month. */
  readonly day: number | undefined;
  /** What is pointed at or has the focus. */
  readonly target: Target | undefined;
  readonly why: { readonly target: Target; readonly why: ShortWhy } | undefined;
  /** Whether the chart of what is pointed at stands beside. */
  readonly isCharted: boolean;
  readonly chart: ChartOutcome | undefined;
  /** What is asked in place. */
  readonly asked: Asked | undefined;
  readonly told: { readonly text?: string | undefined; readonly isDone: boolean } | undefined;
  /** The entry that is to be done, until the host has asked or told what comes of it: a second press, with wet fingers, is none. */
  readonly doing: string | undefined;
}

/** Which way an entry was done, and what was answered so far. */
export interface Asked {
  readonly key: string;
  readonly ways: readonly WayAsked[];
  readonly way: string;
  readonly answers: Readonly<Record<string, string>>;
  /** What was answered is being written. */
  readonly isSent: boolean;
}

/** What survives closing the window: where one was, never what is in the records. */
export interface Kept {
  readonly fishroom?: string | undefined;
  readonly query: CalendarQuery;
  readonly day?: number | undefined;
  readonly target?: Target | undefined;
  readonly isCharted?: boolean | undefined;
  readonly scrolled?: number | undefined;
}

export type Action =
  | { readonly kind: 'received'; readonly message: ToCalendar }
  | { readonly kind: 'asksFor'; readonly query: CalendarQuery; readonly fishroom?: string | undefined }
  | { readonly kind: 'day'; readonly day: number }
  | { readonly kind: 'target'; readonly target: Target | undefined }
  | { readonly kind: 'way'; readonly way: string }
  | { readonly kind: 'answer'; readonly name: string; readonly value: string }
  | { readonly kind: 'done'; readonly key: string }
  | { readonly kind: 'sent' }
  | { readonly kind: 'charted'; readonly isCharted: boolean }
  | { readonly kind: 'cancel' };

export const FIRST: State = { texts: undefined, fishrooms: [], fishroom: undefined, query: { view: 'month', selection: {} }, ask: 0, model: undefined, nothing: undefined, day: undefined, target: undefined, why: undefined, isCharted: false, chart: undefined, asked: undefined, told: undefined, doing: undefined };

export function begin(kept: Kept | undefined): State {
  return kept === undefined ? FIRST : { ...FIRST, query: kept.query, fishroom: kept.fishroom, day: kept.day, target: kept.target, isCharted: kept.isCharted === true };
}

export function keptOf({ fishroom, query, day, target, isCharted }: State, scrolled: number): Kept {
  return { fishroom, query, day, target, isCharted, scrolled };
}

/** The state after something happened. */
export function reduce(state: State, action: Action): State {
  switch (action.kind) {
    case 'received':
      return received(state, action.message);
    case 'asksFor':
      return { ...state, ask: state.ask + 1, query: action.query, fishroom: action.fishroom ?? state.fishroom, asked: undefined, day: dayAsked(state, action.query) };
    case 'day':
      // The focus may come back to the day that is chosen already, and with it nothing has changed.
      return action.day === state.day ? state : { ...state, day: action.day, asked: undefined };
    case 'target':
      return isSameTarget(state.target, action.target) ? state : { ...state, target: action.target };
    case 'way':
      return state.asked === undefined ? state : { ...state, asked: inWay(state.asked, action.way) };
    case 'answer':
      return state.asked === undefined ? state : { ...state, asked: { ...state.asked, answers: { ...state.asked.answers, [action.name]: action.value } } };
    case 'done':
      return { ...state, doing: action.key };
    case 'sent':
      return state.asked === undefined ? state : { ...state, asked: { ...state.asked, isSent: true } };
    case 'charted':
      return { ...state, isCharted: action.isCharted };
    case 'cancel':
      return { ...state, asked: undefined };
  }
}

function received(state: State, message: ToCalendar): State {
  switch (message.kind) {
    case 'shown': {
      const { ask, fishroom, fishrooms, model, query, texts } = message;
      // An answer to a question that is no longer asked comes too late.
      if (ask < state.ask && state.model !== undefined) return state;
      return { ...state, texts, fishrooms, fishroom, nothing: undefined, model: withLists(model, state.model), query, day: chosenIn(model, state.day) };
    }
    case 'lists':
      if (message.ask < state.ask || state.model?.body.view !== 'month') return state;
      return { ...state, model: { ...state.model, body: { ...state.model.body, lists: message.lists } } };
    case 'nothing':
      return { ...state, texts: message.texts, model: undefined, nothing: message.text };
    case 'why':
      return { ...state, why: message };
    case 'chart':
      return { ...state, chart: message.outcome };
    case 'asked': {
      const { key, ways } = message;
      return { ...state, doing: undefined, asked: inWay({ key, ways, answers: {}, isSent: false }, ways[0]?.way ?? '') };
    }
    case 'told':
      return { ...state, doing: message.key === state.doing ? undefined : state.doing, told: message.text === undefined ? state.told : message, asked: afterTold(state.asked, message) };
  }
}

/** What was written closes the form that it was asked in, not one that was opened for the same thing before that was told. */
function afterTold(asked: Asked | undefined, { key, isDone }: { readonly key?: string | undefined; readonly isDone: boolean }): Asked | undefined {
  if (asked === undefined || asked.key !== key || !asked.isSent) return asked;
  return isDone ? undefined : { ...asked, isSent: false };
}

/** Until the lists of the other days of a month come, those are shown that were there before, so that nothing flickers. */
function withLists(model: CalendarModel, before: CalendarModel | undefined): CalendarModel {
  if (model.body.view !== 'month' || before?.body.view !== 'month' || before.body.month.first !== model.body.month.first) return model;
  const { lists } = model.body;
  return { ...model, body: { ...model.body, lists: [...lists, ...before.body.lists.filter(({ day }) => !lists.some((list) => list.day === day))] } };
}

/** Who turns to another month, or to today, is shown that day; who only chooses what is shown stays on the same day. */
function dayAsked({ query, day }: State, asked: CalendarQuery): number | undefined {
  return asked.view === 'month' && asked.selection === query.selection ? (asked.day ?? day) : day;
}

/** The day whose list stands beside a month: the one that was chosen as long as it is seen, else today or the first of the month. */
function chosenIn({ today, body }: CalendarModel, chosen: number | undefined): number | undefined {
  if (body.view !== 'month') return chosen;
  const days = new Set(body.month.weeks.flat().map(({ day }) => day));
  return [chosen, today].find((day) => day !== undefined && days.has(day)) ?? body.month.first;
}

/** The same question answered another way; what was typed already stays where that is asked too. */
function inWay({ key, ways, answers, isSent }: Omit<Asked, 'way'>, way: string): Asked {
  const fields = ways.find((each) => each.way === way)?.fields ?? [];
  return { key, ways, way, isSent, answers: Object.fromEntries(fields.map(({ name, value }) => [name, answers[name] ?? value])) };
}

export function isSameTarget(a: Target | undefined, b: Target | undefined): boolean {
  if (a === undefined || b === undefined) return a === b;
  return a.of === 'entry' ? b.of === 'entry' && a.key === b.key : b.of === a.of && a.id === b.id;
}

/** The target of an element, as `data-target` has it. */
export function targetFrom(text: string | undefined): Target | undefined {
  if (text === undefined || text === '') return undefined;
  const at = text.indexOf(':');
  const [of, rest] = [text.slice(0, at), text.slice(at + 1)];
  if (of === 'entry') return { of, key: rest };
  return of === 'clutch' || of === 'pair' || of === 'tank' ? { of, id: rest } : undefined;
}

export function textOfTarget(target: Target): string {
  return target.of === 'entry' ? `entry:${target.key}` : `${target.of}:${target.id}`;
}
