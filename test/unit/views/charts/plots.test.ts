import assert from 'node:assert/strict';
import { formatDay, parseDay } from '../../../../src/base/moment';
import { lengthAt } from '../../../../src/domain/growth';
import type { Plan } from '../../../../src/planner/plan';
import { clutchPlot } from '../../../../src/views/charts/clutchChart';
import { datesFor } from '../../../../src/views/charts/dates';
import { pairPlot } from '../../../../src/views/charts/pairChart';
import type { Plot, PlotMark, PlotOutcome, PlotPanel, PlotPoint } from '../../../../src/views/charts/plot';
import { tankPlot } from '../../../../src/views/charts/tankChart';
import { cell, column, filledRoom, why } from '../../../support/room';
import type { RoomFiles } from '../../../support/room';
import { fillAll, sampleRoom } from '../../../support/samples';

const plots = { clutch: clutchPlot, pair: pairPlot, tank: tankPlot } as const;

function plotOf(plan: Plan, kind: keyof typeof plots, id: string): Plot {
  const outcome: PlotOutcome = plots[kind](id, plan.view, datesFor('en-GB', plan.view));
  assert.equal(outcome.kind, 'plot', JSON.stringify(outcome));
  return (outcome as { readonly plot: Plot }).plot;
}

function panel(plot: Plot, label: string): PlotPanel {
  const found = plot.panels.find((one) => one.label.startsWith(label));
  assert.ok(found, `${label} among ${plot.panels.map((one) => one.label).join(', ')}`);
  return found;
}

function marks<Kind extends PlotMark['kind']>({ marks: all }: PlotPanel, kind: Kind): readonly Extract<PlotMark, { readonly kind: Kind }>[] {
  return all.filter((mark): mark is Extract<PlotMark, { readonly kind: Kind }> => mark.kind === kind);
}

function line(of: PlotPanel, sign: 'recorded' | 'fitted' | 'expected'): readonly PlotPoint[] {
  return marks(of, 'line').find((mark) => mark.sign === sign)?.points ?? [];
}

function points(of: PlotPanel, ...signs: readonly string[]): readonly PlotPoint[] {
  return marks(of, 'points')
    .flatMap((mark) => mark.points)
    .filter(({ sign }) => signs.includes(sign));
}

/** The days on which an outline or a line goes through a value. */
function crossings(outline: readonly PlotPoint[], value: number): readonly string[] {
  return outline.flatMap((point, i) => {
    const next = outline[i + 1] ?? point;
    const [low, high] = point.value < next.value ? [point, next] : [next, point];
    if (!(low.value < value && value <= high.value)) return [];
    return [formatDay(Math.floor(low.day + ((high.day - low.day) * (value - low.value)) / (high.value - low.value) + 1e-9))];
  });
}

function windowOf(plan: Plan, path: string, id: string, header: string): readonly string[] {
  return [...(why(plan, path, id, header).window ?? '').matchAll(/\d{4}-\d\d-\d\d/g)].map(([text]) => text);
}

const species = ['species,care,hatch_h,sale_d,hatch_mm,sale_mm,max_mm,interval_d,survival_pct,temp_min_c,temp_max_c', 'cave-fish,cave,72,100,4,42,80,30,50,22,28', 'cold-fish,cave,72,100,4,42,80,30,50,20,26'];
const now = '2026-06-10T09:00';

function room(files: RoomFiles): Plan {
  return filledRoom({ 'fishroom.json': '{"timezone": "Europe/Berlin"}', 'species.csv': species, ...files }, now);
}

