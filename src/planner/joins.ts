import { compareMoments } from '../base/moment';
import { countHeads } from '../domain/headcount';
import type { TakenOver } from '../domain/headcount';
import type { LogEntry } from '../domain/things';
import type { PlanView } from './states';

/** Which clutch's fish were put to which: the head count of the one depends on the other's log. */
export class Joins {
  readonly #targets = new Map<string, string>();
  readonly #sources = new Map<string, Set<string>>();

  /** Takes note of a clutch's log. The first `joined` row with a clutch named in it is the one that counts. */
  set(id: string, entries: readonly LogEntry[]): void {
    const target = joinedRow(entries)?.ref;
    const before = this.#targets.get(id);
    if (before === target) return;
    if (before !== undefined) this.#sources.get(before)?.delete(id);
    if (target === undefined) {
      this.#targets.delete(id);
      return;
    }
    this.#targets.set(id, target);
    let sources = this.#sources.get(target);
    if (sources === undefined) this.#sources.set(target, (sources = new Set()));
    sources.add(id);
  }

  /** The ids and whatever takes over their fish, by the logs as they were and as they are. */
  closure(ids: ReadonlySet<string>, entriesOf: (id: string) => readonly LogEntry[]): ReadonlySet<string> {
    const all = new Set(ids);
    for (const id of all) {
      for (const target of [this.#targets.get(id), joinedRow(entriesOf(id))?.ref]) if (target !== undefined) all.add(target);
      // The log is noted before its target is studied, whichever comes first.
      this.set(id, entriesOf(id));
    }
    return all;
  }

  /** The fish that a clutch takes over, each by the entry of its own log before which they came. */
  takenOver(id: string, entries: readonly LogEntry[], view: PlanView, via: ReadonlySet<string> = new Set()): readonly TakenOver[] {
    const sources = this.#sources.get(id);
    if (sources === undefined || sources.size === 0 || via.has(id)) return NONE;
    const chain = new Set(via).add(id);
    const found: TakenOver[] = [];
    for (const source of [...sources].sort()) {
      const clutch = view.records.clutch(source);
      const log = view.records.entriesOf(source).filter(({ time }) => compareMoments(time, view.now) <= 0);
      const row = joinedRow(log);
      if (clutch === undefined || row === undefined || chain.has(source)) continue;
      const until = log.slice(0, log.indexOf(row));
      const { stands } = countHeads(clutch.tank, until, { takenOver: this.takenOver(source, until, view, chain) });
      const before = entries.findIndex(({ time }) => compareMoments(time, row.time) > 0);
      found.push({ before: before < 0 ? entries.length : before, stands });
    }
    return found;
  }
}

const NONE: readonly TakenOver[] = [];

function joinedRow(entries: readonly LogEntry[]): LogEntry | undefined {
  return entries.find(({ event, ref }) => event === 'joined' && ref !== undefined);
}
