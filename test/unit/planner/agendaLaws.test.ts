import assert from 'node:assert/strict';
import fc from 'fast-check';
import { textOf } from '../../../src/base/messages';
import { formatMoment, momentAt } from '../../../src/base/moment';
import { zoneOf } from '../../../src/base/zone';
import type { Zone } from '../../../src/base/zone';
import { Plan } from '../../../src/planner/plan';
import { moment } from '../../support/moments';
import { mended } from '../../support/plans';

const HOUR = 3_600_000;
const now = moment('2026-03-30T12:00').instant;
const zones = ['UTC', 'Pacific/Auckland', 'America/St_Johns', 'Europe/Berlin'] as const;
const species = ['caver', 'mouther', 'dropper', 'mopper'] as const;
const profiles = 'species,care,ref_temp_c,hatch_h,first_feed_h,free_swim_h,juvenile_d,sale_d,interval_d,release_d,strip_d,feeds_per_day\ncaver,cave,26,72,144,240,40,90,35,,,2\nmouther,mouthbrooder,26,,,,60,120,40,20,14,3\ndropper,livebearer,26,,,,30,90,30,,,2\nmopper,mop,26,240,24,96,40,90,14,,,\n';

/** A brood of a keeper who writes some things down: hours before now. */
interface Brood {
  readonly species: (typeof species)[number];
  readonly age: number;
  readonly isBare: boolean;
  readonly events: readonly (readonly [event: string, share: number])[];
}

const anyBrood: fc.Arbitrary<Brood> = fc.record({
  species: fc.constantFrom(...species),
  age: fc.integer({ min: 1, max: 24 * 150 }),
  isBare: fc.boolean(),
  events: fc.array(fc.tuple(fc.constantFrom('checked', 'hatched', 'first_feed', 'fed', 'free_swimming', 'counted', 'moved', 'sold', 'released', 'stripped', 'measured'), fc.double({ min: 0, max: 1, noNaN: true })), { maxLength: 4 }),
});
const anyRoom = fc.record({ zone: fc.constantFrom(...zones), broods: fc.array(anyBrood, { minLength: 1, maxLength: 6 }), ownLogs: fc.boolean() });
type AnyRoom = typeof anyRoom extends fc.Arbitrary<infer Room> ? Room : never;

function textsFor({ zone: name, broods, ownLogs }: AnyRoom): Record<string, string> {
  const zone = zoneOf(name) as Zone;
  const at = (hours: number): string => formatMoment(momentAt(now - hours * HOUR, zone), zone);
  const rows = broods.map(({ species: kind, age, isBare }, i) => `K${i},${kind},T${i},${isBare ? at(age).slice(0, 10) : at(age)},P${i},`);
  const logs = broods.map(({ age, events }, i) => events.map(([event, share]) => ({ id: `K${i}`, line: `${at(age * share)},${event},${event === 'counted' || event === 'sold' ? '20' : ''},${event === 'moved' ? `G${i}` : ''}` })));
  return {
    'fishroom.json': JSON.stringify({ timezone: name }),
    'species.csv': profiles,
    'pairs.csv': `pair,species,tank\n${broods.map(({ species: kind }, i) => `P${i},${kind},T${i}\n`).join('')}`,
    'clutches.csv': `clutch,species,tank,spawned,pair,ended\n${rows.map((row) => `${row}\n`).join('')}`,
    ...(ownLogs
      ? Object.fromEntries(logs.flatMap((lines, i) => (lines.length === 0 ? [] : [[`clutches/K${i}.csv`, `time,event,count,to_tank\n${lines.map(({ line }) => `${line}\n`).join('')}`]])))
      : { 'log.csv': `clutch,time,event,count,to_tank\n${logs.flat().map(({ id, line }) => `${id},${line}\n`).join('')}` }),
  };
}

function planOf(texts: Readonly<Record<string, string>>): Plan {
  const plan = new Plan({ machineZone: zoneOf('UTC') as Zone, now });
  plan.apply(Object.entries(texts).map(([path, text]) => ({ path, file: { text } })));
  return plan;
}

/** What is overdue, as clutch and routine. */
function overdueIn(plan: Plan): readonly string[] {
  return plan.due(0).filter(({ occurrence }) => occurrence.state === 'overdue').map(({ clutch, occurrence }) => `${clutch} ${occurrence.routine.routine}`);
}

/** The texts with a row more in the log of a brood, now. */
function withEvent(texts: Readonly<Record<string, string>>, id: string, zone: string, rest: string): Record<string, string> {
  const time = formatMoment(momentAt(now, zoneOf(zone) as Zone), zoneOf(zone) as Zone);
  if (texts['log.csv'] !== undefined) return { ...texts, 'log.csv': `${texts['log.csv']}${id},${time},${rest}\n` };
  const path = `clutches/${id}.csv`;
  return { ...texts, [path]: `${texts[path] ?? 'time,event,count,to_tank\n'}${time},${rest}\n` };
}

