import assert from 'node:assert/strict';
import { foundFry, mayBeFound } from '../../../src/acts/foundFry';
import { linesAdded, refusalOf, textsAfter } from '../../support/acts';
import { roomOf } from '../../support/room';

const now = '2026-04-14T09:00:30';
const species = 'species,care,hatch_h,first_feed_h,free_swim_h,release_d,sale_d\nkrib,cave,72,150,240,,90\nmouth,mouthbrooder,,,,12,90\nlive,livebearer,,,,,90\n';
const clutches = 'clutch,species,tank,spawned,hatched,free_swimming,ended\nK1,krib,T1,2026-04-01T10:00,,,\nM1,mouth,T2,2026-04-01T10:00,,,\nL1,live,T3,2026-04-01,,,\nK2,krib,T4,2026-03-20,2026-03-23,,\n';
const files = { 'species.csv': species, 'clutches.csv': clutches, 'log.csv': 'time,clutch,event\n' };
const added = (clutch: string, what: 'wrigglers' | 'fry'): readonly string[] => linesAdded(files, now, { act: foundFry({ clutch, what }), path: 'log.csv' });

describe('foundFry', () => {
  it('writes moments as about: of fry the hatch that nobody saw as well, when it was to be expected', () => {
    assert.deepEqual(added('K1', 'wrigglers'), ['~2026-04-14T09:00,K1,hatched']);
    assert.deepEqual(added('K1', 'fry'), ['~2026-04-04T10:00,K1,hatched', '~2026-04-14T09:00,K1,free_swimming']);
    assert.deepEqual(added('K2', 'fry'), ['~2026-04-14T09:00,K2,free_swimming']);
    assert.deepEqual(added('M1', 'fry'), ['~2026-04-14T09:00,M1,released']);
    assert.deepEqual(linesAdded(files, now, { act: foundFry({ clutch: 'K1', what: 'wrigglers', time: '2026-04-13' }), path: 'log.csv' }), ['~2026-04-13,K1,hatched']);
  });

  it('writes into the register of a room that keeps no logs', () => {
    const without = Object.fromEntries(Object.entries(files).filter(([path]) => path !== 'log.csv'));
    assert.equal(textsAfter(without, now, foundFry({ clutch: 'K1', what: 'fry' }))['clutches.csv'], clutches.replace('T1,2026-04-01T10:00,,,', 'T1,2026-04-01T10:00,~2026-04-04T10:00,~2026-04-14T09:00,'));
    const made = textsAfter({ ...without, 'clutches/K2.csv': 'time,event\n' }, now, foundFry({ clutch: 'K1', what: 'wrigglers' }));
    assert.equal(made['clutches/K1.csv'], 'time,event\n~2026-04-14T09:00,hatched\n');
  });

  it('offers broods of which that is still to be found', () => {
    const names = (what: 'wrigglers' | 'fry'): readonly string[] => mayBeFound(what, roomOf(files, now)).map(({ clutch }) => clutch.clutch);
    assert.deepEqual([names('wrigglers'), names('fry')], [['K1'], ['K2', 'K1', 'M1']]);
  });

  it('refuses what was recorded, what comes alive, and what is not there', () => {
    assert.equal(refusalOf(files, now, foundFry({ clutch: 'K2', what: 'wrigglers' })), 'This is not to be done any more: it was recorded, or changed, meanwhile.');
    assert.equal(refusalOf(files, now, foundFry({ clutch: 'L1', what: 'fry' })), 'L1 is of a kind that has no such milestone.');
    assert.equal(refusalOf(files, now, foundFry({ clutch: 'K9', what: 'fry' })), 'K9 is no clutch whose fish are in the room.');
  });
});