describe('the chart of a clutch', () => {
  const grown = (days: number): number => Number(lengthAt({ hatchMm: 4, maxMm: 80, perDay: Math.LN2 / 80 }, days).toFixed(1));
  const log = ['time,event,count,length_mm', '2026-03-10,counted,120,', ...['2026-03-21', '2026-04-10', '2026-04-30', '2026-05-20'].map((day) => `${day},measured,,${grown((parseDay(day) as number) - (parseDay('2026-03-01') as number))}`), '2026-05-20,lost,20,', '2026-06-01,sold,10,'];
  const plan = room({ 'clutches.csv': ['clutch,species,tank,spawned,hatched', 'K1,cave-fish,T1,2026-02-26T10:00,2026-03-01T10:00', 'K2,cave-fish,T1,2026-06-09T10:00,'], 'clutches/K1.csv': log });
  const plot = plotOf(plan, 'clutch', 'K1');

  it('crosses sale size on the days of sale_expected and of its window', () => {
    for (const id of ['K1', 'K2']) {
      const length = panel(plotOf(plan, 'clutch', id), 'Total length');
      const sale = marks(length, 'limit')[0]?.value ?? 0;
      assert.equal(sale, 42);
      const [from, to, expected] = windowOf(plan, 'clutches.csv', id, 'sale_expected');
      assert.deepEqual(crossings(marks(length, 'window')[0]?.points ?? [], sale), [from, to]);
      assert.deepEqual(crossings(line(length, 'expected'), sale), [expected]);
      assert.equal(cell(plan, 'clutches.csv', id, 'sale_expected'), expected);
      assert.deepEqual(points(length, 'expected').map(({ day, value }) => [formatDay(Math.floor(day)), value]), [[expected, 42]]);
    }
  });

  it('does so for every open clutch of the sample', async () => {
    const sample = fillAll(await sampleRoom('three-rooms'));
    let compared = 0;
    for (const { clutch: { clutch: id } } of sample.view.openClutches()) {
      const outcome = clutchPlot(id, sample.view, datesFor('en-GB', sample.view));
      const length = outcome.kind === 'plot' ? outcome.plot.panels.find(({ label }) => label.startsWith('Total length')) : undefined;
      const [sale] = length === undefined ? [] : marks(length, 'limit');
      const told = cell(sample, 'clutches.csv', id, 'sale_expected');
      if (length === undefined || sale === undefined || told === '') continue;
      const [from, to] = windowOf(sample, 'clutches.csv', id, 'sale_expected');
      assert.deepEqual(crossings(marks(length, 'window')[0]?.points ?? [], sale.value), [from, to], id);
      assert.deepEqual(crossings(line(length, 'expected'), sale.value), [told], id);
      compared++;
    }
    assert.ok(compared > 20, String(compared));
  });

  it('has the measurements, and the curve through them up to the last', () => {
    const length = panel(plot, 'Total length');
    assert.deepEqual(points(length, 'recorded').map(({ value }) => value), [20, 40, 60, 80].map(grown));
    const fitted = line(length, 'fitted');
    assert.equal(formatDay(Math.floor(fitted.at(-1)?.day ?? 0)), '2026-05-20');
    assert.ok(Math.abs((fitted.at(-1)?.value ?? 0) - grown(80)) < 0.5);
  });

  it('has the head count of the log’s rows, to now, and from there what is expected', () => {
    const heads = panel(plot, 'Fish alive');
    const alive = column(plan, 'clutches/K1.csv', 'alive').map(Number);
    assert.deepEqual(points(heads, 'recorded').map(({ value }) => value), [alive[0], alive[5], alive[6]]);
    assert.equal(line(heads, 'recorded').at(-1)?.value, Number(cell(plan, 'clutches.csv', 'K1', 'alive')));
    assert.deepEqual(line(heads, 'recorded').at(-1), line(heads, 'expected')[0]);
    const counts = line(heads, 'expected').map(({ value }) => value);
    assert.deepEqual(counts, [...counts].sort((a, b) => b - a));
  });

  it('says it in sentences and in a table', () => {
    const [from, to, expected] = windowOf(plan, 'clutches.csv', 'K1', 'sale_expected').map((day) => datesFor('en-GB', plan.view).day(parseDay(day) as number));
    assert.match(plot.says[0] ?? '', new RegExp(`^4 measurements from 21 Mar to 20 May; longest ${grown(80)} mm on 20 May, last ${grown(80)} mm\\. The curve through 4 of them heads for .* Expected to reach 42 mm on ${expected}; 8 times in 10 that falls from ${from} to ${to}\\.$`));
    assert.equal(plot.says[1], '90 alive since the record of Mon 1 Jun.');
    assert.deepEqual(plot.table.rows[0], ['10 Mar 2026', 'counted', '', '120']);
    assert.deepEqual(plot.table.rows[5], ['20 May 2026', 'lost', '', '100']);
    assert.deepEqual(plot.table.rows.at(-1)?.slice(1), ['sale size, expected', '42', '']);
  });

  it('expects nothing after the end, nor of a brood of which nobody knows whether it lives', () => {
    const rooms = room({ 'clutches.csv': ['clutch,species,tank,spawned,hatched,ended', 'K1,cave-fish,T1,2026-02-26,2026-03-01,2026-04-01', 'K2,cave-fish,T1,2026-04-01,,'], 'log.csv': ['clutch,time,event,count', 'K1,2026-03-10,counted,50', 'K2,2026-04-02,checked,'] });
    const ended = plotOf(rooms, 'clutch', 'K1');
    assert.equal(points(panel(ended, 'Total length'), 'expected').length, 0);
    assert.equal(line(panel(ended, 'Fish alive'), 'expected').length, 0);
    assert.equal(ended.says.at(-1), 'The clutch ended on 1 Apr.');
    assert.ok(ended.to < (parseDay('2026-04-02') as number));
    const unanswered = clutchPlot('K2', rooms.view, datesFor('en-GB', rooms.view));
    assert.equal(unanswered.kind, 'nothing');
  });
});

