import { say } from '../base/messages';
import { hasCome } from '../base/moment';
import { compareTexts } from '../base/order';
import { Draft } from '../planner/draft';
import { ClutchNames, latestRows, nextOf, seriesIn } from '../planner/nextNames';
import type { Plan } from '../planner/plan';
import { keyText } from '../records/row';
import { clutchOf, pairOf } from '../records/things';
import { drafted, nowText, refused, timeOfAnswer, valueOfAnswer } from './act';
import type { Act, Answers, AskedField } from './act';

/** Who may have spawned: a pair, or where a room keeps no pairs, fish of a species in a tank. */
export interface Spawner {
  /** '' where there is none. */
  readonly pair: string;
  readonly species: string;
  readonly tank: string;
  /** The day on which the next spawn is expected, days since 1970-01-01; undefined where nothing can be. */
  readonly expected: number | undefined;
}

/** Pairs that still breed, the one that should spawn about now first; without pairs each species and tank of the broods so far, the latest first. */
export function spawners({ records, view, now }: Plan): readonly Spawner[] {
  const pairs = [...records.index('pairs').ids()].flatMap((id): readonly Spawner[] => {
    const row = records.index('pairs').row(id);
    const pair = row === undefined ? undefined : pairOf(row);
    if (pair === undefined || hasCome(pair.retired, now)) return [];
    return [{ pair: id, species: pair.species ?? '', tank: pair.tank ?? '', expected: view.pair(id)?.next?.expected }];
  });
  const away = ({ expected }: Spawner): number => (expected === undefined ? Number.MAX_SAFE_INTEGER : Math.abs(expected - now.day));
  if (pairs.length > 0) return pairs.sort((a, b) => away(a) - away(b) || compareTexts(a.pair, b.pair));
  const file = records.file('clutches.csv');
  const places = new Map<string, Spawner>();
  for (const row of file === undefined ? [] : latestRows({ records, file })) {
    const clutch = clutchOf(row);
    if (clutch?.species === undefined || clutch.pair !== undefined) continue;
    const key = `${clutch.species}\n${clutch.tank}`;
    if (!places.has(key)) places.set(key, { pair: '', species: clutch.species, tank: clutch.tank, expected: undefined });
  }
  return [...places.values()];
}

/** What is asked for a spawn: when, the brood's name by the room's own pattern, and the eggs where the register has a column for them. */
export function spawnFields(spawner: Spawner, plan: Plan): readonly AskedField[] {
  const eggs = plan.records.file('clutches.csv')?.header.columnOf.has('eggs') === true;
  return [
    { name: 'spawned', header: 'spawned', isNeeded: true, likely: nowText(plan), choices: [] },
    { name: 'clutch', header: 'clutch', isNeeded: true, likely: nextName(spawner, plan) ?? '', choices: [] },
    ...(eggs ? [{ name: 'eggs', header: 'eggs', isNeeded: false, likely: '', choices: [] }] : []),
  ];
}

/** The next name of a brood, as those of the pair go on, else as those of the room do. */
function nextName({ pair, species }: Pick<Spawner, 'pair' | 'species'>, { records }: Plan): string | undefined {
  const file = records.file('clutches.csv');
  if (file === undefined) return undefined;
  const naming = { records, file };
  const byPair = pair === '' ? undefined : new ClutchNames(naming).nextOf(pair);
  if (byPair !== undefined) return byPair;
  const rows = latestRows(naming).filter((row) => clutchOf(row)?.pair === undefined);
  const near = rows.filter((row) => clutchOf(row)?.species === species);
  const [series] = seriesIn([...near, ...rows].map(keyText));
  return series === undefined ? undefined : nextOf(series, naming);
}

/** "Record a spawn": a new row of the register. What the pair gives stays blank, so that it stands in one place. */
export function recordSpawn(spawner: Spawner, answers: Answers): Act {
  return (plan) => {
    const { records, now } = plan;
    const file = records.file('clutches.csv');
    if (file === undefined) return refused(say('act.refused.no-register', 'clutches.csv'));
    if (file.blocked !== undefined) return refused(say('act.refused.unreadable', file.path));
    const pair = spawner.pair === '' ? undefined : records.pair(spawner.pair);
    if (spawner.pair !== '' && (pair === undefined || hasCome(pair.retired, now))) return refused(say('act.refused.no-pair', spawner.pair));
    const tank = pair?.tank ?? spawner.tank;
    if (tank === '') return refused(say('act.refused.needed', 'tank'));
    const when = timeOfAnswer(answers['spawned']?.trim(), plan);
    if ('fault' in when) return refused(when.fault);
    const clutch = (answers['clutch'] ?? nextName(spawner, plan) ?? '').trim();
    if (clutch === '') return refused(say('act.refused.no-id'));
    const name = valueOfAnswer('clutches', 'clutch', clutch, plan);
    if ('fault' in name) return refused(name.fault);
    if (isTaken(clutch, plan)) return refused(say('act.refused.id-taken', clutch));
    const eggs = (answers['eggs'] ?? '').trim();
    const counted = valueOfAnswer('clutches', 'eggs', eggs, plan);
    if ('fault' in counted) return refused(counted.fault);
    const draft = new Draft(records);
    const species = pair?.species === undefined ? spawner.species : '';
    const fault = draft.row(file, { clutch, pair: spawner.pair, species, tank, spawned: when.text, eggs });
    return fault === undefined ? drafted(draft, [clutch, spawner.pair, tank, `spawned ${when.text}`, eggs]) : refused(fault);
  };
}

/** Names of files can't be told apart by capitals everywhere. */
function isTaken(clutch: string, { records }: Plan): boolean {
  const index = records.index('clutches');
  if (index.has(clutch)) return true;
  const lower = clutch.toLowerCase();
  for (const id of index.ids()) if (id.toLowerCase() === lower) return true;
  return false;
}
