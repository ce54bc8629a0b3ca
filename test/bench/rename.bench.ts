import { renaming } from '../../src/language/rename';
import { applyEdits } from '../../src/base/textEdit';
import { bench, onDisk, parseAll, planFromDisk } from './folder';
import { inTurn, line } from './measure';
import { room } from './room';
import { fileOf } from './typing';

/** A renaming may cost this share of what papaparse takes for the same texts. */
const most = 1;

/** A tank that five thousand logs name, and the name of each of them. */
function texts(): ReadonlyMap<string, string> {
  const logs = [...room(5_000)].map(([path, text]) => [path, path.startsWith('clutches/') ? `${text}2026-06-09T19:00,moved${','.repeat(4)}G0,,\n` : path === 'tanks.csv' ? `${text}G0,back\n` : text] as const);
  return new Map(logs);
}

void bench(async () => {
  const all = texts();
  const plan = await planFromDisk(onDisk(all));
  const sheets = [...all].filter(([path]) => path.endsWith('.csv')).map(([, text]) => text);
  const rename = (): number => {
    const outcome = renaming(plan, { sheet: 'tanks', id: 'G0' }, { to: 'G-new' });
    if (outcome.kind === 'refused') throw new Error(JSON.stringify(outcome.reason));
    return outcome.edits.length;
  };
  const write = (): number => {
    const outcome = renaming(plan, { sheet: 'tanks', id: 'G0' }, { to: 'G-new' });
    if (outcome.kind === 'refused') throw new Error(JSON.stringify(outcome.reason));
    return outcome.edits.reduce((sum, edit) => sum + ('edits' in edit ? applyEdits(fileOf(plan, edit.file).doc.text(), edit.edits).length : 0), 0);
  };
  if (rename() < 5_000) throw new Error(`only ${rename()} files would change`);
  console.log(`\nRenaming a tank: ${sheets.length} sheets, of which ${rename()} change`);
  const times = await inTurn({ papaparse: () => parseAll(sheets), rename, 'rename and new texts': write }, { warmUps: 2, rounds: 7 });
  line('', 'ms', 'worst', 'CPU ms', 'ratio', 'by CPU', 'at most');
  for (const [name, { wall, worst, cpu }] of Object.entries(times)) line(`  ${name}`, wall, worst, cpu, wall / times.papaparse.wall, cpu / times.papaparse.cpu, name === 'rename' ? most : '');
});
