import type { Plan } from '../../src/planner/plan';
import { calendarModel, daysNeeded, listsOfMonth } from '../../src/views/calendar/calendarModel';
import type { CalendarBody, CalendarModel, CalendarQuery } from '../../src/views/calendar/calendarModel';

/** The calendar of a plan, as its panel makes it, with the lists of all days of a month. */
export function calendarOf(plan: Plan, query: Partial<CalendarQuery>, locale = 'en-GB'): CalendarModel {
  const whole: CalendarQuery = { view: 'month', selection: {}, ...query };
  const coming = plan.coming(daysNeeded(whole, { today: plan.now.day, locale }));
  const model = calendarModel(plan, { query: whole, coming, locale });
  return model.body.view === 'month' ? { ...model, body: { ...model.body, lists: listsOfMonth(plan, { query: whole, coming, locale }) } } : model;
}

/** The body of the view that was asked for. */
export function bodyOf<View extends CalendarBody['view']>({ body }: CalendarModel, view: View): Extract<CalendarBody, { readonly view: View }> {
  if (body.view !== view) throw new Error(`shows ${body.view}`);
  return body as Extract<CalendarBody, { readonly view: View }>;
}
