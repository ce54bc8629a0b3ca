import * as v from 'valibot';

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

export type ConfigOutcome =
  | { readonly kind: 'config'; readonly config: FishroomConfig }
  | { readonly kind: 'not-json'; readonly detail: string }
  | { readonly kind: 'wrong'; readonly path: string; readonly expected: string };

/** Reads the text of `fishroom.json`; an empty one says nothing. Never throws. */
export function readConfig(text: string): ConfigOutcome {
  const body = text.replace(/^\uFEFF/, '');
  if (body.trim() === '') return { kind: 'config', config: {} };
  let json: unknown;
  try {
    json = JSON.parse(body);
  } catch (error) {
    return { kind: 'not-json', detail: error instanceof Error ? error.message : String(error) };
  }
  // An array is an object to the validator, one that says nothing.
  if (Array.isArray(json)) return { kind: 'wrong', path: 'fishroom.json', expected: 'Object' };
  const result = v.safeParse(shape, json);
  if (result.success) return { kind: 'config', config: result.output };
  const issue = result.issues[0];
  return { kind: 'wrong', path: v.getDotPath(issue) ?? 'fishroom.json', expected: issue.expected };
}
