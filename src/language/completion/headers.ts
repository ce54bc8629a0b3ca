import { say, translated } from '../../base/messages';
import { computedHeaders } from '../../planner/columns/registry';
import type { Field } from '../../schema/descriptor';
import type { Asked } from './asked';
import type { Suggestion } from './suggestion';

/** The columns that a sheet doesn't have yet: those that it needs, the keeper's others, other units, and last those that are filled. */
export function headersMissing({ cell }: Asked): readonly Suggestion[] {
  const { file, column } = cell;
  const { schema, doc } = file;
  const there = new Set<string>();
  for (let other = 0; other < (doc.rowCount === 0 ? 0 : doc.cellCount(0)); other++) if (other !== column) there.add(doc.value(0, other));
  const computed = new Set(computedHeaders(schema.name));
  const isTaken = ({ name, unitOf }: Field): boolean =>
    there.has(name) || (unitOf !== undefined && there.has(unitOf.field)) || schema.fields.some((other) => other.unitOf?.field === name && there.has(other.name));
  const rank = (field: Field): number => (field.computed ? 3 : isNeeded(field) ? 0 : field.unitOf === undefined ? 1 : 2);
  const isNeeded = ({ name, constraints }: Field): boolean =>
    constraints.required === true || schema.oneOf.some((group) => group.at(-1) === name && !group.some((other) => there.has(other)));
  return schema.fields
    .filter((field) => !isTaken(field) && (!field.computed || computed.has(field.name)))
    .sort((a, b) => rank(a) - rank(b))
    .map((field) => ({
      value: field.name,
      kind: field.computed ? 'computed column' : 'column',
      beside: [field.computed ? say('beside.computed') : isNeeded(field) ? say('beside.needed') : field.unitOf === undefined ? translated(field.title) : say('beside.in-place-of', field.unitOf.field)],
      about: translated(field.description),
    }));
}
