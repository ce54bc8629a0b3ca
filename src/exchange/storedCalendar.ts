import { unfolded } from './contentLine';

/** Names the program that wrote a file (RFC 5545, 3.7.3). It is how its own files are known again, so it never changes. */
export const PRODUCT = '-//Broodsheet//Fishroom calendar//EN';

/** An event as it stands in a file that was written before. */
export interface StoredEvent {
  readonly sequence: number;
  /** When it last became another. */
  readonly stamp: string;
  /** All other lines but UID, unfolded, those of its alarm too. */
  readonly lines: readonly string[];
}

/** The events of a file by their UID; none of an empty text. Undefined where the file was written by somebody else, or is no calendar. Never throws. */
export function storedEvents(text: string): ReadonlyMap<string, StoredEvent> | undefined {
  const lines = unfolded(text);
  if (lines.length === 0) return new Map();
  if (lines[0] !== 'BEGIN:VCALENDAR' || !lines.slice(1, lines.findIndex((line) => line === 'BEGIN:VEVENT') >>> 0).includes(`PRODID:${PRODUCT}`)) return undefined;
  const events = new Map<string, StoredEvent>();
  let open: string[] | undefined;
  for (const line of lines) {
    if (line === 'BEGIN:VEVENT') open = [];
    else if (line === 'END:VEVENT') {
      if (open !== undefined) keep(open, events);
      open = undefined;
    } else open?.push(line);
  }
  return events;
}

/** A name, what qualifies it, and a value (RFC 5545, 3.1). */
const CONTENT_LINE = /^[A-Za-z\d-]+(?:;(?:[^":]|"[^"]*")*)?:/;

/** What somebody broke is left out, so that it is written anew. */
function keep(lines: readonly string[], events: Map<string, StoredEvent>): void {
  const valueOf = (name: string): string | undefined => lines.find((line) => line.startsWith(`${name}:`))?.slice(name.length + 1);
  const [uid, sequence, stamp] = [valueOf('UID'), valueOf('SEQUENCE'), valueOf('DTSTAMP')];
  if (uid === undefined || uid === '' || sequence === undefined || stamp === undefined || !/^\d{1,9}$/.test(sequence) || !/^\d{8}T\d{6}Z$/.test(stamp)) return;
  if (!lines.every((line) => CONTENT_LINE.test(line))) return;
  const parts = lines.filter((line) => /^(?:BEGIN|END):/.test(line));
  // An alarm, which begins and ends, and nothing else within an event.
  if (parts.some((line, i) => line !== (i % 2 === 0 ? 'BEGIN:VALARM' : 'END:VALARM')) || parts.length % 2 === 1) return;
  events.set(uid, { sequence: Number(sequence), stamp, lines: lines.filter((line) => !/^(?:UID|SEQUENCE|DTSTAMP):/.test(line)) });
}
