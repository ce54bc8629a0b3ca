import { parseArgs } from 'node:util';
import { say } from '../base/messages';
import { nearest } from '../schema/nearest';
import type { Severity } from '../schema/problemCodes';
import { WrongUse } from './wrongUse';

const optionTypes = {
  now: { type: 'string' },
  format: { type: 'string' },
  severity: { type: 'string' },
  in: { type: 'string' },
  days: { type: 'string' },
  room: { type: 'string' },
  kind: { type: 'string' },
  out: { type: 'string' },
  top: { type: 'string' },
  write: { type: 'boolean' },
  add: { type: 'boolean' },
  overwrite: { type: 'boolean' },
  help: { type: 'boolean', short: 'h' },
  version: { type: 'boolean' },
} as const;

export type OptionName = keyof typeof optionTypes;

/** From the worst to the least. */
export const severities = ['error', 'warning', 'information', 'hint'] as const satisfies readonly Severity[];

const formats = ['text', 'json', 'html'] as const;

export type Format = (typeof formats)[number];

export interface Options {
  /** As written; it's read on the clock of each fishroom. */
  readonly now: string | undefined;
  readonly format: Format;
  /** This and worse is shown. */
  readonly severity: Severity | undefined;
  readonly in: string | undefined;
  /** From 0. */
  readonly days: number | undefined;
  readonly room: string | undefined;
  /** Each as written; not empty. */
  readonly kinds: readonly string[] | undefined;
  /** The file to write. */
  readonly out: string | undefined;
  /** From 1. */
  readonly top: number | undefined;
  readonly write: boolean;
  readonly add: boolean;
  readonly overwrite: boolean;
  readonly help: boolean;
  readonly version: boolean;
}

/** A command line as read: the first word says what to do, the others what with. */
export interface CommandLine {
  readonly verb: string | undefined;
  readonly operands: readonly string[];
  readonly options: Options;
  /** The options that were written, in that order. */
  readonly given: readonly OptionName[];
}

/** Throws WrongUse where a verb doesn't speak the format that is asked for. */
export function formatMustBe(format: Format, known: readonly Format[]): void {
  if (!known.includes(format)) throw new WrongUse(say('cli.option.choice', '--format', format, known.join(', ')));
}

/** Throws WrongUse for unknown options, and for values that are missing, too many or none of the choices. */
export function readCommandLine(argv: readonly string[]): CommandLine {
  // Not strict: what is wrong is told in our words, not in those of Node.
  const { tokens } = parseArgs({ args: [...argv], options: optionTypes, strict: false, allowPositionals: true, tokens: true });
  const words: string[] = [];
  const values = new Map<OptionName, string>();
  for (const token of tokens) {
    if (token.kind === 'positional') words.push(token.value);
    else if (token.kind === 'option') values.set(...optionOf(token));
  }
  const [verb, ...operands] = words;
  return { verb, operands, options: optionsOf(values), given: [...values.keys()] };
}

interface OptionToken {
  readonly name: string;
  readonly rawName: string;
  readonly value: string | undefined;
  readonly inlineValue: boolean | undefined;
}

function optionOf({ name, rawName, value, inlineValue }: OptionToken): [OptionName, string] {
  if (!isOption(name)) {
    const near = nearest(name, Object.keys(optionTypes));
    throw new WrongUse(near === undefined ? say('cli.option.unknown', rawName) : say('cli.option.unknown.near', rawName, `--${near}`));
  }
  if (optionTypes[name].type === 'boolean') {
    if (value !== undefined) throw new WrongUse(say('cli.option.value', rawName));
    return [name, ''];
  }
  // An option behind it is hardly its value; one that is can be written as --in=-x.
  if (value === undefined || value === '' || (inlineValue !== true && value.startsWith('-'))) throw new WrongUse(say('cli.option.no-value', rawName));
  return [name, value];
}

function isOption(name: string): name is OptionName {
  return Object.hasOwn(optionTypes, name);
}

function optionsOf(values: ReadonlyMap<OptionName, string>): Options {
  return {
    now: values.get('now'),
    format: choiceOf('format', values, formats) ?? 'text',
    severity: choiceOf('severity', values, severities),
    in: values.get('in'),
    days: daysOf(values.get('days')),
    room: values.get('room'),
    kinds: values.get('kind')?.split(','),
    out: values.get('out'),
    top: topOf(values.get('top')),
    write: values.has('write'),
    add: values.has('add'),
    overwrite: values.has('overwrite'),
    help: values.has('help'),
    version: values.has('version'),
  };
}

/** A span that no list of days gets long from. */
const mostDays = 3660;

function daysOf(value: string | undefined): number | undefined {
  if (value === undefined) return undefined;
  if (!/^\d{1,4}$/.test(value) || Number(value) > mostDays) throw new WrongUse(say('cli.option.days', value, mostDays));
  return Number(value);
}

function topOf(value: string | undefined): number | undefined {
  if (value === undefined) return undefined;
  if (!/^[1-9]\d{0,3}$/.test(value)) throw new WrongUse(say('cli.option.top', value));
  return Number(value);
}

function choiceOf<Choice extends string>(name: OptionName, values: ReadonlyMap<OptionName, string>, choices: readonly Choice[]): Choice | undefined {
  const value = values.get(name);
  if (value === undefined) return undefined;
  const choice = choices.find((candidate) => candidate === value);
  if (choice === undefined) throw new WrongUse(say('cli.option.choice', `--${name}`, value, choices.join(', ')));
  return choice;
}
