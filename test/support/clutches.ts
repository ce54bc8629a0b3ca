import type { LearnedWindow } from '../../src/domain/timeline';
import { studyClutch } from '../../src/domain/clutchStudy';
import type { ClutchStudy } from '../../src/domain/clutchStudy';
import type { TankTemperatures } from '../../src/domain/temperature';
import type { Profile } from '../../src/domain/things';
import { entriesOf } from './clutchLog';
import { moment } from './moments';

/** A cave spawner: three days to the hatch, ten more until it swims. */
export const cave: Profile = { species: 'kribensis', care: 'cave', hatch_h: 72, free_swim_h: 240, juvenile_d: 40, sale_d: 140 };
export const mouthbrooder: Profile = { species: 'yellow-lab', care: 'mouthbrooder', release_d: 24, juvenile_d: 30, sale_d: 90 };
export const livebearer: Profile = { species: 'guppy', care: 'livebearer', juvenile_d: 28, sale_d: 75 };

/** A clutch as it is written: cells of the register, rows of its log as in `entriesOf`. */
export interface WrittenClutch {
  readonly profile?: Profile | undefined;
  readonly spawned?: string;
  readonly hatched?: string;
  readonly free_swimming?: string;
  readonly ended?: string;
  readonly log?: string;
  readonly now?: string;
  readonly temperaturesOf?: (tank: string) => TankTemperatures | undefined;
}

/** The study of a clutch spawned in tank A, on 1 March at ten unless it says otherwise. */
export function studyOf(written: WrittenClutch): ClutchStudy {
  const { spawned = '2026-03-01T10:00', log = '', now = '2026-09-01T12:00', temperaturesOf = () => undefined } = written;
  const cell = (text: string | undefined): ReturnType<typeof moment> | undefined => (text === undefined ? undefined : moment(text));
  return studyClutch({
    clutch: { clutch: 'K1', tank: 'A', spawned: moment(spawned), hatched: cell(written.hatched), freeSwimming: cell(written.free_swimming), ended: cell(written.ended) },
    profile: 'profile' in written ? written.profile : cave,
    entries: entriesOf(log),
    now: moment(now),
    temperaturesOf,
  });
}

/** A window a quarter to either side, as if nothing had been learned. */
export function aQuarter(): LearnedWindow {
  return { n: 0, from: 0.75, expected: 1, to: 1.25 };
}
