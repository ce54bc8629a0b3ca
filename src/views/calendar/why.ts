import { say, textOf } from '../../base/messages';
import type { Message } from '../../base/messages';
import type { Anchored } from '../../domain/routines';
import type { ComingDays } from '../../planner/coming';
import type { Entry } from '../../planner/entry';
import type { Plan } from '../../planner/plan';
import { anchoredMilestone, ClutchSubject, OrderSubject, PairSubject, TankSubject } from '../../planner/subjects';
import type { DayWords } from './dayWords';

/** The short form of why something is told: what it is, from which records and by which rule, and how sure that is. */
export interface ShortWhy {
  readonly title: string;
  readonly lines: readonly string[];
}

export function whyOf(entry: Entry, plan: Plan, words: DayWords): ShortWhy {
  const { action, clutch, pair, tank } = entry;
  const whom = [clutch === '' ? pair : clutch, tank].filter((part) => part !== '');
  return { title: [textOf(action), ...whom].join(' · '), lines: [...ruleOf(entry, plan, words), ...sureOf(entry, plan, words)].map(textOf) };
}

/** From which records and by which rule. */
function ruleOf(entry: Entry, plan: Plan, words: DayWords): readonly Message[] {
  const { occurrence, kind, food, sale, pair } = entry;
  if (food !== undefined) {
    const { day, clutches, uncounted, amount } = food;
    return [say('calendar.why.food', words.day(day), clutches.join(', '), amount.vesselL, Math.ceil(amount.saltG)), ...(uncounted.length === 0 ? [] : [say('calendar.why.food.uncounted', uncounted.join(', '))]), say('food.caution')];
  }
  const told = occurrence === undefined ? [] : routineRule(entry, plan, words);
  if (sale !== undefined) return [...told, ...saleOf(entry, words)];
  if (occurrence !== undefined) return told;
  switch (kind) {
    case 'maintenance':
      return [say('calendar.why.job', entry.tanks.length)];
    case 'order':
      return [say('calendar.why.order')];
    case 'next-spawn':
      return [say('calendar.why.next-spawn', pair, words.day(plan.view.pair(pair)?.next?.last.spawned.day ?? entry.due.day))];
    default:
      return [say('calendar.why.model')];
  }
}

/** What a routine counts from. */
function routineRule(entry: Entry, plan: Plan, words: DayWords): readonly Message[] {
  const { occurrence } = entry;
  if (occurrence === undefined) return [];
  const { routine } = occurrence;
  const anchored = routine.anchor === undefined ? undefined : anchorOf(entry, plan);
  if (routine.anchor === undefined || anchored === undefined) return [say('calendar.why.moment', routine.routine)];
  const anchor = routine.anchor.replace(/_(from|to)$/, '') as 'spawned';
  const name = textOf(say(`calendar.anchor.${anchor}`));
  const when = words.moment(anchored.time, !anchored.time.bare);
  return [say(anchored.isExpected ? 'calendar.why.from-expected' : 'calendar.why.from-recorded', routine.routine, name, when)];
}

function anchorOf({ occurrence, clutch, pair, tank, row }: Entry, { view }: Plan): Anchored | undefined {
  const anchor = occurrence?.routine.anchor;
  if (anchor === undefined) return undefined;
  const brood = clutch === '' ? undefined : view.clutch(clutch);
  if (brood !== undefined) return new ClutchSubject(brood, view).anchor(anchor);
  const parents = pair === '' ? undefined : view.pair(pair);
  if (parents !== undefined) return new PairSubject(parents, view).anchor(anchor);
  const water = tank === '' ? undefined : view.records.tank(tank);
  if (water !== undefined) return new TankSubject(water, view).anchor(anchor);
  return row.path === 'orders.csv' ? new OrderSubject(row, view).anchor(anchor) : undefined;
}

function saleOf({ sale }: Entry, words: DayWords): readonly Message[] {
  if (sale === undefined) return [];
  const { minMm, fish, total, uncounted, heldUntil } = sale;
  return [
    fish === undefined ? say('calendar.why.sale.uncounted') : minMm === undefined ? say('calendar.why.sale', fish) : say('calendar.why.sale.from-mm', fish, minMm),
    uncounted === 0 ? say('calendar.why.sale.total', total) : say('calendar.why.sale.total.uncounted', total, uncounted),
    ...(heldUntil === undefined ? [] : [say('calendar.why.sale.held', words.day(heldUntil.day))]),
  ];
}

/** How sure it is, and from how much of the keeper's own. */
function sureOf(entry: Entry, { view }: Plan, words: DayWords): readonly Message[] {
  const { isExpected, from, to, hasHours, kind, clutch, occurrence } = entry;
  if (kind === 'maintenance' || kind === 'order' || !isExpected) return [];
  const window = words.window(from, to, hasHours);
  if (window === undefined) return [];
  const brood = clutch === '' ? undefined : view.clutch(clutch);
  const anchor = occurrence?.routine.anchor;
  const observations = entry.observations ?? (brood === undefined || anchor === undefined ? undefined : anchoredMilestone(brood, anchor)?.learned?.n);
  if (observations === undefined) return [say('calendar.why.window', window)];
  if (observations === 0) return [say('calendar.why.window.species', window)];
  return [observations === 1 ? say('calendar.why.window.learned.one', window) : say('calendar.why.window.learned', window, observations)];
}

/** A brood, pair or tank in short: its stage and why, and what is next. */
export function whyOfThing({ of, id }: { readonly of: 'clutch' | 'pair' | 'tank'; readonly id: string }, { plan, words, coming }: { readonly plan: Plan; readonly words: DayWords; readonly coming: ComingDays }): ShortWhy {
  const about = coming.entries.filter((entry) => (of === 'clutch' ? entry.clutch === id : of === 'pair' ? entry.pair === id && entry.clutch === '' : entry.tanks.includes(id)));
  const lines: Message[] = [];
  if (of === 'clutch') {
    const row = plan.records.index('clutches').row(id);
    const file = plan.records.file('clutches.csv');
    const stage = row === undefined || file === undefined ? undefined : plan.explainCell(file.path, file.recordOf(row), 'stage');
    if (stage !== undefined) lines.push(stage.formula, ...stage.notes);
  }
  for (const entry of about.slice(0, 2)) lines.push(say('calendar.why.next', textOf(entry.action), words.moment(entry.due, entry.hasHours), words.distance(entry.due.day)));
  return { title: id, lines: lines.length === 0 ? [textOf(say('calendar.why.nothing-due'))] : lines.map(textOf) };
}