describe('what is overdue, by its laws', () => {
  const numRuns = 300;

  it('is one warning a clutch, that of its next action', () => {
    fc.assert(
      fc.property(anyRoom, (room) => {
        const plan = planOf(textsFor(room));
        const problems = plan.problems('clutches.csv').filter(({ code }) => code === 'overdue');
        const overdue = overdueIn(plan);
        assert.equal(problems.length, new Set(overdue.map((line) => line.split(' ')[0])).size);
        assert.equal(problems.reduce((sum, { related }) => sum + related.length + 1, 0), overdue.length);
        const rows = room.broods.map((_, i) => plan.explainCell('clutches.csv', i + 1, 'overdue')?.value);
        assert.equal(rows.reduce((sum, value) => sum + Number(value), 0), overdue.length);
      }),
      { numRuns },
    );
  });

  it('goes when it is recorded as the fix does, and leaves none of its routine', () => {
    let tried = 0;
    fc.assert(
      fc.property(anyRoom, (room) => {
        const plan = planOf(textsFor(room));
        for (const problem of plan.problems('clutches.csv').filter(({ code }) => code === 'overdue')) {
          const text = plan.records.file('clutches.csv')?.doc.text() ?? '';
          const id = text.slice(problem.span.start, problem.span.end);
          const action = String(problem.message.args[0]);
          for (const fix of problem.fixes.filter(({ title }) => title.code.startsWith('fix.record'))) {
            tried++;
            const after = planOf(mended(textsFor(room), fix));
            const same = after.due(0).filter(({ clutch, occurrence }) => clutch === id && occurrence.state === 'overdue' && occurrence.routine.action === action);
            assert.deepEqual(same.map(({ occurrence }) => occurrence.routine.routine), [], `${id}: ${textOf(fix.title)}`);
          }
        }
      }),
      { numRuns },
    );
    assert.ok(tried > numRuns / 2, `${tried} fixes`);
  });

  it('is never more because fry were found, counted or swim', () => {
    const impossible = (plan: Plan): number => plan.paths().reduce((sum, path) => sum + plan.problems(path).filter(({ code }) => code === 'event-impossible').length, 0);
    let tried = 0;
    fc.assert(
      fc.property(anyRoom, fc.constantFrom('counted,20,', 'hatched,,', 'free_swimming,,'), (room, event) => {
        const texts = textsFor(room);
        const plan = planOf(texts);
        const before = overdueIn(plan);
        room.broods.forEach((_, i) => {
          const later = planOf(withEvent(texts, `K${i}`, room.zone, event));
          // What can't be, such as a hatch behind the free swimming, is told as that; whatever follows from it may be overdue.
          if (impossible(later) > impossible(plan)) return;
          tried++;
          const after = overdueIn(later).filter((line) => line.startsWith(`K${i} `));
          assert.ok(after.length <= before.filter((line) => line.startsWith(`K${i} `)).length, `K${i}: ${before.join(', ')} became ${after.join(', ')}`);
        });
      }),
      { numRuns },
    );
    assert.ok(tried > 2 * numRuns, `${tried} broods`);
  });

  it('is nothing for a brood that has ended', () => {
    fc.assert(
      fc.property(anyRoom, (room) => {
        let texts = textsFor(room);
        room.broods.forEach((_, i) => (texts = withEvent(texts, `K${i}`, room.zone, 'ended,,')));
        assert.deepEqual(planOf(texts).due(400).filter(({ clutch }) => clutch !== ''), []);
      }),
      { numRuns },
    );
  });

  it('does not hang on the order of rows and files', () => {
    fc.assert(
      fc.property(
        anyRoom.chain((room) => fc.tuple(fc.constant(room), fc.shuffledSubarray(Object.keys(textsFor(room)), { minLength: Object.keys(textsFor(room)).length }), fc.shuffledSubarray(room.broods.map((_, i) => i), { minLength: room.broods.length }))),
        ([room, files, rows]) => {
          const texts = textsFor(room);
          const [header, ...lines] = (texts['clutches.csv'] as string).trimEnd().split('\n');
          const shuffled: Record<string, string> = { ...texts, 'clutches.csv': `${[header, ...rows.map((i) => lines[i])].join('\n')}\n` };
          const other = planOf(Object.fromEntries(files.map((path) => [path, shuffled[path] as string])));
          const seen = (plan: Plan): readonly string[] => plan.due(30).map(({ clutch, tank, occurrence }) => `${clutch} ${tank} ${occurrence.routine.routine} ${occurrence.state} ${occurrence.due.instant}`).sort();
          assert.deepEqual(seen(other), seen(planOf(texts)));
        },
      ),
      { numRuns: 150 },
    );
  });

  it('comes and goes at the moments that the plan names, with the clock', () => {
    fc.assert(
      fc.property(anyRoom, (room) => {
        const texts = textsFor(room);
        const kept = planOf(texts);
        for (let step = 0; step < 6; step++) {
          const turn = kept.nextChange;
          const before = new Plan({ machineZone: zoneOf('UTC') as Zone, now: turn - 1 });
          before.apply(Object.entries(texts).map(([path, text]) => ({ path, file: { text } })));
          assert.deepEqual(overdueIn(before), overdueIn(kept));
          kept.setNow(turn);
        }
      }),
      { numRuns: 100 },
    );
  });
});
