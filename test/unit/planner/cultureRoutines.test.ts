import assert from 'node:assert/strict';
import { textOf } from '../../../src/base/messages';
import { dueText } from '../../../src/planner/columns/agenda';
import type { Plan } from '../../../src/planner/plan';
import { roomOf } from '../../support/room';

/** `MW renew-culture due 2026-06-10` for all that is to be done about cultures. */
function due(plan: Plan, days = 7): readonly string[] {
  return plan.due(days).map(({ row, occurrence, room, tank, pair, clutch }) => {
    assert.deepEqual([room, tank, pair, clutch, occurrence.level], ['', '', '', '', 'remind']);
    return `${row.value(0) as string} ${occurrence.routine.routine} ${occurrence.state} ${dueText(occurrence.due, occurrence, plan.records.zone)}`;
  });
}

function plan(now: string, ...rows: readonly string[]): Plan {
  return roomOf({ 'clutches.csv': ['clutch,tank,spawned'], 'cultures.csv': ['culture,food,started,renew_every,ended', ...rows] }, now);
}

describe('what is due of cultures', () => {
  it('is to feed from them once they are ready, and to set them up anew', () => {
    const room = plan('2026-06-10T09:00', 'BS,brine_shrimp,2026-06-09T20:00,,', 'MW,microworm,2026-05-24,P18D,', 'VE,vinegar_eel,2026-05-01,,');
    assert.deepEqual(due(room), ['BS culture-ready upcoming 2026-06-11T08:00', 'MW renew-culture upcoming 2026-06-11']);
    assert.deepEqual(room.due(7).map(({ action }) => textOf(action)), ['Hatched: feed the nauplii within hours', 'Set the culture up anew']);
  });

  it('is news of a ready culture for a day', () => {
    const at = (now: string): readonly string[] => due(plan(now, 'BS,brine_shrimp,2026-06-09T20:00,,', 'MW,microworm,2026-06-06,P60D,'), 0);
    assert.deepEqual(at('2026-06-11T08:00'), ['BS culture-ready due 2026-06-11T08:00', 'MW culture-ready due 2026-06-11']);
    assert.deepEqual(at('2026-06-12T08:00'), ['BS culture-ready due 2026-06-11T08:00', 'MW culture-ready due 2026-06-11']);
    assert.deepEqual(at('2026-06-12T08:01'), ['MW culture-ready due 2026-06-11']);
    assert.deepEqual(at('2026-06-13T00:00'), []);
  });

  it('is a renewal for two weeks, or until the culture is ended', () => {
    const at = (now: string, ended = ''): readonly string[] => due(plan(now, `MW,microworm,2026-05-20,P18D,${ended}`), 0);
    assert.deepEqual([at('2026-06-06T09:00'), at('2026-06-07T09:00'), at('2026-06-21T23:00'), at('2026-06-22T09:00')], [[], ['MW renew-culture due 2026-06-07'], ['MW renew-culture due 2026-06-07'], []]);
    assert.deepEqual([at('2026-06-10T09:00', '2026-06-08'), at('2026-06-10T09:00', '2026-06-12')], [[], ['MW renew-culture due 2026-06-07']]);
  });

  it('is nothing before it is set up, of other food without its own rhythm, and once of two rows with one name', () => {
    assert.deepEqual(due(plan('2026-06-10T09:00', 'A,microworm,2026-06-11,P1D,', 'B,other,2026-06-01,,', 'C,infusoria,2026-05-29,,', 'C,infusoria,2026-05-29,,')), ['C renew-culture upcoming 2026-06-12']);
  });

  it('changes with time alone when it is told', () => {
    const turn = (now: string): number => {
      const room = plan(now, 'BS,brine_shrimp,2026-06-09T20:00,,', 'BS2,brine_shrimp,2026-06-10T10:30,,');
      return (room.nextChange - room.now.instant) / 60_000;
    };
    assert.equal(turn('2026-06-10T09:00'), 90, 'the second one is set up');
    assert.equal(turn('2026-06-11T07:00'), 60, 'the first one is ready');
  });
});
