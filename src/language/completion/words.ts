import { parseDuration } from '../../base/duration';
import { say } from '../../base/messages';
import type { Message } from '../../base/messages';
import { dayMs } from '../../base/zone';
import { schemaNamed } from '../../schema/catalog';
import type { Field } from '../../schema/descriptor';
import { isAcceptable, problemCodes } from '../../schema/problemCodes';
import { textIn } from './asked';
import type { Asked } from './asked';
import type { Suggestion } from './suggestion';

/** Words that a column knows; lengths of time that are common in it. */
export function wordsFitting(asked: Asked, field: Field): readonly Suggestion[] {
  if (field.kind === 'duration') return durationsFitting(field);
  if (field.name === 'accept') return codesFitting(asked);
  const words = field.name === 'done_by' ? eventsOf(textIn(asked, 'about')) : (field.constraints.enum ?? field.words ?? []);
  return words.filter((word) => !asked.others.has(word)).map((value) => ({ value, kind: field.name === 'done_by' ? 'event' : 'word', beside: [] }));
}

/** What can be found about the row's thing: what was found stands first, with what it says. */
function codesFitting({ plan, cell: { row }, others }: Asked): readonly Suggestion[] {
  const found = row === undefined ? new Map<string, Message>() : plan.foundAbout(row);
  const codes = [...found.keys(), ...problemCodes.filter((code) => isAcceptable(code) && !found.has(code))];
  return codes
    .filter((code) => !others.has(code))
    .map((value) => {
      const message = found.get(value);
      return { value, kind: 'code', beside: message === undefined ? [] : [say('beside.found')], ...(message === undefined ? {} : { about: message }) };
    });
}

/** What can be written down of a kind of thing. */
function eventsOf(about: string | undefined): readonly string[] {
  const words = (sheet: 'clutch-log' | 'tank-log'): readonly string[] => schemaNamed(sheet).fieldNamed.get('event')?.constraints.enum ?? [];
  if (about === 'tank') return words('tank-log');
  if (about === 'clutch') return words('clutch-log');
  return [...new Set([...words('clutch-log'), ...words('tank-log')])];
}

/** By column; common practice, no source. */
const durations: Readonly<Record<string, readonly string[]>> = {
  offset: ['PT12H', 'PT24H', 'P2D', 'P7D', 'P14D', 'P21D', '-PT24H', '-P2D', '-P7D'],
  until_offset: ['PT24H', 'P7D', '-PT24H', '-P2D'],
  every: ['PT12H', 'PT24H', 'P2D', 'P3D', 'P7D', 'P14D', 'P28D'],
  grace: ['P0D', 'PT12H', 'PT24H', 'P2D', 'P3D', 'P7D'],
  lapse: ['PT36H', 'P3D', 'P7D', 'P14D', 'P21D', 'P90D'],
  renew_every: ['P7D', 'P14D', 'P21D', 'P28D', 'P60D', 'P120D'],
};

function durationsFitting({ name, words = [] }: Field): readonly Suggestion[] {
  const lengths = (durations[name] ?? []).map((value): Suggestion => ({ value, kind: 'duration', beside: [lengthInWords(value)] }));
  return [...lengths, ...words.map((value): Suggestion => ({ value, kind: 'word', beside: [] }))];
}

function lengthInWords(text: string): Message {
  const { days, ms } = parseDuration(text) ?? { days: 0, ms: 0 };
  const hours = (days * dayMs + ms) / 3_600_000;
  const isBefore = hours < 0;
  const size = Math.abs(hours);
  if (ms !== 0) return isBefore ? say('beside.hours-before', size) : say('beside.hours', size);
  return isBefore ? say('beside.days-before', size / 24) : say('beside.days', size / 24);
}
