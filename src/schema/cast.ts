import { parseDuration, type Duration } from '../base/duration';
import { say } from '../base/messages';
import { parseMoment, type Moment } from '../base/moment';
import { dayMs, type Zone } from '../base/zone';
import type { Field } from './descriptor';
import { castId } from './id';
import { nearest } from './nearest';
import { estimateReadings, numberReadings, plainNumber, wholeNumber } from './number';
import { rangeCheckOf } from './range';
import { dateReadings, durationReadings } from './timeReadings';
import { CastFailure, shown, type Value } from './value';

export { CastFailure, type Value } from './value';

/** The value of a cell's text, undefined for an empty one, or why it is none. Times without an offset are wall-clock times of the zone. */
export type Caster = (text: string, zone: Zone) => Value | CastFailure;

const casters = new WeakMap<Field, Caster>();

/** The caster of a field, made once. It tries the plain way first and looks for what was meant only when that fails. */
export function casterOf(field: Field): Caster {
  let caster = casters.get(field);
  if (caster === undefined) {
    const parse = parserOf(field);
    caster = (text, zone) => {
      if (text === '') {
        return undefined;
      }
      const value = parse(text, zone);
      return value instanceof CastFailure ? withSuggestions(value, text, (other) => parse(other, zone)) : value;
    };
    casters.set(field, caster);
  }
  return caster;
}

/** The failure with only those suggestions that would be right; blanks around a right text are a failure of their own. */
function withSuggestions(failure: CastFailure, text: string, parse: (text: string) => Value | CastFailure): CastFailure {
  const trimmed = text.trim();
  if (trimmed !== text && trimmed !== '') {
    const inner = parse(trimmed);
    if (!(inner instanceof CastFailure)) {
      const code = failure.code === 'value-type' ? 'value-type' : 'value-pattern';
      return new CastFailure(code, say(`${code}.blanks`, shown(text)), [trimmed]);
    }
    return withSuggestions(inner, trimmed, parse);
  }
  const suggestions = failure.suggestions.filter((suggestion) => !(parse(suggestion) instanceof CastFailure));
  return new CastFailure(failure.code, failure.message, suggestions);
}

/** Reads a text that isn't empty. */
function parserOf(field: Field): Caster {
  switch (field.kind) {
    case 'id':
      return castId;
    case 'ids':
      return castIds;
    case 'text':
    case 'url':
      return (text) => text;
    case 'enum':
      return enumParserOf(field);
    case 'codes':
      return codesParserOf(field);
    case 'number':
    case 'integer':
      return numberParserOf(field);
    case 'count':
      return countParserOf(field);
    case 'moment':
      return momentParser;
    case 'day':
      return dayParser;
    case 'duration':
      return durationParserOf(field);
  }
}

function castIds(text: string): readonly string[] | CastFailure {
  const ids = wordsOf(text);
  for (const id of ids) {
    const outcome = castId(id);
    if (outcome instanceof CastFailure) {
      return outcome.suggestions.length === 0
        ? outcome
        : new CastFailure(outcome.code, outcome.message, [ids.map((other) => other.normalize('NFC')).join(' ')]);
    }
  }
  return ids;
}

function wordsOf(text: string): readonly string[] {
  return text.split(/\s+/).filter((word) => word !== '');
}

function enumParserOf(field: Field): Caster {
  const words = field.constraints.enum ?? [];
  const known = new Set(words);
  return (text) => {
    if (known.has(text)) {
      return text;
    }
    const meant = nearest(text, words);
    return unknownWord({ field, word: text, words, meant, suggestion: meant });
  };
}

function codesParserOf(field: Field): Caster {
  const words = field.words ?? [];
  const known = new Set(words);
  return (text) => {
    const codes = wordsOf(text);
    const wrong = codes.find((code) => !known.has(code));
    if (wrong === undefined) {
      return codes;
    }
    const right = codes.map((code) => (known.has(code) ? code : (nearest(code, words) ?? code))).join(' ');
    return unknownWord({ field, word: wrong, words, meant: nearest(wrong, words), suggestion: right });
  };
}

