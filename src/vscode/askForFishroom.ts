import * as vscode from 'vscode';
import type { FishroomAnswers, NewSpecies } from '../acts/newFishroom';
import { newFishroomPaths } from '../acts/newFishroom';
import { cares, speciesChoices } from '../acts/speciesChoice';
import { typedNames } from '../acts/typedNames';
import type { NamedThing } from '../acts/typedNames';
import { say, textOf } from '../base/messages';
import type { Message } from '../base/messages';
import type { Care } from '../domain/things';
import { askLine } from './askLine';
import { machineZone } from './clockSetting';
import { explainNothing } from './keeper';
import { alreadyThere, firstTaken } from './newFiles';

/** What is asked for a new fishroom. */
export interface NewFishroom {
  readonly folder: vscode.Uri;
  readonly answers: FishroomAnswers;
}

/** Asks one thing after the other and writes nothing; undefined once the keeper would rather not. */
export async function askForFishroom(): Promise<NewFishroom | undefined> {
  const name = (await askText('editor.new-fishroom.name', { fault: (text) => (text.trim() === '' ? say('editor.new-fishroom.name.empty') : undefined) }))?.trim();
  if (name === undefined) return undefined;
  const folder = await askFolder(name);
  if (folder === undefined) return undefined;
  const timezone = await askZone();
  if (timezone === undefined) return undefined;
  const rooms = await askNames('editor.new-fishroom.rooms');
  if (rooms === undefined) return undefined;
  const species = await askSpecies();
  if (species === undefined) return undefined;
  const waterTests = await askOne('editor.new-fishroom.water', (['remind', 'leave'] as const).map((answer) => ({ label: textOf(say(`editor.new-fishroom.water.${answer}`)), detail: textOf(say(`editor.new-fishroom.water.${answer}.detail`)), answer })));
  return waterTests === undefined ? undefined : { folder, answers: { name, timezone, rooms, species, waterTests } };
}

/** Where its files will lie. A folder in which one of them would be overwritten is refused at once. */
async function askFolder(name: string): Promise<vscode.Uri | undefined> {
  const typed = typedNames(name.replaceAll(',', ' '));
  const below = ('names' in typed ? typed.names[0]?.id : undefined) ?? 'fishroom';
  const open = vscode.workspace.workspaceFolders ?? [];
  const places: (vscode.QuickPickItem & { readonly answer: vscode.Uri | 'elsewhere' })[] = [];
  for (const { uri, name: of } of open) {
    const isFree = (await firstTaken(uri, newFishroomPaths)) === undefined;
    const here = { label: textOf(say('editor.new-fishroom.where.here', of)), answer: uri };
    const inNew = { label: textOf(say('editor.new-fishroom.where.below', below)), description: textOf(say('editor.new-fishroom.where.below.of', of)), answer: vscode.Uri.joinPath(uri, below) };
    places.push(...(isFree ? [here, inNew] : [inNew]));
  }
  places.push({ label: textOf(say('editor.new-fishroom.where.elsewhere')), answer: 'elsewhere' });
  const place = open.length === 0 ? 'elsewhere' : await askOne('editor.new-fishroom.where', places);
  const folder = place === 'elsewhere' ? await chooseFolder(say('editor.new-fishroom.where'), say('editor.new-fishroom.where.choose')) : place;
  const taken = folder === undefined ? undefined : await firstTaken(folder, newFishroomPaths);
  if (folder === undefined || taken === undefined) return folder;
  explainNothing(alreadyThere(taken, folder));
  return undefined;
}

/** Lets the keeper choose a folder anywhere. */
export async function chooseFolder(title: Message, openLabel: Message): Promise<vscode.Uri | undefined> {
  const chosen = await vscode.window.showOpenDialog({ canSelectFiles: false, canSelectFolders: true, canSelectMany: false, title: textOf(title), openLabel: textOf(openLabel) });
  return chosen?.[0];
}

async function askZone(): Promise<string | undefined> {
  const machine = machineZone().name;
  const others = Intl.supportedValuesOf('timeZone').filter((zone) => zone !== machine);
  const zones = [{ label: machine, description: textOf(say('editor.new-fishroom.zone.machine')), answer: machine }, ...others.map((zone) => ({ label: zone, answer: zone }))];
  return await askOne('editor.new-fishroom.zone', zones);
}

async function askSpecies(): Promise<readonly NewSpecies[] | undefined> {
  const choices = speciesChoices();
  const items = choices.map(({ id, commonName, scientificName }) => ({ label: commonName, description: `${id} · ${scientificName}`, id }));
  const picked = await vscode.window.showQuickPick(items, { ...asking('editor.new-fishroom.species'), canPickMany: true, matchOnDescription: true });
  if (picked === undefined) return undefined;
  const species: NewSpecies[] = picked.map(({ id }) => ({ id }));
  const others = await askNames('editor.new-fishroom.more-species');
  if (others === undefined) return undefined;
  for (const other of others) {
    if (species.some(({ id }) => id === other.id)) continue;
    const care = choices.some(({ id }) => id === other.id) ? 'known' : await askCare(other);
    if (care === undefined) return undefined;
    species.push(care === 'known' ? { id: other.id } : { ...other, care });
  }
  return species;
}

async function askCare({ id, name }: NamedThing): Promise<Care | undefined> {
  const items = cares().map((care) => ({ label: textOf(say(`editor.care.${care}`)), description: care, answer: care }));
  return await askOne('editor.new-fishroom.care', items, name ?? id);
}

async function askNames(question: 'editor.new-fishroom.rooms' | 'editor.new-fishroom.more-species'): Promise<readonly NamedThing[] | undefined> {
  const faultOf = (text: string): Message | undefined => {
    const typed = typedNames(text);
    return 'fault' in typed ? typed.fault : undefined;
  };
  const text = await askText(question, { fault: faultOf, example: say(`${question}.example`) });
  const typed = text === undefined ? undefined : typedNames(text);
  return typed !== undefined && 'names' in typed ? typed.names : undefined;
}

type Question = 'editor.new-fishroom.name' | 'editor.new-fishroom.where' | 'editor.new-fishroom.zone' | 'editor.new-fishroom.rooms' | 'editor.new-fishroom.species' | 'editor.new-fishroom.more-species' | 'editor.new-fishroom.care' | 'editor.new-fishroom.water';

async function askText(question: Question, { fault, example }: { readonly fault: (text: string) => Message | undefined; readonly example?: Message }): Promise<string | undefined> {
  const { title, placeHolder: prompt } = asking(question);
  return await askLine({ title, prompt, faultOf: fault, ...(example === undefined ? {} : { placeHolder: textOf(example) }) });
}

async function askOne<Answer>(question: Question, items: readonly (vscode.QuickPickItem & { readonly answer: Answer })[], about = ''): Promise<Answer | undefined> {
  return (await vscode.window.showQuickPick(items, asking(question, about)))?.answer;
}

/** So that answers aren't lost to a click beside the box. */
function asking(question: Question, about = ''): { readonly title: string; readonly placeHolder: string; readonly ignoreFocusOut: true } {
  return { title: textOf(say('editor.new-fishroom.title')), placeHolder: textOf(say(question, about)), ignoreFocusOut: true };
}
