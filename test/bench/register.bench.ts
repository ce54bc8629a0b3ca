import { bench, parseAll } from './folder';
import { folderBench } from './folderBench';
import { helpBench } from './help';
import { pointAt } from './hover';
import { inTurn, line } from './measure';
import type { Took } from './measure';
import { register } from './register';
import { fileOf, typeInto } from './typing';
import type { Place } from './typing';

/** A character for each column, mostly one that leaves the cell something that a hand might have meant. */
const characters = { note: 'x', eggs: '1', outcome: 'x', hatched: '2', ended: '1', spawned: '1', tank: '0', pair: '9', clutch: '9', stage: 'x' };

const path = 'clutches.csv';
const clutches = 100_000;

/** A character, or pointing at something, may cost this share of what papaparse takes for the register. */
const share = 30;

void bench(async () => {
  const { plan, texts } = await folderBench('Long register', register(clutches), { besideCheck: false });
  const text = texts.get(path) as string;
  const { papaparse } = await inTurn({ papaparse: () => parseAll([text]) }, { warmUps: 1, rounds: 9 });
  console.log(`\nOne character; papaparse takes ${papaparse.wall.toFixed(0)} ms for the register, ${papaparse.cpu.toFixed(0)} of the processors, so at most 1/${share}`);
  const shareOf = (took: Took): readonly string[] => [`1/${(papaparse.wall / took.wall).toFixed(0)}`, `1/${(papaparse.cpu / took.cpu).toFixed(0)}`];
  const placesFrom = (first: number): readonly Place[] => Array.from({ length: 40 }, (_, i) => ({ path, record: first + i }));
  // It takes some hundred strokes until the runtime has compiled all that one does.
  for (let i = 0; i < 2; i++) typeInto(plan, placesFrom(0.25 * clutches), { header: 'note', character: 'x' });
  for (const [where, first] of Object.entries({ 'in the middle': clutches / 2, 'among the latest': clutches - 200 })) {
    const places = placesFrom(first);
    line(where, 'ms', 'worst', 'CPU ms', 'share', 'by CPU', 'with fills', 'share', 'by CPU', 'files');
    for (const [header, character] of Object.entries(characters)) {
      typeInto(plan, places.slice(0, 20), { header, character });
      const { problems, fills, touched } = typeInto(plan, places, { header, character });
      line(`  ${header}`, problems.wall, problems.worst, problems.cpu, ...shareOf(problems), fills.wall, ...shareOf(fills), touched);
    }
  }
  await helpBench(plan, text);
  for (const [where, first] of Object.entries({ 'in the middle': clutches / 2, 'among the latest': clutches - 200 })) {
    const records = Array.from({ length: 100 }, (_, i) => first + i);
    line(`Hover ${where}`, 'ms', 'worst', 'CPU ms', 'share', 'by CPU', 'worst');
    for (const header of ['clutch', 'pair', 'tank', 'stage', 'alive', 'hatch_expected', 'next_action']) {
      pointAt(plan, path, { header, records: records.slice(0, 20) });
      const took = pointAt(plan, path, { header, records });
      line(`  ${header}`, took.wall, took.worst, took.cpu, ...shareOf(took), `1/${(papaparse.wall / took.worst).toFixed(0)}`);
    }
  }
  if (fileOf(plan, path).doc.text() !== text) throw new Error('what was typed was not taken back');
});
