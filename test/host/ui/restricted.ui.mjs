import { mkdirSync, mkdtempSync, renameSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
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

  const problems = async (/** @type {string} */ count) => await workbench.page.locator(`.statusbar-item[id="status.problems"][aria-label="${count}"]`).waitFor();

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
    await workbench.shows(before);
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

  it('sees what nobody told of when the keeper comes back', async () => {
    const away = mkdtempSync(join(dirname(workbench.folder), 'away-'));
    const shared = join(away, 'species.csv');
    const here = join(workbench.folder, 'species.csv');
    const right = await workbench.readFile('species.csv');
    const wrong = right.replace('substrate', 'substrat');
    const focus = async (/** @type {boolean} */ has) => {
      await workbench.page.evaluate(`document.hasFocus = () => ${has}; window.dispatchEvent(new FocusEvent('${has ? 'focus' : 'blur'}'))`);
      // It loses the focus only when nothing else in it gets it at once.
      await workbench.page.evaluate(() => new Promise((resolve) => setTimeout(resolve, 100)));
    };
    writeFileSync(shared, wrong);
    rmSync(here);
    symlinkSync(shared, here);
    await problems('Errors: 1');
    await focus(false);
    writeFileSync(shared, right);
    await focus(true);
    await problems('No Problems');
    rmSync(here);
    writeFileSync(here, right);
    rmSync(away, { recursive: true });
  });

  // On Linux VS Code's watcher never sees into the folders of one that was moved here, and nowhere behind a link.
  for (const [how, bring] of /** @type {const} */ ([['was moved here', renameSync], ['is a link', symlinkSync]])) {
    it(`keeps up with a fishroom that ${how} with the folders in it`, async () => {
      const away = mkdtempSync(join(dirname(workbench.folder), 'away-'));
      const log = (/** @type {string} */ event) => `time,event\n2026-05-02,${event}\n`;
      mkdirSync(join(away, 'loft/clutches/old'), { recursive: true });
      writeFileSync(join(away, 'loft/clutches.csv'), 'clutch,species,tank,spawned,ended\nK1,kribensis,T1,2026-05-01,2026-05-20\nK2,kribensis,T1,2026-05-01,2026-05-20\nK3,kribensis,T1,2026-05-01,2026-05-20\n');
      writeFileSync(join(away, 'loft/clutches/K1.csv'), log('chekked'));
      writeFileSync(join(away, 'loft/clutches/old/K2.csv'), log('chekked'));
      const loft = join(workbench.folder, 'loft');
      bring(join(away, 'loft'), loft);
      await problems('Errors: 2');
      writeFileSync(join(loft, 'clutches/K1.csv'), log('checked'));
      await problems('Errors: 1');
      mkdirSync(join(loft, 'clutches/new/later'), { recursive: true });
      writeFileSync(join(loft, 'clutches/new/later/K3.csv'), log('chekked'));
      await problems('Errors: 2');
      rmSync(join(loft, 'clutches/old'), { recursive: true });
      await problems('Errors: 1');
      rmSync(join(loft, 'clutches/new/later/K3.csv'));
      await problems('No Problems');
      writeFileSync(join(loft, 'clutches/K1.csv'), log('chekked'));
      await problems('Errors: 1');
      rmSync(loft, { recursive: true, force: true });
      await problems('No Problems');
      rmSync(away, { recursive: true });
    });
  }
});
