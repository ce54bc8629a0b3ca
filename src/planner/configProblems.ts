import { say } from '../base/messages';
import type { Message } from '../base/messages';
import { zoneOf } from '../base/zone';
import type { Records } from '../records/records';
import type { Problem } from './problem';

/** What is wrong with `fishroom.json`; its settings are left out as long as it can't be read. */
export function configProblems(records: Records): readonly Problem[] {
  const outcome = records.configOutcome;
  if (outcome.kind === 'not-json') return [problem(say('config.not-json', outcome.detail))];
  if (outcome.kind === 'wrong') return [problem(say('config.wrong', outcome.path, outcome.expected))];
  const { timezone } = outcome.config;
  if (timezone !== undefined && zoneOf(timezone) === undefined) return [problem(say('config.zone', timezone))];
  return [];
}

function problem(message: Message): Problem {
  return { code: 'value-type', severity: 'error', message, file: 'fishroom.json', span: { start: 0, end: 0 }, related: [], fixes: [] };
}
