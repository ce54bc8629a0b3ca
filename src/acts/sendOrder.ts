import { say } from '../base/messages';
import { formatDay } from '../base/moment';
import { Draft } from '../planner/draft';
import type { Plan } from '../planner/plan';
import { drafted, refused, valueOfAnswer } from './act';
import type { Act, Answers, AskedField } from './act';

/** What is asked when an order leaves the room. */
export function sendingFields({ records, now }: Plan): readonly AskedField[] {
  const hasShipment = records.file('orders.csv')?.header.columnOf.has('shipment') === true;
  return [
    { name: 'sent', header: 'sent', isNeeded: true, likely: formatDay(now.day), choices: [] },
    ...(hasShipment ? [{ name: 'shipment', header: 'shipment', isNeeded: false, likely: '', choices: [] }] : []),
  ];
}

/** Writes the day on which an order left the room; nothing is to be done about it any more. */
export function sendOrder(order: string, answers: Answers): Act {
  return (plan) => {
    const row = plan.records.index('orders').row(order);
    if (row === undefined) return refused(say('act.refused.order', order));
    const sent = (answers['sent'] ?? formatDay(plan.now.day)).trim();
    if (sent === '') return refused(say('act.refused.needed', 'sent'));
    const day = valueOfAnswer('orders', 'sent', sent, plan);
    if ('fault' in day) return refused(day.fault);
    if (sent > formatDay(plan.now.day)) return refused(say('act.refused.future', sent));
    const shipment = (answers['shipment'] ?? '').trim();
    const draft = new Draft(plan.records);
    const fault = draft.set(row, { sent, ...(shipment === '' ? {} : { shipment }) });
    return fault === undefined ? drafted(draft, [order, `sent ${sent}`, shipment]) : refused(fault);
  };
}
