import * as vscode from 'vscode';
import type { Answers, AskedField } from '../acts/act';
import { done, doneWays, unaskedWay } from '../acts/done';
import type { DoneWay } from '../acts/done';
import { say, textOf, translated } from '../base/messages';
import type { Entry } from '../planner/entry';
import { readFromCalendar } from '../protocol/calendar';
import type { AskedInPlace, FromCalendar, Target, ToCalendar, WayAsked } from '../protocol/calendar';
import type { Row } from '../records/row';
import { schemaNamed } from '../schema/catalog';
import { calendarModel, daysNeeded, listsOfMonth } from '../views/calendar/calendarModel';
import type { CalendarQuery } from '../views/calendar/calendarModel';
import { calendarTexts } from '../views/calendar/calendarTexts';
import { DayWords } from '../views/calendar/dayWords';
import { whyOf, whyOfThing } from '../views/calendar/why';
import type { ChartSubject } from '../views/charts/chart';
import { chartOf } from '../views/charts/chartOf';
import { make, unmakeLast } from './acting';
import type { Outcome } from './acting';
import type { Fishrooms } from './fishrooms';
import { noFishroom } from './keeper';
import type { OpenFishroom } from './openFishroom';
import { openRow } from './openRow';
import { pageFolder, pageOf } from './webPage';

/** What comes in bursts is shown once. */
const JOIN_CHANGES = 80;

/** The calendar's web view: it asks, and is told what there is to see of the fishroom that it shows. It keeps nothing of the records. */
export class CalendarPanel implements vscode.Disposable {
  readonly panel: vscode.WebviewPanel;
  readonly #fishrooms: Fishrooms;
  readonly #listeners: vscode.Disposable[] = [];
  #query: CalendarQuery = { view: 'month', selection: {} };
  #ask = 0;
  #folder: string | undefined;
  #isReady = false;
  #isStale = false;
  #later: unknown;
  #lists: unknown;

