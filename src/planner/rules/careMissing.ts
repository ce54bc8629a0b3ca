import { say } from '../../base/messages';
import type { SheetFile } from '../../records/sheetFile';
import type { Found } from '../found';
import type { PlanView } from '../states';

/** A species of which neither its own row, nor a built-in one, nor the one it is like says how it tends its brood. */
export function careMissing(file: SheetFile, view: PlanView): readonly Found[] {
  if (!file.header.columnOf.has('care')) return [];
  const column = file.header.columnOf.get('care') as number;
  return [...file.rows()].flatMap((row) => {
    const id = row.value(0) as string | undefined;
    if (id === undefined || view.records.profile(id) !== undefined || (file.cellText(row, column) ?? '') !== '') return [];
    return [{ row, owner: row, header: 'care', code: 'value-required' as const, message: say('value-required', 'care'), related: [] }];
  });
}
