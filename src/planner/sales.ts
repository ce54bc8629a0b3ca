import { compareMoments, hasCome, momentOfDay } from '../base/moment';
import type { Moment } from '../base/moment';
import { daysToLength, profileGrowth } from '../domain/growth';
import { DAY } from '../domain/ladder';
import { expectedAlive } from '../domain/survival';
import { LAST_INSTANT } from '../domain/timeline';
import type { Row } from '../records/row';
import { valueOf } from '../records/things';
import type { ClutchState, PlanView } from './states';

/** Fish of one brood that reach a length at which they are sold. Days are bare moments. */
export interface SaleLot {
  /** Total length; undefined where only the days to sale size are known of the species. */
  readonly minMm: number | undefined;
  readonly from: Moment;
  readonly expected: Moment;
  readonly to: Moment;
  /** Not to be sold before. */
  readonly heldUntil: Moment | undefined;
  /** How many are expected to be there then, now for those that are long enough; undefined where that can't be known. */
  readonly fish: number | undefined;
  /** By now they have reached the next length that is asked for. */
  readonly isOutgrown: boolean;
}

/**
 * What a brood gives to sell: for sale size and each other length at which its species is asked for, in order of when it is
 * reached, up to a day (days since 1970-01-01). None of a brood that has ended, has no fish left, or of which nobody knows whether
 * it lives.
 */
export function saleLots(state: ClutchState, { sizes, lastDay }: { readonly sizes: ReadonlySet<number>; readonly lastDay: number }, view: PlanView): readonly SaleLot[] {
  const { study, timeline } = state;
  const sale = timeline.of('sale_size');
  const birth = study.ladder === undefined ? undefined : timeline.of(study.ladder.birth);
  if (sale === undefined || birth === undefined || timeline.ended !== undefined || timeline.unanswered || study.heads.alive.count === 0) return [];
  const curve = profileGrowth(study.profile);
  const saleMm = study.profile?.sale_mm;
  const lots: Reached[] = [{ minMm: saleMm, from: sale.from, expected: sale.time, to: sale.to }];
  const factors = sale.learned;
  if (curve !== undefined && factors !== undefined) {
    for (const minMm of sizes) {
      const days = minMm === saleMm ? undefined : daysToLength(curve, minMm);
      if (days === undefined || days === 0) continue;
      const at = (factor: number): Moment => momentOfDay(view.zone.dayOf(Math.min(LAST_INSTANT, birth.time.instant + days * DAY * factor)), view.zone);
      lots.push({ minMm, from: at(factors.from), expected: at(factors.expected), to: at(factors.to) });
    }
  }
  const heldUntil = holdOf(state, view);
  const later = (time: Moment): Moment => (heldUntil === undefined || heldUntil.day <= time.day ? time : heldUntil);
  lots.sort((a, b) => compareMoments(a.expected, b.expected));
  return lots.flatMap((lot, i): readonly SaleLot[] => {
    const next = lots[i + 1];
    const expected = later(lot.expected);
    if (expected.day > lastDay) return [];
    const alive = expectedAlive(study, timeline, compareMoments(expected, view.now) < 0 ? view.now : expected);
    return [
      {
        minMm: lot.minMm,
        from: later(lot.from),
        expected,
        to: later(lot.to),
        heldUntil,
        fish: alive === undefined ? undefined : Math.round(alive),
        isOutgrown: next !== undefined && next.expected.day <= view.now.day,
      },
    ];
  });
}

type Reached = Pick<SaleLot, 'minMm' | 'from' | 'expected' | 'to'>;

/** The day of the latest row of the log that holds the fish back. */
function holdOf({ study }: ClutchState, { records }: PlanView): Moment | undefined {
  for (let i = study.entries.length - 1; i >= 0; i--) {
    const row = study.entries[i]?.row as Row;
    const sheet = records.file(row.path)?.schema.name;
    const held = sheet === undefined ? undefined : (valueOf(row, sheet, 'hold_until') as Moment | undefined);
    if (held !== undefined) return held;
  }
  return undefined;
}

/** The lengths at which each species is asked for, in prices and in orders that have not left. */
export function askedSizes({ records, now }: PlanView): ReadonlyMap<string, ReadonlySet<number>> {
  const sizes = new Map<string, Set<number>>();
  for (const sheet of ['prices', 'orders'] as const) {
    for (const row of records.file(`${sheet}.csv`)?.rows() ?? []) {
      const species = valueOf(row, sheet, 'species') as string | undefined;
      const minMm = valueOf(row, sheet, 'min_mm') as number | undefined;
      const sent = sheet === 'orders' ? (valueOf(row, sheet, 'sent') as Moment | undefined) : undefined;
      if (species === undefined || minMm === undefined || hasCome(sent, now)) continue;
      let known = sizes.get(species);
      if (known === undefined) sizes.set(species, (known = new Set()));
      known.add(minMm);
    }
  }
  return sizes;
}
