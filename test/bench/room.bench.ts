import { filled } from './filled';
import { bench, fill, onDisk, parseAll, peakOfFill, planFromDisk } from './folder';
import { inTurn, line, timesOf } from './measure';
import { room } from './room';
import { type } from './typing';

const clutches = 10_000;

void bench(async () => {
  const texts = filled(room(clutches));
  const sheets = [...texts].filter(([name]) => name.endsWith('.csv')).map(([, text]) => text);
  const folder = onDisk(texts);
  console.log(`Room: ${clutches} clutches with logs, ${sheets.length} sheets, ${(sheets.join('').length / 1e6).toFixed(1)} MB`);
  if ((await fill(folder)) !== 0) throw new Error('a filled room wants to be filled again');
  const plan = await planFromDisk(folder);
  const times = await inTurn(
    {
      papaparse: () => parseAll(sheets),
      fill: () => fill(folder),
      check: () => {
        for (const each of plan.paths()) plan.problems(each);
      },
    },
    { warmUps: 2, rounds: 7 },
  );
  const unit = times.papaparse.median;
  line('', 'median ms', 'best ms', 'worst ms', '× papaparse', 'target');
  for (const [name, each] of Object.entries(times)) line(name, each.median, each.best, each.worst, each.median / unit, name === 'fill' ? '3' : '');
  line('most memory of a fill, MiB', peakOfFill(folder));

  const logs = plan.paths().filter((path) => path.startsWith('clutches/'));
  console.log('\nOne character typed into logs');
  line('', 'median ms', 'worst ms', 'with fills', 'worst', 'files');
  const spread = logs.filter((_, i) => i % 50 === 25);
  for (const header of ['event', 'count', 'time', 'note']) {
    const all = spread.map((path) => {
      try {
        return type(plan, [3], { path, header, character: '1', fromEnd: 0 });
      } catch {
        return undefined;
      }
    });
    const some = all.filter((each) => each !== undefined);
    const problems = timesOf(some.map((each) => each.problems.median));
    const fills = timesOf(some.map((each) => each.fills.median));
    line(header, problems.median, problems.worst, fills.median, fills.worst, Math.max(...some.map(({ touched }) => touched)));
  }
});
