import { say, translated } from '../base/messages';
import type { Message } from '../base/messages';
import { computedHeaders } from '../planner/columns/registry';
import type { Field, FieldKind, SheetSchema } from '../schema/descriptor';
import type { Part, Shown } from './hoverText';

/** What a column holds, in which unit, how it is written and who fills it. */
export function columnHelp(schema: SheetSchema, field: Field): Shown {
  const written = writtenAs(field);
  return {
    title: translated(field.title),
    beside: field.name,
    parts: [
      { kind: 'text', text: translated(field.description) },
      ...(field.unit === undefined ? [] : [text(say('hover.unit', field.unit))]),
      ...(written === undefined || field.computed ? [] : [text(written)]),
      ...(field.constraints.enum === undefined ? [] : [text(say('hover.words', field.constraints.enum.join(', ')))]),
      text(filledBy(schema, field)),
    ],
  };
}

function text(message: Message): Part {
  return { kind: 'text', text: message };
}

function filledBy(schema: SheetSchema, { name, computed, constraints }: Field): Message {
  if (computed) return say(computedHeaders(schema.name).includes(name) ? 'hover.filled.tool' : 'hover.filled.nobody');
  return say(constraints.required === true ? 'hover.filled.needed' : 'hover.filled.you');
}

const kinds: Partial<Record<FieldKind, 'hover.kind.moment' | 'hover.kind.day' | 'hover.kind.duration' | 'hover.kind.count' | 'hover.kind.url' | 'hover.kind.codes'>> = {
  moment: 'hover.kind.moment',
  day: 'hover.kind.day',
  duration: 'hover.kind.duration',
  count: 'hover.kind.count',
  url: 'hover.kind.url',
  codes: 'hover.kind.codes',
};

function writtenAs({ kind, references }: Field): Message | undefined {
  if (references !== undefined) return say(kind === 'ids' ? 'hover.kind.ids' : 'hover.kind.id', `${references}.csv`);
  const code = kinds[kind];
  return code === undefined ? undefined : say(code);
}
