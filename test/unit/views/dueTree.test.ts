import assert from 'node:assert/strict';
import { DUE_DAYS, dueTree } from '../../../src/views/dueTree';
import type { DueTree } from '../../../src/views/dueTree';
import { roomOf } from '../../support/room';
import { sampleRoom } from '../../support/samples';

function shown({ rooms }: DueTree): readonly string[] {
  return rooms.flatMap(({ label, groups }) => groups.flatMap(({ when, feeding, items }) => [...(feeding === '' ? [] : [`${label}, ${when}: ${feeding}`]), ...items.map((item) => `${label}, ${when}: ${item.label}: ${item.description}`)]));
}

const files = {
  'rooms.csv': 'room,name\nback,Back room\nfront,Front room\n',
  'tanks.csv': 'tank,room,position\nT1,front,2\nT2,front,1\nT3,back,1\n',
  'species.csv': 'species,care,ref_temp_c,hatch_h,first_feed_h,free_swim_h,juvenile_d,sale_d,feeds_per_day\nblue,cave,26,72,120,192,30,80,3\n',
  'clutches.csv': 'clutch,species,tank,spawned\nK1,blue,T1,2026-06-05T08:00\nK2,blue,T2,2026-06-09T20:00\nK3,blue,T3,2026-04-20\n',
  'clutches/K3.csv': 'time,event,count\n2026-04-23,hatched,\n2026-06-09,counted,80\n',
  'orders.csv': 'order,species,quantity,due\nO1,blue,20,2026-06-12\n',
};

describe('the tree of what is due', () => {
  it('lists room by room what is overdue, what is for today and what comes next, each in walking order', () => {
    const plan = roomOf(files, '2026-06-10T09:00');
    const tree = dueTree(plan, { coming: plan.coming(DUE_DAYS), rooms: undefined, locale: 'en' });
    assert.deepEqual(shown(tree), [
      'Back room, today: Feed ×3, 1 tank',
      'Front room, overdue: T1 K1: 2 days late · Hatched, gone, or not known?',
      "Front room, today: T2 K2: Look at the eggs: fungus, missing ones; don't disturb · 20:00",
      'Front room, today: T1 K1: Start brine shrimp for the first feed · 16:48 · Jun 10–13',
      "Front room, next: T2 K2: Thu, Jun 11 · Look at the eggs: fungus, missing ones; don't disturb · 20:00",
      'Front room, next: T2 K2: Fri, Jun 12 · Hatched, gone, or not known? · 20:00 · Jun 12–13',
      'Front room, next: T2 K2: Mon, Jun 15 · Start brine shrimp for the first feed · 04:48 · Jun 15–17',
      'Front room, next: T1 K1: Tue, Jun 16 · First feed: microworms, brine shrimp · 00:05 · Jun 14–17',
      'Front room, next: T1 K1: Tue, Jun 16 · Swimming free? · 08:00 · Jun 14–18',
      'Front room, next: T2 K2: Wed, Jun 17 · First feed: microworms, brine shrimp · 20:00 · Jun 16–19',
      'The whole fishroom, today: Start 0.1 g of brine shrimp: 00:00',
      'The whole fishroom, next: Start 0.1 g of brine shrimp: Thu, Jun 11 · 00:00',
      'The whole fishroom, next: Start 0.1 g of brine shrimp: Fri, Jun 12 · 00:00',
      'The whole fishroom, next: O1: Fri, Jun 12 · 20 × blue leave for the buyer',
      'The whole fishroom, next: Start 0.1 g of brine shrimp: Sat, Jun 13 · 00:00',
      'The whole fishroom, next: Start 0.1 g of brine shrimp: Sun, Jun 14 · 00:00',
      'The whole fishroom, next: Start 0.1 g of brine shrimp: Mon, Jun 15 · 00:00',
      'The whole fishroom, next: Start 0.1 g of brine shrimp: Tue, Jun 16 · 00:00',
      'The whole fishroom, next: Start 0.1 g of brine shrimp: Wed, Jun 17 · 00:00',
    ]);
    assert.deepEqual([tree.overdue, tree.today, tree.rooms.map(({ overdue }) => overdue)], [1, 3, [0, 1, 0]]);
  });

  it('shows the rooms that are chosen alone', () => {
    const plan = roomOf(files, '2026-06-10T09:00');
    const tree = dueTree(plan, { coming: plan.coming(DUE_DAYS), rooms: new Set(['back']), locale: 'en' });
    assert.deepEqual([tree.rooms.map(({ room }) => room), tree.overdue], [['back'], 0]);
  });

  it('holds each entry of the sample once, and counts as many overdue as the sheets do', async () => {
    const plan = await sampleRoom('three-rooms');
    const coming = plan.coming(DUE_DAYS);
    const tree = dueTree(plan, { coming, rooms: undefined, locale: 'en' });
    const keys = tree.rooms.flatMap(({ groups }) => groups.flatMap(({ items }) => items.map(({ key }) => key)));
    assert.deepEqual([...keys].sort(), coming.entries.filter(({ kind, occurrence, due }) => (kind !== 'sale' || occurrence !== undefined) && due.day <= plan.now.day + DUE_DAYS).map(({ key }) => key).sort());
    assert.equal(tree.overdue, coming.entries.filter(({ state }) => state === 'overdue').length);
    assert.ok(tree.overdue > 0);
  });
});
