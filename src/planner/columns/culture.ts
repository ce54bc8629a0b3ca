import { say } from '../../base/messages';
import type { Message } from '../../base/messages';
import { compareMoments, formatMoment, isFuture } from '../../base/moment';
import type { Moment } from '../../base/moment';
import { readyOf, renewDueOf, TOO_WARM_C, usualRenewal, waitOf, WARM_C } from '../../domain/cultures';
import type { Culture } from '../../records/cultures';
import type { ExplainedConstant } from '../explanation';
import type { PlanView } from '../states';
import type { Column, Why } from './column';
import { cellInput } from './inputs';

export const ready: Column<Culture> = {
  header: 'ready',
  value: (culture, view) => shown(readyOf(culture, view.zone), culture, view),
  explain(culture, view) {
    const { row, food } = culture;
    const wait = waitOf(culture);
    if (food === 'brine_shrimp') {
      return {
        formula: say('why.ready.hatch', WARM_C),
        inputs: [cellInput(row, 'started', view), cellInput(row, 'temp_c', view)],
        constants: wait === undefined ? [] : [common(say('constant.hatch'), wait.ms / 3_600_000, 'h')],
        notes: [...(wait === undefined ? [say('why.ready.too-warm', TOO_WARM_C)] : [say('why.ready.fresh')]), ...endNotes(readyOf(culture, view.zone), culture, view)],
      };
    }
    if (wait === undefined) return { formula: say('why.ready.harvest'), inputs: [cellInput(row, 'started', view)], notes: [say('why.ready.unknown')] };
    return {
      formula: say('why.ready.harvest'),
      inputs: [cellInput(row, 'started', view)],
      constants: [common(say('constant.first-harvest'), wait.days, 'd')],
      notes: endNotes(readyOf(culture, view.zone), culture, view),
    };
  },
};

export const renewDue: Column<Culture> = {
  header: 'renew_due',
  value: (culture, view) => shown(renewDueOf(culture, view.zone), culture, view),
  explain(culture, view) {
    const { row, food, renewEvery } = culture;
    const usual = renewEvery === undefined ? usualRenewal(food) : undefined;
    const why: Why = { formula: say('why.renew'), inputs: [cellInput(row, 'started', view), cellInput(row, 'renew_every', view)] };
    if (usual === undefined && renewEvery === undefined) return { ...why, notes: [say(food === 'brine_shrimp' ? 'why.renew.used-up' : 'why.renew.unknown')] };
    return { ...why, constants: usual === undefined ? [] : [common(say('constant.named', 'renew_every'), usual.days, 'd')], notes: endNotes(renewDueOf(culture, view.zone), culture, view) };
  },
};

/** Nothing is expected of a culture after its end. */
function isCutOff(moment: Moment, { ended }: Culture, { now }: PlanView): boolean {
  return ended !== undefined && !isFuture(ended, now) && compareMoments(moment, ended) > 0;
}

function shown(moment: Moment | undefined, culture: Culture, view: PlanView): string {
  return moment === undefined || isCutOff(moment, culture, view) ? '' : formatMoment(moment, view.zone);
}

function endNotes(moment: Moment | undefined, culture: Culture, view: PlanView): readonly Message[] {
  return moment !== undefined && isCutOff(moment, culture, view) ? [say('why.culture.ended')] : [];
}

function common(name: Message, value: number, unit: string): ExplainedConstant {
  return { name, value: String(value), unit, source: say('source.common'), place: undefined };
}
