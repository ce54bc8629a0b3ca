import type { SheetSchema } from './descriptor';

const slots = new WeakMap<SheetSchema, ReadonlyMap<string, number>>();

/** The place of a field among its schema's fields, where a row keeps its value; -1 for a name that the schema doesn't have. */
export function slotOf(schema: SheetSchema, name: string | undefined): number {
  let known = slots.get(schema);
  if (known === undefined) {
    known = new Map(schema.fields.map((field, slot) => [field.name, slot]));
    slots.set(schema, known);
  }
  return known.get(name ?? '') ?? -1;
}
