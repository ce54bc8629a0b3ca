import assert from 'node:assert/strict';
import { formatDay } from '../../../../src/base/moment';
import { LIST_DAYS } from '../../../../src/views/calendar/calendarModel';
import type { DayList } from '../../../../src/views/calendar/dayList';
import { bodyOf, calendarOf } from '../../../support/calendars';
import { roomOf } from '../../../support/room';
import { sampleRoom } from '../../../support/samples';

const items = (lists: readonly DayList[]): readonly { readonly key: string; readonly day: number }[] => lists.flatMap(({ day, sections }) => sections.flatMap(({ items: all }) => all.map(({ key }) => ({ key, day }))));

describe('the list of a calendar', () => {
  it('tells each entry of its days once, under the day on which it is to be done', async () => {
    const plan = await sampleRoom('three-rooms');
    const { lists } = bodyOf(calendarOf(plan, { view: 'list' }), 'list');
    const listed = items(lists);
    // What may come by then, and is expected later, stands on a later day.
    const expected = plan.coming(LIST_DAYS.first).entries.filter(({ due }) => due.day <= plan.now.day + LIST_DAYS.first).map(({ key }) => key);
    assert.deepEqual(listed.map(({ key }) => key).sort(), [...expected].sort());
    assert.ok(listed.length > 30);
    for (const { key, day } of listed) {
      const entry = plan.coming(LIST_DAYS.first).entries.find((each) => each.key === key);
      assert.equal(day, Math.max(entry?.due.day ?? 0, plan.now.day), key);
    }
  });

  it('begins with what is overdue, then goes from room to room and tank to tank as one walks', () => {
    const plan = roomOf(
      {
        'rooms.csv': 'room,name\nz,Front room\na,Back room\n',
        'tanks.csv': 'tank,room,position\nT1,a,2\nT2,a,1\nT10,z,2\nT9,z,1\n',
        'clutches.csv': ['clutch,species,tank,spawned', 'K1,kribensis,T1,2026-06-09T08:00', 'K2,kribensis,T2,2026-06-09T08:00', 'K3,kribensis,T10,2026-06-09T08:00', 'K4,kribensis,T9,2026-06-09T08:00', 'K5,kribensis,T2,2026-06-01T08:00'],
      },
      '2026-06-10T09:00',
    );
    const [today] = bodyOf(calendarOf(plan, { view: 'list' }), 'list').lists;
    assert.deepEqual(
      today?.sections.map(({ title, items: all }) => [title, ...all.map(({ whom, tank }) => `${whom} ${tank}`)]),
      [['Overdue', 'K5 T2'], ['Front room', 'K4 T9', 'K3 T10'], ['Back room', 'K2 T2', 'K1 T1']],
    );
  });

  it('says what nobody has to guess: how late, since when, between when, and what can be done', async () => {
    const { lists } = bodyOf(calendarOf(await sampleRoom('three-rooms'), { view: 'list' }), 'list');
    const [today] = lists;
    const told = (today?.sections ?? []).flatMap(({ items: all }) => all.map(({ what, whom, tank, time, when, deed }) => [time, what, whom, tank, when, deed].filter((part) => part !== '').join(' | ')));
    for (const text of [
      'Hatched, gone, or not known? | KR3-3 | T03 | 14 days late | answer',
      'Count the fry | BE1-5 | T08 | since Tue 9 Jun | done',
      '21:59 | Hatched, gone, or not known? | AN1-8 | T10 | 10–11 Jun | none',
    ]) assert.ok(told.includes(text), `${text} among ${told.join('\n')}`);
  });

  it('bundles the feeding into walks', async () => {
    const { lists } = bodyOf(calendarOf(await sampleRoom('three-rooms'), { view: 'list' }), 'list');
    const front = lists[0]?.sections.find(({ title }) => title === 'Front room');
    assert.deepEqual(front?.feeds.map(({ time, what, tanks }) => `${time} ${what} ${tanks}`), ['08:00 Feed T02 T05 T08', '19:00 Feed T02 T05 T08']);
  });

  it('goes on for as many days as are asked for, up to nine weeks', async () => {
    const plan = await sampleRoom('three-rooms');
    const daysOf = (days?: number): readonly [number, boolean] => {
      const { days: shown, mayShowMore } = bodyOf(calendarOf(plan, { view: 'list', days }), 'list');
      return [shown, mayShowMore];
    };
    assert.deepEqual([daysOf(), daysOf(1), daysOf(21), daysOf(400)], [[7, true], [7, true], [21, true], [63, false]]);
    const { lists } = bodyOf(calendarOf(plan, { view: 'list', days: 21 }), 'list');
    assert.equal(formatDay(lists.at(-1)?.day ?? 0), '2026-07-01');
  });

  it('says what will stand here where there is nothing', () => {
    const none = roomOf({ 'clutches.csv': 'clutch,species,tank,spawned\n' }, '2026-06-10T09:00');
    for (const view of ['month', 'list', 'strip'] as const) assert.match(calendarOf(none, { view }).empty ?? '', /Record a spawn to begin/);
    const some = roomOf({ 'tanks.csv': 'tank,room\nT1,front\n', 'clutches.csv': 'clutch,species,tank,spawned\nK1,kribensis,T1,2026-06-09T08:00\n' }, '2026-06-10T09:00');
    assert.equal(calendarOf(some, { view: 'list' }).empty, undefined);
    assert.match(calendarOf(some, { view: 'list', selection: { species: ['guppy'] } }).empty ?? '', /Nothing falls on these days/);
  });
});
