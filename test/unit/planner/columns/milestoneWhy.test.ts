import assert from 'node:assert/strict';
import { roomOf, why } from '../../../support/room';
import type { RoomFiles } from '../../../support/room';

const species = ['species,care,hatch_h,free_swim_h,juvenile_d,ref_temp_c,zero_temp_c,temp_min_c,temp_max_c', 'cave-fish,cave,72,240,40,26,16,24,28'];
const clutches = ['clutch,species,tank,spawned', 'K1,cave-fish,A,2026-03-01T10:00'];

function hatchInputs(files: RoomFiles): readonly string[] {
  const { inputs, notes } = why(roomOf({ 'species.csv': species, 'clutches.csv': clutches, ...files }, '2026-03-02T10:00'), 'clutches.csv', 'K1', 'hatch_expected');
  return [...inputs.slice(1), ...notes];
}

describe('the explanation of an expected milestone', () => {
  const nothingLearned = 'Nothing learned yet from this pair. With 80 % it falls within the window.';

  it('tells the mean of the readings and points to the last of them', () => {
    assert.deepEqual(hatchInputs({ 'tanks/A.csv': ['time,temp_c', '2026-03-01T12:00,25', '2026-03-01T20:00,24'] }), ['temperature in A, mean of 2 readings: 24.5 °C <tanks/A.csv: 24>', nothingLearned]);
  });

  it('tells the latest reading before', () => {
    assert.deepEqual(hatchInputs({ 'tanks/A.csv': ['time,temp_c', '2026-02-27T12:00,25'] }), ['temperature in A, the latest reading before: 25.0 °C <tanks/A.csv: 25>', nothingLearned]);
  });

  it('tells the usual temperature of the tank', () => {
    assert.deepEqual(hatchInputs({ 'tanks.csv': ['tank,room,temp_c', 'A,R,25.5'] }), ['usual temperature of A: 25.5 °C <tanks.csv: 25.5>', nothingLearned]);
  });

  it('tells that nothing but the species’ temperature is known', () => {
    assert.deepEqual(hatchInputs({}), ['temperature in A: no reading, so that of the species: 26.0 °C', nothingLearned]);
  });

  it('tells that the temperature is outside what is covered', () => {
    assert.deepEqual(hatchInputs({ 'tanks/A.csv': ['time,temp_c', '2026-03-01T12:00,19'] }), [
      'temperature in A, mean of 1 readings: 19.0 °C <tanks/A.csv: 19>',
      'The temperature is outside what the forecast covers, so the usual time is taken as it is.',
      nothingLearned,
    ]);
  });

  it('tells what was seen and when', () => {
    assert.deepEqual(hatchInputs({ 'log.csv': ['clutch,time,event', 'K1,2026-03-02T09:00,fed'] }).slice(1), ['The records show that it was no later than 2026-03-02T09:00.', nothingLearned]);
  });

  it('counts from an expected milestone where none is recorded, and has no window where nothing can be learned', () => {
    const files = { 'species.csv': species, 'clutches.csv': clutches, 'log.csv': ['clutch,time,event', 'K1,2026-03-05T09:00,fed'] };
    const { formula, inputs, notes, window } = why(roomOf(files, '2026-05-01T10:00'), 'clutches.csv', 'K1', 'stage');
    assert.deepEqual([formula, ...inputs, ...notes, window], [
      'Nothing later is on record, and juvenile was expected on 2026-04-13T11:00, so the stage is taken to be juvenile.',
      'expected hatched of K1: 2026-03-04T10:00',
      'No window: how much this differs from brood to brood is not known.',
      '2026-04-13T11:00 to 2026-04-13T11:00, 2026-04-13T11:00 expected, from 0',
    ]);
  });
});
