import { deepStrictEqual, equal, match, throws } from 'node:assert/strict';
import fc from 'fast-check';
import { zoneOf } from '../../../src/base/zone';
import type { Zone } from '../../../src/base/zone';
import type { CalendarEvent } from '../../../src/exchange/calendarEvent';
import { calendarText } from '../../../src/exchange/calendarText';
import type { CalendarFile } from '../../../src/exchange/calendarText';
import { oneLine, plainText } from '../../../src/exchange/contentLine';
import { storedEvents } from '../../../src/exchange/storedCalendar';
import { readCalendar } from '../../support/calendarReader';
import type { ReadEvent } from '../../support/calendarReader';
import { berlin, moment } from '../../support/moments';

const noon = moment('2026-06-10T12:00').instant;
const day = moment('2026-06-10').day;
const hour = 3_600_000;

const hatch: CalendarEvent = { uid: 'hatch@room', summary: 'K1 T1: Hatched?', description: ['One', 'Two'], location: 'front, T1', category: 'Hatch', when: { kind: 'times', start: noon + 30 * hour, end: noon + 40 * hour, alarm: noon + 31 * hour, zone: berlin } };
const feed: CalendarEvent = { uid: 'feed@room', summary: 'Feed', description: [], location: '', category: 'Feeding', when: { kind: 'days', first: day, last: day + 2 } };

function write(events: readonly CalendarEvent[], { before = '', now = noon, zone = berlin }: { readonly before?: string; readonly now?: number; readonly zone?: Zone } = {}): CalendarFile {
  const stored = storedEvents(before);
  if (stored === undefined) throw new Error('the file before is foreign');
  return calendarText(events, { name: 'My rooms', stored, now, zone });
}

const read = (text: string, uid: string): ReadEvent | undefined => readCalendar(text).events.find((event) => event.uid === uid);

describe('a calendar file', () => {
  it('says to the reference reader what it was given', () => {
    const { text, ...counts } = write([hatch, feed]);
    deepStrictEqual(counts, { events: 2, added: 2, changed: 0, cancelled: 0 });
    const { name, events } = readCalendar(text);
    equal(name, 'My rooms');
    deepStrictEqual(events, [
      { uid: 'feed@room', sequence: 0, stamp: '2026-06-10T10:00:00Z', summary: 'Feed', description: '', location: '', categories: ['Feeding'], status: null, isDays: true, start: '2026-06-10', end: '2026-06-13', alarm: undefined },
      { uid: 'hatch@room', sequence: 0, stamp: '2026-06-10T10:00:00Z', summary: 'K1 T1: Hatched?', description: 'One\nTwo', location: 'front, T1', categories: ['Hatch'], status: null, isDays: false, start: '2026-06-11T16:00:00.000Z', end: '2026-06-12T02:00:00.000Z', alarm: '2026-06-11T17:00:00.000Z' },
    ]);
  });

  // RFC 5545, 3.4 and 3.6: one object, these properties in it once.
  it('has what every calendar file must have, and ends its lines as it must', () => {
    const { text } = write([hatch, feed]);
    match(text, /^BEGIN:VCALENDAR\r\nVERSION:2\.0\r\nPRODID:[^\r\n]+\r\nCALSCALE:GREGORIAN\r\n/);
    match(text, /\r\nEND:VCALENDAR\r\n$/);
    equal(text.replaceAll('\r\n', '').includes('\n'), false);
    equal(readCalendar(write([]).text).events.length, 0);
  });

  for (const name of ['Europe/Berlin', 'America/St_Johns', 'Pacific/Auckland', 'UTC']) {
    it(`tells instants on the clock of ${name} so that they are the same`, () => {
      const zone = zoneOf(name) as Zone;
      const events = Array.from({ length: 400 }, (_, i): CalendarEvent => ({ ...hatch, uid: `e${i}`, when: { kind: 'times', start: noon + i * 23 * hour, end: noon + i * 23 * hour + hour, alarm: noon + i * 23 * hour - 600_000, zone } }));
      const { text } = write(events, { zone });
      for (const { uid, start, end, alarm } of readCalendar(text).events) {
        const at = noon + Number(uid.slice(1)) * 23 * hour;
        deepStrictEqual([start, end, alarm], [at, at + hour, at - 600_000].map((each) => new Date(each).toISOString()), uid);
      }
      equal(text.includes('BEGIN:VTIMEZONE'), name !== 'UTC');
    });
  }

  it('gives any texts back', () => {
    const anyText = fc.oneof(fc.string({ unit: 'binary' }), fc.constantFrom('<img src=x onerror=alert(1)>', '</script>', 'a\r\nEND:VEVENT\r\nBEGIN:VEVENT\r\nUID:evil', 'ü'.repeat(80), '🐟'.repeat(40)));
    fc.assert(
      fc.property(anyText, anyText, anyText, (summary, line, location) => {
        const { text } = write([{ ...feed, summary, description: [line, 'end'], location, category: 'a\\b' }]);
        const { events } = readCalendar(text);
        equal(events.length, 1);
        const [event] = events;
        deepStrictEqual([event?.summary, event?.description, event?.location, event?.categories], [oneLine(summary), plainText(`${line}\nend`), oneLine(location), ['a\\b']]);
      }),
    );
  });
});

