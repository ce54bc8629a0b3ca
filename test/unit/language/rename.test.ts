import assert from 'node:assert/strict';
import fc from 'fast-check';
import { textOf } from '../../../src/base/messages';
import { applyEdits } from '../../../src/base/textEdit';
import { namingsOf } from '../../../src/language/ids';
import type { Named } from '../../../src/language/ids';
import { renameableAt, renaming } from '../../../src/language/rename';
import type { Refused, Renaming } from '../../../src/language/rename';
import { Plan } from '../../../src/planner/plan';
import { unmark } from '../../support/marked';
import type { MarkedTexts } from '../../support/marked';
import { berlin, moment } from '../../support/moments';
import { textsOf } from '../../support/plans';
import { anyRoom } from '../../support/randomRoom';
import { roomOf } from '../../support/room';

const now = '2026-06-10T09:00';

type Texts = Readonly<Record<string, string>>;

/** The texts after a renaming, by the names that the files have then. */
function renamed(texts: Texts, { edits, moves }: Renaming): Record<string, string> {
  const after = new Map(Object.entries(texts));
  for (const edit of edits) if ('edits' in edit) after.set(edit.file, applyEdits(after.get(edit.file) ?? '', edit.edits));
  for (const { file, to } of moves) {
    assert.ok(!after.has(to), `${to} is there already`);
    after.set(to, after.get(file) as string);
    after.delete(file);
  }
  return Object.fromEntries(after);
}

function why(outcome: Renaming | Refused): string {
  return outcome.kind === 'refused' ? textOf(outcome.reason) : 'not refused';
}

/** What becomes of the texts when the id at the marks gets another name, or why nothing does. */
function after(marked: MarkedTexts, to: string): Texts | string {
  const { texts, file, span } = unmark(marked);
  const plan = roomOf(texts, now);
  const at = renameableAt(plan, file, span.start);
  if (at.kind === 'refused') return textOf(at.reason);
  assert.deepEqual(at.span, span);
  const outcome = renaming(plan, at, { to });
  return outcome.kind === 'refused' ? textOf(outcome.reason) : renamed(texts, outcome);
}

describe('a renaming', () => {
  it('changes the row, all that names it, and the names of its logs, in sub-folders too', () => {
    const texts = {
      'clutches.csv': 'clutch,species,tank,spawned,note\n«K1»,angelfish,K1,2026-06-01,K1\nK10,angelfish,T1,2026-06-02,\n',
      'log.csv': 'time,clutch,event,ref\n2026-06-03,K10,joined,K1\n2026-06-03,K1,checked,\n2026-06-03,K10,sold,K1\n',
      'clutches/2026/K1.csv': 'time,event\n2026-06-02,checked\n',
      'clutches/K10.csv': 'time,event\n2026-06-02,checked\n',
      'tanks/K1.csv': 'time,temp_c\n2026-06-03,25\n',
      'fish.csv': 'fish,species,clutch\nF1,angelfish,K1\n',
    };
    assert.deepEqual(after(texts, 'M1'), {
      'clutches.csv': 'clutch,species,tank,spawned,note\nM1,angelfish,K1,2026-06-01,K1\nK10,angelfish,T1,2026-06-02,\n',
      'log.csv': 'time,clutch,event,ref\n2026-06-03,K10,joined,M1\n2026-06-03,M1,checked,\n2026-06-03,K10,sold,K1\n',
      'clutches/2026/M1.csv': 'time,event\n2026-06-02,checked\n',
      'clutches/K10.csv': 'time,event\n2026-06-02,checked\n',
      'tanks/K1.csv': 'time,temp_c\n2026-06-03,25\n',
      'fish.csv': 'fish,species,clutch\nF1,angelfish,M1\n',
    });
  });

  it('goes word by word where a cell names several, and leaves marks, blanks and line ends as they are', () => {
    const texts = {
      'tanks.csv': '\uFEFFtank;room\r\n"T1";R1\r\nT2;R1\n',
      'maintenance.csv': 'job,what,tanks,from,to\nM1,T1,"T1  T2\nT1 T11",2026-06-20,2026-06-21\nM2,x,«T1»,2026-06-20,2026-06-21',
      'pairs.csv': 'pair,species,tank,note\nP1,angelfish,"T1"  ,"said ""T1"", T1"\n',
    };
    assert.deepEqual(after(texts, 'Rack.1'), {
      'tanks.csv': '\uFEFFtank;room\r\n"Rack.1";R1\r\nT2;R1\n',
      'maintenance.csv': 'job,what,tanks,from,to\nM1,T1,"Rack.1  T2\nRack.1 T11",2026-06-20,2026-06-21\nM2,x,Rack.1,2026-06-20,2026-06-21',
      'pairs.csv': 'pair,species,tank,note\nP1,angelfish,"Rack.1"  ,"said ""T1"", T1"\n',
    });
  });

  it('works for what has no row, as in a room of one sheet', () => {
    const texts = { 'clutches.csv': 'clutch,species,tank,spawned\nK1,angelfish,«T1»,2026-06-01\nK2,angelfish,T1,2026-06-02\n' };
    assert.deepEqual(after(texts, 'A'), { 'clutches.csv': 'clutch,species,tank,spawned\nK1,angelfish,A,2026-06-01\nK2,angelfish,A,2026-06-02\n' });
  });

  it('may change nothing but capital letters, and may change nothing', () => {
    const texts = { 'tanks.csv': 'tank,room\n«t1»,R1\n', 'tanks/t1.csv': 'time,temp_c\n2026-06-03,25\n' };
    assert.deepEqual(after(texts, 'T1'), { 'tanks.csv': 'tank,room\nT1,R1\n', 'tanks/T1.csv': 'time,temp_c\n2026-06-03,25\n' });
    assert.deepEqual(after(texts, 't1'), unmark(texts).texts);
  });
});

