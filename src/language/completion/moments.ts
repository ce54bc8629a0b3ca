import { say } from '../../base/messages';
import type { Message } from '../../base/messages';
import { compareMoments, formatDay, formatMoment, isFuture } from '../../base/moment';
import type { Moment } from '../../base/moment';
import type { Anchor } from '../../domain/routines';
import type { MilestoneTime } from '../../domain/timeline';
import { anchoredMilestone } from '../../planner/subjects';
import type { ClutchState } from '../../planner/states';
import type { SheetFile } from '../../records/sheetFile';
import type { Field } from '../../schema/descriptor';
import { clutchIn, ownId, textIn, valueIn } from './asked';
import type { Asked } from './asked';
import type { Suggestion } from './suggestion';

interface Offer {
  readonly moment: Moment;
  readonly beside: Message;
}

/** Moments that are likely in a cell, written as the column's others are: what the records or the model say it should be, now and today; of what lies ahead some days to come. */
export function momentsFitting(asked: Asked, field: Field): readonly Suggestion[] {
  const { now, records } = asked.plan;
  const { zone } = records;
  const style = styleIn(asked);
  const known = [...fromElsewhere(asked, field), ...(isPast(field) ? guesses(asked, field) : [])];
  const present: readonly Offer[] =
    field.kind === 'day'
      ? [{ moment: onDay(now.day, now), beside: say('beside.today') }]
      : [{ moment: now, beside: say('beside.now') }, { moment: onDay(now.day, now), beside: say('beside.today') }];
  const ahead = isPast(field) ? [] : [1, 7, 14, 28].map((days): Offer => ({ moment: onDay(now.day + days, now), beside: days === 1 ? say('beside.tomorrow') : say('beside.in-days', days) }));
  const write = (moment: Moment): string => {
    const text = field.kind === 'day' ? formatDay(moment.day) : formatMoment(moment, zone);
    return style.separator === 'T' ? text : text.replace('T', ' ');
  };
  const all = [...known, ...(style.isBare ? [...present].reverse() : present), ...ahead].map(({ moment, beside }) => ({ value: write(moment), beside }));
  return all.filter(({ value }, i) => all.findIndex((other) => other.value === value) === i).map(({ value, beside }) => ({ value, kind: 'moment', beside: [beside] }));
}

/** Columns that are not bound to the past by their schema, but tell of it. */
const told = new Set(['formed', 'born', 'left', 'sent', 'started']);

function isPast({ notFuture, name }: Field): boolean {
  return notFuture || told.has(name);
}

function onDay(day: number, now: Moment): Moment {
  return { instant: now.instant, day, bare: true, about: false };
}

/** What another cell says it is. */
function fromElsewhere(asked: Asked, field: Field): readonly Offer[] {
  const from = field.name === 'to' ? (valueIn(asked, 'from') as Moment | undefined) : undefined;
  if (from !== undefined) return [{ moment: from, beside: say('beside.as-in', 'from') }];
  const state = stateIn(asked);
  if (state === undefined) return [];
  const { hatched, freeSwimming, ended } = state.study.recorded;
  const recorded = asked.cell.file.schema.name !== 'clutches' ? undefined : { hatched, free_swimming: freeSwimming, ended }[field.name];
  if (recorded?.entry !== undefined) return [{ moment: recorded.time, beside: say('beside.as-in-log') }];
  if (field.name !== 'born') return [];
  const birth = state.study.ladder === undefined ? undefined : state.timeline.of(state.study.ladder.birth);
  return birth === undefined || isFuture(birth.time, asked.plan.now) ? [] : [{ moment: guessOf(birth), beside: say('beside.birth-of', state.clutch.clutch) }];
}

/** Expected milestones that should have come by now and are not recorded, as about then. */
function guesses(asked: Asked, field: Field): readonly Offer[] {
  const state = stateIn(asked);
  const { name } = asked.cell.file.schema;
  if (state === undefined || name === 'fish') return [];
  const wanted = name === 'clutches' ? [field.milestone] : field.name === 'time' ? eventsAsked(asked) : [];
  return wanted.flatMap((milestone): readonly Offer[] => {
    if (milestone === undefined || milestone === 'spawned') return [];
    const found = anchoredMilestone(state, milestone as Anchor);
    if (found?.basis !== 'expected' || compareMoments(found.time, asked.plan.now) > 0) return [];
    return [{ moment: guessOf(found), beside: say('beside.expected-about', milestone) }];
  });
}

function eventsAsked(asked: Asked): readonly string[] {
  const event = textIn(asked, 'event');
  const milestones = ['hatched', 'released', 'first_feed', 'free_swimming'];
  return event === undefined ? milestones : milestones.filter((name) => name === event);
}

/** The clutch of the row; of the register of clutches the row's own. */
function stateIn(asked: Asked): ClutchState | undefined {
  const own = asked.cell.file.schema.name === 'clutches' ? ownId(asked) : undefined;
  return own === undefined ? clutchIn(asked) : asked.plan.view.clutch(own);
}

function guessOf({ time, basis }: MilestoneTime): Moment {
  return basis === 'expected' && !time.bare ? { ...time, about: true } : time;
}

interface Style {
  readonly separator: 'T' | ' ';
  /** Days without a time are the rule. */
  readonly isBare: boolean;
}

/** So many cells above say how a column is written. */
const LOOKED_AT = 30;

/** How moments are written: as above in the column, else in the other columns of moments there, else in the register of clutches. */
function styleIn({ plan, cell: { file, record, column } }: Asked): Style {
  const last = Math.min(record, file.doc.rowCount);
  const above = textsAbove(file, { column, last });
  const others = (): readonly string[] => file.header.columns.flatMap(({ field }, other) => (field?.kind === 'moment' && other !== column ? textsAbove(file, { column: other, last }) : []));
  const register = plan.records.file('clutches.csv');
  const spawned = register?.header.columnOf.get('spawned');
  const elsewhere = (): readonly string[] => (register === undefined || register.blocked !== undefined || spawned === undefined ? [] : textsAbove(register, { column: spawned, last: register.doc.rowCount }));
  const separatorIn = (texts: readonly string[]): Style['separator'] | undefined => {
    const timed = texts.find((text) => /\d[T ]\d/.test(text));
    return timed === undefined ? undefined : timed.includes('T') ? 'T' : ' ';
  };
  const bare = above.filter((text) => /^~?\d{4}-\d\d-\d\d$/.test(text)).length;
  return { separator: separatorIn(above) ?? separatorIn(others()) ?? separatorIn(elsewhere()) ?? 'T', isBare: bare > above.length / 2 };
}

/** The filled cells of a column above a record, the nearest first. */
function textsAbove({ doc }: SheetFile, { column, last }: { readonly column: number; readonly last: number }): readonly string[] {
  const texts: string[] = [];
  for (let record = last - 1; record > 0 && record >= last - LOOKED_AT; record--) {
    const text = column < doc.cellCount(record) ? doc.value(record, column) : '';
    if (text !== '') texts.push(text);
  }
  return texts;
}
