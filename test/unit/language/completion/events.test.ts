import assert from 'node:assert/strict';
import { offeredTexts, offeredValues } from '../../../support/completions';

function log(clutch: string, rows: string, header = 'time,event,count'): Record<string, string> {
  return { 'clutches.csv': `clutch,species,tank,spawned\n${clutch}\n`, 'clutches/K1.csv': `${header}\n${rows}` };
}

describe('eventsFitting', () => {
  it('puts first what is overdue or due, with what is to be done', () => {
    const texts = offeredTexts(log('K1,kribensis,T1,2026-06-06T09:00', '2026-06-10T09:00,«»,\n'));
    assert.equal(texts[0], 'hatched (overdue: Hatched, gone, or not known?)');
    assert.equal(texts.at(-1), 'spawned');
  });

  it('then the next milestone with when it is expected, and what is usual at the stage', () => {
    const texts = offeredTexts(log('K1,kribensis,T1,2026-06-09T19:00', '2026-06-10T09:00,«»,\n'));
    assert.match(texts.join('\n'), /^hatched \(expected 2026-06-12 19:00\)\nchecked \(Look at the eggs[^\n]*, 2026-06-10 19:00\)\nfungus \(/);
    assert.ok(texts.indexOf('sold') > texts.indexOf('treated'));
  });

  it('puts last what is recorded, but not by the row itself', () => {
    const hatched = '2026-06-05T09:00,hatched,\n';
    const rows = log('K1,kribensis,T1,2026-06-02T09:00', `${hatched}2026-06-10T09:00,«»,\n`);
    assert.deepEqual(offeredTexts(rows).slice(-2), ['hatched (recorded 2026-06-05 09:00)', 'spawned']);
    const itself = offeredTexts(log('K1,kribensis,T1,2026-06-02T09:00', '2026-06-05T09:00,«hatched»,\n'));
    assert.ok(!itself.includes('hatched (recorded 2026-06-05 09:00)'));
  });

  it('leaves out what can not happen with the species', () => {
    const livebearer = offeredValues(log('K1,guppy,T1,2026-06-09', '2026-06-10,«»,\n'));
    assert.deepEqual(['hatched', 'fungus', 'released', 'stripped'].filter((event) => livebearer.includes(event)), []);
    assert.equal(livebearer[0], 'fed');
    const mouthbrooder = offeredValues(log('K1,yellow-lab,T1,2026-05-20', '2026-06-10,«»,\n'));
    assert.ok(mouthbrooder.indexOf('stripped') < 4 && mouthbrooder.indexOf('released') < 4, mouthbrooder.join());
  });

  it('looks at the stage of the row\'s own time', () => {
    const at = (time: string): readonly string[] => offeredValues(log('K1,guppy,T1,2025-09-01', `${time},«»,\n`));
    assert.ok(at('2025-09-02').indexOf('fed') < at('2025-09-02').indexOf('sold'));
    assert.ok(at('2026-06-01').indexOf('sold') < at('2026-06-01').indexOf('fed'));
  });

  it('knows the clutch of a row of the common log, and offers all where none is known', () => {
    const texts = { 'clutches.csv': 'clutch,species,tank,spawned\nK1,guppy,T1,2026-06-09\n' };
    assert.ok(!offeredValues({ ...texts, 'log.csv': 'time,clutch,event\n2026-06-10,K1,«»\n' }).includes('hatched'));
    assert.ok(offeredValues({ ...texts, 'log.csv': 'time,clutch,event\n2026-06-10,,«»\n' }).includes('hatched'));
  });

  it('offers of a tank what is due there', () => {
    const routines = 'routine,action,about,off\nchange-water,Change the water,tank,no\n';
    const room = { 'tanks.csv': 'tank,room,use\nT1,R,breeding\n', 'routines.csv': routines };
    const texts = offeredTexts({ ...room, 'tanks/T1.csv': 'time,event,ph\n2026-05-21,water_change,\n2026-06-09,«»,7\n' });
    assert.equal(texts[0], 'water_change (overdue: Change the water)');
    assert.ok(texts.includes('tested'));
  });
});
