import { say } from '../../base/messages';
import type { MessageCode } from '../../base/messages';
import type { Plan } from '../../planner/plan';
import type { SheetName } from '../../schema/descriptor';
import type { Shown } from '../hoverText';
import { rowNamed } from '../ids';
import type { Named } from '../ids';
import { linksTo } from './card';
import type { Card } from './card';
import { clutchCard } from './clutch';
import { fishCard } from './fish';
import { orderCard } from './order';
import { pairCard } from './pair';
import { roomCard } from './room';
import { rowCard } from './row';
import { speciesCard } from './species';
import { tankCard } from './tank';

interface KindOfThing {
  readonly title: MessageCode;
  readonly card: Card;
}

const kinds: Partial<Record<SheetName, KindOfThing>> = {
  clutches: { title: 'hover.title.clutch', card: clutchCard },
  tanks: { title: 'hover.title.tank', card: tankCard },
  pairs: { title: 'hover.title.pair', card: pairCard },
  fish: { title: 'hover.title.fish', card: fishCard },
  species: { title: 'hover.title.species', card: speciesCard },
  orders: { title: 'hover.title.order', card: orderCard },
  rooms: { title: 'hover.title.room', card: roomCard },
  maintenance: { title: 'hover.title.job', card: plainCard('maintenance') },
  cultures: { title: 'hover.title.culture', card: plainCard('cultures') },
};

function plainCard(sheet: SheetName): Card {
  return (id, plan) => {
    const row = rowNamed(plan, { sheet, id });
    return [...rowCard(row, plan), ...linksTo(row, plan)];
  };
}

/** The record card of a thing, by what is known of it now; of one without a row what others say of it. Undefined for kinds of things that have none. */
export function cardOf(plan: Plan, { sheet, id }: Named): Shown | undefined {
  const kind = kinds[sheet];
  if (kind === undefined) return undefined;
  const parts = kind.card(id, plan);
  const isUnknown = rowNamed(plan, { sheet, id }) === undefined && !plan.records.targets.isBuiltIn(sheet, id);
  return { title: say(kind.title, id), parts: isUnknown ? [...parts, { kind: 'text', text: say('hover.no-row', id, `${sheet}.csv`) }] : parts };
}
