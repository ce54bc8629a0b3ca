import { deepStrictEqual, equal, match, ok } from 'node:assert/strict';
import { calendarText } from '../../../src/exchange/calendarText';
import { roomEvents } from '../../../src/exchange/roomEvents';
import type { EventsOptions } from '../../../src/exchange/roomEvents';
import type { Plan } from '../../../src/planner/plan';
import { storedEvents } from '../../../src/exchange/storedCalendar';
import { readCalendar } from '../../support/calendarReader';
import type { ReadEvent } from '../../support/calendarReader';
import { roomOf } from '../../support/room';
import type { RoomFiles } from '../../support/room';
import { sampleRoom } from '../../support/samples';

const species = 'species,care,ref_temp_c,hatch_h,first_feed_h,free_swim_h,juvenile_d,sale_d,interval_d,feeds_per_day\nblue,cave,26,72,120,192,30,80,35,3\n';
const files: RoomFiles = {
  'fishroom.json': '{"timezone":"Europe/Berlin","rounds":["19:00","08:00"]}',
  'species.csv': species,
  'rooms.csv': 'room\nback\nfront\n',
  'tanks.csv': 'tank,room\nT1,front\nT2,back\nT3,front\n',
  'clutches.csv': 'clutch,species,tank,spawned,hatched,eggs\nK1,blue,T1,2026-06-09T08:00,,100\nK2,blue,T2,2026-05-20,2026-05-23,50\nK3,blue,T3,2026-05-20,2026-05-23,50\n',
};

function written(plan: Plan, options: Partial<EventsOptions> & { readonly before?: string; readonly days?: number } = {}): string {
  const { before = '', days = 8, ...rest } = options;
  const { now, records } = plan;
  const events = roomEvents(plan.coming(days), { fishroom: 'My room', now, zone: records.zone, config: records.config, ...rest });
  return calendarText(events, { name: 'My room', stored: storedEvents(before) ?? new Map(), now: now.instant, zone: records.zone }).text;
}

function read(plan: Plan, options: Parameters<typeof written>[1] = {}): readonly ReadEvent[] {
  return readCalendar(written(plan, options)).events;
}

const isAbout = (what: string) => ({ summary }: ReadEvent): boolean => summary.includes(what);

