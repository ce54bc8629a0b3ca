import { bench } from './folder';
import { folderBench } from './folderBench';
import { line } from './measure';
import { room } from './room';
import { append, typeInto } from './typing';

void bench(async () => {
  const { plan } = await folderBench('Many logs', room(10_000), { besideCheck: true });
  const logs = plan.paths().filter((path) => path.startsWith('clutches/'));
  const some = logs.filter((_, i) => i % 50 === 25);
  const open = logs.filter((path) => plan.records.clutch(path.slice(path.lastIndexOf('/') + 1, -4))?.ended === undefined).slice(-200);
  const acts = {
    'event of the third row': () => typeInto(plan, some.map((path) => ({ path, record: 3 })), { header: 'event', character: 'x' }),
    'time of the third row': () => typeInto(plan, some.map((path) => ({ path, record: 3 })), { header: 'time', character: '1' }),
    'count of the second row': () => typeInto(plan, some.map((path) => ({ path, record: 2 })), { header: 'count', character: '1' }),
    'a new row': () => append(plan, open, '2026-06-10T08:30,fed\n'),
    'a new row with all cells': () => append(plan, open, '2026-06-10T08:30,checked,,,,,,,,,\n'),
  };
  line('\nTyped into logs', 'ms', 'worst', 'CPU ms', 'with fills', 'worst', 'files');
  for (const [name, act] of Object.entries(acts)) {
    act();
    const { problems, fills, touched } = act();
    line(`  ${name}`, problems.wall, problems.worst, problems.cpu, fills.wall, fills.worst, touched);
  }
});
