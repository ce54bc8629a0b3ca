import { filled } from './filled';
import { fill, onDisk, parseAll, peakOfFill, planFromDisk } from './folder';
import { inTurn, line } from './measure';
import type { Plan } from '../../src/planner/plan';

/** What a fill may cost of what papaparse takes to parse the same texts. */
const mostOfFill = 3;

/** What the list of what is due in a week may cost of what all problems cost, of a folder that has been read. */
const mostOfDue = 2;

/** A filled folder as it was measured, with a plan of it. */
export interface Measured {
  readonly texts: ReadonlyMap<string, string>;
  readonly plan: Plan;
}

/** Fills a fishroom's texts, writes them to disk, and prints what reading them with all that follows costs. */
export async function folderBench(title: string, unfilled: ReadonlyMap<string, string>): Promise<Measured> {
  const texts = filled(unfilled);
  const sheets = [...texts].filter(([path]) => path.endsWith('.csv')).map(([, text]) => text);
  const folder = onDisk(texts);
  console.log(`\n${title}: ${sheets.length} sheets, ${(sheets.reduce((sum, { length }) => sum + length, 0) / 1e6).toFixed(1)} MB`);
  if ((await fill(folder)) !== 0) throw new Error('what was filled wants to be filled again');
  const plan = await planFromDisk(folder);
  const check = (): number => plan.paths().reduce((sum, path) => sum + plan.problems(path).length, 0);
  console.log(`${check()} problems`);
  const times = await inTurn({ papaparse: () => parseAll(sheets), fill: () => fill(folder), check, due: () => plan.due(7).length }, { warmUps: 3, rounds: 9 });
  const unit = times.papaparse;
  line('', 'ms', 'best', 'worst', 'CPU ms', 'ratio', 'by CPU', 'at most');
  for (const [name, { wall, best, worst, cpu }] of Object.entries(times)) {
    line(`  ${name}`, wall, best, worst, cpu, wall / unit.wall, cpu / unit.cpu, name === 'fill' ? mostOfFill : '');
  }
  line('  due, of check', '', '', '', '', times.due.wall / times.check.wall, times.due.cpu / times.check.cpu, mostOfDue);
  line('  most memory of a fill, MiB', peakOfFill(folder));
  return { texts, plan };
}
