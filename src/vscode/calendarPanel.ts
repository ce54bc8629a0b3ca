import * as vscode from 'vscode';
import { say, textOf } from '../base/messages';
import type { Message } from '../base/messages';
import type { Entry } from '../planner/entry';
import { readFromCalendar } from '../protocol/calendar';
import type { FromCalendar, Target, ToCalendar } from '../protocol/calendar';
import type { Row } from '../records/row';
import { calendarModel, daysNeeded } from '../views/calendar/calendarModel';
import type { CalendarQuery } from '../views/calendar/calendarModel';
import { calendarTexts } from '../views/calendar/calendarTexts';
import { DayWords } from '../views/calendar/dayWords';
import { whyOf, whyOfThing } from '../views/calendar/why';
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
  #folder: string | undefined;
  #isReady = false;
  #isStale = false;
  #later: unknown;

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
        this.#query = message.query ?? this.#query;
        this.#folder = this.#folder ?? message.fishroom;
        void this.#fishrooms.activity.whenIdle().then(() => this.#show());
        return;
      case 'show':
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
      case 'done':
      case 'takeBack':
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
    const coming = room.coming(daysNeeded(query, { today: plan.now.day, locale }));
    const fishrooms = this.#fishrooms.all().map((each) => ({ value: each.folder.toString(), label: each.name }));
    this.#post({ kind: 'shown', fishroom: room.folder.toString(), fishrooms, query, model: calendarModel(plan, { query, coming, locale }), texts });
  }

  #explain(target: Target): void {
    const room = this.#room;
    if (room === undefined) return;
    const { plan } = room;
    const words = new DayWords({ locale: vscode.env.language, today: plan.now.day, zone: plan.records.zone });
    if (target.of !== 'entry') {
      this.#post({ kind: 'why', target, why: whyOfThing(target, { plan, words, coming: room.coming(0) }), caution: undefined });
      return;
    }
    const entry = this.#entryOf(target.key);
    if (entry !== undefined) this.#post({ kind: 'why', target, why: whyOf(entry, plan, words), caution: undefined });
  }

  #entryOf(key: string): Entry | undefined {
    return this.#room?.coming(0).entries.find((entry) => entry.key === key);
  }

  #rowOf(target: Target): Row | undefined {
    if (target.of === 'entry') return this.#entryOf(target.key)?.row;
    return this.#room?.plan.records.index(target.of === 'clutch' ? 'clutches' : target.of === 'pair' ? 'pairs' : 'tanks').row(target.id);
  }

  #post(message: ToCalendar): void {
    void this.panel.webview.postMessage(message);
  }

  /** What an act came to, for those who look at the calendar. */
  tell(message: Message, isDone: boolean): void {
    this.#post({ kind: 'told', text: textOf(message), isDone });
  }
}
