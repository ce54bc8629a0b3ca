import { filled } from './filled';
import { bench, fill, onDisk, parseAll, peakOfFill, planFromDisk } from './folder';
import { inTurn, line } from './measure';
import { register } from './register';
import { fileOf, type } from './typing';

/** A character for each of the keeper's columns, that leaves the cell something that a hand might have meant. */
const keystrokes = [
  { header: 'note', character: 'x', fromEnd: 0 },
  { header: 'eggs', character: '1', fromEnd: 0 },
  { header: 'outcome', character: 'x', fromEnd: 0 },
  { header: 'hatched', character: '2', fromEnd: 0 },
  { header: 'ended', character: '1', fromEnd: 0 },
  { header: 'spawned', character: '1', fromEnd: 0 },
  { header: 'tank', character: '0', fromEnd: 0 },
  { header: 'pair', character: '9', fromEnd: 0 },
  { header: 'clutch', character: '9', fromEnd: 0 },
  { header: 'stage', character: 'x', fromEnd: 0 },
];

const path = 'clutches.csv';
const clutches = 100_000;

void bench(async () => {
  const texts = filled(register(clutches));
  const sheets = [...texts].filter(([name]) => name.endsWith('.csv')).map(([, text]) => text);
  const folder = onDisk(texts);
  console.log(`Register: ${clutches} clutches, ${(sheets.join('').length / 1e6).toFixed(1)} MB`);
  if ((await fill(folder)) !== 0) throw new Error('a filled register wants to be filled again');
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
  const register1 = await inTurn({ papaparse: () => parseAll([texts.get(path) as string]) }, { warmUps: 1, rounds: 7 });
  const unit = times.papaparse.median;
  line('', 'median ms', 'best ms', 'worst ms', '× papaparse', 'target');
  for (const [name, each] of Object.entries(times)) line(name, each.median, each.best, each.worst, each.median / unit, name === 'fill' ? '3' : '');
  line('most memory of a fill, MiB', peakOfFill(folder));

  const parse = register1.papaparse.median;
  const spots = { 'in the middle': Math.floor(clutches / 2), 'among the latest': clutches - 200 };
  for (const [where, first] of Object.entries(spots)) {
    const records = Array.from({ length: 100 }, (_, i) => first + i);
    console.log(`\nOne character typed ${where}; papaparse takes ${parse.toFixed(0)} ms for ${path}, the target is ${(parse / 30).toFixed(2)} ms`);
    line('', 'median ms', 'worst ms', '÷ papaparse', 'with fills', 'worst', 'files');
    for (const keystroke of keystrokes) {
      const stroke = { ...keystroke, path };
      type(plan, records.slice(0, 20), stroke);
      const { problems, fills, touched } = type(plan, records, stroke);
      line(keystroke.header, problems.median, problems.worst, `1/${(parse / problems.median).toFixed(0)}`, fills.median, fills.worst, touched);
    }
  }
  if (fileOf(plan, path).doc.text() !== texts.get(path)) throw new Error('what was typed was not taken back');
});
