import type { Message } from '../base/messages';
import type { Moment } from '../base/moment';
import type { Occurrence } from '../domain/routines';
import { keyText } from '../records/row';
import type { Row } from '../records/row';
import type { Sale } from './ahead';
import type { FoodToStart } from './liveFood';

/** What falls on a day, in the order in which kinds are named. `hatch` is a mouthbrooder's release too. */
export const entryKinds = ['hatch', 'first-feed', 'free-swimming', 'check', 'feeding', 'count', 'move', 'water', 'live-food', 'maintenance', 'next-spawn', 'sale', 'order'] as const;

export type EntryKind = (typeof entryKinds)[number];

/** Something that falls on a day or on some days: to be done, expected, or planned. Of the feeding see {@link Feeding}. */
export interface Entry {
  /** Unique in a fishroom, and the same from day to day and edit to edit as long as it is the same thing. */
  readonly key: string;
  readonly kind: EntryKind;
  /** What is to be done, or what will be. */
  readonly action: Message;
  /** '' where a place or a thing isn't known or there is none. */
  readonly room: string;
  readonly tank: string;
  /** All tanks that it touches, of a job there may be several. */
  readonly tanks: readonly string[];
  readonly pair: string;
  readonly clutch: string;
  readonly species: string;
  readonly due: Moment;
  /** The 80 % window, cut off below at now as soon as now is inside it; of what is certain `due` itself, of a job its first and last moment. */
  readonly from: Moment;
  readonly to: Moment;
  /** Whether `due` hangs on something that is expected and not recorded. */
  readonly isExpected: boolean;
  /** Whether it is told to the hour, else to the day. */
  readonly hasHours: boolean;
  readonly state: 'overdue' | 'due' | 'upcoming';
  /** How many recorded broods or intervals a window was learned from; undefined where nothing can be learned. */
  readonly observations: number | undefined;
  /** The register's row of the thing that it is about. */
  readonly row: Row;
  /** Of what a routine asks for: it can be done. */
  readonly occurrence: Occurrence | undefined;
  /** Of live food to start: for which day, and how much. */
  readonly food: FoodToStart | undefined;
  /** Of fish that are ready to sell. */
  readonly sale: Sale | undefined;
}

/** The brood or pair that something is about; of a tank nothing, since its place says it, nor of food for several; of anything else its name. */
export function whoOf({ clutch, pair, tank, row, food }: Pick<Entry, 'clutch' | 'pair' | 'tank' | 'row'> & { readonly food?: Entry['food'] }): string {
  if (food !== undefined) return '';
  if (clutch !== '' || pair !== '') return clutch === '' ? pair : clutch;
  return tank === '' ? keyText(row) : '';
}

/** Fish of one tank that are fed day after day: one for each routine of level `round`, brood and tank. */
export interface Feeding {
  readonly key: string;
  readonly routine: string;
  readonly action: Message;
  readonly room: string;
  readonly tank: string;
  readonly pair: string;
  readonly clutch: string;
  readonly species: string;
  /** Days since 1970-01-01, the first and the last on which they are fed; both within what was asked for. */
  readonly firstDay: number;
  readonly lastDay: number;
  readonly timesADay: number;
  readonly row: Row;
}
