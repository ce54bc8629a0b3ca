import { strictEqual } from 'node:assert/strict';
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { openWorkbench } from '../ui.mjs';

describe('hints beside the text', () => {
  /** @type {import('../ui.mjs').Workbench} */
  let workbench;
  before(async () => {
    workbench = await openWorkbench({ rooms: ['room'], settings: { 'editor.inlayHints.enabled': 'on' } });
  });
  after(() => workbench.close());

  it('come by themselves once the fishroom of an open sheet has been read', async () => {
    mkdirSync(join(workbench.folder, 'later'));
    writeFileSync(join(workbench.folder, 'later/log.csv'), 'time,clutch,event,to_tank\n2026-06-09,K1,moved,T1\n');
    await workbench.openFile('later/log.csv');
    const row = workbench.page.locator('.editor-group-container.active .view-line', { hasText: '2026-06-09' });
    strictEqual(await row.innerText(), '2026-06-09,K1,moved,T1');
    writeFileSync(join(workbench.folder, 'later/tanks.csv'), 'tank,room,position\nT1,front,A1\n');
    await row.filter({ hasText: /T1\s*front\s+A1/ }).waitFor();
  });
});
