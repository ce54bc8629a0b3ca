import assert from 'node:assert/strict';
import { logTank, tankLogFields } from '../../../src/acts/logTank';
import { linesAdded, refusalOf, textsAfter } from '../../support/acts';
import { roomOf } from '../../support/room';

const now = '2026-05-01T09:00';
const files = { 'tanks.csv': 'tank,room,retired\nT1,R,\nT2,R,2026-01-01\n', 'readings.csv': 'time;tank;event;temp_f;ph;change_pct;note;nh3_mg_l\n2026-04-20 08:00;T1;water_change;;;40;;\n', 'clutches.csv': 'clutch,species,tank,spawned\n' };

describe('logTank', () => {
  it('writes readings in the units of the log, and asks for no others', () => {
    assert.deepEqual(tankLogFields({ tank: 'T1', event: 'tested' }, roomOf(files, now)).map(({ header }) => header), ['time', 'temp_f', 'ph']);
    assert.deepEqual(linesAdded(files, now, { act: logTank({ tank: 'T1', event: 'tested' }, { temp: '77', ph: '7.2' }), path: 'readings.csv' }), ['2026-05-01 09:00;T1;tested;77;7.2;;;']);
    assert.deepEqual(linesAdded(files, now, { act: logTank({ tank: 'T1', event: 'water_change' }, {}), path: 'readings.csv' }), ['2026-05-01 09:00;T1;water_change;;;40;;']);
  });

  it('adds a column for what was measured for the first time', () => {
    assert.equal(textsAfter(files, now, logTank({ tank: 'T1', event: 'tested' }, { no2_mg_l: '0' }))['readings.csv'], 'time;tank;event;temp_f;ph;no2_mg_l;change_pct;note;nh3_mg_l\n2026-04-20 08:00;T1;water_change;;;;40;;\n2026-05-01 09:00;T1;tested;;;0;;;\n');
  });

  it('refuses tanks that are not in use and values that can not be', () => {
    assert.equal(refusalOf(files, now, logTank({ tank: 'T2', event: 'tested' }, {})), 'T2 is no tank in use.');
    assert.equal(refusalOf(files, now, logTank({ tank: 'T7', event: 'tested' }, {})), 'T7 is no tank in use.');
    assert.match(refusalOf(files, now, logTank({ tank: 'T1', event: 'tested' }, { ph: '15' })), /15/);
  });
});