describe('the chart of a pair', () => {
  const spawned = ['2026-01-01', '2026-01-29', '~2026-03-05', '2026-04-02', '2026-05-10'];
  const plan = room({ 'pairs.csv': ['pair,species,retired', 'P1,cave-fish,', 'P2,cave-fish,', 'P3,cave-fish,2026-05-01'], 'clutches.csv': ['clutch,pair,tank,spawned', ...spawned.map((day, i) => `K${i},P1,T1,${day}`), 'L1,P2,T1,2026-05-01', 'M1,P3,T1,2026-01-01', 'M2,P3,T1,2026-02-01'] });

  it('has the intervals of spawn_interval_days, and the median', () => {
    const intervals = panel(plotOf(plan, 'pair', 'P1'), 'Days between');
    const cells = column(plan, 'clutches.csv', 'spawn_interval_days').slice(1, 5).map(Number);
    assert.deepEqual(points(intervals, 'recorded', 'estimate').map(({ value }) => value), cells);
    assert.deepEqual(points(intervals, 'estimate').map(({ value }) => value), cells.slice(1, 3));
    assert.ok(marks(intervals, 'limit').some(({ value }) => value.toFixed(1) === cell(plan, 'pairs.csv', 'P1', 'interval_median_days')));
  });

  it('expects the next spawn on the days of next_spawn_from, next_spawn_expected and next_spawn_to', () => {
    for (const id of ['P1', 'P2']) {
      const plot = plotOf(plan, 'pair', id);
      const [span] = marks(panel(plot, 'Days between'), 'span');
      const [next] = points(panel(plot, 'Days between'), 'expected');
      assert.ok(span && next);
      const days = [span.from, next.day, span.to - 1].map((day) => formatDay(Math.floor(day)));
      assert.deepEqual(days, ['next_spawn_from', 'next_spawn_expected', 'next_spawn_to'].map((header) => cell(plan, 'pairs.csv', id, header)));
      assert.equal(next.value, (parseDay(days[1] as string) as number) - (parseDay(id === 'P1' ? '2026-05-10' : '2026-05-01') as number));
    }
    assert.match(plotOf(plan, 'pair', 'P2').says.join(' '), /^One spawn so far, on 1 May, .* by what is usual for the species; 8 times in 10 it falls from/);
  });

  it('says why it expects none', () => {
    const plot = plotOf(plan, 'pair', 'P3');
    assert.deepEqual([marks(panel(plot, 'Days between'), 'span').length, plot.says], [0, ['1 interval: 31 days, up to the spawn of 1 Feb.', ...why(plan, 'pairs.csv', 'P3', 'next_spawn_expected').notes]]);
  });
});

