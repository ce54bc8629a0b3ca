import assert from 'node:assert/strict';
import { findNames } from '../../../src/language/names';
import { roomOf } from '../../support/room';

const plan = roomOf(
  {
    'rooms.csv': 'room,name\nfront,Front room\n',
    'tanks.csv': 'tank,room,position\nT1,front,A1\nT12,front,B7\n',
    'pairs.csv': 'pair,species,tank\nKR1,kribensis,T1\n',
    'fish.csv': 'fish,species,sex\nF1,kribensis,m\n',
    'orders.csv': 'order,buyer,species,quantity,due\nO1,Shop at the harbour,angelfish,3,2026-07-01\n',
    'clutches.csv': 'clutch,pair,species,tank,spawned\nKR1-1,KR1,,T1,2026-06-09\nKR1-2,KR1,,T1,soon\nAN1,,angelfish,T1,2026-06-09\n',
  },
  '2026-06-10T09:00',
);

function found(query: string, most = 100): readonly string[] {
  return findNames(plan, query, most).map(({ sheet, id, detail, place }) => {
    const text = plan.records.file(place.file)?.doc.text().slice(place.span.start, place.span.end);
    assert.equal(text, id);
    return `${sheet} ${id} (${detail})`;
  });
}

describe('finding things by name', () => {
  it('lists the one of that id first, then those that begin with it, then those that hold it', () => {
    assert.deepEqual(found('t1'), ['tanks T1 (front A1)', 'tanks T12 (front B7)']);
    assert.deepEqual(found('kr1'), ['pairs KR1 (kribensis)', 'clutches KR1-1 (kribensis)', 'clutches KR1-2 (kribensis)']);
    assert.deepEqual(found('1-1'), ['clutches KR1-1 (kribensis)']);
  });

  it('looks at what else they are called, word by word', () => {
    assert.deepEqual(found('harbour'), ['orders O1 (Shop at the harbour angelfish)']);
    assert.deepEqual(found('Front ROOM'), ['rooms front (Front room)']);
    assert.deepEqual(found('krib kr1-1'), ['clutches KR1-1 (kribensis)']);
    assert.deepEqual(found('angelfish'), ['clutches AN1 (angelfish)', 'orders O1 (Shop at the harbour angelfish)']);
  });

  it('finds letters in their order, as the editor does', () => {
    assert.deepEqual(found('k11'), ['clutches KR1-1 (kribensis)']);
  });

  it('finds all without a query, and nothing that is not there', () => {
    assert.equal(found('').length, 9);
    assert.deepEqual(found('zzz'), []);
  });

  it('gives no more than asked for, the best of them', () => {
    assert.deepEqual(found('1', 2), ['clutches KR1-1 (kribensis)', 'clutches KR1-2 (kribensis)']);
    assert.deepEqual(found('t1', 1), ['tanks T1 (front A1)']);
  });

  it('leaves out what stands in files that can not be read', () => {
    const broken = roomOf({ 'tanks.csv': 'tank,room\nT1,front\n' }, '2026-06-10');
    broken.apply([{ path: 'tanks.csv', edits: [{ start: 10, end: 10, text: '"' }] }]);
    assert.deepEqual(findNames(broken, 'T1', 9), []);
  });
});
