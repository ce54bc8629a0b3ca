import { say, textOf } from '../../base/messages';

/** The fixed words of the calendar's screen. */
export type CalendarTexts = Readonly<Record<(typeof words)[number], string>>;

const words = ['calendar', 'fishroom', 'month', 'strip', 'list', 'today', 'earlier', 'later', 'rooms', 'species', 'kinds', 'all', 'none', 'span', 'done', 'answer', 'open', 'write', 'cancel', 'back', 'more', 'hint', 'lines-more', 'loading', 'details', 'when', 'legend-recorded', 'legend-expected', 'legend-window', 'chart'] as const;

export function calendarTexts(): CalendarTexts {
  return Object.fromEntries(words.map((word) => [word, textOf(say(`calendar.text.${word}`))])) as CalendarTexts;
}
