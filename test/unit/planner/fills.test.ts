import assert from 'node:assert/strict';
import fc from 'fast-check';
import { CsvDocument } from '../../../src/csv/document';
import { textOf } from '../../../src/base/messages';
import { Plan } from '../../../src/planner/plan';
import { schemaForPath } from '../../../src/schema/catalog';
import { berlin, moment } from '../../support/moments';
import { filled, textsOf } from '../../support/plans';
import { anyRoom } from '../../support/randomRoom';
import { roomOf } from '../../support/room';

const now = '2026-06-10T09:00';

function planOf(texts: Readonly<Record<string, string>>): Plan {
  const plan = new Plan({ machineZone: berlin, now: moment(now).instant });
  plan.apply(Object.entries(texts).map(([path, text]) => ({ path, file: { text } })));
  return plan;
}

/** The keeper's cells as they stand in the text, quotes and line ends too; of computed cells only that there is one. */
function keepersText(path: string, text: string): readonly string[] {
  const doc = CsvDocument.parse(text);
  const fields = schemaForPath(path)?.schema.fieldNamed;
  const isComputed = Array.from({ length: doc.rowCount === 0 ? 0 : doc.cellCount(0) }, (_, column) => fields?.get(doc.value(0, column))?.computed === true);
  return Array.from({ length: doc.rowCount }, (_, row) => {
    const cells = Array.from({ length: doc.cellCount(row) }, (_, column) => (row > 0 && isComputed[column] === true ? '=' : doc.source(row, column)));
    return cells.join(doc.delimiter) + doc.lineEnd(row);
  });
}

