import * as vscode from 'vscode';
import { say } from '../../base/messages';
import { chooseFolder } from '../askForFishroom';
import { explainNothing } from '../keeper';
import { alreadyThere, firstTaken, writeNewFiles } from '../newFiles';
import { openFolderAt } from '../showLater';

/** What the build packs (src/build/sample.mjs): one file, since a folder of an extension can't be listed in the browser. */
interface PackedSample {
  readonly name: string;
  /** The texts by their paths. */
  readonly files: Readonly<Record<string, string>>;
}

/** "Open the sample": copies the sample fishroom, its clock standing at its own day, into a folder that the keeper chooses, and opens it. Who calls it with a folder gets the copy's place and opens it. */
export function openSampleCommand({ extensionUri, globalState }: vscode.ExtensionContext): vscode.Disposable {
  return vscode.commands.registerCommand('broodsheet.openSample', async (known?: vscode.Uri): Promise<vscode.Uri | undefined> => {
    const { name, files } = await packedSample(extensionUri);
    const above = known ?? (await chooseFolder(say('editor.sample.where'), say('editor.sample.choose')));
    if (above === undefined) return undefined;
    const folder = vscode.Uri.joinPath(above, name);
    const refusal = (await firstTaken(above, [name])) === undefined ? await writeNewFiles(folder, new Map(Object.entries(files))) : alreadyThere(name, above);
    if (refusal !== undefined) {
      explainNothing(refusal);
      return undefined;
    }
    if (known === undefined) await openFolderAt(folder, vscode.Uri.joinPath(folder, 'clutches.csv'), globalState);
    return folder;
  });
}

async function packedSample(extension: vscode.Uri): Promise<PackedSample> {
  const bytes = await vscode.workspace.fs.readFile(vscode.Uri.joinPath(extension, 'dist/sample.json'));
  return JSON.parse(new TextDecoder().decode(bytes)) as PackedSample;
}
