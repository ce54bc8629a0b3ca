import { PassingStudies, studyClutch } from '../domain/clutchStudy';
import type { ClutchInput, ClutchStudy } from '../domain/clutchStudy';
import type { Clutch } from '../records/things';
import type { PlanView } from './states';

/** What the records say of clutches by themselves at now. */
export class Studies {
  readonly #view: Pick<PlanView, 'records' | 'now'>;
  readonly #passing = new PassingStudies();

  constructor(view: Pick<PlanView, 'records' | 'now'>) {
    this.#view = view;
  }

  /** `afterEach` hears what is alive after each row of its log. */
  of(clutch: Clutch, asked: Asked): ClutchStudy {
    return studyClutch(this.#input(clutch, asked));
  }

  /**
   * The same for who looks at one clutch after the other and keeps none: of a settled one it holds only until the next is
   * asked for. Nearly all clutches of a long register are settled, and no moments need be made for each of them.
   */
  inPassing(clutch: Clutch, asked: Pick<Asked, 'species'>): ClutchStudy {
    const input = this.#input(clutch, asked);
    return this.#passing.of(input) ?? studyClutch(input);
  }

  #input(clutch: Clutch, { species, afterEach }: Asked): ClutchInput & { readonly clutch: Clutch } {
    const { records, now } = this.#view;
    const profile = species === undefined ? undefined : records.profile(species);
    return { clutch, profile, entries: records.entriesOf(clutch, now), now, temperaturesOf: records.temperaturesOf, afterEach };
  }
}

interface Asked {
  readonly species: string | undefined;
  readonly afterEach?: ClutchInput['afterEach'];
}
