import { say } from '../../base/messages';
import { formatDay, hasCome, momentOfDay } from '../../base/moment';
import type { Moment } from '../../base/moment';
import { stageAt } from '../../domain/timeline';
import type { ClutchState, PlanView } from '../../planner/states';
import { builtInSpecies, profileCell } from '../../records/profiles';
import { keyText } from '../../records/row';
import type { Row } from '../../records/row';
import { clutchOf, valueOf } from '../../records/things';
import type { Tank } from '../../records/things';
import type { SheetName } from '../../schema/descriptor';
import { clutchIdIn, isOwnSheet, ownId, speciesIn, tanksOf, textIn } from './asked';
import type { Asked } from './asked';
import { latestFitting } from './latestIds';
import { MOST, pick } from './suggestion';
import type { Candidate, Picked, Suggestion } from './suggestion';

/** What is over is still right for an older row, but nothing that most rows mean. */
const OVER = 9;

/** Ids of a sheet that fit the row: what is open and near first, what is over last. */
export function idsFitting(asked: Asked, sheet: SheetName): Picked {
  const own = isOwnSheet(asked, sheet) ? ownId(asked) : undefined;
  const candidates = candidatesOf(asked, sheet).filter(({ value }) => value !== own && !asked.others.has(value));
  return pick(candidates, asked.typed, 'thing');
}

function candidatesOf(asked: Asked, sheet: SheetName): readonly Candidate[] {
  switch (sheet) {
    case 'tanks':
      return tanks(asked);
    case 'clutches':
      return clutches(asked);
    case 'pairs':
      return pairs(asked);
    case 'fish':
      return fish(asked);
    case 'species':
      return species(asked);
    case 'orders':
      return orders(asked);
    default:
      return rowsOf(asked, sheet).map((row) => ({ value: keyText(row), rank: 0, describe: () => present(sheet === 'rooms' ? (valueOf(row, 'rooms', 'name') as string | undefined) : undefined) }));
  }
}

/** The rows of a register that hold for their ids, in written order. */
function rowsOf({ plan: { records } }: Asked, sheet: SheetName): readonly Row[] {
  const index = records.index(sheet);
  return [...index.ids()].flatMap((id) => index.row(id) ?? []);
}

function present(...texts: readonly (Suggestion['beside'][number] | undefined)[]): Suggestion['beside'] {
  return texts.filter((text) => text !== undefined && text !== '') as Suggestion['beside'];
}

function tanks(asked: Asked): readonly Candidate[] {
  const { view, records } = asked.plan;
  const here = tanksOf(asked);
  const room = textIn(asked, 'room') ?? (here[0] === undefined ? undefined : records.tank(here[0])?.room);
  // Fish that are moved go elsewhere.
  const isTarget = asked.cell.field?.name === 'to_tank';
  const wantsBreeding = asked.cell.file.schema.name === 'pairs';
  const rankOf = ({ tank, room: its, retired, use }: Tank): number => {
    if (hasCome(retired, view.now)) return OVER;
    const place = here.indexOf(tank);
    if (place >= 0) return isTarget ? 6 : place / 1000;
    const isNear = room === undefined || its === room;
    if (isTarget && isNear && isFree(tank, use, view)) return 1;
    if (wantsBreeding && use !== 'breeding') return 4;
    return isNear ? 2 : 3;
  };
  return rowsOf(asked, 'tanks').flatMap((row): readonly Candidate[] => {
    const tank = records.tank(keyText(row));
    return tank === undefined ? [] : [{ value: tank.tank, rank: rankOf(tank), describe: () => besideTank(tank, view) }];
  });
}

/** Whether nothing lives in a tank that young fish may go to. */
function isFree(tank: string, use: string | undefined, view: PlanView): boolean {
  const isForYoung = use === undefined || use === 'grow-out' || use === 'holding' || use === 'egg-tank';
  return isForYoung && view.standingIn(tank).length === 0 && view.pairsIn(tank).length === 0;
}

function besideTank({ tank, room, position, use, retired }: Tank, view: PlanView): Suggestion['beside'] {
  if (hasCome(retired, view.now)) return present(room, say('beside.retired'));
  const standing = view.standingIn(tank).map(({ clutch }) => clutch.clutch);
  const inside = [...view.pairsIn(tank), ...standing];
  const more = inside.length > 3 ? [...inside.slice(0, 2), '…'] : inside;
  return present([room, position].filter((part) => part !== undefined).join(' '), use, inside.length === 0 ? say('beside.empty') : more.join(', '));
}

/** Those that are open, the latest first; then those that have ended. */
function clutches(asked: Asked): readonly Candidate[] {
  const { view } = asked.plan;
  const wanted = speciesIn(asked);
  const own = asked.cell.file.schema.name === 'log' || asked.cell.file.schema.name === 'clutch-log' ? clutchIdIn(asked) : undefined;
  const isOwn = (id: string): boolean => id === own && asked.cell.field?.name === 'ref';
  const open = view.openClutches().filter(({ clutch }) => !isOwn(clutch.clutch));
  const ended = endedClutches(asked, new Set(open.map(({ row }) => row))).filter((row) => !isOwn(keyText(row)));
  return [
    ...open.map((state): Candidate => ({ value: state.clutch.clutch, rank: wanted === undefined || state.species === wanted ? 0 : 5, near: -state.clutch.spawned.instant, describe: () => besideClutch(state, view) })),
    ...ended.map((row): Candidate => ({ value: keyText(row), rank: OVER, describe: () => besideEnded(row, view) })),
  ];
}

