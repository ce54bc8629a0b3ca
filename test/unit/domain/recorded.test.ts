import assert from 'node:assert/strict';
import { formatMoment } from '../../../src/base/moment';
import { recordedMilestones } from '../../../src/domain/recorded';
import type { RecordedMoment } from '../../../src/domain/recorded';
import type { Care, ClutchRecord } from '../../../src/domain/things';
import { entriesOf } from '../../support/clutchLog';
import { berlin, moment } from '../../support/moments';

interface Written {
  readonly care?: Care;
  readonly log?: string;
  readonly now?: string;
  readonly hatched?: string;
  readonly free_swimming?: string;
  readonly ended?: string;
}

/** What is recorded of a clutch spawned on 1 March, `hatched 2026-03-04T10:00 log`, but its spawn. */
function recordsOf({ care = 'cave', log = '', now = '2026-06-01T12:00', hatched, free_swimming, ended }: Written): readonly string[] {
  const clutch: ClutchRecord = {
    clutch: 'K1',
    tank: 'A',
    spawned: moment('2026-03-01T10:00'),
    hatched: hatched === undefined ? undefined : moment(hatched),
    freeSwimming: free_swimming === undefined ? undefined : moment(free_swimming),
    ended: ended === undefined ? undefined : moment(ended),
  };
  const { evidence, ...recorded } = recordedMilestones(clutch, care, entriesOf(log), moment(now));
  const records = Object.entries(recorded as Record<string, RecordedMoment | undefined>).flatMap(([name, record]) =>
    record === undefined || name === 'spawned' ? [] : [`${name} ${formatMoment(record.time, berlin)} ${record.entry === undefined ? 'register' : 'log'}`],
  );
  return evidence === undefined ? records : [...records, `evidence ${evidence.event} ${formatMoment(evidence.time, berlin)}`];
}

describe('recordedMilestones', () => {
  it('are none where nothing is written', () => {
    assert.deepEqual(recordsOf({}), []);
  });

  it('come from the register', () => {
    assert.deepEqual(recordsOf({ hatched: '2026-03-04T10:00', free_swimming: '~2026-03-14', ended: '2026-05-01' }), [
      'hatched 2026-03-04T10:00 register',
      'freeSwimming ~2026-03-14 register',
      'ended 2026-05-01 register',
    ]);
  });

  it('come from the log', () => {
    assert.deepEqual(recordsOf({ log: '2026-03-04T10:00 hatched; 2026-03-10 first_feed; 2026-03-14T08:00 free_swimming; 2026-05-01 ended' }), [
      'hatched 2026-03-04T10:00 log',
      'firstFeed 2026-03-10 log',
      'freeSwimming 2026-03-14T08:00 log',
      'ended 2026-05-01 log',
      'evidence first_feed 2026-03-10',
    ]);
  });

  it('are the log’s where both have one', () => {
    assert.deepEqual(recordsOf({ hatched: '2026-03-04T10:00', ended: '2026-05-01', log: '2026-03-05T10:00 hatched; 2026-05-03 ended' }), [
      'hatched 2026-03-05T10:00 log',
      'ended 2026-05-03 log',
    ]);
  });

  it('are the first of several rows', () => {
    assert.deepEqual(recordsOf({ log: '2026-03-04T10:00 hatched; 2026-03-05 hatched; 2026-05-01 ended; 2026-05-02 ended' }), [
      'hatched 2026-03-04T10:00 log',
      'ended 2026-05-01 log',
    ]);
  });

  it('count from the register only once they are not later than now', () => {
    assert.deepEqual(recordsOf({ now: '2026-03-04T09:59', hatched: '2026-03-04T10:00', free_swimming: '2026-03-05', ended: '2026-03-04' }), ['ended 2026-03-04 register']);
  });

  it('take a joined row for the end', () => {
    assert.deepEqual(recordsOf({ log: '2026-04-01T10:00 joined; 2026-05-01 ended' }), ['ended 2026-04-01T10:00 log']);
  });

  it('leave a spawned row of the log alone', () => {
    assert.deepEqual(recordsOf({ log: '2026-02-27 spawned' }), []);
  });

  it('have the first row that shows fry as evidence', () => {
    assert.deepEqual(recordsOf({ log: '2026-03-02 checked; 2026-03-02 fungus A 4; 2026-03-05T09:00 lost A 2; 2026-03-06 fed' }), ['evidence lost 2026-03-05T09:00']);
  });

  for (const event of ['first_feed', 'fed', 'counted', 'measured', 'sold', 'kept', 'lost', 'culled']) {
    it(`have ${event} as evidence`, () => assert.deepEqual(recordsOf({ log: `2026-03-05 ${event}` }).at(-1), `evidence ${event} 2026-03-05`));
  }

  for (const event of ['checked', 'fungus', 'moved', 'treated', 'spawned']) {
    it(`don't have ${event} as evidence`, () => assert.deepEqual(recordsOf({ log: `2026-03-05 ${event}` }), []));
  }

  describe('of a mouthbrooder', () => {
    it('take free_swimming of the register as released', () => {
      assert.deepEqual(recordsOf({ care: 'mouthbrooder', free_swimming: '2026-03-25' }), ['freeSwimming 2026-03-25 register', 'released 2026-03-25 register']);
    });

    it('take free_swimming of the log as released', () => {
      assert.deepEqual(recordsOf({ care: 'mouthbrooder', log: '2026-03-25T08:00 free_swimming; 2026-03-26T08:00 released' }), [
        'freeSwimming 2026-03-25T08:00 log',
        'released 2026-03-25T08:00 log',
      ]);
    });

    it('let the log’s released hold before the register’s free_swimming', () => {
      assert.deepEqual(recordsOf({ care: 'mouthbrooder', free_swimming: '2026-03-20', log: '2026-03-26T08:00 released' }), [
        'freeSwimming 2026-03-20 register',
        'released 2026-03-26T08:00 log',
      ]);
    });

    it('have fed as evidence', () => {
      assert.deepEqual(recordsOf({ care: 'mouthbrooder', log: '2026-03-25 fed' }), ['evidence fed 2026-03-25']);
    });

    it('have no evidence once they were stripped', () => {
      assert.deepEqual(recordsOf({ care: 'mouthbrooder', log: '2026-03-15 fed; 2026-03-19T10:00 stripped A 24; 2026-03-20 counted A 24' }), ['stripped 2026-03-19T10:00 log']);
    });
  });

  it('keep the evidence of others that were stripped', () => {
    assert.deepEqual(recordsOf({ log: '2026-03-04 stripped; 2026-03-05 fed' }), ['stripped 2026-03-04 log', 'evidence fed 2026-03-05']);
  });
});
