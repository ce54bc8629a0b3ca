import { momentAt } from '../base/moment';
import type { Moment } from '../base/moment';
import type { Zone } from '../base/zone';
import { predictiveOf, windowAfter } from './learning';
import type { Window } from './learning';
import { LAST_INSTANT } from './timeline';
import type { MilestoneTime, Timeline } from './timeline';

/** When something that has not happened yet is to be expected, as an 80 % window, none of it before now. */
export interface Coming {
  readonly from: Moment;
  readonly expected: Moment;
  readonly to: Moment;
}

/**
 * When a milestone is still to come, undefined where it is recorded, there is evidence that it is past, or nothing can be
 * expected. Once now is inside its window, the distribution is cut off below at now, and what counts from it moves along.
 */
export function comingOf(milestone: MilestoneTime | undefined, timeline: Timeline, { now, zone }: { readonly now: Moment; readonly zone: Zone }): Coming | undefined {
  if (milestone === undefined || milestone.basis === 'recorded' || milestone.evidence !== undefined || milestone.modelMs === undefined) return undefined;
  const { learned, modelMs, rung } = milestone;
  const base = rung.after === undefined ? undefined : timeline.of(rung.after);
  const start = startOf(base, timeline, { now, zone });
  if (start === undefined) return undefined;
  const window = learned === undefined || rung.quantity === undefined ? CERTAIN : cutOff(learned, predictiveOf(learned, rung.quantity, learned.n), (now.instant - start) / modelMs);
  const at = (factor: number): Moment => momentAt(Math.min(LAST_INSTANT, Math.round(start + modelMs * factor)), zone);
  return { from: at(window.from), expected: at(window.expected), to: at(window.to) };
}

const CERTAIN: Window = { from: 1, expected: 1, to: 1 };

/** As it stands until `passed` reaches the window, cut off below from then on. Both are factors on the model's duration. */
function cutOff(window: Window, predictive: Parameters<typeof windowAfter>[1], passed: number): Window {
  return passed <= window.from ? window : windowAfter(passed, predictive);
}

/** The instant that a milestone counts from: recorded, past by evidence, or itself still to come. */
function startOf(base: MilestoneTime | undefined, timeline: Timeline, at: { readonly now: Moment; readonly zone: Zone }): number | undefined {
  return base === undefined ? undefined : (comingOf(base, timeline, at)?.expected ?? base.time).instant;
}

/** Calendar days (days since 1970-01-01) of a pair's next spawn: as learned, cut off below at today once that is inside the window. */
export function comingSpawn(next: NextSpawnWindow, today: number): { readonly from: number; readonly expected: number; readonly to: number } {
  const { from, expected, to, lastDay, usualDays, window, observations } = next;
  if (today <= from) return { from, expected, to };
  // A day is over only when the next one begins: whatever rounds to today may still come today.
  const cut = windowAfter((today - lastDay - 0.5) / usualDays, predictiveOf(window, 'interval', observations));
  const day = (factor: number): number => Math.max(today, lastDay + Math.min(MOST_DAYS, Math.round(usualDays * factor)));
  return { from: day(cut.from), expected: day(cut.expected), to: day(cut.to) };
}

/** A thousand years: no calendar of the records needs more. */
const MOST_DAYS = 365_000;

/** What is known of a pair's next spawn: the day of the last, days of the model, and the learned window as days and as factors. */
export interface NextSpawnWindow {
  readonly from: number;
  readonly expected: number;
  readonly to: number;
  readonly lastDay: number;
  readonly usualDays: number;
  readonly window: Window;
  readonly observations: number;
}
