import * as vscode from 'vscode';
import type { ClutchState } from '../planner/states';
import { stageAt } from '../domain/timeline';
import { keyText } from '../records/row';
import { clutchOfLogRow } from '../records/things';
import type { OpenFishroom } from './openFishroom';
import type { Choice } from './picking';

/** A brood, and one of the tanks that it stands in. */
export interface BroodInTank {
  readonly clutch: string;
  /** '' where it stands in no tank. */
  readonly tank: string;
}

export function youngestFirst(states: readonly ClutchState[]): readonly ClutchState[] {
  return [...states].sort((a, b) => b.clutch.spawned.instant - a.clutch.spawned.instant);
}

/** The broods as lines to choose, one for each tank that they stand in; that of the row at the cursor first. */
export function broodChoices(states: readonly ClutchState[], room: OpenFishroom): readonly Choice<BroodInTank>[] {
  const atCursor = broodAtCursor(room);
  const inOrder = [...states].sort((a, b) => Number(b.clutch.clutch === atCursor) - Number(a.clutch.clutch === atCursor));
  return inOrder.flatMap((state) => {
    const { clutch, species, study, timeline } = state;
    const tanks = [...study.heads.stands.keys()];
    return (tanks.length === 0 ? [''] : tanks).map((tank) => {
      const count = study.heads.stands.get(tank);
      const fish = count?.count === undefined ? '' : `${count.estimate ? '~' : ''}${count.count}`;
      const about = [species ?? '', tank, stageAt(timeline, room.plan.now)?.stage ?? '', fish];
      return { label: clutch.clutch, description: about.filter((text) => text !== '').join(' · '), answer: { clutch: clutch.clutch, tank } };
    });
  });
}

/** The brood whose row, or whose log, the keeper is looking at. */
function broodAtCursor(room: OpenFishroom): string | undefined {
  const editor = vscode.window.activeTextEditor;
  const path = editor === undefined ? undefined : room.pathOf(editor.document.uri);
  const file = path === undefined ? undefined : room.plan.records.file(path);
  if (editor === undefined || file === undefined || path === undefined || !room.follows(path, editor.document)) return undefined;
  if (file.schema.name === 'clutch-log') return file.thing;
  if (file.schema.name !== 'clutches' && file.schema.name !== 'log') return undefined;
  const row = file.rowAt(file.doc.at(editor.document.offsetAt(editor.selection.active)).row);
  if (row === undefined) return undefined;
  return file.schema.name === 'log' ? clutchOfLogRow(row) : keyText(row);
}
