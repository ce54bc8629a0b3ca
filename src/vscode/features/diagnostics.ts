import * as vscode from 'vscode';
import type { Problem } from '../../planner/problem';
import type { Severity } from '../../schema/problemCodes';
import { diagnosticOf } from '../convert';
import type { Fishrooms } from '../fishrooms';
import { JoinedTask } from '../joinedTask';
import type { OpenFishroom } from '../openFishroom';

/** Long enough to join quick typing, short enough to be felt as at once. */
const JOIN_TYPING = 100;
/** VS Code shows at most 1,000 problems of a file. */
const MOST_OF_A_FILE = 1_001;
const bySeverity: readonly Severity[] = ['error', 'warning', 'information', 'hint'];

/** What is published of a file. */
interface Published {
  readonly key: string;
  /** Other files with places that its problems point to. */
  readonly relatedTo: ReadonlySet<string>;
}

/** Shows the problems of all files of all fishrooms, open or not, and sets those of a file only when they differ from what is shown. */
export function showDiagnostics(fishrooms: Fishrooms): vscode.Disposable {
  const collection = vscode.languages.createDiagnosticCollection('broodsheet');
  const published = new Map<OpenFishroom, Map<string, Published>>();
  const waiting = new Map<OpenFishroom, Set<string>>();

  const publish = new JoinedTask(fishrooms.activity, {
    delay: JOIN_TYPING,
    work: () => {
      const work = [...waiting];
      waiting.clear();
      for (const [room, paths] of work) {
        const shown = published.get(room) ?? new Map<string, Published>();
        published.set(room, shown);
        for (const path of withThosePointingTo(paths, shown)) publishFile(room, path, shown);
      }
    },
  });

  const publishFile = (room: OpenFishroom, path: string, shown: Map<string, Published>): void => {
    const diagnostics = mostSevere(room.plan.problems(path)).map((problem) => ({ problem, diagnostic: diagnosticOf(problem, room) }));
    const key = JSON.stringify(diagnostics.map(({ diagnostic }) => diagnostic));
    if (key === (shown.get(path)?.key ?? '[]')) return;
    if (diagnostics.length === 0) {
      shown.delete(path);
      collection.delete(room.uriOf(path));
      return;
    }
    const related = diagnostics.flatMap(({ problem }) => problem.related.map(({ file }) => file));
    shown.set(path, { key, relatedTo: new Set(related.filter((file) => file !== path)) });
    collection.set(room.uriOf(path), diagnostics.map(({ diagnostic }) => diagnostic));
  };

  const onChange = fishrooms.onDidChange(({ room, paths }) => {
    const all = waiting.get(room) ?? new Set<string>();
    for (const path of paths) all.add(path);
    waiting.set(room, all);
    publish.trigger();
  });
  const onRemove = fishrooms.onDidRemove((room) => {
    waiting.delete(room);
    for (const path of published.get(room)?.keys() ?? []) collection.delete(room.uriOf(path));
    published.delete(room);
  });
  return vscode.Disposable.from(onChange, onRemove, publish, collection);
}

/** Beside the changed files those whose problems point into one of them, where places may have moved. */
function withThosePointingTo(paths: ReadonlySet<string>, shown: ReadonlyMap<string, Published>): ReadonlySet<string> {
  const all = new Set(paths);
  for (const [path, { relatedTo }] of shown) {
    for (const other of relatedTo) if (paths.has(other)) all.add(path);
  }
  return all;
}

function mostSevere(problems: readonly Problem[]): readonly Problem[] {
  if (problems.length <= MOST_OF_A_FILE) return problems;
  return [...problems].sort((a, b) => bySeverity.indexOf(a.severity) - bySeverity.indexOf(b.severity)).slice(0, MOST_OF_A_FILE);
}
