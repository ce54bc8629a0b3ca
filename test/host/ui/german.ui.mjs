import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { openWorkbench } from '../ui.mjs';

describe('German', () => {
  /** @type {import('../ui.mjs').Workbench} */
  let workbench;
  before(async () => {
    workbench = await openWorkbench({ rooms: ['messy'], language: 'de' });
  });
  after(() => workbench.close());

  it('is what problems and commands speak where VS Code is in German', async () => {
    await workbench.showProblems('P1 ist schon');
    await workbench.problem('P1 ist schon an eine Zeile weiter oben vergeben.');
    await workbench.openFile('messy/clutches.csv');
    await workbench.page.keyboard.press('F1');
    await workbench.page.locator('.quick-input-widget input.input').fill('>ausfüllen');
    await workbench.page.locator('.quick-input-list .monaco-list-row', { hasText: 'Broodsheet: Diese Tabelle ausfüllen' }).waitFor();
    await workbench.page.keyboard.press('Escape');
  });

  it('describes the settings of fishroom.json', async () => {
    writeFileSync(join(workbench.folder, 'messy/fishroom.json'), '{\n  \n}\n');
    await workbench.openFile('messy/fishroom.json');
    await workbench.goTo(2, 3);
    await workbench.page.keyboard.press('Control+Space');
    await workbench.page.locator('.suggest-widget .monaco-list-row.focused', { hasText: '$schema' }).waitFor();
    // Once more shows what the chosen one is about.
    await workbench.page.keyboard.press('Control+Space');
    await workbench.page.locator('.suggest-details-container', { hasText: 'Wo diese Beschreibung der Datei liegt.' }).waitFor();
  });
});
