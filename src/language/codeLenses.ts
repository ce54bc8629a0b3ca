import { say } from '../base/messages';
import type { Message } from '../base/messages';
import type { Occurrence } from '../domain/routines';
import { stageAt } from '../domain/timeline';
import type { Agenda } from '../planner/agenda';
import { ageDays } from '../planner/columns/clutchAge';
import { dueText } from '../planner/columns/agenda';
import type { Plan } from '../planner/plan';
import type { Place } from '../planner/problem';
import type { SheetName } from '../schema/descriptor';
import { keyPlace } from './ids';

/** A line above a file's header. */
export interface CodeLens {
  readonly title: Message;
  /** Where a click leads; undefined for a line that only tells. */
  readonly place: Place | undefined;
}

/** Of a log: how its thing is and what is to be done with it, leading to its row in the register. Of a register: how many things have something overdue, leading to the first of them. */
export function codeLensesOf(plan: Plan, path: string): readonly CodeLens[] {
  const file = plan.records.file(path);
  if (file === undefined || file.blocked !== undefined) return [];
  const { schema, thing } = file;
  if (thing !== undefined) return schema.thing === 'clutch' ? ofClutch(plan, thing) : ofTank(plan, thing);
  return schema.name === 'clutches' || schema.name === 'tanks' || schema.name === 'pairs' ? ofRegister(plan, schema.name) : [];
}

function ofClutch(plan: Plan, id: string): readonly CodeLens[] {
  const { view } = plan;
  const state = view.clutch(id);
  if (state === undefined) return [];
  const place = keyPlace(plan, { sheet: 'clutches', id });
  const stage = stageAt(state.timeline, view.now)?.stage;
  const age = ageDays.value(state, view);
  const species = state.species ?? id;
  const title = stage === undefined ? say('lens.clutch.age', species, age) : stage === 'ended' ? say('lens.clutch.ended', species, age) : say('lens.clutch', species, stage, age);
  return [{ title, place }, ...ofAgenda(plan, state.agenda, place)];
}

function ofTank(plan: Plan, id: string): readonly CodeLens[] {
  const tank = plan.records.tank(id);
  if (tank === undefined) return [];
  const place = keyPlace(plan, { sheet: 'tanks', id });
  const inside = [...plan.view.pairsIn(id), ...plan.view.standingIn(id).map(({ clutch }) => clutch.clutch)];
  const where = [tank.room, tank.position].filter((part) => part !== undefined).join(' ');
  const title = inside.length === 0 ? say('lens.tank.empty', where) : say('lens.tank', where, inside.join(', '));
  return [{ title, place }, ...ofAgenda(plan, plan.view.tankAgenda(id), place)];
}

/** What is overdue, else what is next. */
function ofAgenda(plan: Plan, { next, overdue }: Agenda, place: Place | undefined): readonly CodeLens[] {
  if (next === undefined) return [];
  const due = dueOf(next, plan);
  const { action } = next.routine;
  if (overdue.length > 1) return [{ title: say('lens.overdue.more', action, due, overdue.length - 1), place }];
  if (overdue.length === 1) return [{ title: say('lens.overdue', action, due), place }];
  return [{ title: next.state === 'due' ? say('lens.due', action, due) : say('lens.next', action, due), place }];
}

function dueOf(occurrence: Occurrence, { view }: Plan): string {
  return dueText(occurrence.due, occurrence, view.zone).replace('T', ' ');
}

function ofRegister(plan: Plan, sheet: SheetName): readonly CodeLens[] {
  const late = lateIn(plan, sheet);
  const [first] = late.sort((a, b) => a.occurrence.due.instant - b.occurrence.due.instant);
  if (first === undefined) return [];
  const what = [first.id, first.occurrence.routine.action] as const;
  return [{ title: late.length === 1 ? say('lens.late.one', ...what) : say('lens.late', late.length, ...what), place: keyPlace(plan, { sheet, id: first.id }) }];
}

/** The things of a register with something overdue, and what has been so the longest. */
function lateIn({ view, records }: Plan, sheet: SheetName): { readonly id: string; readonly occurrence: Occurrence }[] {
  const late: { readonly id: string; readonly occurrence: Occurrence }[] = [];
  const add = (id: string, agenda: Agenda | undefined): void => {
    const occurrence = agenda?.overdue[0];
    if (occurrence !== undefined) late.push({ id, occurrence });
  };
  if (sheet === 'clutches') for (const { clutch, agenda } of view.openClutches()) add(clutch.clutch, agenda);
  else for (const id of records.index(sheet).ids()) add(id, sheet === 'tanks' ? view.tankAgenda(id) : view.pair(id)?.agenda);
  return late;
}
