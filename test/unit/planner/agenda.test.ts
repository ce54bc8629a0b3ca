import assert from 'node:assert/strict';
import { textOf } from '../../../src/base/messages';
import type { Plan } from '../../../src/planner/plan';
import { moment } from '../../support/moments';
import { cell, filledRoom, problemsOf, roomOf, why } from '../../support/room';
import type { RoomFiles } from '../../support/room';
import { mended, textsOf } from '../../support/plans';

/** A small cave spawner whose numbers are round: hatched after 72 h, first feed 144 h later, free-swimming after 240 h, interval 35 days. */
const species = ['species,care,ref_temp_c,hatch_h,first_feed_h,free_swim_h,juvenile_d,sale_d,interval_d,release_d,strip_d,feeds_per_day', 'caver,cave,26,72,144,240,40,100,35,,,2', 'mouther,mouthbrooder,26,,,,60,120,40,20,14,3', 'dropper,livebearer,26,,,,30,90,30,,,2'];

function room(clutches: readonly string[], more: RoomFiles = {}): RoomFiles {
  return { 'species.csv': species, 'clutches.csv': ['clutch,species,tank,spawned,pair,hatched,free_swimming,ended,outcome,accept,next_action,next_due,overdue', ...clutches.map((row) => row + ','.repeat(13 - row.split(',').length))], ...more };
}

function next(plan: Plan, id = 'K1', path = 'clutches.csv'): string {
  const headers = path === 'clutches.csv' ? ['next_action', 'next_due', 'overdue'] : ['next_action', 'next_due'];
  return headers.map((header) => valueOf(plan, path, id, header)).join(' | ');
}

function valueOf(plan: Plan, path: string, id: string, header: string): string {
  return why(plan, path, id, header).value;
}

const overdue = (plan: Plan): readonly string[] => problemsOf(plan, 'overdue').map(({ at, says }) => `${at}: ${says}`);
const eggs = 'K1,caver,T1,2026-06-01T10:00';
const QUESTION = 'Hatched, gone, or not known?';
const LOOK = "Look at the eggs: fungus, missing ones; don't disturb";

