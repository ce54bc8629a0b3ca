import assert from 'node:assert/strict';
import type { Plan } from '../../../../src/planner/plan';
import { DayWords } from '../../../../src/views/calendar/dayWords';
import { whyOf, whyOfThing } from '../../../../src/views/calendar/why';
import type { ShortWhy } from '../../../../src/views/calendar/why';
import { sampleRoom } from '../../../support/samples';

const wordsFor = (plan: Plan): DayWords => new DayWords({ locale: 'en-GB', today: plan.now.day, zone: plan.records.zone });

async function whyIn(key: string): Promise<ShortWhy> {
  const plan = await sampleRoom('three-rooms');
  const entry = plan.coming(40).entries.find((each) => each.key === key);
  assert.ok(entry, key);
  return whyOf(entry, plan, wordsFor(plan));
}

describe('why something stands in the calendar', () => {
  it('says from which record and by which rule, and how sure that is', async () => {
    assert.deepEqual(await whyIn('clutches/KR3-3/hatch/0'), { title: 'Hatched, gone, or not known? · KR3-3 · T03', lines: ['Counted from: hatch, expected Wed 27 May, 18:39 (routine hatch).', '8 in 10: 27–28 May. Learned from 1 record of the pair.'] });
    assert.deepEqual(await whyIn('clutches/BE1-5/count/0'), { title: 'Count the fry · BE1-5 · T08', lines: ['Counted from: swimming free, 26 May 2026, 20:10 (routine count).'] });
  });

  it('is there for everything that is coming, in a line at least, and never with a gap in it', async () => {
    const plan = await sampleRoom('three-rooms');
    const words = wordsFor(plan);
    const kinds = new Set<string>();
    for (const entry of plan.coming(60).entries) {
      const { title, lines } = whyOf(entry, plan, words);
      assert.ok(title.length > 0 && lines.length > 0, entry.key);
      for (const line of lines) assert.doesNotMatch(line, /undefined|NaN|\{\d\}|: *[,.]|\bnull\b/, `${entry.key}: ${line}`);
      kinds.add(entry.kind);
    }
    assert.ok(kinds.size >= 10, [...kinds].join(' '));
  });

  it('says of live food how much, for whom, and what to mind', async () => {
    const plan = await sampleRoom('three-rooms');
    const food = plan.coming(10).entries.find((entry) => entry.food !== undefined);
    assert.ok(food);
    const { lines } = whyOf(food, plan, wordsFor(plan));
    assert.match(lines[0] ?? '', /^For the feeds of .*: in [\d.]+ litres of water with \d+ g of salt\.$/);
    assert.match(lines.at(-1) ?? '', /salt|electric|cord|plug/i);
  });

  it('says of a brood, a pair and a tank where it stands and what is next', async () => {
    const plan = await sampleRoom('three-rooms');
    const short = (of: 'clutch' | 'pair' | 'tank', id: string): ShortWhy => whyOfThing({ of, id }, { plan, words: wordsFor(plan), coming: plan.coming(40) });
    assert.match(short('clutch', 'KR2-8').lines.join('\n'), /Coming: /);
    assert.match(short('pair', 'KR1').lines.join('\n'), /Coming: Next spawn, /);
    assert.match(short('tank', 'T13').lines.join('\n'), /Coming: /);
    assert.deepEqual(short('tank', 'nowhere').lines, ['Nothing is due here.']);
  });
});
