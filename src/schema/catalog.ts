import clutchLog from '../../schemas/clutch-log.schema.json';
import clutches from '../../schemas/clutches.schema.json';
import cultures from '../../schemas/cultures.schema.json';
import fish from '../../schemas/fish.schema.json';
import log from '../../schemas/log.schema.json';
import maintenance from '../../schemas/maintenance.schema.json';
import orders from '../../schemas/orders.schema.json';
import pairs from '../../schemas/pairs.schema.json';
import prices from '../../schemas/prices.schema.json';
import readings from '../../schemas/readings.schema.json';
import rooms from '../../schemas/rooms.schema.json';
import routines from '../../schemas/routines.schema.json';
import species from '../../schemas/species.schema.json';
import tankLog from '../../schemas/tank-log.schema.json';
import tanks from '../../schemas/tanks.schema.json';
import type { Field, SheetName, SheetSchema } from './descriptor';
import { problemCodes } from './problemCodes';

/** A descriptor as the JSON states it: what is usual is left out. */
interface SheetJson extends Omit<SheetSchema, 'fields' | 'fieldNamed' | 'filters' | 'oneOf'> {
  readonly fields: readonly FieldJson[];
  readonly foreignKeys?: readonly { readonly fields: string; readonly reference: { readonly resource: SheetName } }[];
  readonly oneOf?: readonly (readonly [string, string])[];
}

type Flag = 'computed' | 'notFuture' | 'filter' | 'orMoment';

interface FieldJson extends Omit<Field, Flag | 'constraints' | 'words'>, Partial<Pick<Field, Flag | 'constraints'>> {
  readonly words?: readonly string[] | 'problem-codes';
}

/** Every sheet, in the order in which they are described to keepers. */
export const schemas: readonly SheetSchema[] = (
  [
    rooms,
    tanks,
    species,
    pairs,
    fish,
    clutches,
    clutchLog,
    log,
    tankLog,
    readings,
    routines,
    maintenance,
    cultures,
    orders,
    prices,
  ] as unknown as readonly SheetJson[]
).map(schemaOf);

const byName: ReadonlyMap<string, SheetSchema> = new Map(schemas.map((schema) => [schema.name, schema]));

const byPath: ReadonlyMap<string, SheetSchema> = new Map(schemas.map((schema) => [schema.path, schema]));

/** Sheets of which each thing has one of its own, by the folder in which they lie, however deep. */
const byFolder: ReadonlyMap<string, SheetSchema> = new Map(schemas.flatMap((schema) => (schema.path.includes('/') ? [[schema.path.slice(0, schema.path.indexOf('/')), schema]] : [])));

export function schemaNamed(name: SheetName): SheetSchema {
  const schema = byName.get(name);
  if (schema === undefined) {
    throw new Error(`no schema is named ${name}`);
  }
  return schema;
}

/** A file of a fishroom and what it is. */
export interface SheetAtPath {
  readonly schema: SheetSchema;
  /** The id of the clutch or tank whose own log the file is, in Unicode form C (some file systems hand out form D). */
  readonly thing?: string;
}

/** What lies at a path (`/` between folders) seen from the fishroom, or undefined when it is no sheet. Hidden files and folders are none. */
export function schemaForPath(path: string): SheetAtPath | undefined {
  if (!path.endsWith('.csv') || hidden.test(path)) return undefined;
  const folder = path.indexOf('/');
  const schema = folder === -1 ? byPath.get(path) : byFolder.get(path.slice(0, folder));
  if (schema === undefined) return undefined;
  return folder === -1 ? { schema } : { schema, thing: path.slice(path.lastIndexOf('/') + 1, -'.csv'.length).normalize('NFC') };
}

/** A part of a path that begins with a dot, or is empty. */
const hidden = /(?:^|\/)(?:[./]|$)/;

function schemaOf(json: SheetJson): SheetSchema {
  const references = new Map(json.foreignKeys?.map((key) => [key.fields, key.reference.resource]));
  const fields = json.fields.map((field) => fieldOf(field, references.get(field.name)));
  const { name, title, description, path, role, thing, key, oneOf = [] } = json;
  return {
    name,
    title,
    description,
    path,
    role,
    ...(thing === undefined ? {} : { thing }),
    fields,
    fieldNamed: new Map(fields.map((field) => [field.name, field])),
    ...(key === undefined ? {} : { key }),
    filters: fields.filter((field) => field.filter).map((field) => field.name),
    oneOf,
  };
}

function fieldOf(json: FieldJson, references: SheetName | undefined): Field {
  const { words, ...rest } = json;
  return {
    constraints: {},
    computed: false,
    notFuture: false,
    filter: false,
    orMoment: false,
    ...rest,
    ...(references === undefined ? {} : { references }),
    ...(words === undefined ? {} : { words: words === 'problem-codes' ? problemCodes : words }),
  };
}
