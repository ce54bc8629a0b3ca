import assert from 'node:assert/strict';
import fc from 'fast-check';
import { memoriesIn } from '../../../src/planner/clutchMemory';
import { askAll } from '../../../src/planner/foundProblems';
import { clutchColumns } from '../../../src/planner/columns/registry';
import type { Plan } from '../../../src/planner/plan';
import { clutchRules, settledRules } from '../../../src/planner/rules/registry';
import type { SheetFile } from '../../../src/records/sheetFile';
import { textsOf } from '../../support/plans';
import { filledRoom, roomOf } from '../../support/room';
import { sampleRoom } from '../../support/samples';

const now = '2026-06-10T09:00';
const others = clutchRules.filter((rule) => !settledRules.includes(rule));

/** Looks at each brood that has ended and has no log in the long way; gives how many there are. */
function looked(plan: Plan): number {
  let count = 0;
  const register = plan.records.file('clutches.csv') as SheetFile;
  for (const memory of memoriesIn(register)) {
    const { study, timeline } = memory;
    assert.equal(memory.isSettled, timeline.ended !== undefined && study.entries.length === 0);
    if (!memory.isSettled) continue;
    count++;
    for (const column of clutchColumns) if (column.settled !== undefined) assert.equal(column.value(memory, plan.view), column.settled, `${column.header} of ${memory.clutch.clutch}`);
    register.header.computed.forEach(({ field, column }, i) => {
      const cell = clutchColumns.find(({ header }) => header === field.name)?.value(memory, plan.view);
      if (memory.row.wellFormed) assert.equal((register.staleOf(memory.row) >>> i) & 1, cell === register.cellText(memory.row, column) ? 0 : 1, `${field.name} of ${memory.clutch.clutch}`);
    });
    assert.deepEqual(memory.found, askAll(clutchRules, memory, plan.view));
    assert.deepEqual(memory.observations, study.observations);
    for (const rule of others) assert.deepEqual(rule(memory, plan.view), [], `${rule.name} of ${memory.clutch.clutch}`);
  }
  return count;
}

const word = (...words: readonly string[]): fc.Arbitrary<string> => fc.constantFrom(...words);
const time = word('', '2026-05-01', '2026-05-01T19:30', '~2026-05-04', '2026-05-12T06:00', '2026-04-02', '2026-06-10', '2026-06-10T12:00', '2026-06-11');
const brood = fc.tuple(
  word('P1', 'P1', 'P2', ''),
  word('T1', 'T2', ''),
  word('2026-05-01T19:30', '2026-05-02', '~2026-04-20T08:00', '2026-06-11'),
  word('', 'kribensis', 'convict-cichlid', 'yellow-lab', 'guppy', 'nobody'),
  word('', '0', '~200', '150'),
  time,
  time,
  time,
);

/** Some broods have a log, which must make them another case. */
const rooms = fc.tuple(fc.array(brood, { minLength: 1, maxLength: 12 }), fc.array(fc.tuple(fc.integer({ min: 0, max: 11 }), word('counted', 'measured', 'ended', 'sold')), { maxLength: 3 }));

describe('broods that have ended and have no log', () => {
  it('have the cells, problems and observations that the long way gives, and nothing is found by the rules that are not asked', () => {
    let count = 0;
    fc.assert(
      fc.property(rooms, ([broods, entries]) => {
        const files = {
          'tanks.csv': ['tank,temp_c', 'T1,36', 'T2,26'],
          'pairs.csv': ['pair,species,tank', 'P1,kribensis,T1', 'P2,convict-cichlid,T2'],
          'clutches.csv': ['clutch,pair,tank,spawned,species,eggs,hatched,free_swimming,ended', ...broods.map((cells, i) => [`C${i}`, ...cells].join(','))],
          'log.csv': ['clutch,time,event,count,length_mm', ...entries.map(([clutch, event]) => `C${clutch},2026-05-20,${event},12,15`)],
        };
        count += looked(roomOf(files, now));
        looked(roomOf(textsOf(filledRoom(files, now)), now));
      }),
      { numRuns: 300 },
    );
    assert.ok(count > 300, `${count} broods`);
  });

  it('are so in the samples', async () => {
    assert.ok(looked(await sampleRoom('three-rooms')) > 0);
    looked(await sampleRoom('messy'));
  });
});
