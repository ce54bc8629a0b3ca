import assert from 'node:assert/strict';
import fc from 'fast-check';
import { aliveOf, countHeads, survivalPct } from '../../../src/domain/headcount';
import type { Alive, HeadCount } from '../../../src/domain/headcount';
import type { ClutchEvent, LogEntry } from '../../../src/domain/things';
import { entriesOf } from '../../support/clutchLog';
import { moment } from '../../support/moments';

/** `A 30 · B ~20 · C ?`, then what was sold and kept, then the faults; the brood begins in tank A. */
function outcomeOf(log: string): string {
  const heads = countHeads('A', entriesOf(log));
  const stands = [...heads.stands].map(([tank, { count, estimate }]) => `${tank} ${estimate ? '~' : ''}${count ?? '?'}`);
  const faults = heads.faults.map(({ kind, tank, there }) => [kind, tank, there].filter((part) => part !== undefined).join(' '));
  const gone = [heads.sold === 0 ? '' : `sold ${heads.sold}`, heads.kept === 0 ? '' : `kept ${heads.kept}`];
  return [stands.join(' · ') || 'nowhere', ...gone, ...faults].filter((part) => part !== '').join('; ');
}

function aliveText({ count, estimate }: Alive): string {
  return `${estimate ? '~' : ''}${count ?? '?'}`;
}

