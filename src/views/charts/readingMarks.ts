import type { PlotPoint, PlotSign } from './plot';

/** A line is drawn between readings no further apart, since nobody knows what was in between. */
const JOINED_DAYS = 14;
/** With more points than these one sees no more. */
const MOST_POINTS = 400;

/** Runs of readings that a line joins; a reading by itself is in none. */
export function joined(points: readonly PlotPoint[]): readonly (readonly PlotPoint[])[] {
  const runs: PlotPoint[][] = [];
  let before = -Infinity;
  for (const { day, value } of points) {
    if (day - before <= JOINED_DAYS) runs.at(-1)?.push({ day, value });
    else runs.push([{ day, value }]);
    before = day;
  }
  return runs.filter((run) => run.length > 1);
}

/** All points where they are few, else of each day the lowest and the highest, so that nothing outside a limit is lost. */
export function thinned(points: readonly PlotSign[]): readonly PlotSign[] {
  if (points.length <= MOST_POINTS) return points;
  const byDay = new Map<number, { lowest: PlotSign; highest: PlotSign }>();
  for (const point of points) {
    const day = Math.floor(point.day);
    const known = byDay.get(day);
    if (known === undefined) byDay.set(day, { lowest: point, highest: point });
    else if (point.value < known.lowest.value) known.lowest = point;
    else if (point.value > known.highest.value) known.highest = point;
  }
  const kept = new Set([...byDay.values()].flatMap(({ lowest, highest }) => [lowest, highest]));
  return points.filter((point) => kept.has(point));
}