describe('a renaming is refused', () => {
  const texts = { 'tanks.csv': 'tank,room\n«T1»,R1\nT2,R1\n' };

  it('where no name stands', () => {
    assert.match(after({ 'tanks.csv': 'tank,room,note\nT1,R1,«T1»\n' }, 'T9') as string, /^Only the name of a tank/);
  });

  it('to a name that is taken, also but for capital letters', () => {
    assert.equal(after(texts, 'T2'), 'There is already a T2 in tanks.csv.');
    assert.equal(after(texts, 't2'), 't2 differs from T2 in tanks.csv only in capital letters. Files are named after them, so use another name.');
  });

  it('to what is no name, or one that Windows keeps', () => {
    assert.match(after(texts, 'T 1') as string, /^"T 1" can not be a name here/);
    assert.match(after(texts, '') as string, /^"" can not be a name here/);
    assert.match(after(texts, '../T1') as string, /can not be a name here/);
    assert.match(after(texts, 'nul') as string, /Windows keeps it/);
  });

  it('to a name that something without a row has already', () => {
    const named = { ...texts, 'pairs.csv': 'pair,species,tank\nP1,angelfish,T1\nP2,angelfish,T9\n' };
    assert.match(after(named, 'T9') as string, /^pairs.csv names T9 already, in line 3/);
  });

  it('where a log of that name is there', () => {
    assert.match(after({ ...texts, 'tanks/old/T9.csv': 'time,temp_c\n' }, 'T9') as string, /^There is already a log tanks\/old\/T9.csv/);
    assert.match(after({ ...texts, 'tanks/t9.csv': 'time,temp_c\n' }, 'T9') as string, /^There is already a log tanks\/t9.csv/);
  });

  it('of a species that comes with Broodsheet, while it has no row', () => {
    const pairs = { 'pairs.csv': 'pair,species,tank\nP1,«angelfish»,T1\n' };
    assert.equal(after(pairs, 'scalare'), 'angelfish comes with Broodsheet and has no row in species.csv, so it keeps its name.');
    assert.equal((after({ ...pairs, 'species.csv': 'species,care\nangelfish,substrate\n' }, 'scalare') as Texts)['pairs.csv'], 'pair,species,tank\nP1,scalare,T1\n');
  });

  it('while a file that may name it can not be read', () => {
    assert.match(after({ ...texts, 'readings.csv': 'time,tank,temp_c\n2026-06-04,T1,"25\n' }, 'T9') as string, /^readings.csv can not be read and may name T1 too/);
    assert.equal(typeof after({ ...texts, 'prices.csv': 'species,min_mm,unit_price\nangelfish,30,"5\n' }, 'T9'), 'object');
    const plan = roomOf(unmark(texts).texts, now);
    const named: Named = { sheet: 'tanks', id: 'T1' };
    assert.match(why(renaming(plan, named, { to: 'T9', unread: ['pairs.csv'] })), /^pairs.csv can not be read/);
    assert.equal(why(renaming(plan, named, { to: 'T9', unread: ['prices.csv', 'fishroom.json'] })), 'not refused');
  });
});

