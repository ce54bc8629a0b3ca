import { blankMoment, compareMoments, hasCome } from '../base/moment';
import type { Moment, Writable } from '../base/moment';
import { evidenceOfBirth } from './ladder';
import type { Care, ClutchRecord, LogEntry } from './things';

/** A moment the keeper wrote down: in the register (`entry` undefined) or in a row of the log. */
export interface RecordedMoment {
  readonly time: Moment;
  readonly entry: LogEntry | undefined;
}

/** What a clutch's records say of its milestones, as far as they are not later than now. */
export interface RecordedMilestones {
  readonly spawned: RecordedMoment;
  readonly hatched: RecordedMoment | undefined;
  readonly firstFeed: RecordedMoment | undefined;
  readonly freeSwimming: RecordedMoment | undefined;
  readonly released: RecordedMoment | undefined;
  readonly stripped: RecordedMoment | undefined;
  readonly ended: RecordedMoment | undefined;
  /** The first row that shows that fry were out, where it is not the milestone itself. */
  readonly evidence: LogEntry | undefined;
}

/** What the register says of a brood's milestones, written into moments that are there already. All but the spawn give false, and leave the moment as it was, where it says nothing. */
export interface WrittenMilestones {
  fillSpawned(moment: Writable<Moment>): void;
  fillHatched(moment: Writable<Moment>): boolean;
  fillFreeSwimming(moment: Writable<Moment>): boolean;
  fillEnded(moment: Writable<Moment>): boolean;
}

/**
 * What `recordedMilestones` says of broods without a log, of one after the other in one object: its moments are filled anew
 * each time it turns to another, so nobody may keep them.
 */
export class PassingMilestones implements RecordedMilestones {
  readonly spawned = passing();
  hatched: RecordedMoment | undefined;
  freeSwimming: RecordedMoment | undefined;
  released: RecordedMoment | undefined;
  ended: RecordedMoment | undefined;
  readonly firstFeed = undefined;
  readonly stripped = undefined;
  readonly evidence = undefined;
  readonly #hatched = passing();
  readonly #freeSwimming = passing();
  readonly #ended = passing();

  turnTo(clutch: WrittenMilestones, care: Care, now: Moment): this {
    clutch.fillSpawned(this.spawned.time);
    this.hatched = clutch.fillHatched(this.#hatched.time) && hasCome(this.#hatched.time, now) ? this.#hatched : undefined;
    this.freeSwimming = clutch.fillFreeSwimming(this.#freeSwimming.time) && hasCome(this.#freeSwimming.time, now) ? this.#freeSwimming : undefined;
    this.ended = clutch.fillEnded(this.#ended.time) && hasCome(this.#ended.time, now) ? this.#ended : undefined;
    this.released = care === 'mouthbrooder' ? this.freeSwimming : undefined;
    return this;
  }
}

function passing(): { readonly time: Writable<Moment>; readonly entry: undefined } {
  return { time: blankMoment(), entry: undefined };
}

/**
 * The first row of the log holds for each milestone, else the register's cell. A mouthbrooder's `free_swimming` counts
 * as released; a `joined` row ends the clutch; after a `stripped` row no other row is evidence of a release.
 */
export function recordedMilestones(clutch: ClutchRecord, care: Care, entries: readonly LogEntry[], now: Moment): RecordedMilestones {
  let hatched: RecordedMoment | undefined;
  let firstFeed: RecordedMoment | undefined;
  let freeSwimming: RecordedMoment | undefined;
  let released: RecordedMoment | undefined;
  let stripped: RecordedMoment | undefined;
  let ended: RecordedMoment | undefined;
  let evidence: LogEntry | undefined;
  for (const entry of entries) {
    switch (entry.event) {
      case 'hatched':
        hatched ??= { time: entry.time, entry };
        break;
      case 'first_feed':
        firstFeed ??= { time: entry.time, entry };
        break;
      case 'free_swimming':
        freeSwimming ??= { time: entry.time, entry };
        break;
      case 'released':
        released ??= { time: entry.time, entry };
        break;
      case 'stripped':
        stripped ??= { time: entry.time, entry };
        break;
      case 'joined':
      case 'ended':
        ended ??= { time: entry.time, entry };
        break;
      default:
    }
    if (evidence === undefined && evidenceOfBirth.has(entry.event)) evidence = entry;
  }
  hatched ??= fromRegister(clutch.hatched, now);
  freeSwimming ??= fromRegister(clutch.freeSwimming, now);
  ended ??= fromRegister(clutch.ended, now);
  if (care === 'mouthbrooder') {
    if (released === undefined) released = freeSwimming;
    else if (freeSwimming?.entry !== undefined && compareMoments(freeSwimming.time, released.time) < 0) released = freeSwimming;
    if (stripped !== undefined) evidence = undefined;
  }
  return { spawned: { time: clutch.spawned, entry: undefined }, hatched, firstFeed, freeSwimming, released, stripped, ended, evidence };
}

function fromRegister(time: Moment | undefined, now: Moment): RecordedMoment | undefined {
  return time !== undefined && hasCome(time, now) ? { time, entry: undefined } : undefined;
}
