import { Pedigree } from '../../src/domain/kinship';
import type { Lineage } from '../../src/domain/kinship';
import { filled } from './filled';
import { fill, onDisk, parseAll, peakOfFill, planFromDisk } from './folder';
import { inTurn, line } from './measure';
import type { Plan } from '../../src/planner/plan';
import type { ComingDays } from '../../src/planner/coming';
import { calendarModel, calendarViews } from '../../src/views/calendar/calendarModel';

/** What a fill may cost of what papaparse takes to parse the same texts. */
const mostOfFill = 3;

/** What the list of what is due in a week and that of what is to be expected in two months may cost of what all problems cost, of a folder that has been read. */
const mostOfCheck = { due: 2, ahead: 2 } as const;

/** What the kinship of 10,000 fish may cost of reading the folder and looking for all problems. */
const mostOfKinship = 1;

/** What the first picture of a calendar of a folder that has been read may cost of what papaparse takes for its register. */
const mostOfCalendar = 1;

/** Fish of which all but the first fifty come from two of the fish before them. */
const fish = Array.from({ length: 10_000 }, (_, i): Lineage => ({ fish: String(i), ...(i >= 50 && { sire: String(i - 1 - ((i * 7919) % 49)), dam: String(i - 1 - ((i * 104_729) % 48)) }) }));

/** The inbreeding of all fish, and how the last is related to each. */
function kinship(): number {
  const pedigree = new Pedigree(fish);
  const ids = fish.map(({ fish: id }) => id);
  return ids.filter((id) => (pedigree.inbreeding(id) ?? 0) > 0).length + pedigree.kinshipWith('9999', ids).length;
}

/** The first message with the calendar of a fishroom that has been read, in one of its ways; gives its length. What is coming is known by then, since the Due view shows it. */
function calendar(plan: Plan, { view, coming }: { readonly view: (typeof calendarViews)[number]; readonly coming: ComingDays }): number {
  return JSON.stringify(calendarModel(plan, { query: { view, selection: {} }, coming, locale: 'en' })).length;
}

/** A filled folder as it was measured, with a plan of it. */
export interface Measured {
  readonly texts: ReadonlyMap<string, string>;
  readonly plan: Plan;
}

/** Fills a fishroom's texts, writes them to disk, and prints what reading them with all that follows costs. */
export async function folderBench(title: string, unfilled: ReadonlyMap<string, string>, { besideCheck }: { readonly besideCheck: boolean }): Promise<Measured> {
  const texts = filled(unfilled);
  const sheets = [...texts].filter(([path]) => path.endsWith('.csv')).map(([, text]) => text);
  const folder = onDisk(texts);
  console.log(`\n${title}: ${sheets.length} sheets, ${(sheets.reduce((sum, { length }) => sum + length, 0) / 1e6).toFixed(1)} MB`);
  if ((await fill(folder)) !== 0) throw new Error('what was filled wants to be filled again');
  const plan = await planFromDisk(folder);
  const register = texts.get('clutches.csv') ?? '';
  const check = (): number => plan.paths().reduce((sum, path) => sum + plan.problems(path).length, 0);
  const coming = plan.coming(61);
  console.log(`${check()} problems, ${coming.entries.length} entries`);
  const times = await inTurn({ papaparse: () => parseAll(sheets), fill: () => fill(folder), check, due: () => plan.due(7).length + plan.liveFood(7).length, ahead: () => plan.ahead(60).length, kinship, coming: () => plan.coming(42).entries.length, register: () => parseAll([register]), month: () => calendar(plan, { view: 'month', coming }), strip: () => calendar(plan, { view: 'strip', coming }), list: () => calendar(plan, { view: 'list', coming }) }, { warmUps: 3, rounds: 9 });
  const unit = times.papaparse;
  line('', 'ms', 'best', 'worst', 'CPU ms', 'ratio', 'by CPU', 'at most');
  for (const [name, { wall, best, worst, cpu }] of Object.entries(times)) {
    line(`  ${name}`, wall, best, worst, cpu, wall / unit.wall, cpu / unit.cpu, name === 'fill' ? mostOfFill : '');
  }
  if (besideCheck) {
    for (const name of ['due', 'ahead'] as const) {
      line(`  ${name}, of check`, '', '', '', '', times[name].wall / times.check.wall, times[name].cpu / times.check.cpu, mostOfCheck[name]);
    }
    // A fill reads the folder, and of what is filled it has nothing more to do.
    line('  kinship, of read and check', '', '', '', '', times.kinship.wall / (times.fill.wall + times.check.wall), times.kinship.cpu / (times.fill.cpu + times.check.cpu), mostOfKinship);
  }
  for (const view of calendarViews) {
    line(`  ${view}, of register`, '', '', '', '', times[view].wall / times.register.wall, times[view].cpu / times.register.cpu, mostOfCalendar);
  }
  line('  most memory of a fill, MiB', peakOfFill(folder));
  return { texts, plan };
}