describe('a renaming there and back', () => {
  const planOf = (texts: Texts): Plan => {
    const plan = new Plan({ machineZone: berlin, now: moment(now).instant });
    plan.apply(Object.entries(texts).map(([path, text]) => ({ path, file: { text } })));
    return plan;
  };
  const ids: readonly Named[] = [
    { sheet: 'tanks', id: 'T1' },
    { sheet: 'tanks', id: 'T2' },
    { sheet: 'clutches', id: 'C1' },
    { sheet: 'clutches', id: 'C2' },
    { sheet: 'pairs', id: 'P1' },
    { sheet: 'rooms', id: 'R1' },
    { sheet: 'species', id: 'red' },
    { sheet: 'species', id: 'kribensis' },
    { sheet: 'fish', id: 'F1' },
    { sheet: 'orders', id: 'O1' },
    { sheet: 'routines', id: 'hatch' },
  ];
  /** How many dangle, of all files. */
  const loose = (plan: Plan): readonly number[] => {
    const codes = plan.paths().flatMap((path) => plan.problems(path)).map(({ code }) => code);
    return [codes.filter((code) => code === 'ref-unknown').length, codes.filter((code) => code === 'log-orphan').length];
  };

  it('restores every byte, and leaves nothing behind that names what is no more', () => {
    let done = 0;
    let moved = 0;
    fc.assert(
      fc.property(anyRoom, fc.nat(), fc.constantFrom('Z9', 'z.9', 'Ä-1'), (room, pick, to) => {
        const texts = Object.fromEntries([...room].filter(([path]) => path !== 'fishroom.json'));
        const plan = planOf(texts);
        const present = ids.filter((one) => namingsOf(plan, one).next().done !== true);
        const named = present[pick % present.length];
        if (named === undefined) return;
        const there = renaming(plan, named, { to });
        if (there.kind === 'refused') return;
        const between = renamed(texts, there);
        const planBetween = planOf(between);
        assert.deepEqual([...namingsOf(planBetween, named)], []);
        assert.equal([...namingsOf(planBetween, { ...named, id: to })].length, [...namingsOf(plan, named)].length);
        if (named.id !== 'kribensis') assert.deepEqual(loose(planBetween), loose(plan));
        const back = renaming(planBetween, { ...named, id: to }, { to: named.id });
        // What differs only in capital letters is in the way of coming back, not of going.
        if (back.kind === 'refused') {
          assert.equal(back.reason.code, 'rename.taken.case');
          return;
        }
        assert.deepEqual(renamed(between, back), textsOf(plan));
        done++;
        moved += there.moves.length;
      }),
      { numRuns: Number(process.env['RUNS'] ?? 60) },
    );
    assert.ok(done > 30 && moved > 5, `${done} renamings, ${moved} files with another name`);
  });
});

describe('a renaming in a room of five thousand logs', () => {
  it('is one edit of all the files', () => {
    const count = 5_000;
    const clutches = Array.from({ length: count }, (_, i) => `K${i},angelfish,T1,2026-01-01`);
    const logs = clutches.map((_, i) => [`clutches/${i % 7}/K${i}.csv`, `time,event,tank,to_tank\n2026-06-0${1 + (i % 9)},moved,T1,T2\n`] as const);
    const texts = { 'tanks.csv': 'tank,room\nT1,R1\nT2,R1\n', 'clutches.csv': `clutch,species,tank,spawned\n${clutches.join('\n')}\n`, ...Object.fromEntries(logs) };
    const plan = roomOf(texts, now);
    const outcome = renaming(plan, { sheet: 'tanks', id: 'T2' }, { to: 'T3' });
    assert.ok(outcome.kind === 'renaming');
    assert.equal(outcome.edits.length, count + 1);
    const end = renamed(texts, outcome);
    for (const [path, text] of logs) assert.equal(end[path], text.replace('T2', 'T3'));
    assert.equal(end['clutches.csv'], texts['clutches.csv']);
  });
});
