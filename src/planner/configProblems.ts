import type { Records } from '../records/records';
import type { Problem } from './problem';

/** What is wrong with `fishroom.json`, in order of place. */
export function configProblems({ configOutcome: { faults = [] } }: Records): readonly Problem[] {
  return faults
    .map(({ message, span }): Problem => ({ code: 'value-type', severity: 'error', message, file: 'fishroom.json', span, related: [], fixes: [] }))
    .sort((a, b) => a.span.start - b.span.start);
}
