import { compareMoments, isFuture } from '../../base/moment';
import type { Moment } from '../../base/moment';
import type { Plan } from '../../planner/plan';
import type { Row } from '../../records/row';
import { valueOf } from '../../records/things';
import type { Part } from '../hoverText';

/** The picture of the last row of a clutch's logs that has one. */
export function photoOf(clutch: string, { records, now }: Plan): readonly Part[] {
  let last: { readonly time: Moment; readonly target: string; readonly file: string } | undefined;
  const look = (row: Row, sheet: 'clutch-log' | 'log'): void => {
    const time = valueOf(row, sheet, 'time') as Moment | undefined;
    const target = valueOf(row, sheet, 'photo') as string | undefined;
    if (time === undefined || target === undefined || isFuture(time, now)) return;
    if (last === undefined || compareMoments(time, last.time) >= 0) last = { time, target, file: row.path };
  };
  for (const log of records.logsOf(clutch)) for (const row of log.rows()) look(row, 'clutch-log');
  for (const row of records.logRowsOf(clutch)) look(row, 'log');
  return last === undefined ? [] : [{ kind: 'photo', file: last.file, target: last.target }];
}
