import assert from 'node:assert/strict';
import fc from 'fast-check';
import type { Act } from '../../../src/acts/act';
import { gone } from '../../../src/acts/gone';
import { foundFry } from '../../../src/acts/foundFry';
import { logClutch } from '../../../src/acts/logClutch';
import { logTank } from '../../../src/acts/logTank';
import { recordSpawn } from '../../../src/acts/recordSpawn';
import { actedFiles, takeBack } from '../../../src/acts/takeBack';
import type { ActedFile } from '../../../src/acts/takeBack';
import { textOf } from '../../../src/base/messages';
import { applyEdits } from '../../../src/base/textEdit';
import { planOf, textsOfResult } from '../../support/acts';
import { moment } from '../../support/moments';
import { textsOf } from '../../support/plans';

type Texts = Readonly<Record<string, string>>;

const now = moment('2026-05-12T08:15').instant;

/** The texts after an act, and what is kept of it for taking it back. */
function acted(texts: Texts, act: Act): { readonly after: Texts; readonly files: readonly ActedFile[] } {
  const plan = planOf(texts, now);
  const result = act(plan);
  const after = textsOfResult(plan, result);
  return { after, files: actedFiles(result.kind === 'edits' ? result.edits : [], (path) => plan.records.file(path)?.doc.text() ?? '') };
}

/** The texts after an act has been taken back; why it isn't, where it is refused. */
function takenBack(files: readonly ActedFile[], texts: Texts): Texts | string {
  const outcome = takeBack(files, (path) => texts[path]);
  if (outcome.kind === 'refused') return textOf(outcome.why);
  const after: Record<string, string> = { ...texts };
  for (const edit of outcome.edits) after[edit.file] = 'create' in edit ? edit.create : applyEdits(after[edit.file] as string, edit.edits);
  return Object.fromEntries(Object.entries(after).filter(([path]) => !outcome.remove.includes(path)));
}

const spawn = recordSpawn({ pair: 'P1', species: '', tank: 'T1', expected: undefined }, {});
const acts: readonly Act[] = [
  spawn,
  gone({ clutch: 'K1', outcome: 'eaten' }),
  foundFry({ clutch: 'K1', what: 'fry' }),
  logClutch({ clutch: 'K1', event: 'treated' }, { note: 'salt; 1 g, "by the label"\nagain' }),
  logTank({ tank: 'T1', event: 'tested' }, { ph: '7.1' }),
];

/** How a keeper's program writes a sheet. */
interface Hand {
  readonly delimiter: string;
  readonly lineEnd: string;
  readonly bom: string;
  readonly ending: 'line end' | 'none' | 'blank line';
  readonly isQuoted: boolean;
  readonly hasLogs: 'own' | 'shared' | 'none';
}

const anyHand: fc.Arbitrary<Hand> = fc.record({
  delimiter: fc.constantFrom(',', ';', '\t'),
  lineEnd: fc.constantFrom('\n', '\r\n'),
  bom: fc.constantFrom('', '\uFEFF'),
  ending: fc.constantFrom('line end', 'none', 'blank line'),
  isQuoted: fc.boolean(),
  hasLogs: fc.constantFrom('own', 'shared', 'none'),
});