describe('a fishroom in a calendar', () => {
  it('tells an expected hatch from the first to the last hour of its window, and why', () => {
    const hatch = read(roomOf(files, '2026-06-10T09:00')).find(isAbout('Hatched'));
    deepStrictEqual(hatch, {
      uid: 'clutches/K1/hatch/0@My%20room', sequence: 0, stamp: '2026-06-10T07:00:00Z', summary: 'K1 T1: Hatched, gone, or not known?',
      description: "Expected between Thursday, 2026-06-11 19:00 and Saturday, 2026-06-13 00:00, most likely Friday, 2026-06-12 08:00: 8 times in 10 it falls in there.\nReckoned from the numbers of the species alone; own records teach nothing about it yet.\nClutch K1\nblue",
      location: 'front, T1', categories: ['Hatch'], status: null, isDays: false, start: '2026-06-11T16:00:00.000Z', end: '2026-06-12T23:00:00.000Z', alarm: '2026-06-11T16:00:00.000Z',
    });
  });

  it('tells by the day what has begun, so that it stays the same while minutes pass', () => {
    const running = read(roomOf(files, '2026-06-12T09:00')).find(isAbout('Hatched'));
    deepStrictEqual([running?.isDays, running?.start, running?.end, running?.alarm], [true, '2026-06-12', '2026-06-14', undefined]);
    const first = written(roomOf(files, '2026-06-12T09:00'));
    equal(written(roomOf(files, '2026-06-12T09:10'), { before: first }), first);
  });

  it('says of what was expected by now by when it will have come, but not of fish to sell, of which nobody has looked', async () => {
    const running = read(roomOf(files, '2026-06-12T09:00')).find(isAbout('Hatched'));
    match(running?.description ?? '', /^Expected since Friday, 2026-06-12 and not come yet: 9 times in 10 it has by Saturday, 2026-06-13\.\n/);
    const sales = read(await sampleRoom('three-rooms')).filter(({ description }) => description.includes('of the species by then'));
    ok(sales.length > 3, `${sales.length} broods to sell`);
    deepStrictEqual(sales.filter(({ description }) => description.includes('not come yet')), []);
  });

  it('tells what must be ready for the earliest as due then, not as likely later', () => {
    const shrimp = read(roomOf(files, '2026-06-10T09:00')).find(isAbout('brine shrimp for the first feed'));
    match(shrimp?.description ?? '', /^Counted from something that is only expected\.\n/);
  });

  it('puts on today what is overdue, and says since when', () => {
    const late = read(roomOf(files, '2026-06-15T09:00')).find(isAbout('Hatched'));
    deepStrictEqual([late?.summary, late?.isDays, late?.start, late?.end], ['Overdue: K1 T1: Hatched, gone, or not known?', true, '2026-06-15', '2026-06-16']);
    match(late?.description ?? '', /^Due since Friday, 2026-06-12\.\n/);
  });

  it('feeds once a day, with the rounds and tanks in words', () => {
    const [feed, ...others] = read(roomOf(files, '2026-06-10T09:00'), { days: 1 }).filter(isAbout('Feed:'));
    deepStrictEqual([feed?.summary, feed?.description, feed?.location, feed?.isDays, feed?.start, feed?.end, feed?.uid], ['Feed: 2 rounds, 2 tanks', '08:00 · back · Feed: T2\n08:00 · front · Feed: T3\n19:00 · back · Feed: T2\n19:00 · front · Feed: T3', '', true, '2026-06-10', '2026-06-11', 'feeding.2026-06-10@My%20room']);
    equal(others.length, 1);
    const unnamed = read(roomOf({ ...files, 'fishroom.json': '{"timezone":"Europe/Berlin"}' }, '2026-06-10T09:00'), { rooms: new Set(['back']) }).find(isAbout('Feed:'));
    deepStrictEqual([unnamed?.summary, unnamed?.description, unnamed?.location], ['Feed: 3 rounds, 1 tank', '3 times · Feed: T2', 'back']);
  });

  it('calls for brine shrimp in the evening before a start at night, with how to be careful', () => {
    const unnamed = { ...files, 'fishroom.json': '{"timezone":"Europe/Berlin","rounds":["12:00"]}' };
    const shrimp = read(roomOf(unnamed, '2026-06-10T09:00')).find(isAbout('Friday'));
    deepStrictEqual([shrimp?.summary, shrimp?.start, shrimp?.alarm], ['Brine shrimp: start 0.1 g in 0.5 litres (13 g salt) for Friday', '2026-06-10T22:00:00.000Z', '2026-06-10T19:00:00.000Z']);
    match(shrimp?.description ?? '', /^For: K2, K3\nBrine shrimp hatch best [^]* veterinarian come first\. Salt water conducts/);
  });

  it('lets everything else wait for the morning', () => {
    const eggs = read(roomOf({ ...files, 'clutches.csv': 'clutch,species,tank,spawned\nK1,blue,T1,2026-06-09T02:30\nK2,blue,T2,2026-06-09T22:30\n' }, '2026-06-10T01:00'), { days: 1 }).filter(isAbout('Look at the eggs'));
    deepStrictEqual(eggs.slice(0, 2).map(({ start, alarm }) => [start, alarm]), [['2026-06-10T00:30:00.000Z', '2026-06-10T05:00:00.000Z'], ['2026-06-10T20:30:00.000Z', '2026-06-11T05:00:00.000Z']]);
  });

  it('has long windows on their most likely day', () => {
    const plan = roomOf({ ...files, 'pairs.csv': 'pair,species,tank\nP1,blue,T2\n', 'clutches.csv': 'clutch,pair,species,tank,spawned\nK1,P1,blue,T2,2026-06-01\n' }, '2026-06-10T09:00');
    const next = read(plan, { days: 60 }).find(isAbout('Next spawn'));
    deepStrictEqual([next?.summary, next?.start, next?.end], ['P1 T2: Next spawn', '2026-07-06', '2026-07-07']);
    match(next?.description ?? '', /^Expected between \w+, 2026-06-2\d and \w+, 2026-0[78]-\d\d, most likely Monday, 2026-07-06: /);
  });

  it('warns of water and plugs where hands go into the water', () => {
    const plan = roomOf({ ...files, 'maintenance.csv': 'job,what,tanks,room,from,to\nJ1,New racks,,front,2026-06-11,2026-06-12\n' }, '2026-06-10T09:00');
    const job = read(plan).find(isAbout('New racks'));
    deepStrictEqual([job?.start, job?.end, job?.location], ['2026-06-11', '2026-06-13', 'front']);
    match(job?.description ?? '', /^From Thursday, 2026-06-11 to Friday, 2026-06-12\.\nUnplug/);
  });

  it('can be of some rooms and kinds alone', () => {
    const plan = roomOf(files, '2026-06-10T09:00');
    const front = read(plan, { rooms: new Set(['front']) });
    ok(front.length > 5);
    deepStrictEqual([...new Set(front.map(({ location }) => location.split(',')[0]))], ['front']);
    const hatches = read(plan, { kinds: new Set(['hatch', 'feeding']), days: 3 });
    deepStrictEqual([...new Set(hatches.flatMap(({ categories }) => categories))].sort(), ['Feed', 'Hatch']);
  });

  it('shows what somebody wrote into a cell as a text', () => {
    const evil = '<img src=x onerror=alert(1)></script>';
    const plan = roomOf({ ...files, 'tanks.csv': `tank,room\nT1,"${evil}\r\nEND:VEVENT\r\nBEGIN:VEVENT\r\nUID:evil"\n`, 'routines.csv': `routine,action,about,anchor,offset,level\nx,"${evil}\r\nATTENDEE:a",clutch,spawned,P2D,remind\n` }, '2026-06-10T09:00');
    const text = written(plan);
    const { events } = readCalendar(text);
    equal(events.some(({ uid }) => uid === 'evil'), false);
    equal(/^(?:ATTENDEE|UID:evil)/m.test(text), false);
    equal(events.find(isAbout('ATTENDEE'))?.summary, `K1 T1: ${evil} ATTENDEE:a`);
  });

  it('of the sample is read whole by the reference reader, and is the same when written again', async () => {
    const plan = await sampleRoom('three-rooms');
    const text = written(plan, { days: 60 });
    const { entries } = plan.coming(60);
    const { events } = readCalendar(text);
    equal(events.length, entries.length + 61, 'an event for each entry, and one a day for the feeding');
    equal(new Set(events.map(({ uid }) => uid)).size, events.length);
    equal(written(plan, { days: 60, before: text }), text);
    const later = await sampleRoom('three-rooms');
    later.setNow(plan.now.instant + 86_400_000);
    const next = readCalendar(written(later, { days: 60, before: text })).events;
    // Whom to feed hangs on the broods of which nobody knows whether they have hatched.
    const single = next.filter(({ categories }) => !categories.includes('Feed') && !categories.includes('Live food'));
    const changed = single.filter(({ sequence }) => sequence > 0).length;
    ok(changed > 5 && changed < single.length / 8, `${changed} of ${single.length} are others a day later`);
  });
});
