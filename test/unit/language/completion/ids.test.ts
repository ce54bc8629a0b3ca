import assert from 'node:assert/strict';
import { offeredTexts, offeredValues } from '../../../support/completions';

const room = {
  'rooms.csv': 'room,name\nfront,Front room\nback,Back room\n',
  'tanks.csv': 'tank,room,position,use,retired\nT9,back,B1,grow-out,\nT1,front,A1,breeding,\nT2,front,A2,breeding,2026-01-01\nT3,front,A3,grow-out,\nT4,front,A4,breeding,\n',
  'pairs.csv': 'pair,species,tank,retired\nKR1,kribensis,T1,\nKR2,kribensis,T2,2026-02-01\nBE1,betta,T4,\n',
  'clutches.csv': 'clutch,pair,tank,spawned,ended\nKR1-1,KR1,T1,2026-02-01,2026-02-09\nKR1-2,KR1,T1,2026-03-01,\nKR1-3,KR1,T1,2026-06-08T19:00,\nBE1-1,BE1,T4,2026-06-09,\n',
};

describe('idsFitting', () => {
  it('knows tanks by place, use and who lives there: the same room first, retired ones last', () => {
    assert.deepEqual(offeredTexts({ ...room, 'clutches/KR1-2.csv': 'time,event,to_tank\n2026-06-09,moved,«»\n' }), [
      'T3 (front A3 · grow-out · empty)',
      'T4 (front A4 · breeding · BE1, BE1-1)',
      'T9 (back B1 · grow-out · empty)',
      'T1 (front A1 · breeding · KR1, KR1-2, KR1-3)',
      'T2 (front · retired)',
    ]);
  });

  it('puts the tanks of the brood first where something happened to it, and of the pair where it spawned', () => {
    const moved = 'time,event,tank,to_tank\n2026-03-20,moved,T1,T9\n';
    assert.deepEqual(offeredValues({ ...room, 'clutches/KR1-2.csv': `${moved}2026-06-09,counted,«»,\n` }).slice(0, 2), ['T9', 'T1']);
    assert.equal(offeredValues({ ...room, 'clutches.csv': `${room['clutches.csv']}BE1-2,BE1,«»,2026-06-10,\n` })[0], 'T4');
  });

  it('puts open clutches first, the latest before all', () => {
    assert.deepEqual(offeredTexts({ ...room, 'log.csv': 'time,clutch,event\n2026-06-09,«»,checked\n' }), [
      'BE1-1 (betta · egg · T4)',
      'KR1-3 (kribensis · egg · T1)',
      'KR1-2 (kribensis · egg · T1)',
      'KR1-1 (kribensis · ended)',
    ]);
  });

  it('puts those of the species first that a brood may join, and never itself', () => {
    assert.deepEqual(offeredValues({ ...room, 'clutches/KR1-3.csv': 'time,event,ref\n2026-06-09,joined,«»\n' }), ['KR1-2', 'BE1-1', 'KR1-1']);
  });

  it('offers a sale the orders that are open, of the species and the soonest first', () => {
    const orders = 'order,buyer,species,quantity,due,sent\nO1,shop,betta,5,2026-06-12,\nO2,shop,kribensis,9,2026-07-01,\nO3,club,kribensis,4,2026-06-20,\nO4,club,kribensis,4,2026-05-20,2026-05-20\n';
    assert.deepEqual(offeredTexts({ ...room, 'orders.csv': orders, 'clutches/KR1-2.csv': 'time,event,ref\n2026-06-09,sold,«»\n' }), [
      'O3 (4 kribensis · club · due 2026-06-20)',
      'O2 (9 kribensis · shop · due 2026-07-01)',
      'O1 (5 betta · shop · due 2026-06-12)',
      'O4 (4 kribensis · club · sent)',
    ]);
    assert.deepEqual(offeredValues({ ...room, 'orders.csv': orders, 'clutches/KR1-2.csv': 'time,event,ref\n2026-06-09,checked,«»\n' }), []);
  });

  it('knows which pair is meant by the name of the clutch, else by the species and by when it should spawn', () => {
    const row = (cells: string): Record<string, string> => ({ ...room, 'clutches.csv': `clutch,pair,species,tank,spawned\n${cells}\n` });
    assert.deepEqual(offeredTexts(row('BE1-2,«»,,T4,2026-06-10')), ['BE1 (betta · T4)', 'KR1 (kribensis · T1)', 'KR2 (kribensis · T2 · retired)']);
    assert.deepEqual(offeredValues(row('X,«»,kribensis,T4,2026-06-10')), ['KR1', 'BE1', 'KR2']);
    const open = (row: string): readonly string[] => offeredTexts({ ...room, 'clutches.csv': `${room['clutches.csv']}${row}\n` }).map((text) => text.replace(/\d{4}-\d\d-\d\d/, 'DAY'));
    assert.deepEqual(open('X,«»,,2026-06-10,'), ['BE1 (betta · T4 · spawn ~DAY)', 'KR1 (kribensis · T1 · spawn ~DAY)', 'KR2 (kribensis · T2 · retired)']);
    assert.match(open('X,«»,T1,2026-06-10,').join(), /^KR1 /);
  });

  it('puts fish of the sex and species first that are still there', () => {
    const fish = 'fish,species,sex,left\nA,betta,f,\nB,kribensis,m,\nC,kribensis,f,\nD,kribensis,f,2026-01-01\nE,kribensis,u,\n';
    assert.deepEqual(offeredValues({ ...room, 'fish.csv': fish, 'pairs.csv': 'pair,species,tank,female\nKR3,kribensis,T1,«»\n' }), ['C', 'E', 'D', 'B', 'A']);
    assert.deepEqual(offeredValues({ 'fish.csv': 'fish,species,sire\nA,betta,\nB,betta,«»\n' }), ['A']);
  });

  it('puts the species that are bred here before those that come along', () => {
    const texts = offeredTexts({ ...room, 'species.csv': 'species,like,common_name\nred-krib,kribensis,Red krib\n', 'orders.csv': 'order,species,quantity,due\nO1,«»,5,2026-07-01\n' });
    assert.deepEqual(texts.slice(0, 3), ['kribensis (Kribensis · cave)', 'betta (Betta · bubble-nest)', 'red-krib (Red krib · cave)']);
    assert.ok(texts.some((text) => text.startsWith('guppy (')));
  });

  it('names rooms in full', () => {
    assert.deepEqual(offeredTexts({ 'rooms.csv': room['rooms.csv'], 'tanks.csv': 'tank,room\nT1,«»\n' }), ['front (Front room)', 'back (Back room)']);
  });
});
