import assert from 'node:assert/strict';
import { problemsOf, roomOf } from '../../../support/room';

const species = ['species,care,hatch_h,free_swim_h,ref_temp_c,zero_temp_c,temp_min_c,temp_max_c', 'cave-fish,cave,72,240,26,16,24,28'];

describe('outside-model', () => {
  const says = 'At 19.0 °C cave-fish is outside what the forecast covers, so hatched is told for the usual temperature.';

  it('is told once of a clutch, with the reading', () => {
    const files = { 'species.csv': species, 'clutches.csv': ['clutch,species,tank,spawned', 'K1,cave-fish,A,2026-05-31T10:00'], 'tanks/A.csv': ['time,temp_c', '2026-05-31T12:00,19'] };
    assert.deepEqual(problemsOf(roomOf(files, '2026-06-01T10:00'), 'outside-model'), [{ at: 'clutches.csv: K1', says, related: ['tanks/A.csv: 19: The latest reading'] }]);
  });

  it('has no reading to point to where the tank is always like that', () => {
    const files = { 'species.csv': species, 'clutches.csv': ['clutch,species,tank,spawned', 'K1,cave-fish,A,2026-05-31T10:00'], 'tanks.csv': ['tank,room,temp_c', 'A,R,19'] };
    assert.deepEqual(problemsOf(roomOf(files, '2026-06-01T10:00'), 'outside-model'), [{ at: 'clutches.csv: K1', says, related: [] }]);
  });

  it('is told of the next milestone once the hatch is recorded', () => {
    const files = { 'species.csv': species, 'clutches.csv': ['clutch,species,tank,spawned,hatched', 'K1,cave-fish,A,2026-05-25,2026-05-28'], 'tanks/A.csv': ['time,temp_c', '2026-05-31T12:00,19'] };
    assert.deepEqual(problemsOf(roomOf(files, '2026-06-01T10:00'), 'outside-model').map(({ says }) => says), ['At 19.0 °C cave-fish is outside what the forecast covers, so free_swimming is told for the usual temperature.']);
  });

  it('is not told inside the range, of what is recorded, after the end, or without a developmental zero', () => {
    const clutches = ['clutch,species,tank,spawned,hatched,free_swimming,ended', 'K1,cave-fish,B,2026-05-31,,,', 'K2,cave-fish,A,2026-05-01,2026-05-05,2026-05-20,', 'K3,cave-fish,A,2026-05-29,,,2026-05-31', 'K4,kribensis,A,2026-05-31,,,'];
    const files = { 'species.csv': species, 'clutches.csv': clutches, 'tanks.csv': ['tank,room,temp_c', 'A,R,19', 'B,R,25'] };
    assert.deepEqual(problemsOf(roomOf(files, '2026-06-01T10:00'), 'outside-model'), []);
  });
});