function written({ delimiter, lineEnd, bom, ending, isQuoted }: Hand, rows: readonly (readonly string[])[]): string {
  const cell = (text: string): string => (text.includes(delimiter) || /["\r\n]/.test(text) || isQuoted ? `"${text.replaceAll('"', '""')}"` : text);
  const lines = rows.map((row, i) => row.map(i === 0 ? (text) => text : cell).join(delimiter));
  return bom + lines.join(lineEnd) + (ending === 'none' ? '' : ending === 'line end' ? lineEnd : lineEnd + lineEnd);
}

function roomBy(hand: Hand, notes: readonly string[]): Texts {
  const log = notes.map((note, i) => [`2026-05-0${i + 1}`, 'checked', note]);
  return {
    'pairs.csv': written(hand, [['pair', 'species', 'tank'], ['P1', 'kribensis', 'T1']]),
    'tanks.csv': written(hand, [['tank', 'room'], ['T1', 'R']]),
    'clutches.csv': written(hand, [['clutch', 'pair', 'tank', 'spawned', 'hatched', 'free_swimming', 'ended', 'outcome', 'note', 'stage'], ['K1', 'P1', 'T1', '2026-05-01', '', '', '', '', notes[0] ?? '', ''], ['K0', 'P1', 'T1', '2026-03-01', '', '', '2026-03-04', 'eaten', notes[1] ?? '', 'ended']]),
    ...(hand.hasLogs === 'own' ? { 'clutches/K1.csv': written(hand, [['time', 'event', 'note'], ...log]) } : {}),
    ...(hand.hasLogs === 'shared' ? { 'log.csv': written(hand, [['time', 'clutch', 'event', 'note'], ...log.map(([time, event, note]) => [time as string, 'K1', event as string, note as string])]), 'readings.csv': written(hand, [['time', 'tank', 'event', 'ph', 'room'], ['2026-05-01', 'T1', 'tested', '7', '']]) } : {}),
  };
}

const anyNotes = fc.array(fc.constantFrom('', 'plain', 'a,b', 'a;b', 'a\tb', 'say "go"', 'two\nlines', 'Männchen'), { minLength: 0, maxLength: 5 });

describe('takeBack', () => {
  it('restores every byte, however the sheets are written', () => {
    fc.assert(
      fc.property(anyHand, anyNotes, fc.constantFrom(...acts), (hand, notes, act) => {
        const texts = roomBy(hand, notes);
        assert.deepEqual(textsOf(planOf(texts, now)), texts);
        const { after, files } = acted(texts, act);
        assert.notDeepEqual(after, texts);
        assert.deepEqual(takenBack(files, after), texts);
      }),
      { numRuns: 300 },
    );
  });

  it('leaves what was changed elsewhere meanwhile as if the act had never been', () => {
    fc.assert(
      fc.property(anyHand, anyNotes, fc.constantFrom(...acts), fc.nat(), (hand, notes, act, place) => {
        const texts = roomBy({ ...hand, ending: 'line end' }, [...notes, 'old', 'last']);
        const { after, files } = acted(texts, act);
        const { file, before } = files[place % files.length] as ActedFile;
        if (before === undefined) return;
        // A row that another hand puts below the header.
        const end = before.indexOf(hand.lineEnd) + hand.lineEnd.length;
        const other = `${before.slice(0, end).split(hand.delimiter).fill('x').join(hand.delimiter)}${hand.lineEnd}`;
        const put = (text: string): string => text.slice(0, end) + other + text.slice(end);
        assert.deepEqual(takenBack(files, { ...after, [file]: put(after[file] as string) }), { ...texts, [file]: put(before) });
      }),
      { numRuns: 200 },
    );
  });

  const room = roomBy({ delimiter: ',', lineEnd: '\n', bom: '', ending: 'line end', isQuoted: false, hasLogs: 'none' }, []);

  it('takes a row back that was filled and followed meanwhile, and not one that the keeper changed', () => {
    const { after, files } = acted(room, spawn);
    const text = after['clutches.csv'] as string;
    const row = 'K2,P1,T1,2026-05-12T08:15,,,,,,\n';
    assert.ok(text.endsWith(row), text);
    const filled = { ...after, 'clutches.csv': text.replace(row, row.replace(/\n$/, 'egg\n')) + row.replace('K2', 'K3') };
    assert.deepEqual(takenBack(files, filled), { ...room, 'clutches.csv': (room['clutches.csv'] as string) + row.replace('K2', 'K3') });
    const changed = { ...after, 'clutches.csv': text.replace(row, row.replace('T1', 'T2')) };
    assert.equal(takenBack(files, changed), 'What was written into clutches.csv has been changed since, so it was left as it is.');
    assert.equal(takenBack(files, { ...after, 'clutches.csv': text + row }), 'What was written into clutches.csv has been changed since, so it was left as it is.');
    assert.equal(takenBack(files, {}), 'clutches.csv is not there any more.');
  });

  it('takes cells back alone', () => {
    const { after, files } = acted(room, gone({ clutch: 'K1', outcome: 'eaten' }));
    const text = after['clutches.csv'] as string;
    assert.equal((takenBack(files, { 'clutches.csv': text.replace(',eaten,,\n', ',eaten,,ended\n') }) as Texts)['clutches.csv'], (room['clutches.csv'] as string).replace('2026-05-01,,,,,,\n', '2026-05-01,,,,,,ended\n'));
  });

  it('deletes a new log only as it was made, else takes its row out', () => {
    const { after, files } = acted(room, acts[3] as Act);
    const log = after['clutches/K1.csv'] as string;
    assert.ok(log.startsWith('time,event,'), log);
    assert.deepEqual(takenBack(files, after), room);
    assert.deepEqual((takenBack(files, { ...after, 'clutches/K1.csv': `${log}2026-05-12,checked,,,,,\n` }) as Texts)['clutches/K1.csv'], `${log.slice(0, log.indexOf('\n') + 1)}2026-05-12,checked,,,,,\n`);
    assert.equal(takenBack(files, { ...after, 'clutches/K1.csv': log.replace('treated', 'checked') }), 'What was written into clutches/K1.csv has been changed since, so it was left as it is.');
  });
});
