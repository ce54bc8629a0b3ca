import { say } from '../../base/messages';
import { formatMoment, isFuture } from '../../base/moment';
import type { Plan } from '../../planner/plan';
import type { TankReading } from '../../records/things';
import type { Fact, Part, Piece } from '../hoverText';
import { rowNamed } from '../ids';
import { actionFacts, cellFact, computedFact, explained, factLine, factOf, idFact, idPiece, joined, linksTo } from './card';
import type { Card } from './card';

/** More are told as a number. */
const MOST = 8;

/** Where it stands, who lives in it, what the water was like when it was last read, and what is to be done next. */
export const tankCard: Card = (id, plan) => {
  const row = rowNamed(plan, { sheet: 'tanks', id });
  const cell = (header: string): Fact | undefined => (row === undefined ? undefined : cellFact(plan, row, header));
  return [
    ...factLine(idFact(plan, { name: say('hover.room'), sheet: 'rooms', id: row === undefined ? undefined : plan.records.tank(id)?.room }), cell('position'), cell('use'), cell('volume_l') ?? cell('volume_gal'), cell('retired')),
    ...factLine(pairsFact(id, plan), row === undefined ? undefined : computedFact(plan, row, 'fish')),
    ...clutchesIn(id, plan),
    ...readingFacts(id, plan),
    ...(row === undefined ? [] : actionFacts(plan, row)),
    ...linksTo(row, plan, plan.records.tankLogsOf(id)),
  ];
};

function pairsFact(id: string, plan: Plan): Fact | undefined {
  const pairs = plan.view.pairsIn(id);
  return pairs.length === 0 ? undefined : { name: say('hover.pairs'), pieces: joined(pairs.slice(0, MOST).map((pair) => [idPiece(plan, 'pairs', pair)])) };
}

function clutchesIn(id: string, plan: Plan): readonly Part[] {
  const all = plan.view.standingIn(id);
  if (all.length === 0) return [];
  const lines = all.slice(0, MOST).map(({ clutch, row }): readonly Piece[] => {
    const told = ['stage', 'alive'].map((header) => explained(plan, row, header)?.value ?? '').filter((text) => text !== '');
    return [idPiece(plan, 'clutches', clutch.clutch), ...(told.length === 0 ? [] : [{ text: `: ${told.join(', ')}` }])];
  });
  return [{ kind: 'list', title: say('hover.clutches'), lines: all.length > MOST ? [...lines, [{ text: say('hover.more', all.length - MOST) }]] : lines }];
}

const measured = { tempC: 'temp_c', ph: 'ph', tan: 'tan_mg_l', nitrite: 'no2_mg_l', nitrate: 'no3_mg_l' } as const satisfies Partial<Record<keyof TankReading, string>>;

function readingFacts(id: string, plan: Plan): readonly Part[] {
  const last = plan.records.readingsOf(id).findLast(({ time }) => !isFuture(time, plan.now));
  if (last === undefined) return [];
  const row = rowNamed(plan, { sheet: 'tanks', id });
  const values = (Object.keys(measured) as (keyof typeof measured)[]).map((key) => {
    const value = last[key];
    return factOf('readings', measured[key], value === undefined ? undefined : String(Number(value.toFixed(2))));
  });
  return factLine(factOf('tanks', 'last_reading', formatMoment(last.time, plan.view.zone)), ...values, row === undefined ? undefined : computedFact(plan, row, 'nh3_mg_l'));
}
