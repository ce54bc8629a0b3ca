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

export function severityOf(code: ProblemCode): Severity {
  return severities[code];
}
