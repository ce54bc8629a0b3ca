import type { Moment } from '../base/moment';

/** A count of animals; `about` when the keeper only estimated it (`~200`). */
export interface Count {
  readonly value: number;
  readonly about: boolean;
}

/** How a species tends its brood; picks the ladder of milestones. */
export type Care = 'cave' | 'substrate' | 'bubble-nest' | 'scatterer' | 'mop' | 'mouthbrooder' | 'livebearer';

/** Numbers of a species, keyed by their column in species.csv. */
export type SpeciesNumber =
  | 'ref_temp_c'
  | 'zero_temp_c'
  | 'hatch_h'
  | 'first_feed_h'
  | 'free_swim_h'
  | 'release_d'
  | 'strip_d'
  | 'juvenile_d'
  | 'sale_d'
  | 'hatch_mm'
  | 'sale_mm'
  | 'max_mm'
  | 'interval_d'
  | 'survival_pct'
  | 'feeds_per_day'
  | 'temp_min_c'
  | 'temp_max_c'
  | 'ph_min'
  | 'ph_max';

/** What is expected of a species: `_h` hours, `_d` days of 24 h, `_mm` total length, `_c` °C. A missing number is not known. */
export interface Profile extends Readonly<Partial<Record<SpeciesNumber, number>>> {
  readonly species: string;
  readonly care: Care;
}

export type ClutchEvent =
  | 'spawned'
  | 'checked'
  | 'fungus'
  | 'hatched'
  | 'first_feed'
  | 'fed'
  | 'free_swimming'
  | 'released'
  | 'stripped'
  | 'counted'
  | 'measured'
  | 'lost'
  | 'culled'
  | 'moved'
  | 'sold'
  | 'kept'
  | 'joined'
  | 'treated'
  | 'ended';

/** One row of a clutch's log with a readable time and event. `row` is the caller's handle to where it stands. */
export interface LogEntry {
  readonly time: Moment;
  readonly event: ClutchEvent;
  readonly tank?: string | undefined;
  readonly count?: Count | undefined;
  readonly lengthMm?: number | undefined;
  readonly toTank?: string | undefined;
  readonly ref?: string | undefined;
  readonly row: object;
}

/** A clutch as its register row has it. */
export interface ClutchRecord {
  readonly clutch: string;
  readonly pair?: string | undefined;
  readonly tank: string;
  readonly spawned: Moment;
  readonly eggs?: Count | undefined;
  readonly hatched?: Moment | undefined;
  readonly freeSwimming?: Moment | undefined;
  readonly ended?: Moment | undefined;
}
