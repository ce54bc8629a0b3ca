import * as vscode from 'vscode';
import { cautionOf } from '../../acts/eventRow';
import { clutchEvents, clutchLogFields, logClutch } from '../../acts/logClutch';
import { say, textOf } from '../../base/messages';
import { perform } from '../acting';
import { broodChoices, youngestFirst } from '../broodChoices';
import type { BroodInTank } from '../broodChoices';
import type { Fishrooms } from '../fishrooms';
import type { OpenFishroom } from '../openFishroom';
import { askFields, pickOne, pickThing } from '../picking';
import type { Choice } from '../picking';

/** An event, and whether of a move the number is asked for. */
interface Happening {
  readonly event: string;
  readonly isOfSome: boolean;
}

/** "Log for a clutch": which brood, what happened, and how many, how long or where, if that belongs to it. */
export function logClutchCommand(fishrooms: Fishrooms): vscode.Disposable {
  return vscode.commands.registerCommand('broodsheet.logClutch', async () => {
    const title = say('editor.act.clutch.title');
    const chosen = await pickThing(fishrooms, { step: { title, question: say('editor.act.clutch.which') }, none: say('editor.act.clutch.none'), choicesIn: (room) => broodChoices(youngestFirst(room.plan.view.openClutches()), room) });
    if (chosen === undefined) return;
    const { room, thing } = chosen;
    const happening = await pickOne({ title, question: say('editor.act.event') }, happenings(thing, room));
    if (happening === undefined) return;
    const { event, isOfSome } = happening;
    const row = { clutch: thing.clutch, event, tank: thing.tank };
    const fields = clutchLogFields(row, room.plan).filter(({ name }) => name !== 'time' && name !== 'tank');
    const needed = fields.filter(({ name, isNeeded }) => isNeeded || (isOfSome && name === 'count'));
    const asked = needed.length > 0 ? needed : fields.slice(0, 1);
    const tank = clutchLogFields(row, room.plan).some(({ name }) => name === 'tank') ? { tank: thing.tank } : {};
    const answers = await askFields({ room, title, fields: asked, act: (given) => logClutch(row, { ...tank, ...given }), caution: cautionOf(event) });
    if (answers !== undefined) await perform(room, logClutch(row, { ...tank, ...answers }));
  });
}

function happenings({ clutch }: BroodInTank, { plan }: OpenFishroom): readonly Choice<Happening>[] {
  return clutchEvents(clutch, plan).flatMap((event): readonly Choice<Happening>[] => {
    const caution = cautionOf(event);
    const whole = { label: event, answer: { event, isOfSome: false }, ...(caution === undefined ? {} : { detail: textOf(caution) }) };
    return event === 'moved'
      ? [{ ...whole, description: textOf(say('editor.act.event.all')) }, { ...whole, description: textOf(say('editor.act.event.some')), answer: { event, isOfSome: true } }]
      : [whole];
  });
}
