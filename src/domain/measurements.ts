import type { Moment } from '../base/moment';
import { lengthLimitsOf, profileGrowth, rateTo } from './growth';
import type { LengthLimits } from './growth';
import type { MeasuredLength } from './growthFit';
import { countHeads } from './headcount';
import { DAY } from './ladder';
import type { ClutchRecord, LogEntry, Profile } from './things';

/** What measurements of a brood are read from: its log in order, none of it later than now. */
export interface MeasuredBrood {
  readonly clutch: Pick<ClutchRecord, 'tank'>;
  readonly profile: Profile | undefined;
  readonly entries: readonly LogEntry[];
}

/** The mean length of a brood by its last measurement, which may be several rows where it stands in several tanks. */
export interface Measurement {
  /** Mean total length. */
  readonly mm: number;
  /** The mean of the rows' times, with the same weights. */
  readonly instant: number;
  /** In the order of their times. */
  readonly rows: readonly LogEntry[];
}

/** Rows of other tanks are taken together with the last when they are no older. */
const TOGETHER_DAYS = 7;

/** Stands for all tanks of a brood: the row of a brood in several tanks that names none. */
const ALL_TANKS = '';

/**
 * The last measurement: the last `measured` row and, of a brood in several tanks, the last of each other tank within seven
 * days before, unless the fish have left that tank since. The mean is weighted by the rows' own counts (fish measured) if
 * all have one, else by the fish known to be in each tank then if all are known, else the tanks count alike. Rows that are
 * told as about, without a length, or with a length outside the limits are passed over.
 */
export function lastMeasurement(brood: MeasuredBrood, limits: LengthLimits): Measurement | undefined {
  const { entries } = brood;
  let end = entries.length - 1;
  while (end >= 0 && !isTelling(entries[end] as LogEntry, limits)) end--;
  const last = entries[end];
  if (last === undefined) return undefined;
  const recent: LogEntry[] = [];
  for (let i = end; i >= 0 && last.time.day - (entries[i] as LogEntry).time.day <= TOGETHER_DAYS; i--) {
    if (isTelling(entries[i] as LogEntry, limits)) recent.push(entries[i] as LogEntry);
  }
  if (recent.length === 1) return { mm: last.lengthMm as number, instant: last.time.instant, rows: [last] };
  return meanOf(inEachTank(brood, entries.slice(0, end + 1), new Set(recent)));
}

interface TankRow {
  readonly row: LogEntry;
  /** Fish known to be in its tank at the last measurement. */
  readonly fish: number | undefined;
}

/** The last of the rows of each tank, in the order of their times. */
function inEachTank({ clutch }: MeasuredBrood, entries: readonly LogEntry[], recent: ReadonlySet<LogEntry>): readonly TankRow[] {
  const rowOf = new Map<string, { readonly row: LogEntry; readonly stoodThere: boolean }>();
  let lastTank = ALL_TANKS;
  const { stands } = countHeads(clutch.tank, entries, (_, index, standing) => {
    const row = entries[index] as LogEntry;
    if (!recent.has(row)) return;
    lastTank = row.tank ?? (standing.size === 1 ? (standing.keys().next().value as string) : ALL_TANKS);
    rowOf.delete(lastTank);
    rowOf.set(lastTank, { row, stoodThere: standing.has(lastTank) });
  });
  const isMeant = (tank: string, stoodThere: boolean): boolean => tank === lastTank || (lastTank !== ALL_TANKS && tank !== ALL_TANKS && (stands.has(tank) || !stoodThere));
  return [...rowOf].filter(([tank, { stoodThere }]) => isMeant(tank, stoodThere)).map(([tank, { row }]) => ({ row, fish: stands.get(tank)?.count }));
}

function meanOf(rows: readonly TankRow[]): Measurement {
  const weights = weightsIn(rows.map(({ row }) => row.count?.value)) ?? weightsIn(rows.map(({ fish }) => fish)) ?? rows.map(() => 1);
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  const mean = (of: (row: LogEntry) => number): number => rows.reduce((sum, { row }, i) => sum + of(row) * (weights[i] as number), 0) / total;
  const first = (rows[0] as TankRow).row.time.instant;
  return { mm: mean((row) => row.lengthMm as number), instant: first + mean((row) => row.time.instant - first), rows: rows.map(({ row }) => row) };
}

function weightsIn(counts: readonly (number | undefined)[]): readonly number[] | undefined {
  return counts.every((count) => count !== undefined && count > 0) ? (counts as readonly number[]) : undefined;
}

function isTelling({ event, time, lengthMm }: LogEntry, { hatchMm, maxMm }: LengthLimits): boolean {
  return event === 'measured' && !time.about && lengthMm !== undefined && lengthMm > hatchMm && lengthMm < maxMm;
}

/** How fast a brood grew up to its last measurement. */
export interface OwnGrowth {
  readonly measurement: Measurement;
  /** Since the birth. */
  readonly days: number;
  /** K, a day. */
  readonly perDay: number;
  /** ln(K / K of the species). */
  readonly x: number;
}

/** Undefined without a measurement after the birth, and where the species' numbers give no curve to compare with. */
export function ownGrowth(brood: MeasuredBrood, birth: Moment): OwnGrowth | undefined {
  // Most broods of a long register have no log.
  if (brood.entries.length === 0 || !brood.entries.some(({ event }) => event === 'measured')) return undefined;
  const usual = profileGrowth(brood.profile);
  const measurement = usual === undefined ? undefined : lastMeasurement(brood, usual);
  if (usual === undefined || measurement === undefined) return undefined;
  const days = (measurement.instant - birth.instant) / DAY;
  const perDay = rateTo(usual, measurement.mm, days);
  return perDay === undefined ? undefined : { measurement, days, perDay, x: Math.log(perDay / usual.perDay) };
}

/** All lengths that a growth curve may be drawn through: one for each row that tells something. */
export function measuredLengths({ entries, profile }: MeasuredBrood, birth: Moment): readonly MeasuredLength[] {
  const limits = lengthLimitsOf(profile);
  if (limits === undefined) return [];
  return entries
    .filter((entry) => isTelling(entry, limits) && entry.time.instant > birth.instant)
    .map(({ time, lengthMm }) => ({ days: (time.instant - birth.instant) / DAY, mm: lengthMm as number }));
}

/** Rows whose length a growing fish of the species can't have, so that they teach nothing. */
export function lengthsOutside({ entries, profile }: MeasuredBrood): readonly LogEntry[] {
  const limits = lengthLimitsOf(profile);
  if (limits === undefined) return [];
  return entries.filter(({ event, lengthMm }) => event === 'measured' && lengthMm !== undefined && !(lengthMm > limits.hatchMm && lengthMm < limits.maxMm));
}