describe('filling', () => {
  it('leaves nothing to fill, and not a character of the keeper’s changed', () => {
    let cells = 0;
    fc.assert(
      fc.property(anyRoom, (files) => {
        const texts = Object.fromEntries(files);
        const before = planOf(texts);
        const after = { ...texts, ...filled(before) };
        for (const path of before.paths()) {
          const { changes, handKept } = before.fills(path, { overwrite: true });
          cells += changes.length;
          assert.deepEqual(handKept, []);
          assert.deepEqual(keepersText(path, after[path] ?? ''), keepersText(path, texts[path] ?? ''), path);
        }
        const again = planOf(after);
        for (const path of again.paths()) {
          assert.deepEqual(again.fills(path, { overwrite: true }).changes, [], path);
          assert.deepEqual(again.problems(path).filter(({ code }) => code === 'computed-stale'), [], path);
        }
        // What was told of the records is told again, wherever the cells have moved to.
        const told = (plan: Plan): readonly string[] =>
          plan.paths().flatMap((path) => plan.problems(path).flatMap(({ code, message }) => (code === 'computed-stale' ? [] : [JSON.stringify([path, code, message])])));
        assert.deepEqual([...told(again)].sort(), [...told(before)].sort());
        for (const { path } of [...before.records.files()]) before.apply([{ path, edits: before.fills(path, { overwrite: true }).changes.flatMap(({ edits }) => edits) }]);
        assert.deepEqual(textsOf(before), textsOf(again), 'filled in place, or read afresh');
        assert.deepEqual(before.paths().flatMap((path) => before.fills(path, { overwrite: true }).changes), []);
      }),
      { numRuns: 120 },
    );
    assert.ok(cells > 1000, `${cells} cells were filled`);
  });

  it('tells each cell with what it held and what it should hold, in the order of the text', () => {
    const plan = roomOf({ 'clutches.csv': 'stage,clutch,species,tank,spawned,age_days\n,K1,kribensis,T1,2026-06-09,"7"\negg,K2,kribensis,T2,2026-06-10,0\n' }, now);
    assert.deepEqual(plan.fills('clutches.csv', { overwrite: true }).changes.map(({ header, before, after, span }) => [header, before, after, span]), [
      ['stage', '', 'egg', { start: 43, end: 43 }],
      ['age_days', '7', '1', { start: 71, end: 74 }],
    ]);
  });

  it('keeps delimiter, quoting, line ends and byte order mark', () => {
    const text = '\uFEFFclutch;species;tank;spawned;age_days;stage\r\n"K1";kribensis;T1;2026-06-09;;"x"\r\nK2;kribensis;T2;2026-06-08T10:00;;wriggler';
    assert.equal(
      filled(roomOf({ 'clutches.csv': text }, now))['clutches.csv'],
      '\uFEFFclutch;species;tank;spawned;age_days;stage\r\n"K1";kribensis;T1;2026-06-09;1;"egg"\r\nK2;kribensis;T2;2026-06-08T10:00;2;egg',
    );
  });

  it('fills no row with too few cells, no second row of an id, and no file that cannot be read', () => {
    const plan = roomOf(
      {
        'clutches.csv': 'clutch,species,tank,spawned,age_days\nK1,kribensis,T1,2026-06-09\nK2,kribensis,T1,2026-06-08,\nK2,kribensis,T1,2026-06-01,\n',
        'pairs.csv': 'pair,species,tank,clutches\nP1,kribensis,T1,"\n',
      },
      now,
    );
    assert.deepEqual(plan.paths().flatMap((path) => plan.fills(path).changes.map(({ file, after }) => [file, after])), [['clutches.csv', '2']]);
  });

  it('guesses nothing that comes from a sheet which could never be read, and goes on as soon as it can be', () => {
    const rooms = 'room,tanks,open_clutches\nR1,1,1\n';
    const good = 'clutch,species,tank,spawned\nK1,kribensis,T1,2026-06-09\nK2,kribensis,T1,2026-06-10\n';
    const bad = [`\n${good}`, good.replace('K1', '"K1'), good.replace('K2', '<<<<<<< HEAD\nK2')];
    for (const text of bad) {
      const texts = { 'clutches.csv': text, 'tanks.csv': 'tank,room\nT1,R1\n', 'rooms.csv': rooms };
      const plan = planOf(texts);
      assert.deepEqual(plan.fills('rooms.csv', { overwrite: true }).changes, [], text);
      assert.deepEqual(plan.problems('rooms.csv').map(({ code }) => code), []);
      assert.equal(plan.unreadSources('rooms.csv')[0], 'clutches.csv');
      assert.equal(plan.unreadSources('tanks.csv')[0], undefined);
      assert.ok(plan.apply([{ path: 'clutches.csv', file: { text: good } }]).has('rooms.csv'));
      assert.deepEqual(plan.fills('rooms.csv', { overwrite: true }).changes.map(({ after }) => after), ['2']);
      assert.deepEqual(plan.problems('rooms.csv').map(({ code }) => code), ['computed-stale']);
      // What could once be read answers for what stands there now.
      plan.apply([{ path: 'clutches.csv', file: { text } }]);
      assert.deepEqual(plan.fills('rooms.csv', { overwrite: true }).changes.map(({ after }) => after), ['2']);
    }
  });

  it('guesses nothing of a brood whose log, pair, species, water or routines can not be read, nor that anything is overdue', () => {
    const good: Record<string, string> = {
      'clutches.csv': 'clutch,pair,tank,spawned,age_days,stage,tanks_now,next_action,overdue\nK1,P1,T1,2026-05-01T09:00,1,free-swimming,T2,Count the fry,0\n',
      'clutches/K1.csv': 'time,event,count,to_tank,alive\n2026-05-04T09:00,hatched,,,\n2026-05-10T09:00,moved,,T2,\n2026-06-05T09:00,counted,40,,40\n',
      'log.csv': 'clutch,time,event\n',
      'pairs.csv': 'pair,species,tank,spawns\nP1,kribensis,T1,7\n',
      'species.csv': 'species,hatch_h\nkribensis,60\n',
      'readings.csv': 'time,tank,temp_c\n2026-05-01,T1,27\n',
      'tanks/T2.csv': 'time,temp_c\n2026-05-11,27\n',
      'tanks.csv': 'tank,room,fish\nT1,R,9\nT2,R,9\n',
      'routines.csv': 'routine,action,about,offset,every\n',
    };
    const left: Readonly<Record<string, readonly string[]>> = {
      'clutches/K1.csv': [],
      'log.csv': [],
      'pairs.csv': ['clutches.csv age_days 40'],
      'species.csv': ['clutches.csv age_days 40'],
      'readings.csv': ['clutches.csv age_days 40'],
      'tanks/T2.csv': ['clutches.csv age_days 40'],
      'routines.csv': ['clutches.csv age_days 40'],
    };
    for (const [path, filled] of Object.entries(left)) {
      const plan = planOf({ ...good, [path]: `${good[path] ?? ''}"` });
      const changes = plan.paths().flatMap((sheet) => plan.fills(sheet, { overwrite: true }).changes.filter(({ file, header }) => header !== 'alive' || file !== path).map(({ file, header, after }) => `${file} ${header} ${after}`));
      assert.deepEqual(changes.filter((change) => !change.endsWith(" alive ")), filled, path);
      assert.equal(plan.unreadSources('clutches.csv')[0], path);
      assert.deepEqual(plan.problems('clutches.csv').filter(({ code }) => code === 'overdue'), [], path);
      plan.apply([{ path, file: { text: good[path] ?? '' } }]);
      assert.equal(plan.unreadSources('clutches.csv')[0], undefined);
      assert.ok(plan.fills('clutches.csv', { overwrite: true }).changes.length > 0, path);
      assert.ok(plan.fills('tanks.csv', { overwrite: true }).changes.length > 0, path);
    }
  });

  it('calls no work on a water overdue while the log of a tank on it can not be read', () => {
    const overdue = (log: string): number =>
      roomOf({ 'tanks.csv': 'tank,room,system\nT1,R,S\nT2,R,S\n', 'tanks/T1.csv': 'time,event\n2026-05-01,tested\n', 'tanks/T2.csv': log, 'routines.csv': 'routine,action,level,about,anchor,offset,every,grace,done_by\ntest,Test,warn,tank,reading,P7D,P7D,P1D,tested\n' }, now)
        .problems('tanks.csv')
        .filter(({ code }) => code === 'overdue').length;
    assert.deepEqual(['time,event\n', 'time,event\n2026-06-09,tested,"\n'].map(overdue), [1, 0]);
  });

  it('leaves only those rows alone that hang on a brood whose own log can not be read', () => {
    const plan = planOf({
      'clutches.csv': 'clutch,pair,tank,spawned,stage\nK1,P1,T1,2026-06-01,juvenile\nK2,P1,T1,2026-06-09,juvenile\nK3,P2,T2,2026-06-09,\n',
      'clutches/K1.csv': 'time,event\n2026-06-04,hatched,"\n',
      'clutches/K2.csv': 'time,event,stage\n2026-06-09T12:00,checked,x\n',
      'clutches/K3.csv': 'time,event,stage\n2026-06-09T12:00,checked,\n',
      'pairs.csv': 'pair,species,tank,clutches\nP1,kribensis,T1,\nP2,kribensis,T2,\n',
    });
    assert.deepEqual(plan.paths().flatMap((path) => plan.fills(path, { overwrite: true }).changes.map(({ file, span, after }) => `${file} ${span.start > 0 ? after : ''}`)), ['clutches.csv egg', 'clutches/K3.csv egg', 'pairs.csv 1']);
    assert.deepEqual(plan.problems('clutches.csv').flatMap(({ code, message }) => (code === 'computed-stale' ? [textOf(message)] : [])), ['stage is out of date in one row.']);
    assert.equal(plan.unreadSources('clutches.csv')[0], 'clutches/K1.csv');
  });

  it('goes on where the sheet that could be read at last has no row', () => {
    const plan = planOf({ 'clutches.csv': '"', 'rooms.csv': 'room,tanks,open_clutches\nR1,0,4\n' });
    assert.deepEqual(plan.fills('rooms.csv', { overwrite: true }).changes, []);
    assert.ok(plan.apply([{ path: 'clutches.csv', file: { text: 'clutch,species,tank,spawned\n' } }]).has('rooms.csv'));
    assert.deepEqual(plan.fills('rooms.csv', { overwrite: true }).changes.map(({ after }) => after), ['0']);
  });

  it('empties the cells of a clutch that is still to come', () => {
    const plan = roomOf({ 'clutches.csv': 'clutch,species,tank,spawned,age_days,stage\nK1,kribensis,T1,2026-06-11,3,egg\n' }, now);
    assert.equal(filled(plan)['clutches.csv'], 'clutch,species,tank,spawned,age_days,stage\nK1,kribensis,T1,2026-06-11,,\n');
  });

  it('leaves computed columns alone whose values nothing works out yet', () => {
    const plan = roomOf({ 'orders.csv': 'order,species,quantity,due,short\nO1,kribensis,5,2026-08-01,2\n' }, now);
    assert.deepEqual(plan.fills('orders.csv', { overwrite: true }).changes, []);
  });
});