describe('the next action of a clutch', () => {
  /** The hatch is expected 72 h after the spawn; the window of the prior is 10 % to 90 % of a t distribution around it. */
  const at = (now: string, more: RoomFiles = {}, row = eggs): string => next(roomOf(room([row], more), now));

  it('is to look at the eggs a day after the spawn, then the question whether they hatched', () => {
    assert.equal(at('2026-06-01T12:00'), `${LOOK} | 2026-06-02T10:00 | 0`);
    assert.equal(at('2026-06-04T09:00'), `${QUESTION} | 2026-06-04T10:00 | 0`);
    assert.equal(at('2026-06-06T10:00'), `${QUESTION} | 2026-06-04T10:00 | 1`);
  });

  it('is nothing but the question while nobody has answered it, and that is a reminder after ninety days', () => {
    const plan = roomOf(room([eggs]), '2026-07-01T10:00');
    assert.equal(next(plan), `${QUESTION} | 2026-06-04T10:00 | 1`);
    assert.deepEqual(plan.due(30).map(({ occurrence }) => occurrence.routine.routine), ['hatch']);
    assert.equal(at('2026-09-02T10:00'), `${QUESTION} | 2026-06-04T10:00 | 1`);
    assert.equal(at('2026-09-02T10:01'), `${QUESTION} | 2026-06-04T10:00 | 0`);
  });

  it('is the first feed when they hatched, and what was not done by then is missed and not overdue', () => {
    const hatched = `${eggs},,2026-06-04T10:00`;
    // 144 h after the hatch; the brine shrimp is started 36 h before the window begins.
    assert.match(at('2026-06-04T12:00', {}, hatched), /^Start brine shrimp for the first feed \| 2026-06-0[78]T\d\d:\d\d \| 0$/);
    assert.equal(at('2026-06-10T12:00', {}, hatched), 'First feed: microworms, brine shrimp | 2026-06-10T10:00 | 0');
    assert.match(at('2026-06-12T12:00', {}, hatched), /^First feed: microworms, brine shrimp \| 2026-06-10T10:00 \| 1$/);
    assert.match(at('2026-06-13T10:01', {}, hatched), /^Swimming free\? \| 2026-06-14T10:00 \| 0$/);
    const fed = { 'log.csv': ['clutch,time,event', 'K1,2026-06-10T08:00,fed'] };
    assert.match(at('2026-06-10T12:00', fed, hatched), /^Swimming free\? /);
  });

  it('is to count the fry fourteen days after they swim, at most a reminder for who never counts', () => {
    const swimming = `${eggs},,2026-06-04T10:00,2026-06-14`;
    assert.equal(at('2026-07-04T09:00', {}, swimming), 'Count the fry | 2026-06-28 | 0');
    const habit = { 'log.csv': ['clutch,time,event,count', 'K9,2026-01-20,counted,40'] };
    assert.equal(at('2026-07-04T09:00', habit, swimming), 'Count the fry | 2026-06-28 | 1');
    // The record is 180 days old on 19 July.
    assert.equal(at('2026-07-02T09:00', { 'log.csv': ['clutch,time,event,count', 'K9,2026-01-02,counted,40'] }, swimming), 'Count the fry | 2026-06-28 | 0');
    // What is written ahead of its time is no habit yet, and hides none.
    const ahead = ['K9,2026-08-01,counted,40', 'K9,2026-08-02,lost,1'];
    assert.equal(at('2026-07-04T09:00', { 'log.csv': ['clutch,time,event,count', 'K9,2026-01-20,counted,40', ...ahead] }, swimming), 'Count the fry | 2026-06-28 | 1');
    assert.equal(at('2026-07-04T09:00', { 'log.csv': ['clutch,time,event,count', 'K9,2026-01-02,counted,40', ...ahead] }, swimming), 'Count the fry | 2026-06-28 | 0');
    const counted = { 'log.csv': ['clutch,time,event,count', 'K1,2026-06-28,counted,40'] };
    assert.equal(at('2026-07-04T09:00', counted, swimming), 'Count the fry | 2026-07-26 | 0');
  });

  it('is not what hangs on the question before that is answered', () => {
    const early = { 'routines.csv': ['routine,action,level,about,anchor,offset', 'early,Get the net ready,warn,clutch,free_swimming,-P13D'] };
    const plan = roomOf(room([eggs], early), '2026-06-05T12:00');
    assert.equal(next(plan), `${QUESTION} | 2026-06-04T10:00 | 1`);
    const [listed] = plan.due(0).filter(({ occurrence }) => occurrence.routine.routine === 'early');
    assert.equal(listed?.occurrence.state, 'upcoming');
    assert.equal(next(roomOf(room([`${eggs},,2026-06-04T10:00`], early), '2026-06-05T12:00')).split(' | ')[0], 'Get the net ready');
  });

  it('is nothing when it has ended, when none is alive, and without a species', () => {
    assert.equal(at('2026-06-06T10:00', {}, `${eggs},,,,2026-06-05`), ' |  | ');
    assert.equal(at('2026-06-06T10:00', { 'log.csv': ['clutch,time,event,count', 'K1,2026-06-05,counted,0'] }), ' |  | 0');
    assert.equal(at('2026-06-06T10:00', {}, 'K1,,T1,2026-06-01T10:00'), ' |  | 0');
  });

  it('of a mouthbrooder is to strip or to ask for the release, of a livebearer to feed and to sell', () => {
    assert.equal(at('2026-06-16T10:00', {}, 'K1,mouther,T1,2026-06-01T10:00'), 'Strip or move the holding female | 2026-06-15 | 0');
    assert.equal(at('2026-06-26T10:00', {}, 'K1,mouther,T1,2026-06-01T10:00'), 'Released, gone, or not known? | 2026-06-21T10:00 | 1');
    const stripped = { 'log.csv': ['clutch,time,event,count', 'K1,2026-06-15,stripped,20'] };
    assert.equal(at('2026-06-26T10:00', stripped, 'K1,mouther,T1,2026-06-01T10:00'), 'Count the fry | 2026-07-05 | 0');
    assert.equal(at('2026-06-02T10:00', {}, 'K1,dropper,T1,2026-06-01T10:00'), 'Count the fry | 2026-06-15 | 0');
  });

  it('is to move older fry out of the way of their parents', () => {
    const pairs = { 'pairs.csv': ['pair,species,tank', 'P1,caver,T1'] };
    const swimming = 'K1,,T1,2026-06-01T10:00,P1,2026-06-04T10:00,2026-06-14';
    const plan = roomOf(room([swimming], pairs), '2026-06-20T10:00');
    const [clear] = plan.due(40).filter(({ occurrence }) => occurrence.routine.routine === 'clear-tank');
    const from = valueOf(plan, 'pairs.csv', 'P1', 'next_spawn_from');
    assert.ok(clear !== undefined);
    assert.equal(clear.occurrence.due.day, moment(from).day - 2);
    const laid = roomOf(room(['K1,,T1,2026-06-01T10:00,P1'], pairs), '2026-06-02T10:00');
    assert.deepEqual(laid.due(60).filter(({ occurrence }) => occurrence.routine.routine === 'clear-tank'), []);
    const moved = roomOf(room([swimming], { ...pairs, 'log.csv': ['clutch,time,event,to_tank', 'K1,2026-06-19T10:00,moved,T2'] }), '2026-06-20T10:00');
    assert.deepEqual(moved.due(40).filter(({ occurrence }) => occurrence.routine.routine === 'clear-tank'), []);
    // The pair moved after its fry: they are in the way there alone.
    const split = { 'pairs.csv': ['pair,species,tank', 'P1,caver,T2'], 'log.csv': ['clutch,time,event,count,to_tank', 'K1,2026-06-05T10:00,counted,50,', 'K1,2026-06-06T10:00,moved,20,T2'] };
    assert.deepEqual(roomOf(room([swimming], split), '2026-06-20T10:00').due(40).flatMap(({ occurrence, tank }) => (occurrence.routine.routine === 'clear-tank' ? [tank] : [])), ['T2']);
  });
});

