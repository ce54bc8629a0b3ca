import * as vscode from 'vscode';
import { ordersFor, readiestFirst, saleFields, sell } from '../../acts/sell';
import { say, textOf } from '../../base/messages';
import { perform } from '../acting';
import { broodChoices } from '../broodChoices';
import type { Fishrooms } from '../fishrooms';
import { explainNothing } from '../keeper';
import type { OpenFishroom } from '../openFishroom';
import { askFields, faultOf, pickOne, pickThing } from '../picking';
import type { Choice } from '../picking';

/** "Record a sale": of which brood, for which order if there is one, and how many. */
export function recordSaleCommand(fishrooms: Fishrooms): vscode.Disposable {
  return vscode.commands.registerCommand('broodsheet.recordSale', async () => {
    const title = say('editor.act.sale.title');
    const chosen = await pickThing(fishrooms, {
      step: { title, question: say('editor.act.clutch.which') },
      none: say('editor.act.clutch.none'),
      choicesIn: (room) => broodChoices(readiestFirst(room.plan), room).filter(({ answer }) => answer.tank !== ''),
    });
    if (chosen === undefined) return;
    const { room, thing: sale } = chosen;
    const tank = saleFields(sale, room.plan).some(({ name }) => name === 'tank') ? { tank: sale.tank } : {};
    const orders = orderChoices(sale.clutch, room);
    const ref = orders.length === 1 ? '' : await pickOne({ title, question: say('editor.act.sale.order') }, orders);
    if (ref === undefined) return;
    const common = { ref, ...tank };
    // What stands in the way of any sale for that order is told before somebody counts fish for it.
    const obstacle = faultOf(sell(sale, { ...common, count: '1' }), room);
    if (obstacle !== undefined) {
      explainNothing(obstacle);
      return;
    }
    const fields = saleFields({ ...sale, ref }, room.plan).filter(({ name }) => name === 'count');
    const answers = await askFields({ room, title, fields, act: (given) => sell(sale, { ...common, ...given }) });
    if (answers !== undefined) await perform(room, sell(sale, { ...common, ...answers }));
  });
}

function orderChoices(clutch: string, { plan }: OpenFishroom): readonly Choice<string>[] {
  const text = (order: string, header: string): string => {
    const row = plan.records.index('orders').row(order);
    const file = row === undefined ? undefined : plan.records.file(row.path);
    const column = file?.header.columnOf.get(header);
    return row === undefined || column === undefined ? '' : (file?.cellText(row, column) ?? '');
  };
  const orders = ordersFor(clutch, plan).map((order) => ({ label: order, description: ['buyer', 'quantity', 'due'].map((header) => text(order, header)).filter((part) => part !== '').join(' · '), answer: order }));
  return [...orders, { label: textOf(say('editor.act.sale.no-order')), answer: '' }];
}
