import assert from 'node:assert/strict';
import { idAt, keyPlace, namingsOf, rowNamed } from '../../../src/language/ids';
import type { Naming } from '../../../src/language/ids';
import { unmark } from '../../support/marked';
import type { MarkedTexts } from '../../support/marked';
import { roomOf } from '../../support/room';
import type { Plan } from '../../../src/planner/plan';

const now = '2026-06-10T09:00';

/** `clutches.csv K1 row of clutches` with the text that stands at the place. */
function told(plan: Plan, { file, span, kind, sheet, id }: Naming): string {
  const text = plan.records.file(file)?.doc.text().slice(span.start, span.end) ?? '';
  return `${file} ${kind} of ${sheet}: ${kind === 'log' ? id : text}`;
}

function at(marked: MarkedTexts): string | undefined {
  const { texts, file, span } = unmark(marked);
  const plan = roomOf(texts, now);
  const naming = idAt(plan, file, span.start);
  assert.deepEqual(idAt(plan, file, span.end), naming);
  return naming === undefined ? undefined : told(plan, naming);
}

describe('idAt', () => {
  it('is the key of a row, with or without quotation marks', () => {
    assert.equal(at({ 'tanks.csv': 'tank,room\n«T1»,R1\n' }), 'tanks.csv row of tanks: T1');
    assert.equal(at({ 'tanks.csv': 'tank,room\n"«T1»",R1\n' }), 'tanks.csv row of tanks: T1');
  });

  it('is what a cell refers to, known or not', () => {
    assert.equal(at({ 'tanks.csv': 'tank,room\nT1,«R1»\n' }), 'tanks.csv reference of rooms: R1');
    assert.equal(at({ 'clutches/K1.csv': 'time,event,to_tank\n2026-06-01,moved,«T2»\n' }), 'clutches/K1.csv reference of tanks: T2');
  });

  it('is one of several ids in a cell', () => {
    assert.equal(at({ 'maintenance.csv': 'job,what,tanks,from,to\nM1,scrub,T1  «T2» T3,2026-06-01,2026-06-02\n' }), 'maintenance.csv reference of tanks: T2');
  });

  it('depends on the event where that says what is meant', () => {
    const log = (event: string): MarkedTexts => ({ 'clutches/K1.csv': `time,event,ref\n2026-06-01,${event},«X1»\n` });
    assert.equal(at(log('sold')), 'clutches/K1.csv reference of orders: X1');
    assert.equal(at(log('joined')), 'clutches/K1.csv reference of clutches: X1');
    assert.equal(at(log('counted')), undefined);
  });

  it('is nothing in headers, other cells, cells that can not be read, and files that can not', () => {
    for (const text of ['tank,«room»\nT1,R1\n', 'tank,room,note\nT1,R1,«T1»\n', 'tank,room\n«no id»,R1\n', 'tank,room\n«T1»,"R1\n']) assert.equal(at({ 'tanks.csv': text }), undefined, text);
  });
});

describe('namingsOf', () => {
  const plan = roomOf(
    {
      'tanks.csv': 'tank,room\nT1,R1\nT2,R1\n',
      'pairs.csv': 'pair,species,tank\nP1,kribensis,T1\n',
      'clutches.csv': 'clutch,pair,tank,spawned\nK1,P1,T1,2026-06-01\nK2,P1,"T1",2026-06-02\n',
      'clutches/K1.csv': 'time,event,to_tank\n2026-06-03,moved,T2\n',
      'tanks/T1.csv': 'time,temp_c\n2026-06-03,25\n',
      'maintenance.csv': 'job,what,tanks,from,to\nM1,scrub,T2 T1 T1,2026-06-20,2026-06-21\n',
      'readings.csv': 'time,tank,temp_c\n2026-06-04,T1,"25\n',
    },
    now,
  );
  const all = (sheet: 'tanks' | 'clutches' | 'pairs', id: string): readonly string[] => [...namingsOf(plan, { sheet, id })].map((naming) => told(plan, naming)).sort();

  it('finds rows, references and log files', () => {
    assert.deepEqual(all('tanks', 'T1'), [
      'clutches.csv reference of tanks: T1',
      'clutches.csv reference of tanks: T1',
      'maintenance.csv reference of tanks: T1',
      'maintenance.csv reference of tanks: T1',
      'pairs.csv reference of tanks: T1',
      'tanks.csv row of tanks: T1',
      'tanks/T1.csv log of tanks: T1',
    ]);
    assert.deepEqual(all('clutches', 'K1'), ['clutches.csv row of clutches: K1', 'clutches/K1.csv log of clutches: K1']);
    assert.deepEqual(all('pairs', 'T1'), []);
  });

  it('knows the row that holds', () => {
    assert.equal(rowNamed(plan, { sheet: 'tanks', id: 'T2' })?.value(0), 'T2');
    assert.deepEqual(keyPlace(plan, { sheet: 'tanks', id: 'T2' }), { file: 'tanks.csv', span: { start: 16, end: 18 } });
    assert.equal(keyPlace(plan, { sheet: 'tanks', id: 'T9' }), undefined);
  });
});
