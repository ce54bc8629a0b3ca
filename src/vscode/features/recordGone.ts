import * as vscode from 'vscode';
import { gone, outcomes } from '../../acts/gone';
import { say, textOf } from '../../base/messages';
import { perform } from '../acting';
import { broodChoices, youngestFirst } from '../broodChoices';
import type { Fishrooms } from '../fishrooms';
import { pickOne, pickThing } from '../picking';

/** "Gone": which brood, and how it has gone. */
export function recordGoneCommand(fishrooms: Fishrooms): vscode.Disposable {
  return vscode.commands.registerCommand('broodsheet.recordGone', async () => {
    const title = say('editor.act.gone.title');
    const chosen = await pickThing(fishrooms, {
      step: { title, question: say('editor.act.clutch.which') },
      none: say('editor.act.clutch.none'),
      // A brood in several tanks is gone from all of them.
      choicesIn: (room) => broodChoices(youngestFirst(room.plan.view.openClutches()), room).filter(({ answer }, i, all) => all.findIndex((other) => other.answer.clutch === answer.clutch) === i),
    });
    if (chosen === undefined) return;
    const { room, thing: { clutch } } = chosen;
    const choices = outcomes(clutch, room.plan).map((outcome) => {
      const label = textOf(say(`act.outcome.${outcome}`));
      // The word that will stand in the cell, where it is another.
      return { label, answer: outcome, ...(label === outcome ? {} : { description: outcome }) };
    });
    const outcome = await pickOne({ title, question: say('editor.act.gone.how') }, choices);
    if (outcome !== undefined) await perform(room, gone({ clutch, outcome }));
  });
}
