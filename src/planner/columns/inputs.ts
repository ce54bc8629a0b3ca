import { say } from '../../base/messages';
import type { Message } from '../../base/messages';
import { formatMoment } from '../../base/moment';
import type { RecordedMoment } from '../../domain/recorded';
import type { SpeciesNumber } from '../../domain/things';
import { BUILT_IN_SPECIES, profileCell } from '../../records/profiles';
import { keyText } from '../../records/row';
import type { Row } from '../../records/row';
import { schemaNamed } from '../../schema/catalog';
import type { ExplainedConstant, ExplainedInput } from '../explanation';
import { placeOf } from '../places';
import type { Place } from '../problem';
import type { ClutchState, PlanView } from '../states';

/** A cell of a register as an input: its text as written, and where it stands. */
export function cellInput(row: Row, header: string, view: PlanView): ExplainedInput {
  const file = view.records.file(row.path);
  const column = file?.header.columnOf.get(header);
  const value = file === undefined || column === undefined ? '' : (file.cellText(row, column) ?? '');
  return { name: say('input.cell', header, keyText(row)), value, place: placeOf({ row, header }, view.records) };
}

/** A recorded milestone as an input: the register's cell or the log's row. */
export function recordInput(state: ClutchState, record: RecordedMoment, header: string, view: PlanView): ExplainedInput {
  if (record.entry === undefined) return cellInput(state.row, header, view);
  return {
    name: say('input.event', record.entry.event, state.clutch.clutch),
    value: formatMoment(record.time, view.zone),
    place: placeOf({ row: record.entry.row as Row, header: undefined }, view.records),
  };
}

/** A number of the species as a constant, with the row it comes from and what that row gives as its source. */
export function profileConstant(species: string, name: SpeciesNumber, view: PlanView): ExplainedConstant | undefined {
  const cell = profileCell(species, name, (id) => view.records.index('species').row(id));
  if (cell === undefined) return undefined;
  const shipped = cell.row.path === BUILT_IN_SPECIES;
  const { unit } = schemaNamed('species').fieldNamed.get(name) ?? {};
  const source = cell.source ?? '';
  let told: Message;
  if (source !== '') told = say(shipped ? 'source.built-in' : 'source.own', source);
  else told = say(shipped ? 'source.built-in-unnamed' : 'source.own-unnamed');
  const place: Place | undefined = shipped ? undefined : placeOf({ row: cell.row, header: name }, view.records);
  return { name: say('constant.named', name), value: typeof cell.value === 'number' ? String(cell.value) : '', unit, source: told, place };
}

/** The factor that the pair's own records put on the model's value. */
export function learnedFactor(factor: number, observations: number): ExplainedConstant {
  return { name: say('constant.learned-factor'), value: factor.toFixed(4), unit: undefined, source: say('source.learned', observations), place: undefined };
}

export function constants(...found: readonly (ExplainedConstant | undefined)[]): readonly ExplainedConstant[] {
  return found.filter((constant) => constant !== undefined);
}