describe('head count', () => {
  const cases: readonly (readonly [behaviour: string, log: string, outcome: string])[] = [
    // where it begins
    ['begins in the register tank with an unknown count', '', 'A ?'],
    ['takes no notice of rows that are not about heads', 'checked; hatched; fed; fungus A 12; treated; measured; first_feed; free_swimming; ended', 'A ?'],
    // counted
    ['counted sets the count of its tank', 'counted A 30', 'A 30'],
    ['counted without a tank sets the one it stands in', 'counted - 30', 'A 30'],
    ['counted again replaces the count', 'counted A 30; counted A 28', 'A 28'],
    ['counted in another tank makes it stand there too', 'counted A 30; counted B 5', 'A 30 · B 5'],
    ['counted at 0: the tank is stood in no more', 'counted A 0', 'nowhere'],
    ['counted as about 0: the tank is stood in no more', 'counted A ~0', 'nowhere'],
    ['counted again keeps the order of arrival', 'counted A 30; counted B 5; counted A 20', 'A 20 · B 5'],
    ['counted anew after 0 is a new arrival', 'counted B 5; counted A 0; counted A 3', 'B 5 · A 3'],
    ['counted makes an estimate exact again', 'counted A ~30; counted A 28', 'A 28'],
    ['counted as about is an estimate', 'counted A ~30', 'A ~30'],
    ['counted without a count is told and counts for nothing', 'counted A 30; counted A', 'A 30; count-missing'],
    ['counted without a tank where it stands in several is told and counts for nothing', 'counted A 30; counted B 5; counted - 9', 'A 30 · B 5; tank-missing'],
    ['counted without a tank where it stands in none is told and counts for nothing', 'counted A 0; counted - 9', 'nowhere; tank-missing'],
    // lost, culled, sold, kept
    ['lost takes from a tank', 'counted A 30; lost A 4', 'A 26'],
    ['culled takes from a tank', 'counted A 30; culled A 4', 'A 26'],
    ['sold takes from a tank and counts as sold', 'counted A 30; sold A 4', 'A 26; sold 4'],
    ['kept takes from a tank and counts as kept', 'counted A 30; kept A 4', 'A 26; kept 4'],
    ['without a tank they act on the one it stands in', 'counted A 30; lost - 4; sold - 6', 'A 20; sold 6'],
    ['taking all: the tank is stood in no more', 'counted A 30; counted B 5; sold A 30', 'B 5; sold 30'],
    ['taking from an unknown count leaves it unknown', 'lost A 4; sold A 6', 'A ?; sold 6'],
    ['an about count taken makes the tank an estimate', 'counted A 30; lost A ~4', 'A ~26'],
    ['a count of 0 takes nothing', 'counted A 30; lost A 0', 'A 30'],
    ['without a count they are told and count for nothing', 'counted A 30; lost A; sold A', 'A 30; count-missing; count-missing'],
    // several tanks
    ['in several tanks, a row without a tank acts on the fullest and makes it an estimate', 'counted A 30; counted B 50; lost - 4', 'A 30 · B ~46'],
    ['in a tie the first of the tanks is meant', 'counted A 30; counted B 30; culled - 4', 'A ~26 · B 30'],
    ['only tanks with a known count can be the fullest', 'counted B 5; sold - 2', 'A ? · B ~3; sold 2'],
    ['in several tanks of which none is counted, nothing is taken', 'counted B ~5; lost B 6; lost - 2', 'A ? · B ?'],
    ['in several tanks of which none is counted, sold still counts as sold', 'counted B ~5; lost B 6; sold - 2', 'A ? · B ?; sold 2'],
    // taking more than there is
    ['taking more than there is leaves 0 and is told', 'counted A 30; lost A 31', 'nowhere; count-impossible A 30'],
    ['no more is sold than there was', 'counted A 30; sold A 40', 'nowhere; sold 30; count-impossible A 30'],
    ['no more is kept than there was', 'counted A 30; kept A 40', 'nowhere; kept 30; count-impossible A 30'],
    ['no more is moved than there was', 'counted A 30; moved A 40 B', 'B 30; count-impossible A 30'],
    ['taking more than an estimate leaves the tank unknown', 'counted A ~30; lost A 31', 'A ?'],
    ['more than an estimate may be sold', 'counted A ~30; sold A 40', 'A ?; sold 40'],
    ['more than an estimate may be moved', 'counted A ~30; moved A 40 B', 'A ? · B 40'],
    ['a guessed tank is an estimate already when more is taken than it holds', 'counted A 30; counted B 20; lost - 35', 'A ? · B 20'],
    ['an about count from an exact one is more than there is all the same', 'counted A 30; lost A ~31', 'nowhere; count-impossible A 30'],
    // moved
    ['moved takes its count to the other tank, known there', 'counted A 30; moved A 10 B', 'A 20 · B 10'],
    ['moved from an unknown count is known where it goes', 'moved A 10 B', 'A ? · B 10'],
    ['moved into a counted tank adds', 'counted A 30; counted B 5; moved A 10 B', 'A 20 · B 15'],
    ['moved into an uncounted tank leaves it unknown', 'counted B 30; moved B 10 A', 'A ? · B 20'],
    ['moved without a count takes all', 'counted A 30; moved A - B', 'B 30'],
    ['moved without a count and uncounted is uncounted where it goes', 'moved A - B', 'B ?'],
    ['moved without a count keeps an estimate one', 'counted A ~30; moved A - B', 'B ~30'],
    ['moved without a tank takes from the one it stands in', 'counted A 30; moved - 10 B', 'A 20 · B 10'],
    ['moved with all of its count leaves the tank', 'counted A 30; moved A 30 B', 'B 30'],
    ['moved with an about count makes both tanks estimates', 'counted A 30; moved A ~10 B', 'A ~20 · B ~10'],
    ['moved from an estimate with an exact count is exact where it goes', 'counted A ~30; moved A 10 B', 'A ~20 · B 10'],
    ['moved into an estimate stays an estimate', 'counted A 30; counted B ~5; moved A 10 B', 'A 20 · B ~15'],
    ['moved without a tank where it stands in several is told and counts for nothing', 'counted A 30; counted B 5; moved - 10 C', 'A 30 · B 5; tank-missing'],
    ['moved to nowhere is told and counts for nothing', 'counted A 30; moved A 10', 'A 30; target-missing'],
    ['moved into the same tank changes nothing', 'counted A 30; moved A 10 A', 'A 30'],
    ['moved back and forth is an arrival each time', 'counted A 30; moved A 10 B; moved A - C; moved B - A', 'C 20 · A 10'],
    // stripped
    ['stripped with a count is counted in the same tank', 'stripped A 24', 'A 24'],
    ['stripped with a count is counted where it goes', 'stripped A 24 B', 'B 24'],
    ['stripped without a count is uncounted where it goes', 'stripped A - B', 'B ?'],
    ['stripped without a count keeps what is known', 'counted A 20; stripped A - B', 'B 20'],
    ['stripped into a tank already stood in adds', 'counted B 5; stripped A 24 B', 'B 29'],
    ['stripped with its count replaces what was taken for it', 'counted A 20; stripped A 24 B', 'B 24'],
    ['stripped without a tank where it stands in several is told and counts for nothing', 'counted B 5; stripped - 24 C', 'A ? · B 5; tank-missing'],
    ['stripped and none in the mouth: stood in no more', 'stripped A 0 B', 'nowhere'],
    // a tank not stood in
    ['a row about a tank that it does not stand in is told and counts for nothing', 'counted A 30; lost B 4', 'A 30; not-there B'],
    ['moved from a tank that it does not stand in is told and counts for nothing', 'counted A 30; moved B 4 C', 'A 30; not-there B'],
    ['stripped in a tank that it does not stand in is told and counts for nothing', 'stripped B 4 C', 'A ?; not-there B'],
    ['a row without a tank where it stands in none is told', 'counted A 0; lost - 4; moved - 4 B; stripped - 4', 'nowhere; not-there; not-there; not-there'],
    ['sold from a wrong tank counts as sold while nothing is counted', 'sold B 4; kept B 2', 'A ?; sold 4; kept 2; not-there B; not-there B'],
    ['sold from a wrong tank counts for nothing once a tank is counted', 'counted A 30; sold B 4; kept B 2', 'A 30; not-there B; not-there B'],
    ['sold where it stands in none counts for nothing', 'counted A 30; sold A 30; sold A 4; kept - 2', 'nowhere; sold 30; not-there A; not-there'],
    // joined
    ['joined sets 0', 'counted A 30; counted B 5; joined', 'nowhere'],
    ['joined sets 0 where nothing was counted', 'joined', 'nowhere'],
    ['ended changes no count', 'counted A 30; ended', 'A 30'],
  ];
  for (const [behaviour, log, outcome] of cases) {
    it(behaviour, () => assert.deepEqual(outcomeOf(log), outcome));
  }
});

