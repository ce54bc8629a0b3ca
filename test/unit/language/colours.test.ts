import assert from 'node:assert/strict';
import { colouredSpans, COLOURS } from '../../../src/language/colours';
import { roomOf } from '../../support/room';
import type { Plan } from '../../../src/planner/plan';

const now = '2026-06-10T09:00';

/** `0:T1` for each piece: its colour and text. */
function pieces(plan: Plan, path: string, from = 0, to = Number.MAX_SAFE_INTEGER): readonly string[] {
  const text = plan.records.file(path)?.doc.text() ?? '';
  return colouredSpans(plan, path, { start: from, end: to }).map(({ span, colour }) => `${colour}:${text.slice(span.start, span.end)}`);
}

describe('colours by column', () => {
  it('are those of the column in every row, the header too, and computed ones are apart', () => {
    const plan = roomOf({ 'clutches.csv': 'clutch,species,age_days,tank,spawned\nK1,kribensis,3,T1,2026-06-07\n' }, now);
    assert.deepEqual(pieces(plan, 'clutches.csv'), ['0:clutch', '1:species', 'computed:age_days', '2:tank', '3:spawned', '0:K1', '1:kribensis', 'computed:3', '2:T1', '3:2026-06-07']);
  });

  it('begin again after the last, so that neighbours always differ, also behind the header', () => {
    const wide = Array.from({ length: 14 }, (_, i) => `x${i}`).join(',');
    const plan = roomOf({ 'tanks.csv': `tank,room,fish,use\n${wide}\n` }, now);
    const colours = pieces(plan, 'tanks.csv', 20).map((piece) => piece.split(':')[0]);
    assert.deepEqual(colours, ['0', '1', 'computed', '2', '0', '1', 'computed', '2', '3', '4', '0', '1', '2', '3', '4', '0', '1', '2']);
    assert.equal(COLOURS, 5);
  });

  it('are told line by line for a cell over several lines, with its quotation marks', () => {
    const plan = roomOf({ 'rooms.csv': 'room,note\r\nfront,"one\r\n\r\ntwo"\r\nback,\r\n' }, now);
    assert.deepEqual(pieces(plan, 'rooms.csv', 11), ['0:room', '1:note', '0:front', '1:"one', '1:two"', '0:back']);
  });

  it('are of the records that are asked for, and of the header, which stays in sight above them', () => {
    const plan = roomOf({ 'rooms.csv': 'room,name\na,A\nb,B\nc,C\n' }, now);
    assert.deepEqual(pieces(plan, 'rooms.csv', 14, 17), ['0:room', '1:name', '0:b', '1:B']);
    assert.deepEqual(pieces(plan, 'rooms.csv', 21), ['0:room', '1:name', '1:C']);
    assert.deepEqual(pieces(plan, 'rooms.csv', 2, 11), ['0:room', '1:name', '0:a']);
  });

  it('of a cell as long as a file are only of the lines that are asked for', () => {
    const plan = roomOf({ 'rooms.csv': `room,note\na,"${'line\n'.repeat(1_000)}"\n` }, now);
    assert.equal(pieces(plan, 'rooms.csv', 112, 121).length, 2 + 3);
  });

  it('of a file that can not be read are those of its last readable header', () => {
    const plan = roomOf({ 'clutches.csv': 'clutch,age_days,tank\nK1,3,T1\n' }, now);
    plan.apply([{ path: 'clutches.csv', edits: [{ start: 26, end: 26, text: '"' }] }]);
    assert.deepEqual(pieces(plan, 'clutches.csv', 21), ['0:clutch', 'computed:age_days', '1:tank', '0:K1', 'computed:3', '1:"T1']);
  });

  it('of a file that is not there or holds nothing are none', () => {
    assert.deepEqual(pieces(roomOf({ 'rooms.csv': '' }, now), 'rooms.csv'), []);
    assert.deepEqual(pieces(roomOf({}, now), 'rooms.csv'), []);
  });
});
