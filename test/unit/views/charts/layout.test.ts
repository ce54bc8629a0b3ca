import assert from 'node:assert/strict';
import { datesFor } from '../../../../src/views/charts/dates';
import { layOut } from '../../../../src/views/charts/layout';
import type { Plot, PlotMark, PlotPanel } from '../../../../src/views/charts/plot';
import { berlin, moment } from '../../../support/moments';

const now = moment('2026-06-11');
const dates = datesFor('en-GB', { now, zone: berlin });
const table = { caption: '', headers: [], rows: [] };

function plot(...panels: readonly (readonly PlotMark[])[]): Plot {
  return { title: 'K1', says: [], from: now.day - 10, to: now.day + 10, now: now.day, table, panels: panels.map((marks): PlotPanel => ({ label: 'mm', fromZero: true, marks })) };
}

const point = (days: number, value: number, label?: string): PlotMark => ({ kind: 'points', points: [{ day: now.day + days, value, sign: 'recorded', says: '', ...(label === undefined ? {} : { label }) }] });
const limit = (value: number): PlotMark => ({ kind: 'limit', value, label: `at most ${value}`, side: 'right' });

describe('layOut', () => {
  it('puts days and values where the ticks say, panel below panel', () => {
    const { panels, days, left, right, now: line, height } = layOut(plot([point(-10, 0), point(0, 20), point(10, 40)], [point(0, 8)]), dates);
    const [first, second] = panels;
    assert.ok(first && second && line);
    const middle = (left + right) / 2;
    assert.deepEqual(
      first.marks.flatMap((mark) => (mark.kind === 'points' ? mark.points.map(({ x, y }) => [x, y]) : [])),
      [[left, first.bottom], [middle, (first.top + first.bottom) / 2], [right, first.top]],
    );
    assert.deepEqual(first.ticks.map(({ text, y }) => [text, y]), ['0', '10', '20', '30', '40'].map((text, i) => [text, first.bottom - (i * (first.bottom - first.top)) / 4]));
    assert.equal(line.x, middle);
    assert.ok(second.top > first.bottom && height > second.bottom);
    assert.deepEqual(days.ticks.map(({ text, x }) => [text, Math.round(x * 10) / 10]), [['1 Jun', left], ['8 Jun', 194.3], ['15 Jun', 340.6]]);
  });

  it('writes the name of the lower of two near limits below its line, and keeps both off the ends', () => {
    const [panel] = layOut(plot([limit(40), limit(38), point(0, 3)]), dates).panels;
    const names = panel?.marks.flatMap((mark) => (mark.kind === 'limit' ? [mark.label.y < mark.y] : []));
    assert.deepEqual(names, [true, false]);
    for (const mark of panel?.marks ?? []) if (mark.kind === 'limit') assert.ok(mark.y > (panel?.top ?? 0));
  });

  it('leads from a name in the first line down to its point, on the side with more room', () => {
    for (const [days, anchor] of [[-8, 'start'], [8, 'end']] as const) {
      const [panel] = layOut(plot([point(days, 20, 'here'), point(0, 40)]), dates).panels;
      const name = panel?.marks.find((mark) => mark.kind === 'name');
      const line = panel?.marks.find((mark) => mark.kind === 'line');
      assert.deepEqual([name?.label.text, name?.label.anchor], ['here', anchor]);
      assert.deepEqual(line?.points.map(({ y }) => y), [panel?.top, ((panel?.top ?? 0) + (panel?.bottom ?? 0)) / 2]);
    }
  });

  it('explains the signs that are drawn, and no others', () => {
    const { key } = layOut(plot([point(0, 1), { kind: 'span', from: now.day, to: now.day + 2 }]), dates);
    assert.deepEqual(key, [{ sign: 'recorded', text: 'recorded' }, { sign: 'window', text: 'here 8 times in 10' }]);
  });

  it('has no line for now where now is outside', () => {
    assert.ok(!('now' in layOut({ ...plot([point(0, 1)]), from: now.day + 1 - 20, to: now.day - 1, now: now.day + 5 }, dates)));
  });
});
