import type { Row } from '../../records/row';
import type { Culture } from '../../records/cultures';
import type { Tank } from '../../records/things';
import type { SheetName } from '../../schema/descriptor';
import type { ClutchState, PairState } from '../states';
import { nextAction, nextDue, overdueCount, tankNextAction, tankNextDue } from './agenda';
import { ageDays } from './clutchAge';
import { hatchExpected, saleExpected } from './clutchExpected';
import { alive, survival, tanksNow } from './clutchHeads';
import { spawnInterval } from './clutchInterval';
import { stage, stageBasis } from './clutchStage';
import type { Column } from './column';
import { ready, renewDue } from './culture';
import { inbreeding, kinship } from './lineage';
import { logAgeDays, logAlive, logStage } from './logRow';
import type { LogRowState } from './logRow';
import { clutches, intervalMedian, lastSpawned, nextSpawnExpected, nextSpawnFrom, nextSpawnTo } from './pair';
import { openClutches, roomOverdue, tanks } from './room';
import { fish, lastReading } from './tank';
import { rowAmmonia, tankAmmonia } from './water';
import type { WaterRow } from './water';

/** Every column that is computed, by sheet, in the order in which a new one is added to a file. */
export const clutchColumns: readonly Column<ClutchState>[] = [ageDays, stage, stageBasis, tanksNow, alive, survival, spawnInterval, hatchExpected, saleExpected, nextAction, nextDue, overdueCount];
export const pairColumns: readonly Column<PairState>[] = [clutches, lastSpawned, intervalMedian, nextSpawnFrom, nextSpawnExpected, nextSpawnTo, kinship];
export const tankColumns: readonly Column<Tank>[] = [fish, lastReading, tankAmmonia, tankNextAction, tankNextDue];
export const roomColumns: readonly Column<string>[] = [tanks, openClutches, roomOverdue];
export const waterColumns: readonly Column<WaterRow>[] = [rowAmmonia];
export const fishColumns: readonly Column<Row>[] = [inbreeding];
export const cultureColumns: readonly Column<Culture>[] = [ready, renewDue];
export const logColumns: readonly Column<LogRowState>[] = [logAgeDays, logStage, logAlive];

const bySheet: Partial<Record<SheetName, readonly Column<never>[]>> = {
  clutches: clutchColumns,
  pairs: pairColumns,
  tanks: tankColumns,
  rooms: roomColumns,
  fish: fishColumns,
  cultures: cultureColumns,
  'tank-log': waterColumns,
  readings: waterColumns,
  'clutch-log': logColumns,
  log: logColumns,
};

/** Headers of the columns that are computed in a sheet. */
export function computedHeaders(sheet: SheetName): readonly string[] {
  return (bySheet[sheet] ?? []).map(({ header }) => header);
}
