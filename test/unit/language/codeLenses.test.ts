import assert from 'node:assert/strict';
import { textOf } from '../../../src/base/messages';
import { codeLensesOf } from '../../../src/language/codeLenses';
import { column, filledRoom, roomOf } from '../../support/room';
import type { RoomFiles } from '../../support/room';

const now = '2026-06-10T09:00';
const header = 'clutch,species,tank,spawned,ended\n';

/** `title -> text that a click leads to`. */
function lenses(files: RoomFiles, path: string): readonly string[] {
  const plan = roomOf(files, now);
  return codeLensesOf(plan, path).map(({ title, place }) => {
    const text = place === undefined ? '' : (plan.records.file(place.file)?.doc.text().slice(place.span.start, place.span.end) ?? '');
    return `${textOf(title)} -> ${place?.file ?? ''} ${text}`;
  });
}

describe('codeLensesOf', () => {
  const log = { 'clutches/K1.csv': 'time,event\n2026-06-09,checked\n' };

  it('tells of a log\'s clutch how it is and what comes next, and leads to its row', () => {
    assert.deepEqual(lenses({ ...log, 'clutches.csv': `${header}K1,kribensis,T1,2026-06-09T10:00,\n` }, 'clutches/K1.csv'), [
      'kribensis, egg, day 1 -> clutches.csv K1',
      "Next: Look at the eggs: fungus, missing ones; don't disturb, 2026-06-10 10:00 -> clutches.csv K1",
    ]);
  });

  it('tells what is overdue', () => {
    const [, overdue] = lenses({ ...log, 'clutches.csv': `${header}K1,kribensis,T1,2026-06-01T10:00,\n` }, 'clutches/K1.csv');
    assert.match(overdue ?? '', /^Overdue: Hatched, gone, or not known\? \(due 2026-06-04 10:00\)/);
  });

  it('tells of one that ended when that was, and nothing of one that is not in the register', () => {
    assert.deepEqual(lenses({ ...log, 'clutches.csv': `${header}K1,kribensis,T1,2026-06-01,2026-06-09\n` }, 'clutches/K1.csv'), ['kribensis, ended on day 8 -> clutches.csv K1']);
    assert.deepEqual(lenses({ ...log, 'clutches.csv': `${header}K2,kribensis,T1,2026-06-01,\n` }, 'clutches/K1.csv'), []);
  });

  it('tells of a tank\'s log who lives there and what is due', () => {
    const room = {
      'tanks.csv': 'tank,room,position\nT1,front,A1\nT2,front,A2\n',
      'clutches.csv': `${header}K1,kribensis,T1,2026-06-09,\n`,
      'routines.csv': 'routine,action,about,off\nchange-water,Change the water,tank,no\n',
      'tanks/T1.csv': 'time,event\n2026-06-01,water_change\n',
      'tanks/T2.csv': 'time,event\n',
    };
    assert.deepEqual(lenses(room, 'tanks/T1.csv'), ['front A1: K1 -> tanks.csv T1', 'Due: Change the water (since 2026-06-08) -> tanks.csv T1']);
    assert.equal(lenses(room, 'tanks/T2.csv')[0], 'front A2: empty -> tanks.csv T2');
  });

  it('counts in a register what its overdue column counts, and leads to what has been so the longest', () => {
    const room = { 'clutches.csv': `${header}K1,kribensis,T1,2026-06-04,\nK2,kribensis,T1,2026-06-02,\nK3,kribensis,T1,2026-06-10T08:00,\nK4,kribensis,T1,2026-06-02,2026-06-03\n` };
    assert.deepEqual(lenses(room, 'clutches.csv'), ['2 with something overdue, first K2: Hatched, gone, or not known? -> clutches.csv K2']);
    assert.equal(column(filledRoom(room, now), 'clutches.csv', 'overdue').filter((count) => Number(count) > 0).length, 2);
    assert.deepEqual(lenses({ 'clutches.csv': `${header}K3,kribensis,T1,2026-06-10T08:00,\n` }, 'clutches.csv'), []);
  });

  it('is silent above other sheets and files that can not be read', () => {
    assert.deepEqual(lenses({ 'rooms.csv': 'room\nfront\n' }, 'rooms.csv'), []);
    assert.deepEqual(lenses({ 'clutches.csv': `${header}K2,kribensis,T1,"2026-06-02,\n` }, 'clutches.csv'), []);
  });
});