describe('alive', () => {
  const cases: readonly (readonly [behaviour: string, log: string, alive: string])[] = [
    ['is not known before a count', '', '?'],
    ['is the sum over the tanks', 'counted A 30; counted B 5', '35'],
    ['is not known while one tank is uncounted', 'counted B 5', '?'],
    ['is an estimate while one tank is', 'counted A 30; counted B ~5', '~35'],
    ['is no estimate where it is not known', 'counted B ~5', '?'],
    ['is 0 where it stands in no tank', 'counted A ~0', '0'],
    ['is exact again when the estimated tank is gone', 'counted A 30; counted B ~5; counted B 0', '30'],
  ];
  for (const [behaviour, log, alive] of cases) {
    it(behaviour, () => assert.deepEqual(aliveText(aliveOf(countHeads('A', entriesOf(log)).stands)), alive));
  }

  it('is told after each row', () => {
    const told: string[] = [];
    countHeads('A', entriesOf('counted A 30; fed; lost A 4; moved A ~6 B; joined'), (alive, index) => told.push(`${index}: ${aliveText(alive)}`));
    assert.deepEqual(told, ['0: 30', '1: 30', '2: 26', '3: ~26', '4: 0']);
  });
});

describe('survivalPct', () => {
  const cases: readonly (readonly [behaviour: string, eggs: string, log: string, survival: number | undefined])[] = [
    ['is not known before a count', '100', '', undefined],
    ['is what lives, over the eggs', '100', 'counted A 30', 30],
    ['counts sold and kept as survived', '100', 'counted A 30; sold A 10; kept A 5; lost A 1', 29],
    ['takes estimated eggs and estimated fish as they are', '~50', 'counted A ~30', 60],
    ['is not known where there were no eggs', '0', 'counted A 30', undefined],
    ['without eggs goes from the first count', '', 'counted A 40; lost A 10', 75],
    ['without eggs counts what was sold and kept before the first count', '', 'sold A 4; kept A 6; counted A 40; lost A 10', 80],
    ['without eggs goes from the moment at which all tanks were counted', '', 'moved A 10 B; counted A 40; lost A 10', 80],
    ['is not known again when a tank is', '100', 'counted A ~30; lost A 31', undefined],
    ['is 0 when all are lost', '100', 'counted A 30; lost A 30', 0],
    ['without eggs is not known where the first count is 0', '', 'counted A 0', undefined],
    ['goes above 100 where more fish came than eggs', '10', 'counted A 30', 300],
  ];
  for (const [behaviour, eggs, log, survival] of cases) {
    it(behaviour, () => {
      const recorded = eggs === '' ? undefined : { value: Number(eggs.replace('~', '')), about: eggs.startsWith('~') };
      assert.deepEqual(survivalPct(countHeads('A', entriesOf(log)), recorded), survival);
    });
  }
});

