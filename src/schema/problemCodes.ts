export type Severity = 'error' | 'warning' | 'information' | 'hint';

/** Every problem code and how bad it is. Codes are stable: keepers write them into `accept`, fixes key on them. */
const severities = {
  'csv-quote': 'error',
  'csv-columns': 'error',
  'csv-encoding': 'error',
  'csv-conflict': 'error',
  'header-missing': 'error',
  'header-duplicate': 'error',
  'value-required': 'error',
  'value-type': 'error',
  'value-enum': 'error',
  'value-range': 'error',
  'value-pattern': 'error',
  'id-duplicate': 'error',
  'ref-unknown': 'error',
  'log-orphan': 'error',
  'time-future': 'error',
  'event-impossible': 'error',
  'count-impossible': 'error',
  'lineage-loop': 'error',
  overdue: 'warning',
  'milestone-differs': 'warning',
  'water-ammonia': 'warning',
  'water-range': 'warning',
  'older-fry': 'warning',
  'maintenance-clash': 'warning',
  overstocked: 'warning',
  'order-short': 'warning',
  'close-kin': 'warning',
  'species-differs': 'warning',
  'csv-line-ends': 'information',
  'header-unknown': 'information',
  'milestone-missing': 'information',
  'spawn-late': 'information',
  'outside-model': 'information',
  'no-news': 'information',
  'count-doubtful': 'information',
  'computed-stale': 'hint',
} as const satisfies Record<string, Severity>;

export type ProblemCode = keyof typeof severities;

export const problemCodes = Object.keys(severities) as readonly ProblemCode[];

/** Faults of cells and files: what is wrong as it is written stays wrong, whatever the keeper knows about it. */
const faults: ReadonlySet<ProblemCode> = new Set<ProblemCode>([
  'csv-quote',
  'csv-columns',
  'csv-encoding',
  'csv-conflict',
  'csv-line-ends',
  'header-missing',
  'header-duplicate',
  'header-unknown',
  'value-required',
  'value-type',
  'value-enum',
  'value-range',
  'value-pattern',
  'id-duplicate',
  'ref-unknown',
  'log-orphan',
  'time-future',
  'computed-stale',
]);

/** Whether `accept` silences it. */
export function isAcceptable(code: ProblemCode): boolean {
  return !faults.has(code);
}

export function severityOf(code: ProblemCode): Severity {
  return severities[code];
}
