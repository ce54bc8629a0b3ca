import { isFuture } from '../base/moment';
import type { Quantity } from '../domain/learning';
import { spawnForecasts } from '../domain/spawnSkill';
import type { SpawnForecast } from '../domain/spawnSkill';
import { apartByFate, withoutDoubled } from '../domain/spawnTrials';
import type { Pair } from '../records/things';
import { memoryOf } from './clutchMemory';
import { fateOf } from './fate';
import { judgedHalfway } from './lateHatch';
import { replay } from './replay';
import type { ClutchForecast } from './replay';
import { SkillTally } from './skillTally';
import type { SkillQuantity, SkillReport } from './skillTally';
import type { ClutchState, PairState, PlanView } from './states';

/** Every forecast of the past, each as it was shown then, beside what came about. */
export function skillOf(view: PlanView): SkillReport {
  const tally = new SkillTally();
  for (const states of families(view)) for (const forecast of replay(states, view)) addClutch(forecast, tally);
  for (const id of view.records.index('pairs').ids()) {
    const state = view.pair(id);
    if (state !== undefined) addSpawns(state, tally, view);
  }
  return tally.report;
}

/** The broods of each pair; each brood without one by itself. */
function* families({ records }: PlanView): Generator<readonly ClutchState[]> {
  const byPair = new Map<string, ClutchState[]>();
  for (const row of records.file('clutches.csv')?.rows() ?? []) {
    const state = memoryOf(row);
    if (state === undefined) continue;
    const { pair } = state.clutch;
    if (pair === undefined) {
      yield [state];
      continue;
    }
    const family = byPair.get(pair);
    if (family === undefined) byPair.set(pair, [state]);
    else family.push(state);
  }
  yield* byPair.values();
}

const named = { hatch: 'hatch', firstFeed: 'first_feed', freeSwimming: 'free_swimming', release: 'release', interval: 'spawn_interval', growth: 'growth' } as const satisfies Readonly<Record<Quantity, SkillQuantity>>;

function addClutch(forecast: ClutchForecast, tally: SkillTally): void {
  const quantity = named[forecast.quantity];
  tally.add({ quantity, species: forecast.species, pair: forecast.clutch.pair, unit: quantity === 'growth' ? 'd' : 'h' }, forecast);
  const { halfway } = forecast;
  if (halfway !== undefined) tally.try({ trial: 'late-hatch', quantity, unit: 'h', differs: halfway.lookedAt !== undefined }, judgedHalfway(forecast, halfway));
}

function addSpawns({ pair, spawns }: PairState, tally: SkillTally, view: PlanView): void {
  const usualDays = pair.species === undefined ? undefined : view.records.profile(pair.species)?.interval_d;
  if (usualDays === undefined || pair.kind !== 'pair') return;
  const forecasts = spawnForecasts(spawns, usualDays, view.zone).filter((forecast) => !wasRetired(pair, forecast));
  const about = { quantity: 'spawn_interval', unit: 'd' } as const;
  for (const forecast of forecasts) tally.add({ ...about, species: pair.species, pair: pair.pair }, forecast);
  const undoubled = withoutDoubled(forecasts, usualDays);
  const differs = undoubled.length < forecasts.length;
  for (const trial of undoubled) tally.try({ ...about, trial: 'unseen-spawn', differs }, trial);
  const apart = apartByFate(forecasts, usualDays, ({ clutch }) => fateOf(view.clutch(clutch)));
  for (const trial of apart) tally.try({ ...about, trial: 'fate', differs: true }, trial);
}

/** Of a pair that was retired by then, no next spawn was told. */
function wasRetired({ retired }: Pair, { then }: SpawnForecast): boolean {
  return retired !== undefined && !isFuture(retired, then);
}