describe('moves that take all', () => {
  const cases: readonly (readonly [behaviour: string, log: string, moves: readonly string[]])[] = [
    ['are those of moved without a count', 'moved A - B', ['A → B']],
    ['are those of stripped into another tank', 'stripped A 24 B', ['A → B']],
    ['are those of moved with all that there are', 'counted A 30; moved A 30 B', ['A → B']],
    ['are not those that leave some', 'counted A 30; moved A 29 B', []],
    ['are not those of stripped into the same tank', 'stripped A 24', []],
    ['are not those that count for nothing', 'moved B - C; moved A -', []],
  ];
  for (const [behaviour, log, moves] of cases) {
    it(behaviour, () => assert.deepEqual(countHeads('A', entriesOf(log)).wholeMoves.map(({ from, to }) => `${from} → ${to}`), moves));
  }
});

/** What the brood has come to, where all of it is counted: alive, sold and kept. */
function total({ stands, sold, kept }: HeadCount): number | undefined {
  const { count } = aliveOf(stands);
  return count === undefined ? undefined : count + sold + kept;
}

describe('head count of any log', () => {
  const tank = fc.constantFrom('A', 'B', 'C', undefined);
  const event = fc.constantFrom<ClutchEvent>('counted', 'lost', 'culled', 'sold', 'kept', 'moved', 'stripped', 'joined', 'fed', 'ended');
  const count = fc.option(fc.record({ value: fc.nat({ max: 60 }), about: fc.boolean() }), { nil: undefined, freq: 6 });
  const time = moment('2026-03-01T12:00');
  const anyEntry: fc.Arbitrary<LogEntry> = fc.record({ time: fc.constant(time), event, tank, count, toTank: tank, row: fc.constant({}) });
  const anyLog = fc.array(anyEntry, { maxLength: 25 });

  it('never falls below 0, and no tank at 0 is stood in', () => {
    fc.assert(
      fc.property(anyLog, (log) => {
        const alive: number[] = [];
        const { stands, sold, kept } = countHeads('A', log, ({ count }) => alive.push(count ?? 0));
        assert.deepEqual([...alive, sold, kept].filter((count) => count < 0), []);
        assert.deepEqual([...stands.values()].filter(({ count }) => count !== undefined && count <= 0), []);
      }),
      { numRuns: 2000 },
    );
  });

  it('is the same after a move as before, where it is known', () => {
    fc.assert(
      fc.property(anyLog, anyEntry, (log, entry) => {
        const before = countHeads('A', log);
        const after = countHeads('A', [...log, { ...entry, event: 'moved' }]);
        if (total(before) !== undefined && total(after) !== undefined) assert.deepEqual(total(after), total(before));
        // Only a tank that was an estimate, or wasn't counted, may hide what is alive after a move.
        if (total(before) !== undefined && total(after) === undefined) assert.ok([...before.stands.values()].some(({ estimate }) => estimate));
      }),
      { numRuns: 2000 },
    );
  });

  it('passes what is sold or kept from the living, where all are counted', () => {
    fc.assert(
      fc.property(anyLog, anyEntry, fc.constantFrom<ClutchEvent>('sold', 'kept'), (log, entry, event) => {
        const before = countHeads('A', log);
        const after = countHeads('A', [...log, { ...entry, event }]);
        if (total(before) !== undefined && total(after) !== undefined) assert.deepEqual(total(after), total(before));
      }),
      { numRuns: 2000 },
    );
  });

  it('changes by a row at most the tanks that the row or the count names', () => {
    fc.assert(
      fc.property(anyLog, anyEntry, (log, entry) => {
        fc.pre(entry.event !== 'joined' && entry.tank !== undefined);
        const before = countHeads('A', log).stands;
        const after = countHeads('A', [...log, entry]).stands;
        const others = ['A', 'B', 'C'].filter((name) => name !== entry.tank && name !== entry.toTank);
        assert.deepEqual(others.map((name) => after.get(name)), others.map((name) => before.get(name)));
      }),
      { numRuns: 2000 },
    );
  });
});
