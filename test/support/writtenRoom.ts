import fc from 'fast-check';
import { isFuture, momentAt } from '../../src/base/moment';
import { Evaluation } from '../../src/planner/evaluation';
import { Records } from '../../src/records/records';
import { berlin, moment } from './moments';

/** A room row by row, so that it can be written as it was at an earlier moment. The first cells are times; '' is none. */
export interface WrittenRoom {
  readonly clutches: readonly { readonly id: string; readonly pair: string; readonly spawned: string; readonly hatched: string; readonly freeSwimming: string; readonly ended: string }[];
  readonly log: readonly { readonly time: string; readonly clutch: string; readonly event: string; readonly count: string; readonly length: string; readonly toTank: string }[];
  readonly readings: readonly { readonly time: string; readonly tank: string; readonly celsius: string }[];
  readonly retired: string;
}

const species = 'species,care,ref_temp_c,zero_temp_c,hatch_h,first_feed_h,free_swim_h,hatch_mm,sale_mm,max_mm,sale_d,interval_d\nred,cave,25,12,60,48,90,3,25,60,90,9\n';

/** Its files; with `then`, an instant, only what was written by then. */
export function filesOf(room: WrittenRoom, then = Number.POSITIVE_INFINITY): ReadonlyMap<string, string> {
  const isWritten = (time: string): boolean => then === Number.POSITIVE_INFINITY || !isFuture(moment(time), momentAt(then, berlin));
  const cell = (time: string): string => (time !== '' && isWritten(time) ? time : '');
  const { clutches, log, readings, retired } = room;
  const lines = (header: string, rows: readonly string[]): string => `${[header, ...rows].join('\n')}\n`;
  return new Map([
    ['species.csv', species],
    ['tanks.csv', 'tank,room,temp_c\nT1,a,26\nT2,a,\n'],
    ['pairs.csv', `pair,species,tank,retired\nP1,red,T1,${cell(retired)}\nP2,red,T2,\n`],
    ['clutches.csv', lines('clutch,pair,species,tank,spawned,hatched,free_swimming,ended', clutches.filter(({ spawned }) => isWritten(spawned)).map(({ id, pair, spawned, hatched, freeSwimming, ended }) => [id, pair, 'red', pair === 'P2' ? 'T2' : 'T1', spawned, cell(hatched), cell(freeSwimming), cell(ended)].join(',')))],
    ['log.csv', lines('time,clutch,event,count,length_mm,to_tank', log.filter(({ time }) => isWritten(time)).map(({ time, clutch, event, count, length, toTank }) => [time, clutch, event, count, length, toTank].join(',')))],
    ['readings.csv', lines('time,tank,temp_c', readings.filter(({ time }) => isWritten(time)).map(({ time, tank, celsius }) => [time, tank, celsius].join(',')))],
  ]);
}

/** What follows from files at an instant, in Berlin. */
export function evaluationOf(files: ReadonlyMap<string, string>, now: number): Evaluation {
  const records = new Records(berlin);
  const evaluation = new Evaluation(records, now);
  evaluation.update(records.apply([...files].map(([path, text]) => ({ path, file: { text } }))));
  return evaluation;
}

/** A moment within 40 days around the clocks' change in March: mostly to the minute, at times a bare day or about. */
const anyTime = fc.record({ day: fc.integer({ min: 5, max: 44 }), quarter: fc.nat(95), kind: fc.nat(11) }).map((time) => written(time));

function written({ day, quarter, kind }: { readonly day: number; readonly quarter: number; readonly kind: number }): string {
  const date = day <= 31 ? `2026-03-${String(day).padStart(2, '0')}` : `2026-04-${String(day - 31).padStart(2, '0')}`;
  const clock = `T${String(Math.floor(quarter / 4)).padStart(2, '0')}:${['00', '15', '30', '45'][quarter % 4] as string}`;
  return `${kind === 0 ? '~' : ''}${date}${kind === 1 || kind === 2 ? '' : clock}`;
}

const anyBrood = fc.record({
  pair: fc.constantFrom('P1', 'P1', 'P1', 'P2', ''),
  day: fc.integer({ min: 5, max: 36 }),
  quarter: fc.nat(95),
  kinds: fc.array(fc.nat(11), { minLength: 4, maxLength: 4 }),
  hours: fc.record({ hatch: fc.integer({ min: 20, max: 110 }), feed: fc.integer({ min: 10, max: 90 }), swim: fc.integer({ min: 20, max: 150 }) }),
  recorded: fc.array(fc.constantFrom('register', 'log', 'log', 'both', 'nowhere'), { minLength: 3, maxLength: 3 }),
  ended: fc.oneof({ weight: 2, arbitrary: fc.constant('') }, { weight: 1, arbitrary: anyTime }),
});

const anyLogRow = fc.record({
  time: anyTime,
  brood: fc.nat(11),
  event: fc.constantFrom('checked', 'checked', 'fungus', 'counted', 'fed', 'moved', 'measured', 'measured', 'measured', 'hatched', 'ended'),
  count: fc.constantFrom('', '30', '12'),
  toTank: fc.constantFrom('T1', 'T2'),
  length: fc.constantFrom('5', '7.5', '9', '70'),
});

/** Up to twelve broods of two pairs, or of none, in disorder, with rows that contradict each other now and then. */
export const anyWrittenRoom: fc.Arbitrary<WrittenRoom> = fc
  .record({
    broods: fc.array(anyBrood, { minLength: 1, maxLength: 12, size: 'max' }),
    rows: fc.array(anyLogRow, { maxLength: 30, size: 'max' }),
    readings: fc.array(fc.record({ time: anyTime, tank: fc.constantFrom('T1', 'T2'), celsius: fc.constantFrom('24', '26.5', '28', '22') }), { maxLength: 25 }),
    retired: fc.oneof({ weight: 4, arbitrary: fc.constant('') }, { weight: 1, arbitrary: anyTime }),
  })
  .map(({ broods, rows, readings, retired }) => {
    const log: WrittenRoom['log'][number][] = rows.map(({ time, brood, event, count, toTank, length }) => ({
      time,
      clutch: `C${(brood % broods.length) + 1}`,
      event,
      count: event === 'counted' ? count : '',
      length: event === 'measured' ? length : '',
      toTank: event === 'moved' ? toTank : '',
    }));
    const clutches = broods.map(({ pair, day, quarter, kinds, hours, recorded, ended }, i) => {
      const id = `C${i + 1}`;
      const at = (later: number, kind: number | undefined): string => {
        const quarters = quarter + later * 4;
        return written({ day: day + Math.floor(quarters / 96), quarter: quarters % 96, kind: kind ?? 5 });
      };
      const times = [at(hours.hatch, kinds[1]), at(hours.hatch + hours.feed, kinds[2]), at(hours.hatch + hours.swim, kinds[3])];
      const cellOf = (place: number): string => (recorded[place] === 'register' || recorded[place] === 'both' ? (times[place] as string) : '');
      ['hatched', 'first_feed', 'free_swimming'].forEach((event, place) => {
        if (recorded[place] === 'log') log.push({ time: times[place] as string, clutch: id, event, count: '', length: '', toTank: '' });
        // Written twice, an hour apart.
        if (recorded[place] === 'both') log.push({ time: at([hours.hatch + 1, hours.hatch + hours.feed, hours.hatch + hours.swim - 1][place] as number, 5), clutch: id, event, count: '', length: '', toTank: '' });
      });
      return { id, pair, spawned: at(0, kinds[0]), hatched: cellOf(0), freeSwimming: cellOf(2), ended };
    });
    return { clutches, log, readings, retired };
  });
