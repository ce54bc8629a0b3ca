import * as vscode from 'vscode';
import { done, doneWays, unaskedWay } from '../../acts/done';
import { say, textOf } from '../../base/messages';
import { DUE_DAYS, dueTree } from '../../views/dueTree';
import type { DueGroup, DueItem, DueRoom, DueTree } from '../../views/dueTree';
import { unreadMessage } from '../../views/unread';
import { perform } from '../acting';
import type { Fishrooms } from '../fishrooms';
import { explainNothing } from '../keeper';
import type { OpenFishroom } from '../openFishroom';
import { openRow } from '../openRow';
import { askFields, pickOne } from '../picking';

const VIEW = 'broodsheet.due';
/** Which rooms are shown, kept for the folder. */
const ROOMS = 'broodsheet.due.rooms';
/** What comes in bursts is shown once. */
const JOIN_CHANGES = 120;

/** A line of the tree, with what stands below it. */
type Node =
  | { readonly kind: 'fishroom'; readonly fishroom: OpenFishroom; readonly tree: DueTree }
  | { readonly kind: 'room'; readonly fishroom: OpenFishroom; readonly room: DueRoom }
  | { readonly kind: 'group'; readonly fishroom: OpenFishroom; readonly room: DueRoom; readonly group: DueGroup }
  | { readonly kind: 'feeding'; readonly text: string }
  | { readonly kind: 'item'; readonly fishroom: OpenFishroom; readonly item: DueItem };

/** The view of what is due: rooms, in them overdue, today and the next days; how much is overdue stands on its icon and in the status bar. */
export function dueView(fishrooms: Fishrooms, memory: vscode.Memento): vscode.Disposable {
  const due = new Due(fishrooms, memory);
  return vscode.Disposable.from(
    due,
    vscode.commands.registerCommand('broodsheet.dueDone', async (node: Node | undefined) => (node?.kind === 'item' ? await finish(node) : undefined)),
    vscode.commands.registerCommand('broodsheet.dueOpen', async (node: Node | undefined) => (node?.kind === 'item' ? await open(node) : undefined)),
    vscode.commands.registerCommand('broodsheet.dueRooms', async () => await due.chooseRooms()),
  );
}

class Due implements vscode.TreeDataProvider<Node>, vscode.Disposable {
  readonly #fishrooms: Fishrooms;
  readonly #memory: vscode.Memento;
  readonly #changed = new vscode.EventEmitter<undefined>();
  readonly #view: vscode.TreeView<Node>;
  readonly #status = vscode.window.createStatusBarItem('broodsheet.due', vscode.StatusBarAlignment.Left, 10);
  readonly #listeners: vscode.Disposable[] = [];
  #trees: readonly { readonly fishroom: OpenFishroom; readonly tree: DueTree }[] = [];
  #later: unknown;

  readonly onDidChangeTreeData = this.#changed.event;

  constructor(fishrooms: Fishrooms, memory: vscode.Memento) {
    this.#fishrooms = fishrooms;
    this.#memory = memory;
    this.#view = vscode.window.createTreeView(VIEW, { treeDataProvider: this, showCollapseAll: true });
    this.#status.name = textOf(say('due.name'));
    this.#status.command = `${VIEW}.focus`;
    const later = (): void => this.#showLater();
    this.#listeners.push(fishrooms.onDidChange(later), fishrooms.onDidRemove(later), fishrooms.onDidAdd(later));
  }

