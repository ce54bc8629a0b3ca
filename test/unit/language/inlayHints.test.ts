import assert from 'node:assert/strict';
import { textOf } from '../../../src/base/messages';
import { inlayHintsIn } from '../../../src/language/inlayHints';
import type { HintLevel } from '../../../src/language/inlayHints';
import type { Plan } from '../../../src/planner/plan';
import { cell, filledRoom, roomOf } from '../../support/room';
import type { RoomFiles } from '../../support/room';

const now = '2026-06-10T09:00';
const room = {
  'rooms.csv': 'room,name\nfront,Front room\n',
  'tanks.csv': 'tank,room,position,use,retired\nT1,front,A1,breeding,\nT2,front,A2,grow-out,\nT3,front,A3,grow-out,2026-01-01\n',
  'species.csv': 'species,like,common_name\ngardneri,steel-blue-killifish,Steel-blue killifish\nred-krib,kribensis,Red krib\n',
  'pairs.csv': 'pair,species,tank,retired\nKR1,kribensis,T1,\nKR2,kribensis,T1,2026-02-01\nGA1,gardneri,T1,\n',
  'orders.csv': 'order,buyer,species,quantity,due\nO1,shop,kribensis,3,2026-07-01\n',
  'clutches.csv':
    'clutch,pair,tank,spawned,hatched,ended\nKR1-1,KR1,T1,2026-01-01,2026-01-04,2026-02-01\nKR1-2,KR1,T1,2026-04-01,2026-04-04,\nKR1-3,KR1,T1,2026-05-10T09:00,2026-05-13T09:00,\nKR1-4,KR1,T1,2026-06-06T09:00,,\nGA1-1,GA1,T1,2026-03-01,,\n',
  'clutches/KR1-2.csv': 'time,event,tank,count,to_tank,ref\n2026-05-01,moved,,,T2,\n2026-05-02,counted,T2,30,,\n2026-06-01,sold,T2,3,,O1\n',
} as const;

/** The file with its hints in brackets. */
function shown(plan: Plan, path: string, level: HintLevel, span?: { readonly start: number; readonly end: number }): string {
  const text = plan.records.file(path)?.doc.text() ?? '';
  const hints = inlayHintsIn(plan, path, { span: span ?? { start: 0, end: text.length }, level });
  return [...hints].reverse().reduce((all, { offset, parts }) => `${all.slice(0, offset)}[${parts.map((part) => (typeof part === 'string' ? part : textOf(part))).join(' · ')}]${all.slice(offset)}`, text);
}

