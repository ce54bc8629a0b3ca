import { deepStrictEqual, strictEqual } from 'node:assert/strict';
import { openWorkbench } from '../ui.mjs';

describe('a sheet in the editor', () => {
  /** @type {import('../ui.mjs').Workbench} */
  let workbench;
  before(async () => {
    workbench = await openWorkbench({ rooms: ['room'] });
  });
  after(() => workbench.close());

  it('reaches the disk when it is saved, and only what was typed has changed', async () => {
    const before = await workbench.readFile('room/tanks.csv');
    await workbench.openFile('room/tanks.csv');
    await workbench.goTo(2, 10);
    await workbench.type('1');
    strictEqual(await workbench.readFile('room/tanks.csv'), before);
    await workbench.save();
    await workbench.holds('room/tanks.csv', before.replace('T01,back,54', 'T01,back,154'));
    await workbench.shows(before.replace('T01,back,54', 'T01,back,154'));
  });

  it('asks nothing of the network', () => {
    deepStrictEqual([...workbench.outsideHosts], []);
  });
});
