import { studyClutch, studySettled } from '../domain/clutchStudy';
import type { ClutchInput, ClutchStudy } from '../domain/clutchStudy';
import { PassingMilestones } from '../domain/recorded';
import type { Profile } from '../domain/things';
import { writtenBy } from '../domain/timeOrder';
import type { Clutch } from '../records/things';
import type { PlanView } from './states';

/** What the records say of clutches by themselves at now. */
export class Studies {
  readonly #view: Pick<PlanView, 'records' | 'now'>;
  readonly #passing = new PassingMilestones();

  constructor(view: Pick<PlanView, 'records' | 'now'>) {
    this.#view = view;
  }

  /** `afterEach` hears what is alive after each row of its log. */
  of(clutch: Clutch, { species, afterEach }: { readonly species: string | undefined; readonly afterEach?: ClutchInput['afterEach'] }): ClutchStudy {
    const { records, now } = this.#view;
    const entries = writtenBy(now, records.entriesOf(clutch.clutch));
    return studyClutch({ clutch, profile: this.#profile(species), entries, now, temperaturesOf: records.temperaturesOf, afterEach });
  }

  /**
   * The same for who looks at one clutch after the other and keeps none: of a settled one it holds only until the next is
   * asked for. Nearly all clutches of a long register are settled, and no moments need be made for each of them.
   */
  inPassing(clutch: Clutch, species: string | undefined): ClutchStudy {
    const { records, now } = this.#view;
    const profile = this.#profile(species);
    const entries = writtenBy(now, records.entriesOf(clutch.clutch));
    const settled = entries.length > 0 ? undefined : studySettled({ clutch, profile, now, temperaturesOf: records.temperaturesOf }, this.#passing);
    return settled ?? studyClutch({ clutch, profile, entries, now, temperaturesOf: records.temperaturesOf });
  }

  #profile(species: string | undefined): Profile | undefined {
    return species === undefined ? undefined : this.#view.records.profile(species);
  }
}
