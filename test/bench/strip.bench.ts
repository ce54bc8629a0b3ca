import { formatMoment, momentAt } from '../../src/base/moment';
import { calendarTexts } from '../../src/views/calendar/calendarTexts';
import type { CalendarModel } from '../../src/views/calendar/calendarModel';
import type { ToCalendar } from '../../src/protocol/calendar';
import { bodyOf, calendarOf } from '../support/calendars';
import { berlin } from '../support/moments';
import { roomOf } from '../support/room';
import { line } from './measure';

const BROODS = 2_000;
/** What the script of a frame may take, in ms, so that a frame of 60 in a second has the other half for drawing. */
const mostOfFrame = 8;

/** A season of so many broods that all live at once, four to a tank. */
function season(): CalendarModel {
  const id = (i: number): string => String(i).padStart(4, '0');
  const day = (i: number): string => formatMoment(momentAt(Date.UTC(2026, 3, 1 + (i % 69), 6 + (i % 12)), berlin), berlin);
  const tanks = Array.from({ length: BROODS / 4 }, (_, i) => `T${id(i)},${['front', 'back', 'cellar'][i % 3] ?? ''}`);
  const plan = roomOf(
    {
      'rooms.csv': 'room,name\nfront,Front room\nback,Back room\ncellar,Cellar\n',
      'tanks.csv': ['tank,room', ...tanks],
      'clutches.csv': ['clutch,species,tank,spawned,hatched', ...Array.from({ length: BROODS }, (_, i) => `K${id(i)},${['kribensis', 'angelfish', 'guppy'][i % 3] ?? ''},T${id(Math.floor(i / 4))},${day(i)},${i % 3 === 2 ? '' : day(i + 3)}`)],
    },
    '2026-06-10T09:00',
  );
  return calendarOf(plan, { view: 'strip' });
}

/** What scrolling took, and what it is asked with: the bundle of this bench stands elsewhere than the tests in VS Code, whose packages drive Chromium. */
interface Scrolling {
  readonly scrollSeason: (message: ToCalendar) => Promise<{ readonly script: readonly number[]; readonly rows: number }>;
}

void (async () => {
  const model = season();
  const shown: ToCalendar = { kind: 'shown', ask: 0, fishroom: 'bench', fishrooms: [], query: { view: 'strip', selection: {} }, model, texts: calendarTexts() };
  const { scrollSeason } = (await import(`${process.cwd()}/test/host/season.mjs`)) as Scrolling;
  const { script, rows } = await scrollSeason(shown);
  const sorted = [...script].sort((a, b) => a - b);
  const at = (share: number): number => sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * share))] ?? Number.NaN;
  console.log(`\nSeason: ${BROODS} broods in ${bodyOf(model, 'strip').strip.rows.length} rows, ${rows} drawn at most, ${script.length} frames`);
  line('', 'median ms', '95 %', 'worst', 'at most');
  line('  script of a frame', at(0.5), at(0.95), at(1), mostOfFrame);
})();
