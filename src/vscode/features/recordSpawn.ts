import * as vscode from 'vscode';
import { timeOfAnswer } from '../../acts/act';
import { recordSpawn, spawners, spawnFields } from '../../acts/recordSpawn';
import type { Spawner } from '../../acts/recordSpawn';
import { say, textOf } from '../../base/messages';
import type { Message } from '../../base/messages';
import { formatDay } from '../../base/moment';
import { perform } from '../acting';
import type { Fishrooms } from '../fishrooms';
import type { OpenFishroom } from '../openFishroom';
import { faultOf, pickThing, typeText } from '../picking';
import type { Choice } from '../picking';

/** "Record a spawn": who, when, and the name of the clutch. */
export function recordSpawnCommand(fishrooms: Fishrooms): vscode.Disposable {
  return vscode.commands.registerCommand('broodsheet.recordSpawn', async () => {
    const title = say('editor.act.spawn.title');
    const chosen = await pickThing(fishrooms, { step: { title, question: say('editor.act.spawn.who') }, none: say('editor.act.spawn.none'), choicesIn: spawnerChoices });
    if (chosen === undefined) return;
    const { room, thing: spawner } = chosen;
    const [when, name] = spawnFields(spawner, room.plan).map(({ likely }) => likely) as [string, string];
    const spawned = await typeText({ title, question: say('editor.act.when') }, { value: when, faultOf: (text) => timeFault(text, room) });
    if (spawned === undefined) return;
    const clutch = await typeText({ title, question: say(name === '' ? 'editor.act.spawn.name.first' : 'editor.act.spawn.name') }, { value: name, faultOf: (text) => faultOf(recordSpawn(spawner, { spawned, clutch: text }), room) });
    if (clutch !== undefined) await perform(room, recordSpawn(spawner, { spawned, clutch }));
  });
}

function timeFault(text: string, { plan }: OpenFishroom): Message | undefined {
  const when = timeOfAnswer(text.trim(), plan);
  return 'fault' in when ? when.fault : undefined;
}

function spawnerChoices({ plan }: OpenFishroom): readonly Choice<Spawner>[] {
  return spawners(plan).map((spawner) => {
    const { pair, species, tank, expected } = spawner;
    const about = [pair === '' ? '' : species, tank, expected === undefined ? '' : textOf(say('editor.act.spawn.expected', formatDay(expected)))];
    return { label: pair === '' ? species : pair, description: about.filter((text) => text !== '').join(' · '), answer: spawner };
  });
}
