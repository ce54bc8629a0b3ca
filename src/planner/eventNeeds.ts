import type { ClutchEvent } from '../domain/things';

/** Columns beside time, event and tank that a row of a log may have. `length` and `temp` stand for the column of the keeper's unit. */
export type EventColumn = 'count' | 'length' | 'to_tank' | 'ref' | 'unit_price' | 'temp' | 'ph' | 'tan_mg_l' | 'no2_mg_l' | 'no3_mg_l' | 'gh_dh' | 'kh_dh' | 'ec_us_cm' | 'change_pct' | 'note';

/** What a row says beside its event: without what it needs it says nothing. */
export interface EventNeeds {
  readonly needs: readonly EventColumn[];
  readonly may: readonly EventColumn[];
}

export type TankEventName = 'tested' | 'water_change' | 'cleaned' | 'treated' | 'fault';

const nothing: EventNeeds = { needs: [], may: [] };
const counted: EventNeeds = { needs: ['count'], may: [] };

/** A spawn and an end stand in the register of clutches: a row of the log alone says too little of either. */
const clutchEvents: Readonly<Record<Exclude<ClutchEvent, 'spawned' | 'ended'>, EventNeeds>> = {
  checked: nothing,
  fungus: { needs: [], may: ['count'] },
  hatched: nothing,
  first_feed: nothing,
  fed: nothing,
  free_swimming: nothing,
  released: nothing,
  stripped: { needs: [], may: ['count', 'to_tank'] },
  counted,
  measured: { needs: ['length'], may: [] },
  lost: counted,
  culled: counted,
  moved: { needs: ['to_tank'], may: ['count'] },
  sold: { needs: ['count'], may: ['ref', 'unit_price'] },
  kept: counted,
  joined: { needs: ['ref'], may: [] },
  treated: { needs: [], may: ['note'] },
};

const readings = ['temp', 'ph', 'tan_mg_l', 'no2_mg_l', 'no3_mg_l', 'gh_dh', 'kh_dh', 'ec_us_cm'] as const;

const tankEvents: Readonly<Record<TankEventName, EventNeeds>> = {
  tested: { needs: [], may: readings },
  water_change: { needs: [], may: ['change_pct'] },
  cleaned: nothing,
  treated: { needs: [], may: ['note'] },
  fault: { needs: [], may: ['note'] },
};

/** The events of which a row of a log can be written. */
export const eventsOf = { clutch: Object.keys(clutchEvents), tank: Object.keys(tankEvents) } as const;

/** What a row with the event says beside it; undefined for one that no row of that log has. */
export function needsOf(kind: 'clutch' | 'tank', event: string): EventNeeds | undefined {
  const all: Readonly<Partial<Record<string, EventNeeds>>> = kind === 'clutch' ? clutchEvents : tankEvents;
  return Object.hasOwn(all, event) ? all[event] : undefined;
}

/** Whether a row with nothing but the event says nothing, so that it can't be written for the keeper. */
export function isUnsaid(kind: 'clutch' | 'tank', event: string): boolean {
  return needsOf(kind, event)?.needs.length !== 0;
}
