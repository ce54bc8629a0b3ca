import assert from 'node:assert/strict';
import { applyEdits } from '../../../../src/base/textEdit';
import { roomOf } from '../../../support/room';

function added(path: string, text: string): string {
  return applyEdits(text, roomOf({ [path]: text }, '2026-06-01T10:00').missingColumns(path));
}

describe('missingColumns', () => {
  it('adds what is computed behind the last column, with empty cells', () => {
    assert.deepEqual(added('rooms.csv', 'room,note\nR,"a, b"\nQ,\n'), 'room,note,tanks,open_clutches,overdue\nR,"a, b",,,\nQ,,,,\n');
  });

  it('keeps delimiter, line ends and byte order mark, and a missing final newline', () => {
    assert.deepEqual(added('rooms.csv', '\uFEFFroom;note\r\nR;x\r\n\r\nQ;'), '\uFEFFroom;note;tanks;open_clutches;overdue\r\nR;x;;;\r\n\r\nQ;;;;');
  });

  it('adds only what is not there', () => {
    assert.deepEqual(added('rooms.csv', 'room,open_clutches\nR,1\n'), 'room,open_clutches,tanks,overdue\nR,1,,\n');
  });

  it('adds nothing where all is there', () => {
    assert.deepEqual(added('rooms.csv', 'room,open_clutches,overdue,tanks\nR,1,0,2\n'), 'room,open_clutches,overdue,tanks\nR,1,0,2\n');
  });

  it('adds nothing to a file that can’t be read, to an empty one, and where nothing is computed', () => {
    assert.deepEqual([added('rooms.csv', 'room,note\nR,"x\n'), added('rooms.csv', ''), added('prices.csv', 'species\nguppy\n')], ['room,note\nR,"x\n', '', 'species\nguppy\n']);
  });

  const headers: readonly (readonly [path: string, headers: string])[] = [
    ['clutches.csv', 'age_days,stage,stage_basis,tanks_now,alive,survival_pct,spawn_interval_days,hatch_expected,sale_expected,next_action,next_due,overdue'],
    ['pairs.csv', 'clutches,last_spawned,interval_median_days,next_spawn_from,next_spawn_expected,next_spawn_to,kinship'],
    ['tanks.csv', 'fish,last_reading,nh3_mg_l,next_action,next_due'],
    ['tanks/T1.csv', 'nh3_mg_l'],
    ['readings.csv', 'nh3_mg_l'],
    ['fish.csv', 'inbreeding_f'],
    ['rooms.csv', 'tanks,open_clutches,overdue'],
    ['clutches/K1.csv', 'age_days,stage,alive'],
    ['log.csv', 'age_days,stage,alive'],
  ];
  for (const [path, names] of headers) {
    it(`adds to ${path}: ${names}`, () => assert.deepEqual(added(path, 'note\n'), `note,${names}\n`));
  }
});
