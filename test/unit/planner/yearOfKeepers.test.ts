import assert from 'node:assert/strict';
import { formatDay, formatMoment, momentAt } from '../../../src/base/moment';
import { dayMs } from '../../../src/base/zone';
import { Plan } from '../../../src/planner/plan';
import { berlin, moment } from '../../support/moments';

/** How a keeper writes things down. */
interface Keeper {
  readonly name: string;
  /** Which events reach the log; `counted` when the fry are moved is `counted-out`. */
  readonly logs: (event: string, random: () => number) => boolean;
  /** After how many days of being asked a brood that is gone is written down as such; undefined: never. */
  readonly answersAfter: number | undefined;
}

const EVERYTHING = 'logs everything';
const SOME = 'logs spawns, moves, some counts and sales';
const SPAWNS = 'logs nothing but spawns';
const some: Keeper['logs'] = (event, random) => event === 'moved' || event === 'sold' || event === 'counted-out' || (event === 'counted' && random() < 0.5);

const keepers: readonly Keeper[] = [
  { name: EVERYTHING, logs: () => true, answersAfter: undefined },
  { name: SOME, logs: some, answersAfter: 7 },
  { name: `${SOME}, and never answers`, logs: some, answersAfter: undefined },
  { name: `${SOME}, none of them at the move, and never answers`, logs: (event, random) => event !== 'counted-out' && some(event, random), answersAfter: undefined },
  { name: SPAWNS, logs: () => false, answersAfter: undefined },
];

interface Happening {
  readonly day: number;
  readonly line: string;
}

const DAYS = 365;
const HOUR = 3_600_000;
const start = moment('2025-06-01T00:00').instant;

/** What happens in a year to the broods of twelve pairs, and what of it a keeper writes. Seeded: every keeper has the same year. */
function yearOf(keeper: Keeper): { readonly clutches: readonly Happening[]; readonly log: readonly Happening[]; readonly eaten: ReadonlySet<string> } {
  const truth = randomFrom(7);
  const habit = randomFrom(11);
  const clutches: Happening[] = [];
  const log: Happening[] = [];
  const eaten = new Set<string>();
  for (let pair = 1; pair <= 12; pair++) {
    for (let day = Math.floor(truth() * 35), brood = 1; day < DAYS; day += 28 + Math.floor(truth() * 16), brood++) {
      const id = `K${pair}-${brood}`;
      const spawned = start + day * dayMs + (8 + Math.floor(truth() * 12)) * HOUR;
      const at = (hours: number): number => spawned + hours * HOUR;
      const write = (hours: number, event: string, rest = ',,'): void => {
        if (!keeper.logs(event, habit)) return;
        const time = momentAt(at(hours), berlin);
        log.push({ day: Math.floor((time.instant - start) / dayMs), line: `${id},${formatMoment(time, berlin)},${event.replace('-out', '')},${rest}` });
      };
      clutches.push({ day, line: `${id},P${pair},T${pair},${formatMoment(momentAt(spawned, berlin), berlin)}` });
      write(24, 'checked');
      write(48, 'checked');
      // One brood in four is eaten as eggs; most keepers never write that down.
      if (truth() < 0.25) {
        write(60, 'ended');
        eaten.add(id);
        continue;
      }
      write(70 + truth() * 6, 'hatched');
      write(210 + truth() * 12, 'first_feed');
      write(306 + truth() * 12, 'free_swimming');
      write(26 * 24, 'counted-out', `T${pair},60,`);
      write(26 * 24 + 1, 'moved', `T${pair},,G${pair}`);
      for (const age of [50, 77]) write(age * 24, 'counted', `G${pair},55,`);
      write(95 * 24, 'sold', `G${pair},20,`);
      write(110 * 24, 'counted', `G${pair},35,`);
      write(110 * 24 + 1, 'sold', `G${pair},35,`);
      write(110 * 24 + 2, 'ended');
    }
  }
  return { clutches: clutches.sort(byDay), log: log.sort(byDay), eaten };
}

function byDay(a: Happening, b: Happening): number {
  return a.day - b.day;
}

/** A small generator of the linear congruential kind: Numerical Recipes, 3rd ed., the quick one (from memory). */
function randomFrom(seed: number): () => number {
  let state = seed;
  return () => (state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0) / 2 ** 32;
}

const sheets = {
  'species.csv': 'species,care,ref_temp_c,hatch_h,first_feed_h,free_swim_h,juvenile_d,sale_d,interval_d,feeds_per_day\ncaver,cave,26,72,144,240,40,90,35,2\n',
  'pairs.csv': `pair,species,tank\n${Array.from({ length: 12 }, (_, i) => `P${i + 1},caver,T${i + 1}\n`).join('')}`,
};

