import assert from 'node:assert/strict';
import type { ToCalendar, WayAsked } from '../../src/protocol/calendar';
import { calendarModel, daysNeeded, listsOfMonth } from '../../src/views/calendar/calendarModel';
import type { CalendarQuery } from '../../src/views/calendar/calendarModel';
import { calendarTexts } from '../../src/views/calendar/calendarTexts';
import { begin, FIRST, isSameTarget, keptOf, reduce, targetFrom, textOfTarget } from '../../webview/calendar/state';
import type { Action, State } from '../../webview/calendar/state';
import { roomOf } from '../support/room';

const plan = roomOf({ 'tanks.csv': 'tank,room\nT1,front\n', 'clutches.csv': 'clutch,species,tank,spawned\nK1,kribensis,T1,2026-06-09T08:00\n' }, '2026-06-10T09:00');
const today = plan.now.day;

function shown(query: CalendarQuery, ask = 0, fishroom = 'file:///room'): ToCalendar {
  const coming = plan.coming(daysNeeded(query, { today, locale: 'en' }));
  return { kind: 'shown', ask, fishroom, fishrooms: [{ value: fishroom, label: 'Room' }], query, model: calendarModel(plan, { query, coming, locale: 'en' }), texts: calendarTexts() };
}

function after(state: State, ...actions: readonly Action[]): State {
  return actions.reduce(reduce, state);
}

const received = (message: ToCalendar): Action => ({ kind: 'received', message });
const month: CalendarQuery = { view: 'month', selection: {} };
const ways: readonly WayAsked[] = [
  { way: 'counted', label: 'counted', caution: undefined, fields: [{ name: 'time', label: 'Time', value: '2026-06-10T09:00', choices: [], isTyped: true, isNeeded: true }, { name: 'count', label: 'Count', value: '90', choices: [], isTyped: true, isNeeded: true }] },
  { way: 'gone', label: 'Gone', caution: undefined, fields: [{ name: 'time', label: 'Time', value: '2026-06-10T09:00', choices: [], isTyped: true, isNeeded: true }] },
];

