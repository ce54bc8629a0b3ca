import { ok, strictEqual } from 'node:assert/strict';
import * as vscode from 'vscode';
import { makeFolder, removeFolder } from './room';
import { eventually, readText, uriOf, writeText } from './support';

describe('what leaves the house', () => {
  beforeEach(async () => {
    await makeFolder('sent');
    await writeText('sent/fishroom.json', '{"name": "Cellar", "timezone": "Europe/Berlin"}');
    await writeText('sent/tanks.csv', 'tank,room\nT1,front\n');
    await writeText('sent/clutches.csv', 'clutch,species,tank,spawned\nK1,kribensis,T1,2026-06-09T08:00\n');
  });
  afterEach(async () => removeFolder('sent'));

  it('is a calendar file, the same to the byte while nothing changes, and with what was called off', async () => {
    const file = uriOf('sent/phone.ics');
    await vscode.commands.executeCommand('broodsheet.exportCalendar', file);
    const first = await readText('sent/phone.ics');
    ok(first.startsWith('BEGIN:VCALENDAR\r\nVERSION:2.0\r\n'), first);
    ok(first.includes('SUMMARY:K1 T1: Hatched\\, gone\\, or not known?\r\n'), first);
    ok(first.includes('NAME:Cellar\r\n') && first.includes('@Cellar\r\n'));
    await vscode.commands.executeCommand('broodsheet.exportCalendar', file);
    strictEqual(await readText('sent/phone.ics'), first);
    await writeText('sent/clutches.csv', 'clutch,species,tank,spawned\n');
    const gone = await eventually('the brood to be gone', async () => {
      await vscode.commands.executeCommand('broodsheet.exportCalendar', file);
      const text = await readText('sent/phone.ics');
      return text !== first && text;
    });
    ok(gone.includes('SUMMARY:K1 T1: Hatched\\, gone\\, or not known?\r\n') && gone.includes('STATUS:CANCELLED\r\n') && !gone.includes('BEGIN:VALARM'), gone);
  });

  it('is a page to print', async () => {
    await vscode.commands.executeCommand('broodsheet.daySheet', { file: uriOf('sent/today.html'), days: 2 });
    const page = await readText('sent/today.html');
    ok(page.startsWith('<!DOCTYPE html>\n') && page.endsWith('</html>\n'));
    ok(page.includes('<h1>front</h1>'), page);
    ok(page.includes('Hatched, gone, or not known?'));
  });
});
