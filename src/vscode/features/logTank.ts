import * as vscode from 'vscode';
import { cautionOf } from '../../acts/eventRow';
import { logTank, tankLogFields } from '../../acts/logTank';
import { say, textOf } from '../../base/messages';
import { hasCome } from '../../base/moment';
import { eventsOf } from '../../planner/eventNeeds';
import { compareTanks } from '../../planner/subjects';
import { perform } from '../acting';
import type { Fishrooms } from '../fishrooms';
import type { OpenFishroom } from '../openFishroom';
import { askFields, pickOne, pickThing } from '../picking';
import type { Choice } from '../picking';

/** "Log for a tank": which tank, what was done, and what was measured or how much was changed. */
export function logTankCommand(fishrooms: Fishrooms): vscode.Disposable {
  return vscode.commands.registerCommand('broodsheet.logTank', async () => {
    const title = say('editor.act.tank.title');
    const chosen = await pickThing(fishrooms, { step: { title, question: say('editor.act.tank.which') }, none: say('editor.act.tank.none'), choicesIn: tanksIn });
    if (chosen === undefined) return;
    const { room, thing: tank } = chosen;
    const events = eventsOf.tank.map((event) => {
      const caution = cautionOf(event);
      return { label: event, answer: event, ...(caution === undefined ? {} : { detail: textOf(caution) }) };
    });
    const event = await pickOne({ title, question: say('editor.act.event') }, events);
    if (event === undefined) return;
    const row = { tank, event };
    const fields = tankLogFields(row, room.plan).filter(({ name }) => name !== 'time');
    const answers = await askFields({ room, title, fields, act: (given) => logTank(row, given), caution: cautionOf(event) });
    if (answers !== undefined) await perform(room, logTank(row, answers));
  });
}

function tanksIn({ plan: { records, now } }: OpenFishroom): readonly Choice<string>[] {
  const tanks = [...records.index('tanks').ids()].flatMap((id) => records.tank(id) ?? []).filter(({ retired }) => !hasCome(retired, now));
  return tanks.sort((a, b) => compareTanks(a, b)).map(({ tank, room, use }) => ({ label: tank, description: [room ?? '', use ?? ''].filter((text) => text !== '').join(' · '), answer: tank }));
}
