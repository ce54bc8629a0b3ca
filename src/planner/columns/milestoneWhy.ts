import { say } from '../../base/messages';
import type { Message } from '../../base/messages';
import { formatMoment } from '../../base/moment';
import type { MilestoneTime } from '../../domain/timeline';
import type { Row } from '../../records/row';
import { placeOf } from '../places';
import type { ExplainedConstant, ExplainedInput } from '../explanation';
import type { ClutchState, PlanView } from '../states';
import type { Why } from './column';
import { growthWhy } from './growthWhy';
import { cellInput, constants, learnedFactor, profileConstant, recordInput } from './inputs';

/** How the moment of an expected milestone came about. */
export function expectedWhy(state: ClutchState, milestone: MilestoneTime | undefined, view: PlanView): Why {
  if (milestone === undefined) return { formula: say('why.nothing-expected'), notes: [emptyNote(state)], inputs: [cellInput(state.row, 'spawned', view)] };
  const { rung, model, learned, evidence } = milestone;
  const inputs: ExplainedInput[] = [baseInput(state, milestone, view)];
  const notes: Message[] = [];
  const found: (ExplainedConstant | undefined)[] = [];
  const species = state.species;
  if (species !== undefined && rung.duration !== undefined) found.push(profileConstant(species, rung.duration, view));
  if (model?.temperature !== undefined && species !== undefined) {
    const { celsius, source, rows, tank } = model.temperature;
    inputs.push({ name: say(`why.temperature.${source}`, tank, rows.length), value: `${celsius.toFixed(1)} °C`, place: temperaturePlace(model.temperature, view) });
    found.push(profileConstant(species, 'ref_temp_c', view), profileConstant(species, 'zero_temp_c', view));
    if (model.outsideModel) notes.push(say('why.outside-model'));
  }
  const growth = learned === undefined || rung.quantity !== 'growth' ? undefined : growthWhy(state, { ...milestone, learned }, view);
  if (growth !== undefined) found.push(...growth.constants);
  else if (learned !== undefined && learned.n > 0) found.push(learnedFactor(learned.expected, learned.n));
  if (evidence !== undefined) notes.push(say('why.evidence', formatMoment(evidence, view.zone)));
  if (growth !== undefined) notes.push(...growth.notes);
  else if (learned !== undefined || !rung.embryonic) notes.push(learned === undefined ? say('why.no-window') : learned.n === 0 ? say('why.learned.none') : say('why.learned', learned.n));
  return {
    formula: growth?.formula ?? formulaOf(milestone),
    inputs: [...inputs, ...(growth?.inputs ?? [])],
    notes,
    constants: constants(...found),
    window: {
      from: formatMoment(milestone.from, view.zone),
      expected: formatMoment(milestone.time, view.zone),
      to: formatMoment(milestone.to, view.zone),
      observations: learned?.n ?? 0,
    },
  };
}

function formulaOf({ rung, model }: MilestoneTime): Message {
  const parts = [rung.after ?? '', rung.duration ?? ''];
  if (model === undefined) return rung.embryonic ? say('why.expected.seen') : say('why.expected.days', ...parts);
  return say(model.temperature === undefined ? 'why.expected.hours' : 'why.expected.thermal', ...parts);
}

function baseInput(state: ClutchState, milestone: MilestoneTime, view: PlanView): ExplainedInput {
  const after = milestone.rung.after ?? 'spawned';
  const base = state.timeline.of(after);
  if (base?.record !== undefined) return recordInput(state, base.record, after, view);
  return { name: say('input.expected', after, state.clutch.clutch), value: base === undefined ? '' : formatMoment(base.time, view.zone), place: undefined };
}

function temperaturePlace(temperature: { readonly rows: readonly object[]; readonly tank: string; readonly source: string }, view: PlanView): ExplainedInput['place'] {
  const last = temperature.rows.at(-1);
  if (last !== undefined) return placeOf({ row: last as Row, header: 'temp_c' }, view.records);
  const tank = temperature.source === 'tank' ? view.records.tank(temperature.tank)?.row : undefined;
  return tank === undefined ? undefined : placeOf({ row: tank, header: 'temp_c' }, view.records);
}

/** Why nothing is expected. */
function emptyNote(state: ClutchState): Message {
  if (state.study.ladder === undefined) return say('why.no-species');
  return say('why.no-duration');
}
