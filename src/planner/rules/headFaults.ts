import { say } from '../../base/messages';
import type { HeadFault } from '../../domain/headcount';
import type { LogEntry } from '../../domain/things';
import type { Row } from '../../records/row';
import type { Found } from '../found';
import { NOTHING } from '../foundProblems';
import type { ClutchState } from '../states';

/** Rows of the log that take more fish than there are, are about a tank the brood isn't in, or leave out what they need. */
export function headFaults({ study, row }: ClutchState): readonly Found[] {
  if (study.entries.length === 0) return NOTHING;
  const found: Found[] = study.heads.faults.map((fault) => told(fault, row));
  for (const entry of study.entries) {
    if (entry.event === 'measured' && entry.lengthMm === undefined) found.push(lacks(entry, 'length_mm', row));
    if (entry.event === 'joined' && entry.ref === undefined) found.push(lacks(entry, 'ref', row));
  }
  return found;
}

function told(fault: HeadFault, owner: Row): Found {
  const { entry, tank = '', there = 0 } = fault;
  const base = { row: entry.row as Row, related: [], owner };
  switch (fault.kind) {
    case 'count-impossible':
      return { ...base, code: 'count-impossible', header: 'count', message: say('count-impossible', entry.count?.value ?? 0, tank, there) };
    case 'not-there':
      return { ...base, code: 'count-impossible', header: tank === '' ? 'event' : 'tank', message: tank === '' ? say('count-impossible.nowhere') : say('count-impossible.not-there', tank) };
    case 'count-missing':
      return { ...base, code: 'value-required', header: 'count', message: say('value-required.count', entry.event) };
    case 'tank-missing':
      return { ...base, code: 'value-required', header: 'tank', message: say('value-required.tank', entry.event) };
    case 'target-missing':
      return { ...base, code: 'value-required', header: 'to_tank', message: say('value-required.to-tank') };
  }
}

function lacks(entry: LogEntry, header: 'length_mm' | 'ref', owner: Row): Found {
  return { row: entry.row as Row, owner, header, code: 'value-required', related: [], message: say(header === 'ref' ? 'value-required.ref' : 'value-required.length') };
}
