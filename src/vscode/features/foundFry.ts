import * as vscode from 'vscode';
import { foundFry, mayBeFound } from '../../acts/foundFry';
import { nowText } from '../../acts/act';
import { say, textOf } from '../../base/messages';
import { perform } from '../acting';
import { broodChoices, youngestFirst } from '../broodChoices';
import type { Fishrooms } from '../fishrooms';
import { faultOf, pickOne, pickThing, typeText } from '../picking';

/** "Found wrigglers or fry": of which brood, which of both, and about when. */
export function foundFryCommand(fishrooms: Fishrooms): vscode.Disposable {
  return vscode.commands.registerCommand('broodsheet.foundFry', async () => {
    const title = say('editor.act.found.title');
    const chosen = await pickThing(fishrooms, { step: { title, question: say('editor.act.found.whose') }, none: say('editor.act.found.none'), choicesIn: (room) => broodChoices(youngestFirst(mayBeFound('fry', room.plan)), room) });
    if (chosen === undefined) return;
    const { room, thing: { clutch } } = chosen;
    const kinds = (['wrigglers', 'fry'] as const).filter((what) => mayBeFound(what, room.plan).some((state) => state.clutch.clutch === clutch));
    const what = await pickOne({ title, question: say('editor.act.found.what') }, kinds.map((kind) => ({ label: textOf(say(`editor.act.found.${kind}`)), answer: kind })));
    if (what === undefined) return;
    const time = await typeText({ title, question: say('editor.act.when') }, { value: `~${nowText(room.plan)}`, faultOf: (text) => faultOf(foundFry({ clutch, what, time: text }), room) });
    if (time !== undefined) await perform(room, foundFry({ clutch, what, time }));
  });
}
