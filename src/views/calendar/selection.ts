import type { Entry, EntryKind, Feeding } from '../../planner/entry';

/** What of a fishroom a calendar shows: undefined for all. */
export interface Selection {
  readonly rooms?: readonly string[] | undefined;
  readonly species?: readonly string[] | undefined;
  readonly kinds?: readonly EntryKind[] | undefined;
}

/** Whether something is to be shown. What stands in no room belongs to all rooms together, and so does what is of no species. */
export function isSelected({ room, species, kind }: Pick<Entry, 'room' | 'species' | 'kind'>, { rooms, species: ofSpecies, kinds }: Selection): boolean {
  return (rooms?.includes(room) ?? true) && (ofSpecies?.includes(species) ?? true) && (kinds?.includes(kind) ?? true);
}

export function isFeedingSelected(feeding: Feeding, selection: Selection): boolean {
  return isSelected({ ...feeding, kind: 'feeding' }, selection);
}
