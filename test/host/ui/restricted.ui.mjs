import { strictEqual } from 'node:assert/strict';
import { mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { openWorkbench } from '../ui.mjs';

const MANY = 2000;

describe('a folder that nobody trusts', () => {
  /** @type {import('../ui.mjs').Workbench} */
  let workbench;
  before(async () => {
    workbench = await openWorkbench({ rooms: ['room'], inside: 'room', trust: true });
    await workbench.page.locator('.statusbar-item', { hasText: 'Restricted Mode' }).waitFor();
  });
  after(() => workbench.close());

  const problems = async (/** @type {string} */ count) => await workbench.page.locator(`.statusbar-item[id="status.problems"][aria-label="${count}"]`).waitFor({ timeout: 20_000 });

  it('is checked and filled all the same', async () => {
    await workbench.openFile('clutches.csv');
    await workbench.goTo(3, 10);
    await workbench.type('9');
    await workbench.showProblems('T039');
    await workbench.problem("The tank T039 isn't in tanks.csv. Did you mean T03?");
    await workbench.openFile('clutches.csv');
    await workbench.undo();
    await workbench.noProblem('T039');
    const before = await workbench.shownText();
    await workbench.command('Broodsheet: Add the computed columns to this sheet');
    await workbench.page.locator('.view-line', { hasText: 'stage_basis' }).waitFor();
    await workbench.undo();
    await workbench.page.locator('.view-line', { hasText: 'stage_basis' }).waitFor({ state: 'detached' });
    strictEqual(await workbench.shownText(), before);
    await workbench.command('File: Revert File');
  });

  it('keeps up with a checkout of thousands of logs', async () => {
    const name = (/** @type {number} */ i) => `K${i}`;
    const at = (/** @type {number} */ i) => join(workbench.folder, `big/clutches/${name(i)}.csv`);
    const each = (/** @type {(i: number) => void} */ what) => Array.from({ length: MANY }, (_, i) => what(i));
    const log = (/** @type {string} */ event) => `time,event\n2026-05-02,${event}\n`;
    mkdirSync(join(workbench.folder, 'big/clutches'), { recursive: true });
    const rows = Array.from({ length: MANY }, (_, i) => `${name(i)},kribensis,T1,2026-05-01,2026-05-20\n`);
    writeFileSync(join(workbench.folder, 'big/clutches.csv'), `clutch,species,tank,spawned,ended\n${rows.join('')}`);
    each((i) => writeFileSync(at(i), log('chekked')));
    await problems(`Errors: ${MANY}`);
    each((i) => (i % 4 === 0 ? rmSync(at(i)) : i % 4 === 1 ? writeFileSync(at(i), log('checked')) : undefined));
    await problems(`Errors: ${MANY / 2}`);
    rmSync(join(workbench.folder, 'big'), { recursive: true });
    await problems('No Problems');
  });
});