describe('which row of a routine holds', () => {
  const rows = (...lines: readonly string[]): RoomFiles => ({ 'routines.csv': ['routine,action,level,about,care,species,use,anchor,offset,every,grace,done_by,off', ...lines] });
  const swimming = `${eggs},,2026-06-04T10:00,2026-06-14`;
  const at = (more: RoomFiles): string => next(roomOf(room([swimming], more), '2026-07-07T09:00'));

  it('the most special one: species before care before the tank’s use, the keeper’s before the built-in', () => {
    assert.equal(at(rows('count,Count them,,clutch,,,,,P20D,,,,')), 'Count them | 2026-07-04 | 0');
    assert.equal(at(rows('count,Count them,,clutch,,,,,P20D,,,,', 'count,Count cavers,,clutch,,caver,,,P21D,,,,', 'count,Count in caves,,clutch,cave,,,,P22D,,,,')), 'Count cavers | 2026-07-05 | 0');
    const tanks = { 'tanks.csv': ['tank,room,use', 'T1,R1,breeding'] };
    assert.equal(at({ ...tanks, ...rows('count,Count in caves,,clutch,cave,,,,P22D,,,,', 'count,Count there,,clutch,,,breeding,,P23D,,,,') }), 'Count in caves | 2026-07-06 | 0');
    assert.equal(at(rows('count,Count others,,clutch,mop,,,,P23D,,,,')), 'Count the fry | 2026-06-28 | 0');
  });

  it('a blank cell is taken from the next less special row', () => {
    assert.equal(at(rows('count,Count cavers,warn,clutch,,caver,,,,,,,')), 'Count cavers | 2026-06-28 | 1');
    assert.equal(at(rows('count,Count cavers,warn,clutch,,caver,,,,,,,', 'count,Count them,,clutch,,,,,P24D,,,,')), 'Count cavers | 2026-07-08 | 0');
  });

  it('none where it is switched off, for a species or for all', () => {
    const off = next(roomOf(room([eggs], rows('hatch,x,,clutch,,caver,,,,,,,yes', 'look-at-eggs,x,,clutch,,,,,,,,,yes')), '2026-07-10T09:00'));
    assert.equal(off, ' |  | 0');
    assert.equal(next(roomOf(room([eggs], rows('hatch,x,,clutch,,mouther,,,,,,,yes')), '2026-07-10T09:00')).split(' | ')[2], '1');
  });
});

