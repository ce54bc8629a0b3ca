import assert from 'node:assert/strict';
import fc from 'fast-check';
import { computedHeaders } from '../../../src/planner/columns/registry';
import { Plan } from '../../../src/planner/plan';
import { Row } from '../../../src/records/row';
import { berlin, moment } from '../../support/moments';
import { fixesOf, shownOf } from '../../support/plans';
import { anyRoom } from '../../support/randomRoom';
import { anyDeed, Room } from '../../support/roomHistory';

/** Explanations of all computed cells of a few rows, also where the column is not there. */
function explained(plan: Plan, path: string): string {
  const file = plan.records.file(path);
  if (file === undefined) return '';
  const headers = computedHeaders(file.schema.name);
  const records = file.doc.rowCount === 0 ? [] : [1, file.doc.rowCount - 1];
  return records.flatMap((record) => headers.map((header) => JSON.stringify(plan.explainCell(path, record, header)))).join('\n');
}

function assertSame(kept: Plan, fresh: Plan): void {
  assert.deepEqual(kept.paths(), fresh.paths());
  assert.equal(kept.records.zone.name, fresh.records.zone.name);
  for (const path of [...fresh.paths(), 'fishroom.json']) {
    assert.equal(shownOf(kept, path), shownOf(fresh, path), path);
    assert.equal(fixesOf(kept, path), fixesOf(fresh, path), `fixes of ${path}`);
    assert.equal(explained(kept, path), explained(fresh, path), `explanations of ${path}`);
    assert.equal(absentOf(kept, path), absentOf(fresh, path), `cells without a column of ${path}`);
  }
  for (const id of ['C1', 'T1', 'P1', 'c1']) assert.deepEqual(kept.placesOf(id), fresh.placesOf(id));
  assert.equal(dueOf(kept), dueOf(fresh), 'what is due');
  assert.equal(comingOf(kept), comingOf(fresh), 'what is coming');
  assert.deepEqual(kept.liveFood(4), fresh.liveFood(4), 'live food');
  const openIn = (plan: Plan): readonly string[] => plan.view.openClutches().map(({ clutch }) => clutch.clutch);
  assert.deepEqual(openIn(kept), openIn(fresh), 'open clutches');
  assert.equal(kept.nextChange, fresh.nextChange);
}

/** The computed cells of every row that have no column. */
function absentOf(plan: Plan, path: string): string {
  const last = plan.records.file(path)?.doc.rowCount ?? 0;
  return plan.absentCells(path, { first: 0, last }).map(({ record, cells }) => JSON.stringify([record, ...cells])).join('\n');
}

function valuesOf(row: Row): readonly unknown[] {
  return row.block.file.schema.fields.map((_, slot) => row.value(slot));
}

function comingOf(plan: Plan): string {
  const { entries, feedings } = plan.coming(10);
  const written = (_: string, value: unknown): unknown => (value instanceof Row ? [value.path, valuesOf(value)] : value);
  return [...entries, ...feedings].map((one) => JSON.stringify(one, written)).join('\n');
}

function dueOf(plan: Plan): string {
  return plan.due(4).map(({ occurrence: { routine, index, due, from, to, state, level, lastGood }, room, tank, pair, clutch, row }) => JSON.stringify([routine.routine, index, due, from, to, state, level, lastGood, room, tank, pair, clutch, row.path, valuesOf(row)])).join('\n');
}

function shownByPath(plan: Plan): ReadonlyMap<string, string> {
  return new Map([...plan.paths(), 'fishroom.json'].map((path) => [path, shownOf(plan, path)]));
}

/** In each of four time zones, so four times as many rooms for every check of the project; RUNS and SEED serve a longer hunt. */
const numRuns = Number(process.env['RUNS'] ?? 60);
const seed = process.env['SEED'];

/** A file's whole new text, nothing where it goes, or a moment to which the clock moves. */
type Step = readonly [path: string, text: string | undefined] | { readonly now: string };

interface Case {
  readonly about: string;
  readonly files: Readonly<Record<string, string>>;
  readonly steps: readonly Step[];
}

const clutches = 'clutch,pair,species,tank,spawned,ended,age_days';