describe('the chart of a tank', () => {
  const readings = ['time,temp_c,ph,tan_mg_l', '2025-01-01,25,7,1', '2026-05-20,25,7.5,0.5', '2026-05-25T10:00,27,,1', '2026-06-01,21,,', '2026-06-05,26.5,8.2,1', '2026-06-11,30,9,5'];
  const files = { 'tanks.csv': ['tank,system', 'T1,S1', 'T2,S1'], 'pairs.csv': ['pair,species,tank', 'P1,cave-fish,T1', 'P2,cold-fish,T2'], 'tanks/T1.csv': readings };
  const plan = room(files);
  const plot = plotOf(plan, 'tank', 'T1');

  it('has the readings of the last half year up to now, and ammonia as nh3_mg_l has it', () => {
    assert.deepEqual(points(panel(plot, 'Temperature'), 'recorded').map(({ value }) => value), [25, 27, 21, 26.5]);
    assert.deepEqual(points(panel(plot, 'pH'), 'recorded').map(({ value }) => value), [7.5, 8.2]);
    const ammonia = points(panel(plot, 'Un-ionized'), 'recorded').map(({ value }) => value.toFixed(4));
    assert.deepEqual(ammonia, column(plan, 'tanks/T1.csv', 'nh3_mg_l').slice(1, 5).filter((text) => text !== ''));
    assert.equal(ammonia.length, 3);
    assert.equal(ammonia.at(-1), cell(plan, 'tanks.csv', 'T1', 'nh3_mg_l'));
    assert.ok(plot.says.includes('1 older readings are not drawn.'));
  });

  it('has the strictest limit of the species on that water, or the keeper’s own', () => {
    const limits = (of: Plot, label: string): readonly string[] => marks(panel(of, label), 'limit').map(({ label: name }) => name);
    assert.deepEqual(limits(plot, 'Temperature'), ['at least 22 for cave-fish', 'at most 26 for cold-fish']);
    assert.deepEqual(limits(plot, 'Un-ionized'), ['below 0.02']);
    assert.match(plot.says[0] ?? '', /Limits: at least 22 for cave-fish, at most 26 for cold-fish; 3 are outside\.$/);
    const own = plotOf(room({ ...files, 'fishroom.json': '{"limits": {"temp_max_c": 29, "nh3_mg_l": 0.5}}' }), 'tank', 'T2');
    assert.deepEqual([limits(own, 'Temperature'), limits(own, 'Un-ionized')], [['at least 22 for cave-fish', 'at most 29'], ['below 0.5']]);
  });

  it('joins no readings further apart than two weeks', () => {
    const gaps = plotOf(room({ 'tanks.csv': ['tank', 'T1'], 'tanks/T1.csv': ['time,temp_c', '2026-05-01,25', '2026-05-14,26', '2026-06-01,25', '2026-06-09,24'] }), 'tank', 'T1');
    assert.deepEqual(marks(panel(gaps, 'Temperature'), 'line').map(({ points: run }) => run.map(({ value }) => value)), [[25, 26], [25, 24]]);
  });

  it('keeps the lowest and the highest of each day of a logger', () => {
    const rows = Array.from({ length: 3000 }, (_, i) => {
      const [day, hour, minute] = [1 + Math.floor(i / 500), Math.floor((i % 500) / 25), ((i % 500) % 25) * 2];
      return `2026-06-0${day}T${String(hour).padStart(2, '0')}:${String(minute).padStart(2, '0')},${i === 777 ? 31 : 25 + (i % 7) / 10}`;
    });
    const logged = plotOf(room({ 'tanks.csv': ['tank', 'T1'], 'tanks/T1.csv': ['time,temp_c', ...rows] }), 'tank', 'T1');
    const drawn = points(panel(logged, 'Temperature'), 'recorded').map(({ value }) => value);
    assert.equal(drawn.length, 12);
    assert.deepEqual([Math.min(...drawn), Math.max(...drawn)], [25, 31]);
    assert.deepEqual([logged.table.rows.length, logged.table.caption], [200, 'Values of T1: the last 200 of 3000 rows']);
  });
});