describe('what is due of a tank', () => {
  const tanks = { 'tanks.csv': ['tank,room,position,system,use,retired,next_action,next_due', 'T1,R1,2,S1,breeding,,,', 'T2,R1,1,S1,grow-out,,,', 'T3,R1,3,,breeding,,,', 'T4,R1,4,,holding,,,', 'T5,R1,5,,breeding,2026-06-01,,'], 'rooms.csv': ['room,overdue', 'R1,'] };
  const on = { 'routines.csv': ['routine,action,about,off', 'test-water,Test the water,tank,no', 'change-water,Change water,tank,no'] };
  const logs = { 'readings.csv': ['tank,time,event,ph,change_pct', 'T1,2026-06-01,,7,', 'T1,2026-06-05,water_change,,30', 'T3,2026-06-02,tested,7,', 'T4,2026-05-01,tested,7,', 'T5,2026-05-01,tested,7,'] };

  it('is nothing unless the keeper has switched it on', () => {
    const plan = roomOf({ ...tanks, ...logs }, '2026-06-20T09:00');
    assert.deepEqual(['T1', 'T3'].map((tank) => next(plan, tank, 'tanks.csv')), [' | ', ' | ']);
  });

  it('is asked once for all tanks on one water, of the first on the walk; for none in other use, or retired', () => {
    const plan = roomOf({ ...tanks, ...on, ...logs }, '2026-06-10T09:00');
    assert.deepEqual(['T1', 'T2', 'T3', 'T4', 'T5'].map((tank) => next(plan, tank, 'tanks.csv')), [' | ', 'Test the water | 2026-06-08', 'Test the water | 2026-06-09', ' | ', ' | ']);
  });

  it('is overdue three days after it was due, counts for the room, and comes again a week later', () => {
    const plan = roomOf({ ...tanks, ...on, ...logs }, '2026-06-12T09:00');
    assert.deepEqual(overdue(plan), ['tanks.csv: T2: T2: Test the water (due 2026-06-08, 4 days ago)']);
    assert.equal(valueOf(plan, 'rooms.csv', 'R1', 'overdue'), '1');
    assert.equal(next(roomOf({ ...tanks, ...on, ...logs }, '2026-06-16T09:00'), 'T2', 'tanks.csv'), 'Change water | 2026-06-12');
  });

  it('goes when it was done, also by a test of the room', () => {
    const done = { 'readings.csv': [...logs['readings.csv'], 'T2,2026-06-12T08:00,water_change,,20', 'T1,2026-06-12T08:10,tested,7,'] };
    assert.equal(next(roomOf({ ...tanks, ...on, ...done }, '2026-06-12T09:00'), 'T2', 'tanks.csv'), 'Test the water | 2026-06-19');
    const byRoom = { 'readings.csv': ['tank,room,time,event,ph', ',R1,2026-06-12T08:10,,7'] };
    assert.equal(next(roomOf({ ...tanks, ...on, ...byRoom }, '2026-06-12T09:00'), 'T3', 'tanks.csv'), 'Test the water | 2026-06-19');
  });
});

describe('a routine that can not be read', () => {
  it('is not asked: a treatment at the wrong time is worse than none', () => {
    const files = (cells: string): RoomFiles => ({
      'clutches.csv': ['clutch,species,tank,spawned,hatched', 'K1,kribensis,T1,2026-06-03T09:00,2026-06-06T09:00'],
      'routines.csv': ['routine,action,level,about,anchor,offset,every,grace,done_by', `worm,Treat for worms,warn,clutch,${cells}`],
    });
    const told = (cells: string): boolean => roomOf(files(cells), '2026-06-10T09:00').due(0).some(({ occurrence }) => occurrence.routine.routine === 'worm');
    assert.deepEqual(['hatched,P3D,,P1D,treated', 'hatched,30 days,,P1D,treated', 'hached,P3D,,P1D,treated', 'hatched,P3D,daily,P1D,treated', 'hatched,P3D,,P1D,treatd'].map(told), [true, false, false, false, false]);
  });
});

describe('what is due of a tank by a routine of the keeper’s own', () => {
  const tanks = { 'tanks.csv': ['tank,room,system,next_action,next_due', 'T1,R1,S1,,', 'T2,R1,S1,,', 'T3,R1,,,'] };
  const own = { 'routines.csv': ['routine,action,level,about,offset,every,grace,done_by', 'glass,Wipe the glass,warn,tank,2026-06-08,P7D,P1D,cleaned', 'dose,Treat the water,warn,tank,2026-06-08,P7D,P1D,treated'] };
  const due = (readings: readonly string[]): readonly string[] => {
    const plan = roomOf({ ...tanks, ...own, 'readings.csv': ['time,tank,event', ...readings] }, '2026-06-09T09:00');
    return plan.due(0).map(({ tank, occurrence }) => `${tank} ${occurrence.routine.routine}`).sort();
  };

  it('is asked of each tank, and done in one alone; what is done to the water once for all on it', () => {
    assert.deepEqual(due([]), ['T1 dose', 'T1 glass', 'T2 glass', 'T3 dose', 'T3 glass']);
    assert.deepEqual(due(['2026-06-08T10:00,T2,cleaned']), ['T1 dose', 'T1 glass', 'T3 dose', 'T3 glass']);
    assert.deepEqual(due(['2026-06-08T10:00,T2,treated']), ['T1 glass', 'T2 glass', 'T3 dose', 'T3 glass']);
  });
});