describe('inlayHintsIn', () => {
  it('tells of open clutches stage and age at the end of the row, and what is to be done by tomorrow', () => {
    const rows = shown(roomOf(room, now), 'clutches.csv', 'some').split('\n');
    assert.equal(rows[1], 'KR1-1,KR1,T1,2026-01-01,2026-01-04,2026-02-01');
    assert.equal(rows[2], 'KR1-2,KR1,T1,2026-04-01,2026-04-04,[juvenile · day 70]');
    assert.equal(rows[4], 'KR1-4,KR1,T1,2026-06-06T09:00,,[wriggler · day 4 · overdue: Hatched?]');
    assert.equal(rows[5], 'GA1-1,GA1,T1,2026-03-01,,[egg · unanswered · day 101 · overdue: Hatched?]');
  });

  it('tells in few words what to do', () => {
    const shownAt = (day: string): string => shown(roomOf({ 'clutches.csv': 'clutch,species,tank,spawned\nK1,kribensis,T1,2026-06-09T19:00\n' }, day), 'clutches.csv', 'some').split('\n')[1] ?? '';
    assert.equal(shownAt('2026-06-10T09:00'), 'K1,kribensis,T1,2026-06-09T19:00[egg · day 1 · Look at the eggs]');
  });

  it('tells nothing for which the file has a column', () => {
    const text = room['clutches.csv'].replaceAll('\n', ',\n').replace('ended,\n', 'ended,stage\n');
    const rows = shown(roomOf({ ...room, 'clutches.csv': text.slice(0, -1) }, now), 'clutches.csv', 'some').split('\n');
    assert.equal(rows[2], 'KR1-2,KR1,T1,2026-04-01,2026-04-04,,[day 70]');
    const filled = filledRoom(room, now);
    for (const path of filled.paths()) assert.doesNotMatch(shown(filled, path, 'some').replace(/\[shop\]|\[front A\d\]/g, ''), /\[/, path);
  });

  it('tells when pairs that still breed should spawn, and in logs where fish went', () => {
    const plan = roomOf(room, now);
    assert.match(shown(plan, 'pairs.csv', 'some'), /\nKR1,kribensis,T1,\[spawn ~2026-\d\d-\d\d\]\nKR2,kribensis,T1,2026-02-01\nGA1,gardneri,T1,\[spawn ~[\d-]+\]\n$/);
    assert.equal(shown(plan, 'clutches/KR1-2.csv', 'some'), room['clutches/KR1-2.csv'].replace('T2,\n', 'T2[front A2],\n').replace('O1', 'O1[shop]'));
    for (const path of ['tanks.csv', 'rooms.csv', 'species.csv', 'orders.csv']) assert.equal(shown(plan, path, 'some'), room[path as keyof typeof room], path);
  });

  it('tells in full of every row, with what each id stands for', () => {
    const plan = roomOf(room, now);
    const rows = shown(plan, 'clutches.csv', 'all').split('\n');
    assert.match(rows[1] ?? '', /^KR1-1,KR1\[kribensis\],T1\[front A1\],[^[]+\[ended · day 31 · tanks_now T1 · hatch_expected 2026-01-04\]$/);
    assert.match(rows[2] ?? '', /\[juvenile · expected · day 70 · alive 27 · /);
    assert.match(shown(plan, 'pairs.csv', 'all'), /GA1,gardneri\[Steel-blue killifish\],T1\[front A1\],/);
    assert.match(shown(plan, 'tanks.csv', 'all'), /T1,front\[Front room\]/);
    // Who reads the id knows the name.
    assert.doesNotMatch(shown(roomOf({ ...room, 'orders.csv': 'order,species,quantity,due\nO1,red-krib,1,2026-07-01\n' }, now), 'orders.csv', 'all'), /\[/);
  });

  it('tells what a fill writes once the columns are there', () => {
    const messy: RoomFiles = { ...room, 'clutches.csv': `${room['clutches.csv']}KR1-4,KR1,T1,2026-05-01,,\nKR1-5,KR1,T1,2026-06-20,,\nKR1-6,KR1,T1,2026-06-02\n` };
    const plan = roomOf(messy, now);
    const filled = filledRoom(messy, now);
    let compared = 0;
    for (const path of plan.paths()) {
      const file = plan.records.file(path);
      if (file === undefined) continue;
      const added = plan.absentCells(path, { first: 0, last: file.doc.rowCount });
      const headers = [...(filled.records.file(path)?.header.columnOf.keys() ?? [])].filter((header) => !file.header.columnOf.has(header));
      for (let record = 1; record < file.doc.rowCount; record++) {
        const told = added.find((one) => one.record === record)?.cells;
        const after = filled.records.file(path)?.doc;
        for (const header of headers) {
          const column = filled.records.file(path)?.header.columnOf.get(header) ?? -1;
          const written = after !== undefined && column < after.cellCount(record) ? after.value(record, column) : '';
          assert.equal(told?.get(header) ?? '', written, `${path} ${record} ${header}`);
          if (written !== '') compared++;
        }
      }
    }
    assert.ok(compared > 60, `compared ${compared} cells`);
    assert.equal(cell(filled, 'clutches.csv', 'KR1-2', 'stage'), 'juvenile');
  });

  it('looks at the asked rows alone', () => {
    const plan = roomOf(room, now);
    const text = room['clutches.csv'];
    const at = text.indexOf('KR1-2');
    const part = shown(plan, 'clutches.csv', 'some', { start: at, end: at + 3 });
    assert.deepEqual(part.split('\n').filter((row) => row.includes('[')).map((row) => row.slice(0, 5)), ['KR1-2']);
  });

  it('is silent in files that can not be read, that are not there, and without rows', () => {
    const span = { start: 0, end: 100 };
    for (const text of ['clutch,species,tank,spawned\nK1,kribensis,T1,"2026-06-01\n', 'clutch,species,tank,spawned\n', '']) {
      assert.deepEqual(inlayHintsIn(roomOf({ 'clutches.csv': text }, now), 'clutches.csv', { span, level: 'all' }), [], text);
    }
    assert.deepEqual(inlayHintsIn(roomOf({}, now), 'clutches.csv', { span, level: 'all' }), []);
  });
});