describe('a calendar file written again', () => {
  const before = write([hatch, feed]).text;

  it('is the same to the byte when nothing has changed, whenever that is', () => {
    equal(write([feed, hatch], { before, now: noon + 5 * hour }).text, before);
    fc.assert(
      fc.property(fc.array(fc.string({ unit: 'binary' }), { maxLength: 4 }), (texts) => {
        const events = texts.map((summary, i): CalendarEvent => ({ ...feed, uid: `u${i}`, summary, description: [summary], location: summary }));
        const first = write(events).text;
        equal(write(events, { before: first, now: noon + hour }).text, first);
      }),
    );
  });

  it('raises the number of an event that says something else, and of no other', () => {
    const { text, ...counts } = write([{ ...hatch, summary: 'K1 T2: Hatched?' }, feed], { before, now: noon + hour });
    deepStrictEqual(counts, { events: 2, added: 0, changed: 1, cancelled: 0 });
    deepStrictEqual([read(text, hatch.uid)?.sequence, read(text, hatch.uid)?.stamp], [1, '2026-06-10T11:00:00Z']);
    deepStrictEqual([read(text, feed.uid)?.sequence, read(text, feed.uid)?.stamp], [0, '2026-06-10T10:00:00Z']);
    equal(read(write([hatch, feed], { before: text, now: noon + 2 * hour }).text, hatch.uid)?.sequence, 2, 'changed back is changed again');
  });

  it('calls off once what is no more, as long as it lies in the future, and drops it then', () => {
    const gone = write([feed], { before, now: noon + hour });
    equal(gone.cancelled, 1);
    const event = read(gone.text, hatch.uid);
    deepStrictEqual([event?.status, event?.sequence, event?.stamp, event?.start, event?.alarm], ['CANCELLED', 1, '2026-06-10T11:00:00Z', '2026-06-11T16:00:00.000Z', undefined]);
    equal(write([feed], { before: gone.text, now: noon + 2 * hour }).text, gone.text, 'called off once');
    equal(read(write([feed], { before: gone.text, now: noon + 41 * hour }).text, hatch.uid), undefined, 'over');
    equal(read(write([], { before, now: noon + 40 * hour }).text, hatch.uid), undefined, 'was over when it went');
    const back = read(write([hatch, feed], { before: gone.text, now: noon + 3 * hour }).text, hatch.uid);
    deepStrictEqual([back?.status, back?.sequence], [null, 2]);
  });

  it('calls off whole days until they are over on the clock of the fishroom', () => {
    const last = moment('2026-06-13T00:00').instant;
    equal(read(write([hatch], { before, now: last - 1 }).text, feed.uid)?.status, 'CANCELLED');
    equal(read(write([hatch], { before, now: last }).text, feed.uid), undefined);
  });

  it('survives broken files, and takes those of others for what they are', () => {
    for (const foreign of ['hello', 'clutch,species\n', 'BEGIN:VCALENDAR\r\nPRODID:-//Other//EN\r\nEND:VCALENDAR\r\n', 'BEGIN:VCALENDAR\r\nPRODID:-//Other//EN\r\nBEGIN:VEVENT\r\nPRODID:-//Broodsheet//Fishroom calendar//EN\r\nEND:VEVENT\r\nEND:VCALENDAR']) equal(storedEvents(foreign), undefined, foreign);
    equal(storedEvents('')?.size, 0);
    equal(storedEvents(before.slice(0, before.indexOf('UID:hatch')))?.size, 1, 'cut off');
    equal(storedEvents(before.replaceAll('SEQUENCE:0', 'SEQUENCE:many'))?.size, 0);
    equal(storedEvents(before.replaceAll('\r\n', '\n'))?.size, 2, 'other line ends');
    // Each was once kept, and written into the next file as it was, which no reader could read then.
    for (const [from, to] of [['UID:hatch', 'UID:\nhatch'], ['LOCATION:', 'LOCATION'], ['END:VALARM', 'X-END:VALARM']] as const) equal(storedEvents(before.replace(from, to))?.has('hatch@room'), false, to);
    fc.assert(
      fc.property(fc.nat(before.length), fc.nat(60), fc.string({ unit: 'binary', maxLength: 30 }), (at, length, other) => {
        const stored = storedEvents(before.slice(0, at) + other + before.slice(at + length));
        if (stored === undefined) return;
        const { text } = calendarText([hatch, feed], { name: 'My rooms', stored, now: noon, zone: berlin });
        equal(readCalendar(text).events.filter(({ status }) => status === null).length, 2);
      }),
      { numRuns: 300 },
    );
  });

  it('does not bear two events of one name', () => {
    throws(() => write([feed, feed]), /two events are called feed@room/);
  });
});
