import { deepStrictEqual } from 'node:assert/strict';
import * as vscode from 'vscode';
import { closeAll, idle, makeFolder, problemsOf, removeFolder } from './room';
import { eventually, writeText } from './support';

const clutches = 'clutch,species,tank,spawned,age_days\nA1,angelfish,T1,2026-06-08,2\nA2,angelfish,T1,2026-06-20,\n';
const early = ['3:17 time-future'];

describe('the clock', () => {
  const original = now().inspect('now')?.workspaceValue;
  beforeEach(async () => {
    await makeFolder('clocked');
    await writeText('clocked/routines.csv', 'routine,action,about,off\nhatch,not asked here,clutch,yes\n');
  });
  afterEach(async () => {
    await now().update('now', original, vscode.ConfigurationTarget.Workspace);
    await closeAll();
    await removeFolder('clocked');
  });

  it('stands where the setting broodsheet.now says, and what hangs on it follows', async () => {
    await writeText('clocked/clutches.csv', clutches);
    await eventually('the row of a later day', () => problemsOf('clocked/clutches.csv').join() === early.join());
    deepStrictEqual(problemsOf('clocked/clutches.csv', { withHints: true }), early);
    await now().update('now', '2026-06-21T08:00', vscode.ConfigurationTarget.Workspace);
    await eventually('the day to come', () => !problemsOf('clocked/clutches.csv').includes('3:17 time-future'));
    deepStrictEqual(problemsOf('clocked/clutches.csv', { withHints: true }).filter((problem) => problem.endsWith('computed-stale')), ['1:29 computed-stale']);
    await now().update('now', '2026-06-10T09:00', vscode.ConfigurationTarget.Workspace);
    await eventually('the day to be over again', () => problemsOf('clocked/clutches.csv', { withHints: true }).join() === early.join());
  });

  it('stands in the time zone of the fishroom', async () => {
    await now().update('now', '2026-06-20T12:00', vscode.ConfigurationTarget.Workspace);
    const text = clutches.replace('2026-06-20', '2026-06-20T13:00Z');
    await writeText('clocked/fishroom.json', '{"timezone": "Europe/Berlin"}');
    await writeText('clocked/clutches.csv', text);
    await eventually('noon in Berlin, 10:00Z, to be before it', () => problemsOf('clocked/clutches.csv').join() === early.join());
    await writeText('clocked/fishroom.json', '{"timezone": "America/Los_Angeles"}');
    await eventually('noon in Los Angeles, 19:00Z, to be after it', () => problemsOf('clocked/clutches.csv').length === 0);
  });

  it('runs where the setting is empty or can not be understood', async () => {
    await writeText('clocked/clutches.csv', clutches.replace('2026-06-20', new Date(Date.now() + 3 * 86_400_000).toISOString()));
    for (const value of ['', 'soon']) {
      await now().update('now', value, vscode.ConfigurationTarget.Workspace);
      await idle();
      await eventually('a day ahead of the clock', () => problemsOf('clocked/clutches.csv').includes('3:17 time-future'));
    }
  });

  it('goes on by itself when a row is about just now', async () => {
    await now().update('now', '', vscode.ConfigurationTarget.Workspace);
    let comes = 0;
    let ahead = 5_000;
    await eventually('the row to be ahead', async () => {
      // A slow machine may read it only when its moment has gone by; the next one gets more time.
      if (Date.now() >= comes) {
        comes = Date.now() + ahead;
        ahead *= 2;
        await writeText('clocked/clutches.csv', clutches.replace('2026-06-20', new Date(comes).toISOString()));
      }
      return problemsOf('clocked/clutches.csv').includes('3:17 time-future');
    });
    await eventually('its moment to come', () => !problemsOf('clocked/clutches.csv').includes('3:17 time-future'));
  });
});

function now(): vscode.WorkspaceConfiguration {
  return vscode.workspace.getConfiguration('broodsheet');
}
