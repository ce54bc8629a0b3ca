import assert from 'node:assert/strict';
import { problemsOf, roomOf } from '../../../support/room';
import type { RoomFiles } from '../../../support/room';

const files: RoomFiles = {
  'species.csv': ['species,care,hatch_h,free_swim_h,release_d,interval_d', 'cave-fish,cave,72,240,,30', 'mouth-fish,mouthbrooder,,,20,', 'live-fish,livebearer,,,,'],
  'tanks.csv': ['tank,room', 'A,R', 'B,R', 'C,Q'],
};

function clashes(jobs: readonly string[], more: RoomFiles): ReturnType<typeof problemsOf> {
  return problemsOf(roomOf({ ...files, 'maintenance.csv': ['job,what,tanks,room,from,to', ...jobs], ...more }, '2026-06-01T10:00'), 'maintenance-clash');
}

describe('maintenance-clash', () => {
  const eggs = { 'clutches.csv': ['clutch,species,tank,spawned', 'K1,cave-fish,A,2026-05-31T10:00'] };

  it('is told of work on a tank with eggs', () => {
    assert.deepEqual(clashes(['J1,scrub,A,,2026-06-02,2026-06-02'], eggs), [
      { at: 'maintenance.csv: J1', says: 'This work falls on eggs, wrigglers or an expected spawn in 1 places.', related: ['clutches.csv: K1: Clutch K1 in A is eggs or wrigglers then'] },
    ]);
  });

  it('is told until the brood swims free', () => {
    // Expected to hatch on 3 June at ten and to swim on the 13th.
    const told = clashes(['J1,scrub,A,,2026-06-12,2026-06-12', 'J2,scrub,A,,2026-06-13,2026-06-14', 'J3,scrub,A,,2026-06-14,2026-06-20'], eggs);
    assert.deepEqual(told.map(({ at }) => at), ['maintenance.csv: J1', 'maintenance.csv: J2']);
  });

  it('is told where the work goes on beyond, and of a whole room', () => {
    const told = clashes(['J1,paint,,R,2026-06-02,2026-06-30', 'J2,paint,,Q,2026-06-02,2026-06-30', 'J3,scrub,B C,,2026-06-02,2026-06-03'], eggs);
    assert.deepEqual(told.map(({ at }) => at), ['maintenance.csv: J1']);
  });

  it('is told once a job, with all that it falls on', () => {
    const told = clashes(['J1,scrub,A B,R,2026-06-02,2026-06-02'], { 'clutches.csv': ['clutch,species,tank,spawned', 'K1,cave-fish,A,2026-05-31T10:00', 'K2,cave-fish,B,2026-05-31T10:00'] });
    assert.deepEqual(told.map(({ says, related }) => [says, related.length]), [['This work falls on eggs, wrigglers or an expected spawn in 2 places.', 2]]);
  });

  it('is told of a pair that is expected to spawn then', () => {
    // 30 days after 10 May: 9 June.
    const pair = { 'pairs.csv': ['pair,species,tank', 'P1,cave-fish,C'], 'clutches.csv': ['clutch,pair,tank,spawned,ended', 'K1,P1,A,2026-05-10,2026-05-11'] };
    const told = clashes(['J1,scrub,C,,2026-06-08,2026-06-09', 'J2,scrub,C,,2026-06-10,2026-06-12', 'J3,scrub,C,,2026-06-02,2026-06-08'], pair);
    assert.deepEqual(told.map(({ at, related }) => [at, ...related]), [['maintenance.csv: J1', 'pairs.csv: P1: Pair P1 in C is expected to spawn around 2026-06-09']]);
  });

  it('is told of a mouthbrooder that is holding', () => {
    const told = clashes(['J1,scrub,A,,2026-06-02,2026-06-02'], { 'clutches.csv': ['clutch,species,tank,spawned', 'M1,mouth-fish,A,2026-05-20'] });
    assert.deepEqual(told.length, 1);
  });

  it('is not told of fry, of broods that have ended or moved on, and of eggs that nobody knows of', () => {
    const told = clashes(['J1,scrub,A,,2026-06-02,2026-06-02'], {
      'clutches.csv': ['clutch,species,tank,spawned,free_swimming,ended', 'K1,cave-fish,A,2026-05-01,2026-05-15,', 'K2,cave-fish,A,2026-05-31,,2026-06-01', 'K3,cave-fish,A,2026-05-31,,', 'K4,cave-fish,A,2026-05-23,,', 'L1,live-fish,A,2026-05-31,,'],
      'log.csv': ['clutch,time,event,to_tank', 'K3,2026-05-31,moved,C'],
    });
    assert.deepEqual(told, []);
  });

  it('is told of eggs of a species without usual times', () => {
    const told = clashes(['J1,scrub,A,,2026-06-02,2026-06-02'], { 'species.csv': ['species,care', 'cave-fish,cave'], ...eggs });
    assert.deepEqual(told.length, 1);
  });

  it('is not told of work that is over, or without its days', () => {
    assert.deepEqual(clashes(['J1,scrub,A,,2026-05-31,2026-05-31', 'J2,scrub,A,,,2026-06-02'], eggs), []);
  });

  it('is not told where the keeper knows', () => {
    const room = roomOf({ ...files, ...eggs, 'maintenance.csv': ['job,what,tanks,room,from,to,accept', 'J1,scrub,A,,2026-06-02,2026-06-02,maintenance-clash'] }, '2026-06-01T10:00');
    assert.deepEqual(problemsOf(room, 'maintenance-clash'), []);
  });
});