interface Year {
  /** Of all days the mean of warnings for each open clutch. */
  readonly perClutch: number;
  readonly most: number;
  /** For each clutch the days on which it was asked for the hatch. */
  readonly asked: ReadonlyMap<string, readonly number[]>;
  readonly broods: number;
}

function live(keeper: Keeper): Year {
  const { clutches, log, eaten } = yearOf(keeper);
  const plan = new Plan({ machineZone: berlin, now: start });
  const texts = { 'clutches.csv': 'clutch,pair,tank,spawned\n', 'log.csv': 'clutch,time,event,tank,count,to_tank\n', ...sheets };
  plan.apply(Object.entries(texts).map(([path, text]) => ({ path, file: { text } })));
  const lengths = { 'clutches.csv': texts['clutches.csv'].length, 'log.csv': texts['log.csv'].length };
  const append = (path: 'clutches.csv' | 'log.csv', lines: readonly string[]): void => {
    if (lines.length === 0) return;
    const text = lines.map((line) => `${line}\n`).join('');
    plan.apply([{ path, edits: [{ start: lengths[path], end: lengths[path], text }] }]);
    lengths[path] += text.length;
  };
  const asked = new Map<string, number[]>();
  const answers: string[] = [];
  let [sum, days, most] = [0, 0, 0];
  for (let day = 0; day < DAYS; day++) {
    append('clutches.csv', clutches.filter((one) => one.day === day).map(({ line }) => line));
    append('log.csv', log.filter((one) => one.day === day).map(({ line }) => line));
    plan.setNow(start + day * dayMs + 22 * HOUR);
    const overdue = plan.problems('clutches.csv').filter(({ code }) => code === 'overdue');
    const text = plan.records.file('clutches.csv')?.doc.text() ?? '';
    const ids = clutches.filter((one) => one.day <= day).map(({ line }) => line.split(',')[0] as string);
    const open = ids.filter((id) => plan.explainCell('clutches.csv', (plan.placesOf(id)[0] as { record: number }).record, 'stage')?.value !== 'ended').length;
    for (const { span, message } of overdue) {
      const id = text.slice(span.start, span.end);
      if (!String(message.args[0]).startsWith('Hatched')) continue;
      const before = asked.get(id);
      if (before === undefined) asked.set(id, [day]);
      else before.push(day);
      if (eaten.has(id) && asked.get(id)?.length === keeper.answersAfter) answers.push(`${id},${formatDay(momentAt(start + day * dayMs, berlin).day)},ended,,,`);
    }
    append('log.csv', answers.splice(0));
    if (open === 0) continue;
    days++;
    sum += overdue.length / open;
    most = Math.max(most, overdue.length / open);
  }
  return { perClutch: sum / days, most, asked, broods: clutches.length };
}

describe('a year of warnings, day by day', () => {
  const years = new Map<string, Year>();
  const yearFor = (name: string): Year => {
    let year = years.get(name);
    if (year === undefined) {
      year = live(keepers.find((keeper) => keeper.name === name) as Keeper);
      years.set(name, year);
      console.log(`      ${name}: ${year.perClutch.toFixed(3)} warnings for each open clutch and day, at most ${year.most.toFixed(2)}; ${year.asked.size} of ${year.broods} broods were asked about`);
    }
    return year;
  };

  it('who logs everything is hardly ever warned', () => {
    assert.ok(yearFor(EVERYTHING).perClutch <= 0.02);
  });

  it('who logs spawns, moves, some counts and sales, and answers when asked, sees at most 0.3 for each open clutch', () => {
    assert.ok(yearFor(SOME).perClutch <= 0.3);
  });

  it('who never answers or counts late sees more, but at most one for each', () => {
    for (const { name } of keepers) assert.ok(yearFor(name).most <= 1, name);
  });

  it('every brood whose fate nobody wrote is asked about once, in one go', () => {
    for (const { name } of keepers.slice(1)) {
      const { asked, broods } = yearFor(name);
      // The window of the last broods may not have passed when the year ends.
      assert.ok(asked.size >= broods - 4, `${asked.size} of ${broods}`);
      for (const [id, days] of asked) assert.equal((days.at(-1) as number) - (days[0] as number) + 1, days.length, `${id}: ${days.map((day) => formatDay(momentAt(start + day * dayMs, berlin).day)).join(' ')}`);
    }
  });
});
