import { deepStrictEqual } from 'node:assert/strict';
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { openWorkbench } from '../ui.mjs';

describe('a workspace of several folders', () => {
  /** @type {import('../ui.mjs').Workbench} */
  let workbench;
  before(async () => {
    workbench = await openWorkbench({ rooms: ['room', 'smallest', 'messy'], several: true });
  });
  after(() => workbench.close());

  it('shows the problems of each of its fishrooms', async () => {
    await workbench.showProblems('overdue');
    await workbench.problem('K-2: Hatched, gone, or not known?');
    await workbench.problem('G1-2: Hatched, gone, or not known?');
  });

  it('asks which fishroom to fill, by its name and folder', async () => {
    await workbench.command('Broodsheet: Fill the fishroom', { asks: true });
    const rows = workbench.page.locator('.quick-input-list .monaco-list-row');
    // Until then the list of commands stands there.
    await rows.filter({ hasText: 'Messy' }).waitFor();
    const shown = await rows.evaluateAll((elements) => elements.map((element) => [...element.querySelectorAll('.label-name, .label-description')].map(({ textContent }) => textContent).join(' in ')));
    deepStrictEqual(shown, ['Messy in messy', 'Back room in room', 'smallest in smallest']);
    await workbench.page.keyboard.press('Escape');
  });

  it('has a clock for each folder', async () => {
    mkdirSync(join(workbench.folder, 'smallest/.vscode'));
    writeFileSync(join(workbench.folder, 'smallest/.vscode/settings.json'), '{"broodsheet.now": "2026-06-20T09:00"}');
    await workbench.showProblems('K-2');
    await workbench.problem('11 days ago');
    await workbench.showProblems('G1-2');
    await workbench.problem('(due 2026-05-31 19:12, 10 days ago)');
  });
});