describe('the state of the calendar', () => {
  it('shows today first, and keeps the day that was chosen as long as it is seen', () => {
    const first = after(FIRST, received(shown(month)));
    assert.equal(first.day, today);
    assert.equal(after(first, { kind: 'day', day: today + 3 }, received(shown(month))).day, today + 3);
    const next = { ...month, day: today + 30 };
    assert.equal(after(first, { kind: 'asksFor', query: next }, received(shown(next, 1))).day, today + 30);
    // Not within the month that came: its first day, where today isn't in it either.
    const far = { ...month, day: today + 90 };
    const { model, day } = after(FIRST, { kind: 'day', day: today - 400 }, received(shown(far)));
    assert.equal(day, model?.body.view === 'month' ? model.body.month.first : undefined);
  });

  it('stays on the day when only what is shown of the fishroom is chosen', () => {
    const browsed = { ...month, day: today };
    const state = after(FIRST, received(shown(browsed)), { kind: 'day', day: today + 2 }, { kind: 'asksFor', query: { ...browsed, selection: { rooms: ['front'] } } });
    assert.equal(state.day, today + 2);
    assert.equal(after(state, { kind: 'asksFor', query: state.query }).day, today);
  });

  it('shows the month before the lists of its days, and none of them of a month that was asked for before', () => {
    const first = after(FIRST, received(shown(month)));
    const lists = listsOfMonth(plan, { query: month, coming: plan.coming(30), locale: 'en' });
    const daysOf = ({ model }: State): readonly number[] => (model?.body.view === 'month' ? model.body.lists.map(({ day }) => day) : []);
    assert.deepEqual(daysOf(first), [today]);
    const whole = after(first, received({ kind: 'lists', ask: 0, lists }));
    assert.ok(daysOf(whole).length > 3);
    assert.deepEqual(daysOf(whole), lists.map(({ day }) => day));
    // The same month again, since something was written: what was there stays until its lists come.
    assert.deepEqual([...daysOf(after(whole, received(shown(month))))].sort(), [...daysOf(whole)].sort());
    const turned = after(whole, { kind: 'asksFor', query: { ...month, day: today + 30 } });
    assert.equal(after(turned, received({ kind: 'lists', ask: 0, lists: [] })), turned);
    assert.deepEqual(daysOf(after(turned, received(shown({ ...month, day: today + 30 }, 1)))).filter((day) => day < today + 20), []);
  });

  it('leaves out an answer that comes too late, in whatever order its fields stand, and takes one that nobody asked for', () => {
    const first = after(FIRST, received(shown(month)));
    const asked = after(first, { kind: 'asksFor', query: { view: 'list', selection: {} } }, { kind: 'asksFor', query: { selection: {}, days: 28, view: 'strip' } });
    assert.equal(after(asked, received(shown({ view: 'list', selection: {} }, 1))), asked);
    assert.equal(after(asked, received(shown({ view: 'strip', days: 28, selection: {} }, 2))).model?.body.view, 'strip');
    // The host turned to another fishroom by itself, with all of it.
    const filtered = { ...month, selection: { rooms: ['front'] } };
    const state = after(FIRST, received(shown(filtered)), received(shown(month, 0, 'file:///other')));
    assert.equal(state.fishroom, 'file:///other');
    assert.deepEqual(state.query.selection, {});
  });

  it('begins what is asked with the likely answers, and keeps what was typed when it is answered another way', () => {
    const asked = after(FIRST, received({ kind: 'asked', key: 'k', ways }));
    assert.deepEqual(asked.asked?.answers, { time: '2026-06-10T09:00', count: '90' });
    const typed = after(asked, { kind: 'answer', name: 'time', value: '2026-06-10T07:00' }, { kind: 'way', way: 'gone' });
    assert.deepEqual(typed.asked, { key: 'k', ways, way: 'gone', isSent: false, answers: { time: '2026-06-10T07:00' } });
  });

  it('closes what is asked when it is written, left, or something else is looked at, and only then', () => {
    const asked = after(FIRST, received(shown(month)), received({ kind: 'asked', key: 'k', ways }));
    assert.notEqual(after(asked, received({ kind: 'told', text: 'no', isDone: false })).asked, undefined);
    assert.notEqual(after(asked, received(shown(month))).asked, undefined);
    assert.notEqual(after(asked, { kind: 'day', day: today }).asked, undefined);
    // Something else that was written or taken back.
    for (const key of [undefined, 'other']) assert.notEqual(after(asked, received({ kind: 'told', key, text: 'yes', isDone: true })).asked, undefined);
    const [written, refused] = [true, false].map((isDone) => received({ kind: 'told', key: 'k', text: 'so', isDone })) as [Action, Action];
    assert.equal(after(asked, { kind: 'sent' }, written).asked, undefined);
    assert.deepEqual(after(asked, { kind: 'sent' }, refused).asked, asked.asked);
    // Nothing to say, so what was said stands.
    const silent = after(asked, written, { kind: 'sent' }, received({ kind: 'told', key: 'k', isDone: false }));
    assert.deepEqual([silent.asked?.isSent, silent.told?.text], [false, 'so']);
    // It was asked anew before the first answer was told of.
    assert.notEqual(after(asked, { kind: 'sent' }, received({ kind: 'asked', key: 'k', ways }), written).asked, undefined);
    for (const action of [{ kind: 'cancel' }, { kind: 'day', day: today + 1 }, { kind: 'asksFor', query: month }] as const) assert.equal(after(asked, action).asked, undefined, action.kind);
  });

  it('says so where there is no fishroom, and shows one that comes', () => {
    const none = after(FIRST, received(shown(month)), received({ kind: 'nothing', text: 'No fishroom', texts: calendarTexts() }));
    assert.deepEqual([none.nothing, none.model], ['No fishroom', undefined]);
    assert.equal(after(none, received(shown(month))).nothing, undefined);
  });

  it('keeps where one was and nothing of the records', () => {
    const state = after(FIRST, received(shown(month)), { kind: 'day', day: today + 1 }, { kind: 'target', target: { of: 'clutch', id: 'K1' } }, { kind: 'charted', isCharted: true });
    const kept = keptOf(state, 120);
    assert.deepEqual(Object.keys(kept).sort(), ['day', 'fishroom', 'isCharted', 'query', 'scrolled', 'target']);
    const again = begin(JSON.parse(JSON.stringify(kept)) as typeof kept);
    assert.deepEqual([again.day, again.target, again.isCharted, again.fishroom, again.query.view], [today + 1, { of: 'clutch', id: 'K1' }, true, 'file:///room', 'month']);
    assert.equal(begin(undefined), FIRST);
  });

  it('is the same where the same is pointed at', () => {
    const state = after(FIRST, { kind: 'target', target: { of: 'entry', key: 'a' } });
    assert.equal(after(state, { kind: 'target', target: { of: 'entry', key: 'a' } }), state);
    assert.notEqual(after(state, { kind: 'target', target: { of: 'tank', id: 'a' } }), state);
  });

  it('writes targets as text and reads them back, whatever is in their names', () => {
    for (const target of [{ of: 'entry', key: 'clutches/K:1/hatch/0' }, { of: 'tank', id: '"><b>:' }, { of: 'clutch', id: '' }, { of: 'pair', id: 'P 1' }] as const) {
      assert.ok(isSameTarget(targetFrom(textOfTarget(target)), target), JSON.stringify(target));
    }
    for (const text of [undefined, '', 'room:front', 'K1']) assert.equal(targetFrom(text), undefined);
  });
});