/** Each was wrong once, in its own way; random rooms find such things only now and then. */
const cases: readonly Case[] = [
  {
    about: 'a header is renamed above cells out of date',
    files: { 'rooms.csv': 'room,name,tanks\nR1,,\n' },
    steps: [['rooms.csv', 'ro_om,name,tanks\nR1,,\n'], ['rooms.csv', 'room,name,tanks\nR1,,']],
  },
  {
    about: 'the settings come, and a log has no clutch',
    files: { 'clutches/C9.csv': 'time,event,alive\n2026-05-20,fed,39\n' },
    steps: [['fishroom.json', '{"timezone": "Pacific/Auckland"}'], ['fishroom.json', undefined]],
  },
  {
    about: 'a fish of another species comes',
    files: { 'pairs.csv': 'pair,species,tank,male\nP5,blue,T2,F1\n' },
    steps: [['fish.csv', 'fish,species\nF1,green\n'], ['fish.csv', 'fish,species\nF1,blue\n'], ['fish.csv', undefined]],
  },
  {
    about: 'a reading comes due in a tank without a brood',
    files: { 'tanks.csv': 'tank,room,last_reading\nT1,R2,\n', 'readings.csv': 'tank,time,temp_c\nT1,2026-06-10T18:00,24\n' },
    steps: [{ now: '2026-06-10T20:00' }, { now: '2026-06-10T09:00' }],
  },
  {
    about: 'a tank is retired in the evening',
    files: { 'tanks.csv': 'tank,room,retired\nT1,R1,2026-06-10T18:00\nT2,R1,\n', 'rooms.csv': 'room,tanks\nR1,2\n' },
    steps: [{ now: '2026-06-10T20:00' }],
  },
  {
    about: 'the clutch of a log is written down',
    files: { 'clutches.csv': `${clutches}\n`, 'clutches/C1.csv': 'time,event\n2026-06-09,checked\n' },
    steps: [['clutches.csv', `${clutches}\nC1,,kribensis,T1,2026-06-09,,\n`], ['clutches.csv', `${clutches}\nC1,,kribensis,T1,2026-06-09,,"\n`], ['clutches.csv', undefined]],
  },
  {
    about: 'another row for the second of two broods of one moment stands before the first',
    files: { 'clutches.csv': 'clutch,pair,tank,spawned,spawn_interval_days\nC1,P1,T1,2026-05-01T19:30,\nC2,P1,T1,2026-05-01T19:30,\n' },
    steps: [['clutches.csv', 'clutch,pair,tank,spawned,spawn_interval_days\nC2,P1,T1,2026-05-01T19:30,\nC1,P1,T1,2026-05-01T19:30,\nC2,P1,T1,2026-05-01T19:30,\n']],
  },
  {
    about: 'a row above the related one goes',
    files: { 'clutches.csv': `${clutches}\nC2,,kribensis,T1,2026-06-01,,\nC3,,kribensis,T1,2026-06-09,,\n`, 'log.csv': 'clutch,time,event\nC3,2026-06-05,checked\n' },
    steps: [['clutches.csv', `${clutches}\nC3,,kribensis,T1,2026-06-09,,\n`], ['clutches.csv', `${clutches}\n<<<<<<< HEAD\nC3,,kribensis,T1,2026-06-09,,\n`]],
  },
  {
    about: 'a kind of event is written down for the first time, and no more',
    files: { 'clutches.csv': `${clutches},next_action,overdue\nC1,,kribensis,T1,2026-05-01,,,,\nC2,,kribensis,T2,2026-01-01,,,,\n`, 'clutches/C1.csv': 'time,event\n2026-05-04,hatched\n2026-05-20,free_swimming\n' },
    steps: [['log.csv', 'clutch,time,event,count\nC2,2026-02-10,counted,30\n'], ['log.csv', 'clutch,time,event,count\nC2,2025-02-10,counted,30\n'], ['log.csv', 'clutch,time,event,count\nC2,2026-03-10,counted,30\n'], { now: '2026-09-20T10:00' }, { now: '2026-06-08T10:00' }],
  },
  {
    about: 'the parents of fry in their tank spawn again',
    files: { 'pairs.csv': 'pair,species,tank\nP1,kribensis,T1\n', 'clutches.csv': `${clutches},next_action,next_due\nC1,P1,,T1,2026-05-01,,,,\n`, 'log.csv': 'clutch,time,event\nC1,2026-05-04,hatched\nC1,2026-05-14,free_swimming\n' },
    steps: [['clutches.csv', `${clutches},next_action,next_due\nC1,P1,,T1,2026-05-01,,,,\nC2,P1,,T2,2026-06-08,,,,\n`], ['clutches.csv', `${clutches},next_action,next_due\nC1,P1,,T1,2026-05-01,,,,\n`], ['pairs.csv', 'pair,species,tank,retired\nP1,kribensis,T1,2026-06-01\n']],
  },
  {
    about: 'the parents are of a species that spawns less often, the fry of another',
    files: { 'species.csv': 'species,like,interval_d\nred,kribensis,30\n', 'pairs.csv': 'pair,species,tank\nP1,red,T1\n', 'clutches.csv': `${clutches},next_action,next_due\nC1,P1,kribensis,T1,2026-05-01,,,,\n`, 'log.csv': 'clutch,time,event\nC1,2026-05-04,hatched\nC1,2026-05-14,free_swimming\n' },
    steps: [['species.csv', 'species,like,interval_d\nred,kribensis,60\n']],
  },
  {
    about: 'an earlier brood of the pair is measured, and was measured otherwise',
    files: { 'pairs.csv': 'pair,species,tank\nP1,kribensis,T1\n', 'clutches.csv': 'clutch,pair,tank,spawned,hatched,ended,sale_expected\nC1,P1,T1,2026-02-01,2026-02-04,2026-05-20,\nC2,P1,T1,2026-03-10,2026-03-13,2026-06-01,\nC3,P1,T1,2026-05-01,2026-05-04,,\n' },
    steps: [
      ['log.csv', 'clutch,time,event,length_mm\nC2,2026-05-01,measured,15\n'],
      ['clutches/C1.csv', 'time,event,length_mm\n2026-04-01,measured,9.5\n'],
      ['log.csv', 'clutch,time,event,length_mm\nC2,2026-05-01,measured,11\nC3,2026-06-09,measured,200\n'],
      ['clutches/C1.csv', 'time,event,length_mm\n~2026-04-01,measured,9.5\n'],
      { now: '2026-04-20T08:00' },
      ['log.csv', undefined],
    ],
  },
  {
    about: 'a name nearer to an unknown one comes',
    files: { 'rooms.csv': 'room\nR2\nR1\n', 'tanks.csv': 'tank,room\nT1,R9\n' },
    steps: [['rooms.csv', 'room\nR2\nR99\nR8\n'], ['rooms.csv', 'room\nr9\nR2\n']],
  },
  {
    about: 'the zone changes while a file cannot be read',
    files: { 'clutches.csv': `${clutches}\nC1,,kribensis,T1,2026-06-09T20:00,,\n`, 'clutches/C1.csv': 'time,event,age_days\n2026-06-10T01:00,checked,\n' },
    steps: [['clutches.csv', `${clutches}\nC1,,kribensis,T1,2026-06-09T20:00,,"\n`], ['fishroom.json', '{"timezone": "America/St_Johns"}'], ['clutches.csv', `${clutches}\nC1,,kribensis,T1,2026-06-09T20:00,,\n`]],
  },
  {
    about: 'another row takes over the name of a tank',
    files: { 'tanks.csv': 'tank,room,fish\nT3,R1,\n', 'rooms.csv': 'room,tanks\nR1,\n' },
    steps: [['tanks.csv', 'tank,room,fish\nT3,,\nT3,R1,\n'], ['tanks.csv', 'tank,room,fish\nT3,R1,\n']],
  },
  {
    about: 'the second of two tanks of one name shares water',
    files: { 'tanks.csv': 'tank,room,system,last_reading\nT2,R1,,\nT3,R1,S2,\nT2,R1,S2,\n', 'tanks/T2.csv': 'time,temp_c\n2026-05-01T19:30,24\n' },
    steps: [['tanks/T2.csv', undefined], ['tanks/T2.csv', 'time,temp_c\n2026-05-01T19:30,24\n'], ['tanks.csv', 'tank,room,system,last_reading\nT3,R1,S2,\nT2,R1,S2,\n']],
  },
  {
    about: 'the first of two rows of one clutch goes',
    files: { 'clutches.csv': `${clutches}\nC2,,kribensis,T1,04/05/2026,,\nC2,,kribensis,T2,2026-05-01,2026-05-12,\n` },
    steps: [
      ['clutches.csv', `${clutches}\nC2,,kribensis,T2,2026-05-01,2026-05-12,\n`],
      ['clutches.csv', `${clutches}\nC2,,kribensis,T2,2026-05-01,2026-05-12,\nC2,,kribensis,T2,2026-05-01,2026-05-12,\n`],
      ['clutches.csv', `${clutches}\nC2,,kribensis,T2,2026-05-03,,\nC2,,kribensis,T2,2026-05-01,2026-05-12,\n`],
    ],
  },
  {
    about: 'the first of two rows of one pair goes',
    files: { 'pairs.csv': 'pair,species,tank,clutches\nP2,red,T1,3\nP2,kribensis,T2,\n', 'clutches.csv': `${clutches}\nC1,P2,,T1,2026-05-01,,\n` },
    steps: [['pairs.csv', 'pair,species,tank,clutches\nP2,kribensis,T2,\nP2,red,T1,3\nP2,kribensis,T2,\n'], ['pairs.csv', 'pair,species,tank,clutches\nP2,kribensis,T2,\n']],
  },
  {
    about: 'a species changes and changes back',
    files: { 'species.csv': 'species,care,hatch_h\nred,cave,72\n', 'clutches.csv': 'clutch,species,tank,spawned,hatch_expected\nC1,red,T1,2026-06-09T20:00,\n' },
    steps: [['species.csv', 'species,care,hatch_h\nred,cave,60\n'], ['species.csv', 'species,care,hatch_h\nred,cave,72\n'], ['species.csv', 'species,like\nred,blue\nblue,kribensis\n'], ['species.csv', undefined]],
  },
  {
    about: 'midnight passes before a day that was written ahead',
    files: { 'clutches.csv': `${clutches}\nC1,,kribensis,T1,2026-06-01,,\n`, 'log.csv': 'clutch,time,event,count\nC1,2026-06-11,counted,9\n' },
    steps: [{ now: '2026-06-10T20:00' }, { now: '2026-06-11T00:10' }, { now: '2026-06-10T13:00' }],
  },
  {
    about: 'a culture ends later today, and another row takes over the name of one',
    files: { 'cultures.csv': 'culture,food,started,ended,ready,renew_due\nB1,microworm,2026-06-09,2026-06-10T18:00,,\nB2,microworm,2026-06-01,,2026-06-06,2026-06-15\n' },
    steps: [
      { now: '2026-06-10T18:00' },
      { now: '2026-06-10T09:00' },
      ['cultures.csv', 'culture,food,started,ended,ready,renew_due\nB1,infusoria,2026-06-08,,,\nB1,microworm,2026-06-09,2026-06-10T18:00,,\n'],
      ['cultures.csv', 'culture,food,started,ended,ready,renew_due\nB1,microworm,2026-06-09,2026-06-10T18:00,,\n'],
      ['cultures.csv', undefined],
    ],
  },
  {
    about: 'the zone of cultures changes',
    files: { 'cultures.csv': 'culture,food,started,ready\nB1,brine_shrimp,2026-06-09T20:00Z,2026-06-11T10:00\n' },
    steps: [['fishroom.json', '{"timezone": "Pacific/Auckland"}'], ['fishroom.json', undefined]],
  },
  {
    about: 'cells out of date should say something else than before',
    files: { 'clutches.csv': `${clutches}\nC1,,kribensis,T1,2026-06-01,,x\n` },
    steps: [{ now: '2026-06-12T20:00' }, { now: '2026-08-12T20:00' }],
  },
  {
    about: 'a quotation mark hides the rest of a file for a while',
    files: { 'log.csv': 'clutch,time,event,count,alive\nC1,2026-06-03,counted,9,\nC1,2026-06-04,lost,1,\n', 'clutches.csv': `${clutches}\nC1,,kribensis,T1,2026-06-01,,\n` },
    steps: [
      ['log.csv', 'clutch,time,event,count,alive\n"C1,2026-06-03,counted,9,\nC1,2026-06-04,lost,1,\n'],
      { now: '2026-06-12T20:00' },
      ['clutches.csv', `${clutches}\nC1,,kribensis,T1,2026-06-04,,\n`],
      ['log.csv', 'clutch,time,event,count,alive\nC1,2026-06-03,counted,9,\nC1,2026-06-04,lost,1,\n'],
    ],
  },
];