interface UnknownWord {
  readonly field: Field;
  readonly word: string;
  readonly words: readonly string[];
  readonly meant: string | undefined;
  /** The whole cell as it may have been meant. */
  readonly suggestion: string | undefined;
}

function unknownWord({ field, word, words, meant, suggestion }: UnknownWord): CastFailure {
  const message =
    meant === undefined
      ? say('value-enum.unknown', shown(word), field.name, words.join(', '))
      : say('value-enum.meant', shown(word), field.name, meant);
  return new CastFailure('value-enum', message, suggestion === undefined ? [] : [suggestion]);
}

function numberParserOf(field: Field): Caster {
  const outside = rangeCheckOf(field);
  const whole = field.kind === 'integer';
  return (text) => {
    const number = whole ? wholeNumber(text) : plainNumber(text);
    if (Number.isNaN(number)) {
      return new CastFailure('value-type', say(whole ? 'value-type.integer' : 'value-type.number', shown(text)), numberReadings(text));
    }
    return outside(number, text) ?? number;
  };
}

function countParserOf(field: Field): Caster {
  const outside = rangeCheckOf(field);
  return (text) => {
    const about = text.startsWith('~');
    const value = wholeNumber(about ? text.slice(1) : text);
    if (Number.isNaN(value)) {
      const tilde = about ? '~' : '';
      const readings = numberReadings(about ? text.slice(1) : text).map((reading) => tilde + reading);
      return new CastFailure('value-type', say('value-type.count', shown(text)), [...readings, ...estimateReadings(text)]);
    }
    return outside(value, text) ?? { value, about };
  };
}

function momentParser(text: string, zone: Zone): Moment | CastFailure {
  const moment = parseMoment(text, zone);
  return moment ?? dateFailure(text, dateReadings(text), zone);
}

function dayParser(text: string, zone: Zone): Moment | CastFailure {
  const moment = parseMoment(text, zone);
  if (moment === undefined) {
    return dateFailure(text, [...new Set(dateReadings(text).map(dateOf))], zone, 'value-type.day');
  }
  return moment.bare ? moment : new CastFailure('value-type', say('value-type.day', shown(text)), [dateOf(text)]);
}

/** `~2026-03-04T19:30` → `~2026-03-04`. */
function dateOf(text: string): string {
  return text.slice(0, text.startsWith('~') ? 11 : 10);
}

function dateFailure(
  text: string,
  readings: readonly string[],
  zone: Zone,
  code: 'value-type.moment' | 'value-type.day' = 'value-type.moment',
): CastFailure {
  const open = readings.filter((reading) => parseMoment(reading, zone) !== undefined).length > 1;
  return new CastFailure('value-type', say(open ? 'value-type.date-order' : code, shown(text)), readings);
}

function durationParserOf(field: Field): Caster {
  const outside = rangeCheckOf(field);
  const words = new Set(field.words);
  return (text, zone) => {
    if (words.has(text)) {
      return text;
    }
    const duration: Duration | undefined = parseDuration(text);
    if (duration !== undefined) {
      return outside(duration.days * dayMs + duration.ms, text) ?? duration;
    }
    const moment = field.orMoment ? parseMoment(text, zone) : undefined;
    if (moment !== undefined) {
      return moment;
    }
    const meant = nearest(text, words);
    const readings = [...durationReadings(text), ...(field.orMoment ? dateReadings(text) : []), ...(meant === undefined ? [] : [meant])];
    const message = field.orMoment
      ? say('value-type.duration-or-moment', shown(text))
      : words.size > 0
        ? say('value-type.duration-or-word', shown(text), [...words].join(', '))
        : say('value-type.duration', shown(text));
    return new CastFailure('value-type', message, readings);
  };
}
