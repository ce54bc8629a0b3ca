import { parseMoment } from '../../src/base/moment';
import type { Moment } from '../../src/base/moment';
import { zoneOf } from '../../src/base/zone';
import type { Zone } from '../../src/base/zone';

/** Where the tests' rooms stand unless they say otherwise. */
export const berlin = zoneOf('Europe/Berlin') as Zone;

/** The moment that a cell's text says. Throws where it says none. */
export function moment(text: string, zone: Zone = berlin): Moment {
  const read = parseMoment(text, zone);
  if (read === undefined) throw new Error(`"${text}" is no moment`);
  return read;
}