const anyChanges = fc.array(fc.oneof({ weight: 4, arbitrary: fc.tuple(anyDeed) }, { weight: 1, arbitrary: fc.array(anyDeed, { minLength: 2, maxLength: 4 }) }), { maxLength: 24 });

const nothingShown = shownOf(new Plan({ machineZone: berlin, now: 0 }), 'clutches.csv');

/** Makes changes one after another. Throws when the plan that is kept differs from one made afresh, or names too few files. Returns how many there were. */
function follow(room: Room, changes: readonly (() => ReadonlySet<string>)[]): number {
  assertSame(room.plan, room.afresh());
  let before = shownByPath(room.plan);
  for (const change of changes) {
    const touched = change();
    assertSame(room.plan, room.afresh());
    const after = shownByPath(room.plan);
    const different = [...new Set([...before.keys(), ...after.keys()])].filter((path) => (before.get(path) ?? nothingShown) !== (after.get(path) ?? nothingShown));
    assert.deepEqual(different.filter((path) => !touched.has(path)), [], 'files that show something else but were not named');
    before = after;
  }
  return changes.length;
}

describe('a plan that is kept up to date', () => {
  for (const { about, files, steps } of cases) {
    it(`equals one made afresh when ${about}`, () => {
      const room = new Room();
      room.begin(new Map(Object.entries(files)));
      follow(
        room,
        steps.map((step) => () => ('now' in step ? room.moveClock(moment(step.now).instant) : room.take(step[0], step[1]))),
      );
    });
  }

  it('equals one made afresh after each of many random changes, and names every file that shows something else', () => {
    let changes = 0;
    fc.assert(
      fc.property(anyRoom, anyChanges, (texts, deeds) => {
        const room = new Room();
        room.begin(texts);
        changes += follow(room, deeds.map((several) => () => room.change(several)));
      }),
      { numRuns, ...(seed === undefined ? {} : { seed: Number(seed) }) },
    );
    assert.ok(changes > numRuns, `${changes} changes`);
  });
});
