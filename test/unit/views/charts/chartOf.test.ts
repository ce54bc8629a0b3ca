import assert from 'node:assert/strict';
import fc from 'fast-check';
import { parseDay } from '../../../../src/base/moment';
import type { PlanView } from '../../../../src/planner/states';
import { Plan } from '../../../../src/planner/plan';
import type { Chart, ChartOutcome, Point } from '../../../../src/views/charts/chart';
import { chartOf } from '../../../../src/views/charts/chartOf';
import { berlin, moment } from '../../../support/moments';
import { anyRoom } from '../../../support/randomRoom';
import { roomOf } from '../../../support/room';

const now = '2026-06-10T09:00';

function drawn(outcome: ChartOutcome): Chart {
  assert.equal(outcome.kind, 'chart', JSON.stringify(outcome));
  return (outcome as { readonly chart: Chart }).chart;
}

/** All places of a drawing. */
function placesOf(chart: Chart): readonly Point[] {
  return [
    { x: chart.left, y: 0 },
    { x: chart.right, y: chart.height },
    ...chart.days.ticks.map(({ x }) => ({ x, y: chart.days.y })),
    ...(chart.now === undefined ? [] : [chart.now]),
    ...chart.panels.flatMap(({ label, ticks, marks, top, bottom }) => [
      label,
      ...ticks.map(({ y }) => ({ x: chart.left, y })),
      ...[top, bottom].map((y) => ({ x: chart.left, y })),
      ...marks.flatMap((mark) => (mark.kind === 'limit' ? [{ x: chart.left, y: mark.y }, mark.label] : mark.kind === 'name' ? [mark.label] : mark.points)),
    ]),
  ];
}

function assertDrawable(outcome: ChartOutcome): void {
  if (outcome.kind === 'nothing') {
    assert.notEqual(outcome.why, '');
    return;
  }
  const { chart } = outcome;
  for (const { x, y } of placesOf(chart)) assert.ok(x >= 0 && x <= chart.width && y >= 0 && y <= chart.height, `${chart.title}: ${x}, ${y} in ${chart.width} × ${chart.height}`);
  assert.ok(chart.panels.length > 0 && chart.says.length > 0);
  for (const { ticks } of chart.panels) assert.ok(ticks.length > 1 && ticks.length < 9 && new Set(ticks.map(({ text }) => text)).size === ticks.length, JSON.stringify(ticks));
  for (const row of chart.table.rows) assert.equal(row.length, chart.table.headers.length);
  assert.deepEqual(JSON.parse(JSON.stringify(outcome)), outcome, 'it can be sent');
  assert.doesNotMatch(JSON.stringify(outcome), /NaN|Infinity|undefined/);
}

const things = [...['C1', 'C2', 'C3', 'c1'].map((id) => ({ kind: 'clutch' as const, id })), ...['P1', 'P2', 'p1'].map((id) => ({ kind: 'pair' as const, id })), ...['T1', 'T2', 'T3', 't1'].map((id) => ({ kind: 'tank' as const, id }))];

function assertAllDrawable(view: PlanView): void {
  for (const thing of things) assertDrawable(chartOf(thing, view, 'en-GB'));
}

