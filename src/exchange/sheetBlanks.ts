import { say, textOf } from '../base/messages';
import type { Entry, EntryKind } from '../planner/entry';
import { element } from './html';
import type { Html } from './html';

type Blank = 'when' | 'how-many' | 'length' | 'into' | 'changed' | 'seen';

/** What a keeper writes down of what happened, by the event that records it. */
const blanksOfEvent: Readonly<Partial<Record<string, readonly Blank[]>>> = {
  counted: ['how-many'],
  measured: ['length'],
  moved: ['how-many', 'into'],
  stripped: ['when', 'how-many'],
  sold: ['how-many'],
  hatched: ['when'],
  released: ['when'],
  free_swimming: ['when'],
  water_change: ['changed'],
  checked: ['seen'],
};

const blanksOfKind: Readonly<Record<EntryKind, readonly Blank[]>> = {
  hatch: ['when'],
  'first-feed': ['when'],
  'free-swimming': ['when'],
  check: ['seen'],
  feeding: [],
  count: ['how-many'],
  move: ['how-many', 'into'],
  water: ['seen'],
  'live-food': ['when'],
  maintenance: [],
  'next-spawn': ['when'],
  sale: ['how-many'],
  order: ['how-many'],
};

/** What a test of the water measures; these are the same in every language. */
const READINGS = ['°C', 'pH', 'NH₃/NH₄', 'NO₂', 'NO₃'];

/** The blanks of an entry: of its record where it is known which one that will be, else what is usual for its kind. */
export function blanksOf({ kind, occurrence }: Pick<Entry, 'kind' | 'occurrence'>): readonly Html[] {
  const doneBy = occurrence?.routine.doneBy ?? [];
  if (doneBy.includes('tested')) return READINGS.map(blank);
  const blanks = doneBy.map((event) => blanksOfEvent[event]).find((each) => each !== undefined) ?? blanksOfKind[kind];
  return blanks.map((each) => blank(textOf(say(`exchange.blank.${each}`))));
}

/** A line to write on, with what belongs there before it. */
export function blank(label: string): Html {
  return element('div', { class: 'blank' }, label, element('span', { class: 'line' }));
}
