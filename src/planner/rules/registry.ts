import type { SheetFile } from '../../records/sheetFile';
import type { Tank } from '../../records/things';
import type { Found } from '../found';
import type { ClutchState, PairState, PlanView } from '../states';
import { careMissing } from './careMissing';
import { closeKin, lineageLoops } from './closeKin';
import { countDoubtful } from './countDoubtful';
import { eventImpossible } from './eventImpossible';
import { headFaults } from './headFaults';
import { maintenanceClash } from './maintenanceClash';
import { milestoneDiffers } from './milestoneDiffers';
import { milestoneMissing } from './milestoneMissing';
import { noNews } from './noNews';
import { olderFry } from './olderFry';
import { lengthOutsideModel, outsideModel } from './outsideModel';
import { clutchOverdue, pairOverdue, tankOverdue } from './overdue';
import { spawnLate } from './spawnLate';
import { clutchSpeciesDiffers, pairSpeciesDiffers } from './speciesDiffers';
import { waterAmmonia, waterRange } from './water';
import type { Water } from './water';

type Rule<State> = (state: State, view: PlanView) => readonly Found[];

/** Every rule about records that are well written by themselves, by what it is about. */
export const clutchRules: readonly Rule<ClutchState>[] = [headFaults, eventImpossible, milestoneDiffers, milestoneMissing, countDoubtful, outsideModel, lengthOutsideModel, noNews, clutchSpeciesDiffers, clutchOverdue];
/** Those of them that may find something of a brood that has ended and has no log. */
export const settledRules: readonly Rule<ClutchState>[] = [eventImpossible, milestoneMissing, clutchSpeciesDiffers];
export const pairRules: readonly Rule<PairState>[] = [spawnLate, olderFry, pairSpeciesDiffers, pairOverdue, closeKin];
export const tankRules: readonly Rule<Tank>[] = [tankOverdue];
export const jobRules: readonly Rule<SheetFile>[] = [maintenanceClash];
export const waterRules: readonly Rule<Water>[] = [waterAmmonia, waterRange];
export const fishRules: readonly Rule<SheetFile>[] = [lineageLoops];
export const speciesRules: readonly Rule<SheetFile>[] = [careMissing];