describe('the warning that something is overdue', () => {
  const files = room([eggs], { 'clutches/K0.csv': 'time,event,tank,note\n' });
  const now = '2026-06-20T09:00';
  const fixes = (plan: Plan): readonly string[] => plan.problems('clutches.csv').filter(({ code }) => code === 'overdue').flatMap((problem) => problem.fixes.map(({ title }) => textOf(title)));

  it('stands once at the clutch and says what, when, and for how long', () => {
    assert.deepEqual(overdue(roomOf(files, now)), [`clutches.csv: K1: K1: ${QUESTION} (due 2026-06-04 10:00, 16 days ago)`]);
    assert.deepEqual(overdue(roomOf(files, '2026-06-06T20:00')), [`clutches.csv: K1: K1: ${QUESTION} (due 2026-06-04 10:00, 2 days ago)`]);
  });

  it('relates what else is overdue', () => {
    const both = { ...room([`${eggs},,2026-06-04T10:00,2026-06-14`], { 'routines.csv': ['routine,action,level,about,anchor,offset,grace', 'clean,Clean the tank,warn,clutch,free_swimming,P7D,P1D', 'move,Move the male,warn,clutch,free_swimming,P9D,P1D'] }) };
    const [problem] = problemsOf(roomOf(both, '2026-06-28T09:00'), 'overdue');
    assert.deepEqual(problem, { at: 'clutches.csv: K1', says: 'K1: Clean the tank (due 2026-06-21, 7 days ago)', related: ['clutches.csv: K1: K1: Move the male (due 2026-06-23, 5 days ago)'] });
  });

  it('offers to record it, to end the brood, to switch it off, and to accept it', () => {
    assert.deepEqual(fixes(roomOf(files, now)), [
      'Record hatched now (2026-06-20 09:00)',
      'Record hatched as about then (~2026-06-04 10:00)',
      'End K1 today: eaten',
      'End K1 today: fungus',
      'End K1 today: infertile',
      'End K1 today: unknown',
      'Never ask for hatch again with caver',
      'Never ask for hatch again',
      'I know about it: accept overdue for K1',
    ]);
  });

  it('goes with each of them', () => {
    const plan = roomOf(files, now);
    const [problem] = plan.problems('clutches.csv').filter(({ code }) => code === 'overdue');
    for (const fix of problem?.fixes ?? []) {
      const after = roomOf(mended(textsOf(plan), fix), now);
      assert.deepEqual(problemsOf(after, 'overdue').filter(({ says }) => says.startsWith(QUESTION)), [], textOf(fix.title));
      assert.deepEqual(after.paths().flatMap((path) => after.problems(path)).filter(({ severity }) => severity === 'error').map(({ code, file }) => `${file} ${code}`), ['clutches/K0.csv log-orphan'], textOf(fix.title));
    }
  });

  it('writes into the log that is there, else into the shared one, else into a new one like the others', () => {
    const written = (more: RoomFiles): Readonly<Record<string, string>> => {
      const plan = roomOf({ ...files, ...more }, now);
      const fix = plan.problems('clutches.csv').find(({ code }) => code === 'overdue')?.fixes[1];
      assert.ok(fix !== undefined);
      const before = textsOf(plan);
      return Object.fromEntries(Object.entries(mended(before, fix)).filter(([path, text]) => before[path] !== text));
    };
    assert.deepEqual(written({}), { 'clutches/K1.csv': 'time,event,tank,note\n~2026-06-04T10:00,hatched,,\n' });
    assert.deepEqual(written({ 'log.csv': 'time;clutch;event\r\n' }), { 'log.csv': 'time;clutch;event\r\n~2026-06-04T10:00;K1;hatched\r\n' });
    assert.deepEqual(written({ 'clutches/2026/K1.csv': 'event,time' }), { 'clutches/2026/K1.csv': 'event,time\nhatched,~2026-06-04T10:00' });
  });

  it('switches off in the row that is there, or in a new one', () => {
    const switched = (more: RoomFiles, title: string): string | undefined => {
      const plan = roomOf({ ...files, ...more }, now);
      const fix = plan.problems('clutches.csv').find(({ code }) => code === 'overdue')?.fixes.find((one) => textOf(one.title) === title);
      return fix === undefined ? undefined : mended(textsOf(plan), fix)['routines.csv'];
    };
    assert.match(switched({}, 'Never ask for hatch again') ?? '', /^routine,action,level,about,.*\nhatch,"Hatched, gone, or not known\?",,clutch,.*,yes\n$/);
    const own = 'routine,action,about,species,off\nhatch,Hatched?,clutch,caver,no\n';
    assert.equal(switched({ 'routines.csv': own }, 'Never ask for hatch again with caver'), 'routine,action,about,species,off\nhatch,Hatched?,clutch,caver,yes\n');
    assert.equal(switched({ 'routines.csv': own }, 'Never ask for hatch again'), `${own}hatch,Hatched?,clutch,,yes\n`);
  });

  it('is not told where the keeper has accepted it', () => {
    assert.deepEqual(overdue(roomOf(room([`${eggs},,,,,,overdue`]), now)), []);
  });
});

