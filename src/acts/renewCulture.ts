import { say } from '../base/messages';
import { Draft } from '../planner/draft';
import { nextOf, seriesIn } from '../planner/nextNames';
import type { Plan } from '../planner/plan';
import { cultureOf } from '../records/cultures';
import type { Culture } from '../records/cultures';
import { drafted, nowText, refused, timeOfAnswer, valueOfAnswer } from './act';
import type { Act, Answers, AskedField } from './act';

/** What a new culture takes over from the one that it follows. */
const TAKEN_OVER = ['food', 'volume_l', 'volume_gal', 'grams', 'temp_c', 'temp_f', 'yield_per_g', 'renew_every'] as const;

/** What is asked when a culture is set up anew: its name, as those of the cultures go on, and when. */
export function renewalFields(culture: Culture, plan: Plan): readonly AskedField[] {
  return [
    { name: 'culture', header: 'culture', isNeeded: true, likely: nextName(culture, plan) ?? '', choices: [] },
    { name: 'started', header: 'started', isNeeded: true, likely: nowText(plan), choices: [] },
  ];
}

function nextName({ culture }: Culture, { records }: Plan): string | undefined {
  const file = records.file('cultures.csv');
  const [series] = seriesIn([culture]);
  return file === undefined || series === undefined ? undefined : nextOf(series, { records, file });
}

/** Ends a culture and begins the one that follows it, of the same food and size. */
export function renewCulture(id: string, answers: Answers): Act {
  return (plan) => {
    const row = plan.records.index('cultures').row(id);
    const culture = row === undefined ? undefined : cultureOf(row);
    const file = plan.records.file('cultures.csv');
    if (row === undefined || culture === undefined || file === undefined) return refused(say('act.refused.not-due'));
    const when = timeOfAnswer(answers['started']?.trim(), plan);
    if ('fault' in when) return refused(when.fault);
    const name = (answers['culture'] ?? nextName(culture, plan) ?? '').trim();
    if (name === '') return refused(say('act.refused.no-id'));
    const checked = valueOfAnswer('cultures', 'culture', name, plan);
    if ('fault' in checked) return refused(checked.fault);
    if (plan.records.index('cultures').has(name)) return refused(say('act.refused.id-taken', name));
    const draft = new Draft(plan.records);
    const taken = TAKEN_OVER.flatMap((header): readonly (readonly [string, string])[] => {
      const column = file.header.columnOf.get(header);
      return column === undefined ? [] : [[header, file.cellText(row, column) ?? '']];
    });
    const fault = draft.set(row, { ended: when.text }) ?? draft.row(file, { ...Object.fromEntries(taken), culture: name, started: when.text });
    return fault === undefined ? drafted(draft, [`${id} ended`, `${name} started ${when.text}`]) : refused(fault);
  };
}
