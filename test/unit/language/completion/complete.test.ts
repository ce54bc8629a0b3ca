import assert from 'node:assert/strict';
import { completionsAt } from '../../../../src/language/completion/complete';
import { offered, offeredValues, taken } from '../../../support/completions';
import { roomOf } from '../../../support/room';

describe('completionsAt', () => {
  it('replaces all that stands in the cell, wherever the cursor is in it', () => {
    const plan = roomOf({ 'tanks.csv': 'tank,room\nT1,wrong\n', 'rooms.csv': 'room\nfront\n' }, '2026-06-10');
    for (const offset of [13, 15, 18]) assert.deepEqual(completionsAt(plan, 'tanks.csv', offset)?.span, { start: 13, end: 18 }, String(offset));
  });

  it('answers in a cell that is still empty, at the end of a line that is too short, and on the empty line behind the last', () => {
    const rooms = { 'rooms.csv': 'room\nfront\n' };
    assert.deepEqual(offeredValues({ ...rooms, 'tanks.csv': 'tank,room,note\nT1,«»,\n' }), ['front']);
    assert.deepEqual(offeredValues({ ...rooms, 'tanks.csv': 'tank,room,note\nT1,«»\n' }), ['front']);
    assert.deepEqual(offeredValues({ ...rooms, 'tanks.csv': 'tank,room,note\nT1,«»' }), ['front']);
    assert.deepEqual(offeredValues({ ...rooms, 'tanks.csv': 'tank,room,note\nT1,front,\n«»' }), ['T2']);
    assert.deepEqual(offeredValues({ ...rooms, 'tanks.csv': 'tank,room,note\r\nT1,front,\r\n«»\r\nT3,front,\r\n' }), ['T4']);
  });

  it('keeps the quotation marks of a cell, and replaces one word where a cell holds several', () => {
    assert.equal(taken({ 'rooms.csv': 'room\nfront\n', 'tanks.csv': 'tank;room\nT1;"«fr»"\n' }, 'front'), 'tank;room\nT1;"front"\n');
    const jobs = { 'tanks.csv': 'tank,room\nT1,R\nT2,R\nT3,R\n', 'maintenance.csv': 'job,what,tanks,from,to\nM1,scrub,T1 «T» T3,2026-06-20,\n' };
    assert.deepEqual(offeredValues(jobs), ['T2']);
    assert.equal(taken(jobs, 'T2'), 'job,what,tanks,from,to\nM1,scrub,T1 T2 T3,2026-06-20,\n');
    assert.deepEqual(offeredValues({ ...jobs, 'maintenance.csv': 'job,what,tanks,from,to\nM1,scrub,T1 «»,2026-06-20,\n' }), ['T2', 'T3']);
  });

  it('quotes a moment only where it needs it', () => {
    const text = 'clutch,species,tank,spawned\nK1,kribensis,T1,«»\n';
    assert.equal(taken({ 'clutches.csv': text }, '2026-06-10T09:00'), 'clutch,species,tank,spawned\nK1,kribensis,T1,2026-06-10T09:00\n');
  });

  it('is silent in text, numbers, computed and unknown columns, cells over several lines, unreadable files and other files', () => {
    for (const text of [
      'tank,room,note\nT1,front,«»\n',
      'tank,room,volume_l\nT1,front,«»\n',
      'tank,room,fish\nT1,front,«»\n',
      'tank,room,mine\nT1,front,«»\n',
      'tank,room\nT1,front,«»\n',
      'tank,use\nT1,"a\n«b»"\n',
      'tank,room\nT1,"front\nT2,«»\n',
    ]) assert.equal(offered({ 'tanks.csv': text, 'rooms.csv': 'room\nfront\n' }), undefined, text);
    assert.equal(completionsAt(roomOf({}, '2026-06-10'), 'tanks.csv', 0), undefined);
  });

  it('shows no more than a keeper would read, those first that begin as typed, then those that hold it, then those that hold its letters', () => {
    const rows = Array.from({ length: 500 }, (_, i) => `K-${i + 1},kribensis,T1,2026-06-01`).join('\n');
    const room = { 'clutches.csv': `clutch,species,tank,spawned\n${rows}\n` };
    const all = offered({ ...room, 'log.csv': 'time,clutch,event\n2026-06-09,«»,checked\n' });
    assert.equal(all?.isIncomplete, true);
    assert.equal(all.suggestions.length, 200);
    const typed = (text: string): readonly string[] => offeredValues({ ...room, 'log.csv': `time,clutch,event\n2026-06-09,«${text}»,checked\n` });
    const [fortyNines, others] = [['K-49', ...Array.from({ length: 10 }, (_, i) => `K-49${i}`)], ['K-149', 'K-249', 'K-349', 'K-409']];
    assert.deepEqual(typed('k-49').slice(0, 15), [...fortyNines, ...others]);
    assert.deepEqual(typed('49').slice(0, 15), ['K-49', 'K-149', 'K-249', 'K-349', 'K-449', ...fortyNines.slice(1)].slice(0, 15));
  });
});
