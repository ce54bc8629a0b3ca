import { parseDuration } from '../base/duration';
import { say } from '../base/messages';
import { dayMs } from '../base/zone';
import type { Field } from './descriptor';
import { CastFailure, shown } from './value';

/** Tells what is wrong with a number (of a duration: its ms) by the bounds of a field; numbers too large to be exact are wrong in every field. */
export function rangeCheckOf(field: Field): (number: number, text: string) => CastFailure | undefined {
  const { minimum, maximum, exclusiveMinimum } = field.constraints;
  const least = boundOf(minimum, -Number.MAX_SAFE_INTEGER);
  const most = boundOf(maximum, Number.MAX_SAFE_INTEGER);
  const above = boundOf(exclusiveMinimum, -Infinity);
  const unit = field.unit === undefined ? '' : ` ${field.unit}`;
  return (number, text) => {
    if (number >= least && number <= most && number > above) {
      return undefined;
    }
    const message =
      number > most
        ? maximum === undefined
          ? say('value-range.large', shown(text))
          : say('value-range.above', shown(text), field.name, `${maximum}${unit}`)
        : exclusiveMinimum !== undefined
          ? say('value-range.not-above', shown(text), field.name, `${exclusiveMinimum}${unit}`)
          : say('value-range.below', shown(text), field.name, `${minimum ?? least}${unit}`);
    return new CastFailure('value-range', message);
  };
}

function boundOf(bound: number | string | undefined, otherwise: number): number {
  if (typeof bound !== 'string') {
    return bound ?? otherwise;
  }
  const duration = parseDuration(bound);
  if (duration === undefined) {
    throw new Error(`the bound ${bound} is not an ISO 8601 duration`);
  }
  return duration.days * dayMs + duration.ms;
}
