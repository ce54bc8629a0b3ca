import { say } from '../../base/messages';
import type { Plan } from '../../planner/plan';
import type { ClutchState } from '../../planner/states';
import type { Row } from '../../records/row';
import type { Fact, Piece } from '../hoverText';
import { rowNamed } from '../ids';
import { actionFacts, cellFact, computedFact, explained, factLine, factOf, idFact, idPiece, joined, linksTo } from './card';
import type { Card } from './card';
import { photoOf } from './photo';
import { rowCard } from './row';

/** What it is, where, how old and how far, how many are alive, what comes and what is to be done next, with the latest picture. */
export const clutchCard: Card = (id, plan) => {
  const row = rowNamed(plan, { sheet: 'clutches', id });
  const state = plan.view.clutch(id);
  const logs = plan.records.logsOf(id);
  if (row === undefined || state === undefined) return [...rowCard(row, plan), ...linksTo(row, plan, logs), ...photoOf(id, plan)];
  const { clutch, species, timeline } = state;
  const fact = (header: string): Fact | undefined => computedFact(plan, row, header);
  const ahead = timeline.ended === undefined ? [expectedFact(row, 'hatch_expected', plan), expectedFact(row, 'sale_expected', plan)] : [cellFact(plan, row, 'ended'), cellFact(plan, row, 'outcome')];
  return [
    ...factLine(idFact(plan, { name: say('hover.species'), sheet: 'species', id: species }), idFact(plan, { name: say('hover.pair'), sheet: 'pairs', id: clutch.pair }), tanksFact(state, plan)),
    ...factLine(fact('age_days'), stageFact(row, plan), fact('alive'), fact('survival_pct')),
    ...ahead.flatMap((each) => factLine(each)),
    ...actionFacts(plan, row),
    ...linksTo(row, plan, logs),
    ...photoOf(id, plan),
  ];
};

function tanksFact({ study }: ClutchState, plan: Plan): Fact | undefined {
  const tanks = [...study.heads.stands.keys()].filter((tank) => tank !== '');
  if (tanks.length === 0) return undefined;
  const runs = tanks.map((tank): readonly Piece[] => {
    const room = plan.records.tank(tank)?.room;
    return [idPiece(plan, 'tanks', tank), ...(room === undefined ? [] : [{ text: ` (${room})` }])];
  });
  return { name: say('hover.tank'), pieces: joined(runs) };
}

function stageFact(row: Row, plan: Plan): Fact | undefined {
  const stage = explained(plan, row, 'stage')?.value ?? '';
  const basis = explained(plan, row, 'stage_basis')?.value ?? '';
  return factOf('clutches', 'stage', basis === '' || stage === '' ? stage : `${stage} (${basis})`);
}

/** Something that is still to come, with its window; what has come is in the stage. */
function expectedFact(row: Row, header: string, plan: Plan): Fact | undefined {
  const told = explained(plan, row, header);
  const fact = factOf('clutches', header, told?.value);
  if (told?.window === undefined || fact === undefined) return undefined;
  return { name: fact.name, pieces: fact.pieces, behind: [{ text: say('hover.between', told.window.from, told.window.to) }] };
}