describe('the list of what is due', () => {
  const files = room(['K1,caver,T2,2026-06-01T10:00', 'K2,caver,T10,2026-06-09T20:00', 'K3,caver,T1,2026-04-01,,2026-04-04,2026-04-14'], {
    'rooms.csv': ['room', 'upper', 'lower'],
    'tanks.csv': ['tank,room', 'T10,upper', 'T2,upper', 'T1,lower'],
  });
  const listed = (plan: Plan, days: number): readonly string[] => plan.due(days).map(({ occurrence: { routine, state }, room: where, tank, clutch }) => `${state} ${where} ${tank} ${clutch} ${routine.routine}`);

  it('begins with what is overdue, goes on by moment, and leaves out what comes later', () => {
    const plan = roomOf(files, '2026-06-10T09:00');
    assert.deepEqual(listed(plan, 0).filter((line) => !line.endsWith(' feed')), ['overdue upper T2 K1 hatch', 'upcoming upper T10 K2 look-at-eggs']);
    assert.ok(listed(plan, 2).includes('upcoming upper T10 K2 hatch'));
    assert.ok(!listed(plan, 1).includes('upcoming upper T10 K2 hatch'));
  });

  it('names every feeding of a day, in each of the tanks of a brood', () => {
    const split = { ...files, 'log.csv': ['clutch,time,event,tank,count,to_tank', 'K3,2026-06-01,counted,T1,60,', 'K3,2026-06-01,moved,T1,30,T2'] };
    const plan = roomOf(split, '2026-06-10T00:01');
    assert.deepEqual(listed(plan, 0).filter((line) => line.endsWith(' feed')).sort(), ['due lower T1 K3 feed', 'due upper T2 K3 feed', ...['lower T1', 'upper T2'].flatMap((place) => [`upcoming ${place} K3 feed`])].sort());
  });

  it('walks in the order of the rooms and of the positions', () => {
    const plan = roomOf(files, '2026-06-10T09:00');
    const walk = [...plan.due(1)].sort(plan.walkingOrder()).map(({ tank }) => tank);
    assert.deepEqual([...new Set(walk)], ['T2', 'T10', 'T1']);
  });
});

describe('why something is the next action', () => {
  it('tells the routine, where its numbers come from, and what would close it', () => {
    const plan = filledRoom(room([eggs]), '2026-06-04T12:00');
    const told = why(plan, 'clutches.csv', 'K1', 'next_action');
    assert.equal(told.formula, 'routine hatch: counted from hatched');
    assert.deepEqual(told.notes.slice(0, 1), ['It has been due since 2026-06-04T10:00.']);
    assert.ok(told.notes.includes('Done when the log has one of these: hatched.'));
    assert.deepEqual(told.inputs, [`${QUESTION}: 2026-06-04T10:00`, 'spawned of K1: 2026-06-01T10:00 <clutches.csv: 2026-06-01T10:00>']);
    assert.deepEqual(told.constants, ['grace: P0D (the routines that come with Broodsheet (common practice))', 'lapse: P90D (the routines that come with Broodsheet (common practice))', 'hatch_h: 72 h (your species.csv) <species.csv: 72>']);
    assert.match(told.window ?? '', /^2026-06-03T\d\d:\d\d to 2026-06-05T\d\d:\d\d, 2026-06-04T10:00 expected/);
    assert.equal(cell(plan, 'clutches.csv', 'K1', 'next_action'), QUESTION);
  });
});