/** The rows of the other clutches, the latest first; of many a few more than are shown, those that fit what was typed. */
function endedClutches({ plan: { records }, typed }: Asked, open: ReadonlySet<Row>): readonly Row[] {
  const index = records.index('clutches');
  // Few are all there, since what stands beside them may be typed too.
  const wanted = index.size - open.size <= MOST ? '' : typed;
  return latestFitting(records.file('clutches.csv'), wanted, (row) => !open.has(row) && index.row(keyText(row)) === row);
}

function besideClutch({ species, timeline, study }: ClutchState, view: PlanView): Suggestion['beside'] {
  return present(species, stageAt(timeline, view.now)?.stage, [...study.heads.stands.keys()].join(' '));
}

function besideEnded(row: Row, { records, now }: PlanView): Suggestion['beside'] {
  const clutch = clutchOf(row);
  const isToCome = clutch !== undefined && !hasCome(clutch.spawned, now);
  return present(clutch === undefined ? undefined : records.speciesOf(clutch), isToCome ? undefined : say('beside.ended'));
}

/** Those of the row's species, by when they should spawn; a new clutch named after one comes of that. */
function pairs(asked: Asked): readonly Candidate[] {
  const { view, records } = asked.plan;
  const wanted = textIn(asked, 'species');
  const tank = textIn(asked, 'tank');
  const clutch = isOwnSheet(asked, 'clutches') ? ownId(asked) : undefined;
  return rowsOf(asked, 'pairs').flatMap((row): readonly Candidate[] => {
    const pair = records.pair(keyText(row));
    if (pair === undefined) return [];
    const next = view.pair(pair.pair)?.next;
    const isOver = hasCome(pair.retired, view.now);
    const isNamesake = clutch !== undefined && clutch.length > pair.pair.length && clutch.startsWith(pair.pair) && !/[\p{L}\p{Nd}]/u.test(clutch.charAt(pair.pair.length));
    const fits = wanted === undefined || pair.species === wanted;
    const rank = isNamesake ? 0 : isOver ? OVER : !fits ? 5 : tank !== undefined && pair.tank === tank ? 1 : 2;
    const beside = isOver ? say('beside.retired') : next === undefined ? undefined : say('beside.spawn-expected', formatDay(next.expected));
    return [{ value: pair.pair, rank, near: next === undefined ? Number.MAX_SAFE_INTEGER : Math.abs(next.expected - view.now.day), describe: () => present(pair.species, pair.tank, beside) }];
  });
}

/** What a column asks of a fish. */
const sexes: Readonly<Partial<Record<string, string>>> = { male: 'm', sire: 'm', female: 'f', dam: 'f' };

function fish(asked: Asked): readonly Candidate[] {
  const { now } = asked.plan;
  const wanted = { species: speciesIn(asked), sex: sexes[asked.cell.field?.name ?? ''] };
  return rowsOf(asked, 'fish').map((row) => {
    const text = (name: string): string | undefined => valueOf(row, 'fish', name) as string | undefined;
    const [its, sex, tank, left] = [text('species'), text('sex') ?? 'u', text('tank'), valueOf(row, 'fish', 'left') as Moment | undefined];
    const isOther = wanted.sex !== undefined && sex !== 'u' && sex !== wanted.sex;
    const isGone = hasCome(left, now);
    const rank = (wanted.species !== undefined && its !== wanted.species ? 10 : 0) + (isOther ? 5 : 0) + (isGone ? 3 : wanted.sex === sex ? 0 : 1);
    return { value: keyText(row), rank, describe: () => present(its, sex === 'u' ? undefined : sex, isGone ? say('beside.left') : tank) };
  });
}

/** Those that are bred here, the keeper's others, and those that are built in. */
function species(asked: Asked): readonly Candidate[] {
  const { records } = asked.plan;
  const bred = new Set(rowsOf(asked, 'pairs').map((row) => records.pair(keyText(row))?.species));
  const own = records.index('species');
  const all = new Set([...own.ids(), ...builtInSpecies()]);
  const wanted = asked.cell.file.schema.name === 'clutches' ? speciesIn(asked) : undefined;
  const word = (id: string, name: string): string | undefined => profileCell(id, name, (one) => own.row(one))?.value as string | undefined;
  return [...all].map((id) => ({ value: id, rank: id === wanted ? 0 : bred.has(id) ? 1 : own.has(id) ? 2 : 3, describe: () => present(word(id, 'common_name'), word(id, 'care')) }));
}

/** Those that haven't left, what is due first. */
function orders(asked: Asked): readonly Candidate[] {
  const { now, records } = asked.plan;
  const wanted = speciesIn(asked);
  return rowsOf(asked, 'orders').map((row) => {
    const [buyer, its, quantity] = ['buyer', 'species', 'quantity'].map((name) => valueOf(row, 'orders', name) as string | number | undefined);
    const [due, sent] = ['due', 'sent'].map((name) => valueOf(row, 'orders', name) as Moment | undefined);
    const isSent = hasCome(sent, now);
    const what = [quantity, its].filter((part) => part !== undefined).join(' ');
    return {
      value: keyText(row),
      rank: (wanted === undefined || its === wanted ? 0 : 5) + (isSent ? 20 : 0),
      near: (isSent ? -1 : 1) * (due ?? momentOfDay(now.day, records.zone)).instant,
      describe: () => present(what, buyer as string | undefined, isSent ? say('beside.sent') : due === undefined ? undefined : say('beside.due-on', formatDay(due.day))),
    };
  });
}
