import assert from 'node:assert/strict';
import * as l10n from '@vscode/l10n';
import german from '../../../l10n/bundle.l10n.de.json';
import { textOf } from '../../../src/base/messages';
import type { Message } from '../../../src/base/messages';
import { hoverAt } from '../../../src/language/hover';
import type { Part, Piece } from '../../../src/language/hoverText';
import { meaningOf } from '../../../src/language/words';
import type { Plan } from '../../../src/planner/plan';
import { schemas } from '../../../src/schema/catalog';
import { unmark } from '../../support/marked';
import type { MarkedTexts } from '../../support/marked';
import { filledRoom, roomOf, why } from '../../support/room';

const now = '2026-06-10T09:00';

function plain(text: string | Message): string {
  return typeof text === 'string' ? text : textOf(text);
}

/** Text with what it leads to: `T1<tanks.csv: T1>`. */
function pieces(plan: Plan, all: readonly Piece[]): string {
  return all.map(({ text, to }) => `${plain(text)}${to === undefined ? '' : `<${to.file}: ${plan.records.file(to.file)?.doc.text().slice(to.span.start, to.span.end) ?? ''}>`}`).join('');
}

function lines(plan: Plan, part: Part): readonly string[] {
  switch (part.kind) {
    case 'text':
      return [plain(part.text)];
    case 'facts':
      return [part.facts.map(({ name, pieces: told, behind }) => `${plain(name)} ${pieces(plan, told)}${behind === undefined ? '' : ` (${pieces(plan, behind)})`}`).join(' | ')];
    case 'list':
      return [`${textOf(part.title)}:`, ...part.lines.map((line) => `- ${pieces(plan, line)}`)];
    case 'links':
      return [part.links.map((link) => pieces(plan, [link])).join(' | ')];
    case 'photo':
      return [`photo ${part.target} of ${part.file}`];
  }
}

/** The title and what is told below it; undefined where nothing is. */
function told(marked: MarkedTexts, make: (texts: Readonly<Record<string, string>>, now: string) => Plan = roomOf): readonly string[] | undefined {
  const { texts, file, span } = unmark(marked);
  const plan = make(texts, now);
  const hover = hoverAt(plan, file, span.start);
  if (hover === undefined) return undefined;
  if (make === roomOf) assert.deepEqual(hover.span, span);
  return [plain(hover.title), ...hover.parts.flatMap((part) => lines(plan, part))];
}

const room = {
  'rooms.csv': 'room,name\nR1,Cellar\n',
  'tanks.csv': 'tank,room,use,temp_c\nT1,R1,breeding,26\nT2,R1,grow-out,25\n',
  'pairs.csv': 'pair,species,tank,male,female\nP1,kribensis,T1,F1,F2\n',
  'fish.csv': 'fish,species,sex,sire,dam,origin\nF0,kribensis,m,,,lake\nF1,kribensis,m,F0,,\nF2,kribensis,f,,,river\n',
  'clutches.csv': 'clutch,pair,tank,spawned,eggs,hatched,free_swimming,ended,outcome\nK1,P1,T1,2026-05-01T19:30,90,2026-05-04T19:00,2026-05-09,,\nK2,P1,T1,2026-06-08T19:30,,,,,\nK0,P1,T1,2026-02-01,80,,,2026-02-03,eaten\n',
  'clutches/K1.csv': 'time,event,count,to_tank,photo\n2026-05-20,moved,,T2,a.png\n2026-06-01,counted,60,,../pictures/b.png\n2026-05-21,checked,,,c.png\n2026-07-01,checked,,,later.png\n',
  'tanks/T1.csv': 'time,temp_c,ph,tan_mg_l\n2026-06-09T20:00,26.3,6.8,0.2\n',
  'orders.csv': 'order,species,quantity,min_mm,due,buyer\nO1,kribensis,20,25,2026-07-01,"<b>Ann</b>"\n',
  'log.csv': 'time,clutch,event,ref\n2026-06-09,K2,checked,\n',
} as const;

const at = (file: keyof typeof room, text: string, marked: string): MarkedTexts => {
  assert.ok(room[file].includes(text), text);
  return { ...room, [file]: room[file].replace(text, marked) };
};

