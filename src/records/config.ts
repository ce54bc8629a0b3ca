import { findNodeAtLocation, parseTree, printParseErrorCode } from 'jsonc-parser';
import type { Node, ParseError } from 'jsonc-parser';
import * as v from 'valibot';
import { say } from '../base/messages';
import type { Message } from '../base/messages';
import type { Span } from '../base/span';
import { minuteOfDay } from '../base/timeOfDay';
import { zoneOf } from '../base/zone';

/** What `fishroom.json` says; everything may be left out. */
export interface FishroomConfig {
  readonly name?: string | undefined;
  readonly timezone?: string | undefined;
  readonly currency?: string | undefined;
  readonly rounds?: readonly string[] | undefined;
  readonly extra_columns?: readonly string[] | undefined;
  /** In place of the usual limits and of the ranges of species. */
  readonly limits?: Limits | undefined;
}

export type Limits = Readonly<Partial<Record<(typeof limitNames)[number], number | undefined>>>;

const limitNames = ['nh3_mg_l', 'no2_mg_l', 'no3_mg_l', 'temp_min_c', 'temp_max_c', 'ph_min', 'ph_max'] as const;

const shape = v.object({
  name: v.optional(v.string()),
  timezone: v.optional(v.string()),
  currency: v.optional(v.string()),
  rounds: v.optional(v.array(v.string())),
  extra_columns: v.optional(v.array(v.string())),
  limits: v.optional(v.object(v.entriesFromList(limitNames, v.optional(v.number())))),
});

/** Something in the text that can't be used, at its place. */
export interface ConfigFault {
  readonly message: Message;
  readonly span: Span;
}

/** Faults in a `config` are values that are left out; the others hold. */
export type ConfigOutcome =
  | { readonly kind: 'config'; readonly config: FishroomConfig; readonly faults?: readonly ConfigFault[] }
  | { readonly kind: 'wrong'; readonly faults: readonly ConfigFault[] };

type Path = readonly (string | number)[];

/** Reads the text of `fishroom.json`; an empty one says nothing. Never throws. */
export function readConfig(text: string): ConfigOutcome {
  const bom = text.startsWith('\uFEFF') ? 1 : 0;
  const body = text.slice(bom);
  if (body.trim() === '') return { kind: 'config', config: {} };
  const { root, errors } = treeOf(body);
  const placed = (message: Message, { start, end }: Span): ConfigFault => ({ message, span: { start: start + bom, end: end + bom } });
  let json: unknown;
  try {
    json = JSON.parse(body);
  } catch {
    return { kind: 'wrong', faults: [placed(notJson(errors[0]), spanOfError(errors[0], body))] };
  }
  const at = (path: Path): Span => spanOfNode(root === undefined ? undefined : (findNodeAtLocation(root, [...path]) ?? root));
  // An array is an object to the validator, one that says nothing.
  if (Array.isArray(json)) return { kind: 'wrong', faults: [placed(wrong([], 'Object'), at([]))] };
  const result = v.safeParse(shape, json);
  if (!result.success) {
    const faults = result.issues.map((issue) => placed(wrong(pathOf(issue), issue.expected), at(pathOf(issue))));
    return { kind: 'wrong', faults };
  }
  const config = result.output;
  const { timezone, rounds = [] } = config;
  const faults = rounds.flatMap((round, i) => (minuteOfDay(round) === undefined ? [placed(say('config.round', round), at(['rounds', i]))] : []));
  if (timezone !== undefined && zoneOf(timezone) === undefined) faults.push(placed(say('config.zone', timezone), at(['timezone'])));
  return { kind: 'config', config, faults };
}

/** Only for places: what counts is what JSON.parse makes of the text. */
function treeOf(body: string): { readonly root?: Node | undefined; readonly errors: readonly ParseError[] } {
  const errors: ParseError[] = [];
  try {
    return { root: parseTree(body, errors, { disallowComments: true, allowTrailingComma: false }), errors };
  } catch (error) {
    // Nested so deep that it can't be followed.
    if (error instanceof RangeError) return { errors };
    throw error;
  }
}

function pathOf(issue: v.InferIssue<typeof shape>): Path {
  return (issue.path ?? []).flatMap(({ key }) => (typeof key === 'string' || typeof key === 'number' ? [key] : []));
}

function spanOfNode(node: Node | undefined): Span {
  return node === undefined ? { start: 0, end: 0 } : { start: node.offset, end: node.offset + node.length };
}

/** At the end of the text, where nothing stands any more, what stands before it is shown. */
function spanOfError(error: ParseError | undefined, body: string): Span {
  if (error === undefined) return { start: 0, end: 0 };
  const end = body.trimEnd().length;
  if (error.offset >= end) return { start: Math.max(0, end - 1), end };
  return { start: error.offset, end: Math.min(end, error.offset + Math.max(1, error.length)) };
}

function notJson(error: ParseError | undefined): Message {
  switch (error === undefined ? undefined : printParseErrorCode(error.error)) {
    case 'CommaExpected':
      return say('config.not-json.comma');
    case 'ColonExpected':
      return say('config.not-json.colon');
    case 'CloseBraceExpected':
      return say('config.not-json.close', '}');
    case 'CloseBracketExpected':
      return say('config.not-json.close', ']');
    case 'UnexpectedEndOfString':
      return say('config.not-json.quote');
    case 'InvalidCommentToken':
    case 'UnexpectedEndOfComment':
      return say('config.not-json.comment');
    case 'PropertyNameExpected':
    case 'ValueExpected':
      return say('config.not-json.value');
    default:
      return say('config.not-json');
  }
}

/** @param expected the validator's word for what should stand there */
function wrong([setting, entry]: Path, expected: string | null): Message {
  if (setting === undefined) return say('config.wrong.whole');
  if (expected === 'number') return say('config.wrong.number', entry ?? setting);
  if (entry !== undefined) return say('config.wrong.entry', setting);
  if (expected === 'Object') return say('config.wrong.settings', setting);
  return say(expected === 'Array' ? 'config.wrong.list' : 'config.wrong.text', setting);
}
