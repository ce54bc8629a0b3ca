import { completionsAt } from '../../src/language/completion/complete';
import { inlayHintsIn } from '../../src/language/inlayHints';
import type { Plan } from '../../src/planner/plan';
import { applyEdits } from '../../src/base/textEdit';
import { parseAll } from './folder';
import { inTurn, line } from './measure';
import { fileOf } from './typing';

/** An answer may cost this share of what papaparse takes for the register. */
const share = 30;

/** Rows in view of a tall editor. */
const rows = 60;

const path = 'clutches.csv';

/** Prints what it costs to say what may be written in a row, and what is shown in 60 rows, of a long register. */
export async function helpBench(plan: Plan, text: string): Promise<void> {
  const { doc, header } = fileOf(plan, path);
  const column = (name: string): number => header.columnOf.get(name) ?? 0;
  const complete = (record: number, name: string): number => completionsAt(plan, path, doc.span(record, column(name)).end)?.suggestions.length ?? 0;
  const middle = Math.floor(doc.rowCount / 2);
  const last = doc.rowCount - 1;
  const log = 'time,clutch,event\n,,\n,AN1,\n,zz,\n,99,\n';
  plan.apply([{ path: 'log.csv', file: { text: log } }]);
  const inLog = (row: string) => (): number => completionsAt(plan, 'log.csv', log.indexOf(row) + row.length - 1)?.suggestions.length ?? 0;
  // Without its computed columns the register has the most to be hinted at.
  const bare = withoutComputed(text, plan);
  console.log(`\nHelp in the text; papaparse takes the unit for the register, an answer at most 1/${share} of it`);
  const acts = {
    papaparse: () => parseAll([text]),
    'a pair': () => complete(middle, 'pair'),
    'a tank': () => complete(last, 'tank'),
    'a moment': () => complete(last, 'hatched'),
    'a code of accept': () => complete(last, 'accept'),
    'the next free name': () => complete(last, 'clutch'),
    'a clutch, in log.csv': inLog('\n,,'),
    'a clutch, typed': inLog('AN1,'),
    'a clutch, a middle part': inLog('\n,99,'),
    'a clutch, nothing fits': inLog('zz,'),
  };
  for (const [name, act] of Object.entries(acts)) if (name !== 'a clutch, nothing fits' && act() === 0) throw new Error(`${name}: nothing was answered`);
  const times = { ...(await inTurn(acts, { warmUps: 3, rounds: 15 })) };
  plan.apply([{ path: 'log.csv', file: undefined }]);
  plan.apply([{ path, file: { text: bare } }]);
  const bareDoc = fileOf(plan, path).doc;
  const hints = (first: number, level: 'some' | 'all') => (): number => inlayHintsIn(plan, path, { span: { start: bareDoc.rowSpan(first).start, end: bareDoc.rowSpan(first + rows - 1).end }, level }).length;
  const hintActs = { 'hints, ended rows': hints(middle, 'some'), 'hints, latest rows': hints(last - rows, 'some'), 'all hints, ended rows': hints(middle, 'all'), 'all hints, latest rows': hints(last - rows, 'all') };
  if (hintActs['hints, latest rows']() === 0 || hintActs['all hints, ended rows']() < rows) throw new Error('there was nothing to hint at');
  const hintTimes = await inTurn(hintActs, { warmUps: 3, rounds: 15 });
  plan.apply([{ path, file: { text } }]);
  const unit = times.papaparse;
  line('', 'ms', 'worst', 'CPU ms', 'share', 'at least');
  for (const [name, took] of Object.entries({ ...times, ...hintTimes })) line(`  ${name}`, took.wall, took.worst, took.cpu, name === 'papaparse' ? '' : `1/${(unit.wall / took.wall).toFixed(0)}`, name === 'papaparse' ? '' : `1/${share}`);
}

/** The text of the register without its computed columns. */
function withoutComputed(text: string, plan: Plan): string {
  const { doc, header } = fileOf(plan, path);
  const first = header.computed[0]?.column ?? 0;
  if (header.computed.length !== doc.cellCount(0) - first) throw new Error('other columns stand behind the computed ones');
  const edits = Array.from({ length: doc.rowCount }, (_, record) => ({ start: doc.span(record, first - 1).end, end: doc.rowSpan(record).end, text: '' }));
  return applyEdits(text, edits);
}