describe('chartOf', () => {
  it('has a place inside the view box for everything, in whatever rooms', () => {
    fc.assert(
      fc.property(anyRoom, (files) => {
        const plan = new Plan({ machineZone: berlin, now: moment(now).instant });
        plan.apply([...files].map(([path, text]) => ({ path, file: { text } })));
        assertAllDrawable(plan.view);
      }),
      { numRuns: Number(process.env['RUNS'] ?? 60) },
    );
  });

  it('draws what is far away, tiny, huge or all the same', () => {
    const plan = roomOf(
      {
        'species.csv': ['species,care,hatch_h,sale_d,hatch_mm,sale_mm,max_mm,interval_d,survival_pct', 'slow,cave,72,900000,4,42,80,900000,1', 'quick,cave,1,0.001,4,42,42.0001,1,100'],
        'tanks.csv': ['tank', 'T1', 'T2'],
        'pairs.csv': ['pair,species', 'P1,slow', 'P2,quick'],
        'clutches.csv': ['clutch,pair,species,tank,spawned', 'C1,P1,slow,T1,0001-01-01', 'C2,P2,quick,T1,2026-06-10', 'C3,P2,quick,T1,2026-06-10T08:59'],
        'log.csv': ['clutch,time,event,count,length_mm', 'C1,9998-01-01,counted,1,', 'C2,2026-06-10,counted,0,', 'C3,2026-06-10T08:59,counted,900000,', 'C3,2026-06-10T09:00,measured,,1e-9', 'C1,2026-01-01,measured,,99999'],
        'tanks/T1.csv': ['time,temp_c,ph,tan_mg_l', '2026-06-10,25,7,0', '2026-06-10,25,7,0'],
        'tanks/T2.csv': ['time,temp_c,ph,tan_mg_l', '0000-01-01,0,14,99999', '2026-06-10T09:00,40,0,1e-12'],
      },
      now,
    );
    assertAllDrawable(plan.view);
    assertAllDrawable(roomOf({ 'fishroom.json': '{"timezone": "UTC"}' }, now).view);
  });

  it('says what would be there and how it gets there', () => {
    const plan = roomOf({ 'tanks.csv': ['tank', 'T1'], 'pairs.csv': ['pair', 'P1'], 'clutches.csv': ['clutch,tank,spawned', 'C1,T1,2026-06-01'] }, now);
    const why = (kind: 'clutch' | 'pair' | 'tank', id: string): string => {
      const outcome = chartOf({ kind, id }, plan.view, 'en-GB');
      return outcome.kind === 'nothing' ? outcome.why : 'a chart';
    };
    assert.match(why('clutch', 'C1'), /^Here would be the growth and the head count of C1\. Rows "measured"/);
    assert.match(why('clutch', 'C9'), /no clutch of that name has spawned/);
    assert.match(why('pair', 'P1'), /^Here would be the days between the spawns of P1\. Each clutch/);
    assert.match(why('pair', 'P9'), /no pair is called that/);
    assert.match(why('tank', 'T1'), /^Here would be temperature, pH and ammonia of T1\. Rows with temp_c or ph/);
    assert.match(why('tank', 'T9'), /no tank is called that/);
  });

  it('keeps names of the keeper in texts alone', () => {
    const evil = '<img onerror=1>&</script>';
    const plan = roomOf(
      {
        'species.csv': [`species,temp_max_c`, 'x,30'],
        'tanks.csv': ['tank', 'T1'],
        'clutches.csv': ['clutch,species,tank,spawned', `C1,x,T1,2026-06-01`],
        'tanks/T1.csv': ['time,temp_c,note', `2026-06-09,25,${evil}`],
      },
      now,
    );
    assertAllDrawable(plan.view);
    const named = chartOf({ kind: 'tank', id: evil }, plan.view, 'en-GB');
    assert.deepEqual(named, { kind: 'nothing', title: `Tank ${evil}`, why: `Here would be the water of ${evil}, but no tank is called that. A row in tanks.csv begins it.` });
    for (const thing of things) assert.ok(!JSON.stringify(chartOf(thing, plan.view, 'en-GB')).includes('<'));
  });

  it('writes days as the keeper’s language does', () => {
    const files = { 'pairs.csv': ['pair,species', 'P1,kribensis'], 'clutches.csv': ['clutch,pair,tank,spawned', 'C1,P1,T1,2026-03-01', 'C2,P1,T1,2026-04-01'] };
    const days = (locale: string): string | undefined => drawn(chartOf({ kind: 'pair', id: 'P1' }, roomOf(files, now).view, locale)).table.rows[1]?.[1];
    // Unicode CLDR: the medium format of a date.
    assert.deepEqual([days('en-US'), days('en-GB'), days('de')], ['Apr 1, 2026', '1 Apr 2026', '01.04.2026']);
    assert.equal(parseDay('2026-04-01'), 20_544);
  });
});