  dispose(): void {
    clearTimeout(this.#later);
    for (const listener of this.#listeners) listener.dispose();
    this.#view.dispose();
    this.#status.dispose();
    this.#changed.dispose();
  }

  getChildren(node?: Node): Node[] {
    if (node === undefined) return this.#trees.length === 1 ? this.#trees.flatMap(below) : this.#trees.map((each): Node => ({ kind: 'fishroom', ...each }));
    switch (node.kind) {
      case 'fishroom':
        return below(node);
      case 'room':
        return node.room.groups.map((group): Node => ({ kind: 'group', fishroom: node.fishroom, room: node.room, group }));
      case 'group':
        return [...(node.group.feeding === '' ? [] : [{ kind: 'feeding', text: node.group.feeding } as const]), ...node.group.items.map((item): Node => ({ kind: 'item', fishroom: node.fishroom, item }))];
      case 'feeding':
      case 'item':
        return [];
    }
  }

  getTreeItem(node: Node): vscode.TreeItem {
    switch (node.kind) {
      case 'fishroom':
        return line(node.fishroom.name, { id: node.fishroom.folder.toString(), open: true, icon: 'home', description: overdueText(node.tree.overdue) });
      case 'room':
        return line(node.room.label, { id: `${node.fishroom.folder.toString()} ${node.room.room}`, open: true, icon: undefined, description: overdueText(node.room.overdue) });
      case 'group':
        return line(node.group.label, { id: `${node.fishroom.folder.toString()} ${node.room.room} ${node.group.when}`, open: node.group.when !== 'next', icon: undefined, description: String(node.group.items.length) });
      case 'feeding':
        return line(node.text, { open: undefined, icon: 'sync', description: '' });
      case 'item':
        return itemLine(node);
    }
  }

  /** Which rooms are shown; with none or all of them ticked it is all. */
  async chooseRooms(): Promise<void> {
    const shown = this.#rooms();
    const choices = this.#fishrooms.all().flatMap((fishroom) => dueTree(fishroom.plan, { coming: fishroom.coming(DUE_DAYS), rooms: undefined, locale: vscode.env.language }).rooms);
    const items = [...new Map(choices.map(({ room, label }) => [room, label]))].map(([room, label]) => ({ label, room, picked: shown?.has(room) ?? true }));
    if (items.length === 0) {
      explainNothing(say('due.none'));
      return;
    }
    const picked = await vscode.window.showQuickPick(items, { canPickMany: true, title: textOf(say('due.rooms')), placeHolder: textOf(say('due.rooms.which')) });
    if (picked === undefined) return;
    await this.#memory.update(ROOMS, picked.length === 0 || picked.length === items.length ? undefined : picked.map(({ room }) => room));
    this.#show();
  }

  #rooms(): ReadonlySet<string> | undefined {
    const kept = this.#memory.get<readonly string[]>(ROOMS);
    return kept === undefined ? undefined : new Set(kept);
  }

  #showLater(): void {
    clearTimeout(this.#later);
    this.#later = setTimeout(() => this.#show(), JOIN_CHANGES);
  }

  #show(): void {
    const rooms = this.#rooms();
    this.#trees = this.#fishrooms.all().map((fishroom) => ({ fishroom, tree: dueTree(fishroom.plan, { coming: fishroom.coming(DUE_DAYS), rooms, locale: vscode.env.language }) }));
    const [overdue, today] = [this.#trees.reduce((sum, { tree }) => sum + tree.overdue, 0), this.#trees.reduce((sum, { tree }) => sum + tree.today, 0)];
    void vscode.commands.executeCommand('setContext', 'broodsheet.hasFishroom', this.#trees.length > 0);
    this.#view.badge = overdue === 0 ? undefined : { value: overdue, tooltip: textOf(say('calendar.count-overdue', overdue)) };
    const unread = this.#trees.flatMap(({ fishroom }) => fishroom.plan.unreadPaths());
    const isNothingDue = this.#trees.length > 0 && this.#trees.every(({ tree }) => tree.rooms.length === 0);
    const message = unreadMessage(unread) ?? (isNothingDue ? say('due.nothing', DUE_DAYS) : undefined);
    this.#view.message = message === undefined ? '' : textOf(message);
    this.#view.description = rooms === undefined ? '' : textOf(say('due.some-rooms'));
    const due = textOf(overdue === 0 ? say('due.status', today) : say('due.status.overdue', overdue, today));
    this.#status.text = unread.length > 0 ? `$(error) ${unreadStatus(due, unread)}` : `${overdue === 0 ? '$(checklist)' : '$(warning)'} ${due}`;
    this.#status.tooltip = textOf(say('due.status.why'));
    if (this.#trees.length > 0) this.#status.show();
    else this.#status.hide();
    this.#changed.fire(undefined);
  }
}

function below({ fishroom, tree }: { readonly fishroom: OpenFishroom; readonly tree: DueTree }): Node[] {
  return tree.rooms.map((room): Node => ({ kind: 'room', fishroom, room }));
}

/** `open` undefined: nothing stands below it. */
function line(label: string, { id, open: isOpen, icon, description }: { readonly id?: string; readonly open: boolean | undefined; readonly icon: string | undefined; readonly description: string }): vscode.TreeItem {
  const { Collapsed, Expanded, None } = vscode.TreeItemCollapsibleState;
  const item = new vscode.TreeItem(label, isOpen === undefined ? None : isOpen ? Expanded : Collapsed);
  if (id !== undefined) item.id = id;
  if (icon !== undefined) item.iconPath = new vscode.ThemeIcon(icon);
  item.description = description;
  return item;
}

const icons: Readonly<Record<DueItem['state'], vscode.ThemeIcon>> = {
  overdue: new vscode.ThemeIcon('warning', new vscode.ThemeColor('list.errorForeground')),
  due: new vscode.ThemeIcon('circle-large'),
  upcoming: new vscode.ThemeIcon('circle-small'),
};

function itemLine(node: Node & { readonly kind: 'item' }): vscode.TreeItem {
  const { fishroom, item } = node;
  const shown = line(item.label, { id: `${fishroom.folder.toString()} ${item.key}`, open: undefined, icon: undefined, description: item.description });
  shown.iconPath = icons[item.state];
  shown.command = { command: 'broodsheet.dueOpen', title: textOf(say('calendar.text.open')), arguments: [node] };
  shown.contextValue = item.deed === 'none' ? 'entry' : 'entry-to-do';
  shown.tooltip = `${item.label} · ${item.description}`;
  shown.accessibilityInformation = { label: shown.tooltip };
  return shown;
}

function unreadStatus(due: string, paths: readonly string[]): string {
  const [path = ''] = paths;
  return textOf(paths.length === 1 ? say('due.status.unread', due, path) : say('due.status.unread.several', due, paths.length));
}

function overdueText(overdue: number): string {
  return overdue === 0 ? '' : textOf(say('calendar.count-overdue', overdue));
}

async function open({ fishroom, item }: Node & { readonly kind: 'item' }): Promise<void> {
  const row = fishroom.coming(DUE_DAYS).entries.find(({ key }) => key === item.key)?.row;
  if (row !== undefined) await openRow(fishroom, row);
}

/** "Done": which way, where there are several, then what is asked for it; a row is written. */
async function finish({ fishroom, item }: Node & { readonly kind: 'item' }): Promise<void> {
  const ways = doneWays(item.key, fishroom.plan);
  if (ways.length === 0) {
    explainNothing(say('calendar.nothing-to-write'));
    return;
  }
  const title = say('due.done.title', item.what, item.whom === '' ? item.tank : item.whom);
  const way = ways.length === 1 ? ways[0] : await pickOne({ title, question: say('due.done.which') }, ways.map((each) => ({ label: textOf(each.title), answer: each })));
  if (way === undefined) return;
  // It was now, unless nothing else is asked: one thing less to type with wet hands.
  const others = way.fields.filter(({ name }) => name !== 'time');
  const answers = way === unaskedWay(ways) ? {} : await askFields({ room: fishroom, title, fields: others.length === 0 ? way.fields : others, act: (given) => done(item.key, way.way, given), caution: way.caution });
  if (answers !== undefined) await perform(fishroom, done(item.key, way.way, answers));
}
