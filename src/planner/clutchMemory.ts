import type { ClutchStudy, Observations } from '../domain/clutchStudy';
import type { Spawn, SpawnGap } from '../domain/spawning';
import type { Stay } from '../domain/temperature';
import type { Timeline } from '../domain/timeline';
import type { Row } from '../records/row';
import type { SheetFile } from '../records/sheetFile';
import type { Clutch, ClutchRow } from '../records/things';
import { NOTHING_DUE } from './agenda';
import type { Agenda } from './agenda';
import type { Found } from './found';
import { NOTHING } from './foundProblems';
import type { ClutchState } from './states';

/**
 * What is kept of a clutch from change to change. Most clutches of a long register have ended: of them no more is kept
 * than others need, and what else is asked is worked out again.
 */
export class ClutchMemory implements ClutchState {
  readonly row: ClutchRow;
  readonly species: string | undefined;
  /** The day on which it ended, by the register or its log. */
  readonly endedDay: number | undefined;
  readonly observations: Observations;
  /** How it left tanks as a whole; undefined without a log. */
  readonly #moves: Stay['moves'] | undefined;
  before: Spawn | undefined;
  gap: SpawnGap | undefined;
  found: readonly Found[] = NOTHING;
  #known: Known | undefined;
  readonly #workOut: (memory: ClutchMemory) => Known;

  constructor(row: ClutchRow, study: ClutchStudy, { species, workOut }: { readonly species: string | undefined; readonly workOut: (memory: ClutchMemory) => Known }) {
    this.row = row;
    this.species = species;
    this.endedDay = study.recorded.ended?.time.day;
    this.observations = study.observations;
    this.#moves = study.entries.length === 0 ? undefined : study.stay.moves;
    this.#workOut = workOut;
  }

  get clutch(): Clutch {
    return this.row;
  }

  /** It has ended and has no log: nothing of it but what its row says. */
  get isSettled(): boolean {
    return this.#moves === undefined && this.isEnded;
  }

  get isEnded(): boolean {
    return this.endedDay !== undefined;
  }

  /** What was last found of it, while somebody may still ask for it. */
  get keptStudy(): ClutchStudy | undefined {
    return this.#known?.study;
  }

  get study(): ClutchStudy {
    return (this.#known ?? this.#workOut(this)).study;
  }

  get timeline(): Timeline {
    return (this.#known ?? this.#workOut(this)).timeline;
  }

  get agenda(): Agenda {
    return this.isEnded ? NOTHING_DUE : (this.#known ?? this.#workOut(this)).agenda;
  }

  /** Whether it ever stood in one of some tanks as a whole, so that their readings count for it. */
  stoodIn(tanks: ReadonlySet<string>): boolean {
    return tanks.has(this.clutch.tank) || this.#moves?.some(({ to }) => tanks.has(to)) === true;
  }

  /** Tanks stood in while it is open. */
  get standsIn(): readonly string[] {
    return this.isEnded ? NO_TANKS : [...this.study.heads.stands.keys()];
  }

  /** Takes what was worked out. */
  keep(known: Known): void {
    this.#known = known;
  }

  /** Lets go of what nobody asks for any more once all that hangs on it is told. */
  rest(): void {
    if (this.isEnded) this.#known = undefined;
  }
}

export interface Known {
  readonly study: ClutchStudy;
  readonly timeline: Timeline;
  readonly agenda: Agenda;
}

const NO_TANKS: readonly string[] = [];

/** What is kept of the clutch in a row of the register; undefined where it counts for nothing. */
export function memoryOf(row: Row | undefined): ClutchMemory | undefined {
  return row?.kept as ClutchMemory | undefined;
}

/** What is kept of all clutches of a register that count, as they are written. */
export function* memoriesIn(register: SheetFile | undefined): Generator<ClutchMemory> {
  for (const { rows } of register?.blocks ?? []) {
    for (const row of rows) {
      const memory = memoryOf(row);
      if (memory !== undefined) yield memory;
    }
  }
}