  constructor(panel: vscode.WebviewPanel, { fishrooms, extension }: { readonly fishrooms: Fishrooms; readonly extension: vscode.Uri }) {
    this.panel = panel;
    this.#fishrooms = fishrooms;
    const title = textOf(say('calendar.text.calendar'));
    panel.webview.options = { enableScripts: true, localResourceRoots: [pageFolder(extension)] };
    this.#listeners.push(
      panel.webview.onDidReceiveMessage((message: unknown) => this.#take(readFromCalendar(message))),
      panel.onDidChangeViewState(() => (this.#isStale && panel.visible ? this.#show() : undefined)),
      fishrooms.onDidChange(({ room }) => (room === this.#room ? this.#showLater() : undefined)),
      fishrooms.onDidRemove(() => this.#showLater()),
      fishrooms.onDidAdd(() => this.#showLater()),
    );
    panel.webview.html = pageOf(panel.webview, { extension, name: 'calendar', title });
  }

  dispose(): void {
    clearTimeout(this.#later);
    clearTimeout(this.#lists);
    for (const listener of this.#listeners) listener.dispose();
  }

  /** Shows another fishroom. */
  turnTo(room: OpenFishroom): void {
    if (room.folder.toString() === this.#folder) return;
    this.#folder = room.folder.toString();
    this.#query = { ...this.#query, selection: {} };
    if (this.#isReady) this.#show();
  }

  /** The one that was chosen, else the first. */
  get #room(): OpenFishroom | undefined {
    const rooms = this.#fishrooms.all();
    return rooms.find(({ folder }) => folder.toString() === this.#folder) ?? rooms[0];
  }

  #take(message: FromCalendar | undefined): void {
    if (message === undefined) return;
    switch (message.kind) {
      case 'ready':
        this.#isReady = true;
        this.#ask = 0;
        this.#query = message.query ?? this.#query;
        this.#folder = this.#folder ?? message.fishroom;
        void this.#fishrooms.activity.whenIdle().then(() => this.#show());
        return;
      case 'show':
        this.#ask = message.ask;
        this.#query = message.query;
        this.#folder = message.fishroom ?? this.#folder;
        this.#show();
        return;
      case 'why':
        this.#explain(message.target);
        return;
      case 'open': {
        const [room, row] = [this.#room, this.#rowOf(message.target)];
        if (room !== undefined && row !== undefined) void openRow(room, row);
        return;
      }
      case 'chart':
        this.#draw(message.target);
        return;
      case 'done':
        // Also when it failed the page must know that it is over, or nothing could be pressed again.
        void this.#done(message.key, message.answer).catch((error: unknown) => {
          this.#tell({ isMade: false, told: undefined }, message.key);
          throw error;
        });
        return;
      case 'takeBack':
        void unmakeLast().then((outcome) => this.#tell(outcome));
        return;
    }
  }

  #showLater(): void {
    clearTimeout(this.#later);
    this.#later = setTimeout(() => this.#show(), JOIN_CHANGES);
  }

  #show(): void {
    this.#isStale = !this.panel.visible;
    if (!this.#isReady || this.#isStale) return;
    const room = this.#room;
    const texts = calendarTexts();
    if (room === undefined) {
      this.#post({ kind: 'nothing', text: textOf(noFishroom()), texts });
      return;
    }
    const { plan } = room;
    const locale = vscode.env.language;
    const query = this.#query;
    const source = { query, coming: room.coming(daysNeeded(query, { today: plan.now.day, locale })), locale };
    const fishrooms = this.#fishrooms.all().map((each) => ({ value: each.folder.toString(), label: each.name }));
    this.#post({ kind: 'shown', ask: this.#ask, fishroom: room.folder.toString(), fishrooms, query, model: calendarModel(plan, source), texts });
    if (query.view !== 'month') return;
    // The month is seen before the lists of its days are made; what is shown anew meanwhile brings its own.
    clearTimeout(this.#lists);
    const ask = this.#ask;
    this.#lists = setTimeout(() => this.#post({ kind: 'lists', ask, lists: listsOfMonth(plan, source) }), 0);
  }

  #explain(target: Target): void {
    const room = this.#room;
    if (room === undefined) return;
    const { plan } = room;
    const words = new DayWords({ locale: vscode.env.language, today: plan.now.day, zone: plan.records.zone });
    if (target.of !== 'entry') {
      this.#post({ kind: 'why', target, why: whyOfThing(target, { plan, words, coming: room.coming(0) }) });
      return;
    }
    const entry = this.#entryOf(target.key);
    if (entry !== undefined) this.#post({ kind: 'why', target, why: whyOf(entry, plan, words) });
  }

  #entryOf(key: string): Entry | undefined {
    const room = this.#room;
    return room?.coming(daysNeeded(this.#query, { today: room.plan.now.day, locale: vscode.env.language })).entries.find((entry) => entry.key === key);
  }

  #rowOf(target: Target): Row | undefined {
    if (target.of === 'entry') return this.#entryOf(target.key)?.row;
    return this.#room?.plan.records.index(target.of === 'clutch' ? 'clutches' : target.of === 'pair' ? 'pairs' : 'tanks').row(target.id);
  }

  /** The chart of the brood, pair or tank that something is about. */
  #draw(target: Target): void {
    const room = this.#room;
    const subject = target.of === 'entry' ? subjectOf(this.#entryOf(target.key)) : { kind: target.of, id: target.id };
    if (room === undefined || subject === undefined) return;
    this.#post({ kind: 'chart', target, outcome: chartOf(subject, room.plan.view, vscode.env.language) });
  }

  /** Asks first where there is more to know than when it was, else writes. */
  async #done(key: string, answer: { readonly way: string; readonly answers: Answers } | undefined): Promise<void> {
    await this.#fishrooms.activity.whenIdle();
    const room = this.#room;
    if (room === undefined) {
      this.#tell({ isMade: false, told: undefined }, key);
      return;
    }
    if (answer !== undefined) {
      this.#tell(await make(room, done(key, answer.way, answer.answers)), key);
      return;
    }
    const ways = doneWays(key, room.plan);
    const unasked = unaskedWay(ways);
    if (ways.length === 0) this.#tell({ isMade: false, told: say('calendar.nothing-to-write') }, key);
    else if (unasked !== undefined) this.#tell(await make(room, done(key, unasked.way, {})), key);
    else this.#post({ kind: 'asked', key, ways: ways.map(askedWay) });
  }

  /** What an act came to, for those who look at the calendar. */
  #tell({ told, isMade }: Outcome, key?: string): void {
    this.#post({ kind: 'told', key, text: told === undefined ? undefined : textOf(told), isDone: isMade });
  }

  #post(message: ToCalendar): void {
    void this.panel.webview.postMessage(message);
  }
}

function subjectOf(entry: Entry | undefined): ChartSubject | undefined {
  if (entry === undefined) return undefined;
  if (entry.clutch !== '') return { kind: 'clutch', id: entry.clutch };
  if (entry.pair !== '') return { kind: 'pair', id: entry.pair };
  return entry.tank === '' ? undefined : { kind: 'tank', id: entry.tank };
}

function askedWay({ way, title, fields, caution }: DoneWay): WayAsked {
  return { way, label: textOf(title), fields: fields.map(askedField), caution: caution === undefined ? undefined : textOf(caution) };
}

function askedField({ name, header, likely, choices, isNeeded }: AskedField): AskedInPlace {
  const words = [...new Set([likely, ...choices])].filter((choice) => choice !== '' || !isNeeded);
  const isTyped = choices.length === 0 || name === 'time';
  return { name, label: titleOfColumn(header), value: likely, choices: choices.length === 0 ? [] : words.map((choice) => ({ value: choice, label: choice })), isTyped, isNeeded };
}

/** What a column is called; those of the logs first. */
function titleOfColumn(header: string): string {
  for (const name of ['clutch-log', 'tank-log', 'clutches', 'orders', 'cultures'] as const) {
    const field = schemaNamed(name).fieldNamed.get(header);
    if (field !== undefined) return translated(field.title);
  }
  return header;
}