describe('hoverAt', () => {
  it('tells of a column what it holds, in which unit, how it is written and who fills it', () => {
    assert.deepEqual(told({ 'tanks.csv': 'tank,room,«temp_c»\n' }), ['Temperature', 'The temperature the tank is kept at, in °C. It is used where no reading is near.', 'Unit: °C.', 'You fill this column.']);
    assert.deepEqual(told({ 'tanks.csv': 'tank,«room»\n' }), ['Room', 'The room the tank stands in.', 'The name of a row in rooms.csv.', 'You fill this column; no row can do without it.']);
    assert.deepEqual((told({ 'clutches.csv': 'clutch,species,tank,spawned,«alive»\n' }) ?? []).at(-1), 'Broodsheet fills this column.');
    assert.deepEqual(told({ 'orders.csv': 'order,species,quantity,due,«covered»\n' })?.at(-1), 'Not filled in this version; what stands here is left alone.');
    assert.equal(told({ 'tanks.csv': 'tank,room,«colour»\n' }), undefined);
  });

  it('speaks one language, names of columns too', () => {
    l10n.config({ contents: german });
    try {
      const help = told({ 'tanks.csv': 'tank,room,«temp_c»\n' });
      assert.deepEqual([help?.[0], ...(help ?? []).slice(2)], ['Temperatur', 'Einheit: °C.', 'Diese Spalte wird von Hand gefüllt.']);
      assert.doesNotMatch(help?.[1] ?? '', /reading|tank/);
      assert.match(told(at('clutches.csv', 'K1,P1', '«K1»,P1'))?.join(' ') ?? '', /^Brut K1 .*Paar P1.*Becken T2.*Alter 40/);
    } finally {
      l10n.config({ contents: {} });
    }
  });

  it('is the card of a clutch: what, where, how old, how far, what comes, its last picture that is not later than now', () => {
    assert.deepEqual(told(at('clutches.csv', 'K1,P1', '«K1»,P1')), [
      'Clutch K1',
      'Species kribensis | Pair P1<pairs.csv: P1> | Tank T2<tanks.csv: T2> (R1)',
      'Age 40 days | Stage free-swimming (recorded) | Alive 60 | Survival 66.7 %',
      ...saleOf('K1'),
      'Next action Count the fry | Next due 2026-06-20',
      'clutches.csv<clutches.csv: K1> | clutches/K1.csv<clutches/K1.csv: >',
      'photo ../pictures/b.png of clutches/K1.csv',
    ]);
    assert.deepEqual(told(at('clutches.csv', 'K0,P1', '«K0»,P1'))?.slice(2, 5), ['Age 2 days | Stage ended', 'Ended 2026-02-03', 'Outcome eaten']);
  });

  /** The window as the computed column has it. */
  function saleOf(id: string): readonly string[] {
    const { value, window } = why(roomOf(room, now), 'clutches.csv', id, 'sale_expected');
    const [, from, to] = /^(\S+) to (\S+),/.exec(window ?? '') ?? [];
    return [`Sale size ${value} (8 in 10 between ${from} and ${to})`];
  }

  it('is the card of a tank: room, who lives there, its last reading', () => {
    assert.deepEqual(told(at('pairs.csv', 'T1', '«T1»')), [
      'Tank T1',
      'Room R1<rooms.csv: R1> | Use breeding',
      'Pairs P1<pairs.csv: P1>',
      'Clutches:',
      '- K2<clutches.csv: K2>: egg',
      'Last reading 2026-06-09T20:00 | Temperature 26.3 °C | pH 6.8 | Total ammonia 0.2 mg/l | Ammonia 0.0008 mg/l',
      'tanks.csv<tanks.csv: T1> | tanks/T1.csv<tanks/T1.csv: >',
    ]);
  });

  it('is the card of a pair: its last spawn and its next', () => {
    const { value } = why(roomOf(room, now), 'pairs.csv', 'P1', 'next_spawn_expected');
    const card = told(at('clutches.csv', 'K2,P1', 'K2,«P1»'));
    assert.deepEqual(card?.slice(0, 4), ['Pair P1', 'Species kribensis | Tank T1<tanks.csv: T1>', 'Male F1<fish.csv: F1> | Female F2<fish.csv: F2> | Kinship 0.0000', 'Clutches 3 | Last spawned 2026-06-08 | Last clutch K2<clutches.csv: K2>']);
    assert.match(card.at(4) ?? '', new RegExp(`^Next spawn ${value} \\(8 in 10 between `));
  });

  it('is the card of a fish, a species, an order, a room, a job', () => {
    assert.deepEqual(told(at('pairs.csv', 'F1', '«F1»')), ['Fish F1', 'Species kribensis | Sex male', 'Sire F0<fish.csv: F0> | Inbreeding 0.0000', 'fish.csv<fish.csv: F1>']);
    const species = told(at('pairs.csv', 'kribensis', '«kribensis»'));
    assert.deepEqual([species?.[0], species?.[2], species?.[3], species?.at(-1)], ['Species kribensis', 'Care cave', 'They lay in a cave and guard the brood.', 'It comes with Broodsheet; a row in species.csv replaces what it fills.']);
    assert.match(species?.[4] ?? '', /^Spawn to hatch \d+ h \| /);
    assert.deepEqual(told(at('orders.csv', 'O1', '«O1»'))?.slice(0, 3), ['Order O1', 'Species kribensis | Quantity 20 | Least length 25 mm', 'Due 2026-07-01 | Buyer <b>Ann</b>']);
    assert.deepEqual(told(at('tanks.csv', 'T1,R1', 'T1,«R1»')), ['Room R1', 'Name Cellar', 'Tanks 2 | Open clutches 2 | Overdue 0', 'rooms.csv<rooms.csv: R1>']);
    assert.deepEqual(told({ 'maintenance.csv': 'job,what,tanks,from,to\n«M1»,scrub,T1,2026-07-01,2026-07-02\n' })?.slice(0, 3), ['Job M1', 'What scrub', 'Tanks T1']);
  });

  it('says so where a name has no row, with what others know of it', () => {
    assert.deepEqual(told({ 'clutches.csv': 'clutch,species,tank,spawned\nK1,angelfish,«T1»,2026-06-09\n' }), ['Tank T1', 'Clutches:', '- K1<clutches.csv: K1>: egg', 'T1 has no row in tanks.csv.']);
    assert.deepEqual(told({ 'pairs.csv': 'pair,species,tank\nP1,«no-such-fish»,T1\n' }), ['Species no-such-fish', 'no-such-fish has no row in species.csv.']);
  });

  it('tells of a computed cell all that its explanation does', () => {
    const texts = { ...room, 'clutches.csv': room['clutches.csv'].replaceAll('\n', ',\n').replace('outcome,', 'outcome,hatch_expected') };
    const plan = filledRoom(texts, now);
    const explanation = why(plan, 'clutches.csv', 'K2', 'hatch_expected');
    const file = plan.records.file('clutches.csv');
    const hover = file === undefined ? undefined : hoverAt(plan, 'clutches.csv', file.doc.span(2, 9).start);
    assert.ok(hover !== undefined && file !== undefined);
    assert.deepEqual(hover.span, file.doc.span(2, 9));
    const shown = [plain(hover.title), ...hover.parts.flatMap((part) => lines(plan, part))];
    assert.equal(shown[0], `Hatch: ${explanation.value}`);
    assert.match(shown[1] ?? '', /^8 in 10 between .* and .*, most likely /);
    for (const note of explanation.notes) assert.ok(shown.includes(note), note);
    assert.ok(shown.includes(`- ${explanation.formula}`));
    for (const input of explanation.inputs) assert.ok(shown.some((line) => line.startsWith('- ') && input.startsWith(line.slice(2).replace(/<.*>/, ''))), input);
    for (const constant of explanation.constants) assert.ok(shown.some((line) => line.startsWith('- ') && line.slice(2).replace(/<.*?>/, '') === constant.replace(/ <.*>$/, '')), constant);
    assert.ok(shown.includes('Records that went into it: 1. Learned from other broods: 1. Numbers of the species: 1.'), shown.join('\n'));
  });

  it('says where a computed cell holds something else, or nothing yet', () => {
    const age = (cell: string): readonly string[] | undefined => told({ 'clutches.csv': `clutch,species,tank,spawned,age_days\nK1,angelfish,T1,2026-06-08,«${cell}»\n` });
    assert.deepEqual(age('2')?.slice(0, 2), ['Age: 2 d', 'From:']);
    assert.deepEqual(age('7')?.slice(0, 2), ['Age: 2 d', 'The cell says "7".']);
    assert.deepEqual(age('')?.slice(0, 2), ['Age: 2 d', 'The cell is not filled yet.']);
  });

  it('tells what a word says', () => {
    assert.deepEqual(told(at('log.csv', 'checked', '«checked»')), ['checked', 'They were looked at; nothing else happened.']);
    assert.deepEqual(told({ 'routines.csv': 'routine,about,done_by\nx,clutch,fed «counted»\n' }), ['counted', 'So many fish are in that tank now.']);
    assert.equal(told({ 'log.csv': 'time,clutch,event\n2026-06-09,K2,«chequed»\n' }), undefined);
  });

  it('tells nothing of other cells, files that can not be read, and files that are not there', () => {
    assert.equal(told(at('clutches.csv', '2026-06-08T19:30', '«2026-06-08T19:30»')), undefined);
    assert.equal(told({ 'tanks.csv': 'tank,room\n«T1»,"R1\n' }), undefined);
    assert.equal(hoverAt(roomOf(room, now), 'nothing.csv', 0), undefined);
    assert.equal(hoverAt(roomOf(room, now), 'tanks.csv', 999_999), undefined);
    assert.equal(hoverAt(roomOf(room, now), 'tanks.csv', room['tanks.csv'].length), undefined);
  });
});

describe('meaningOf', () => {
  it('has one sentence for every word that a column may hold', () => {
    for (const { name, fields } of schemas) {
      for (const { name: field, constraints, kind, words = [] } of fields) {
        const all = [...(constraints.enum ?? []), ...(kind === 'codes' && field !== 'accept' ? words : [])];
        for (const word of all) {
          const meaning = meaningOf(field, word);
          assert.ok(meaning !== undefined, `${name} ${field} ${word}`);
          assert.match(textOf(meaning), /^[A-Z].*\.$/, word);
        }
      }
    }
  });
});
