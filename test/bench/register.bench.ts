import { bench, parseAll } from './folder';
import { folderBench } from './folderBench';
import { inTurn, line } from './measure';
import { register } from './register';
import { fileOf, typeInto } from './typing';

/** A character for each column, mostly one that leaves the cell something that a hand might have meant. */
const characters = { note: 'x', eggs: '1', outcome: 'x', hatched: '2', ended: '1', spawned: '1', tank: '0', pair: '9', clutch: '9', stage: 'x' };

const path = 'clutches.csv';
const clutches = 100_000;

/** A character may cost this share of what papaparse takes for the register. */
const share = 30;

void bench(async () => {
  const { plan, texts } = await folderBench('Long register', register(clutches));
  const text = texts.get(path) as string;
  const { papaparse } = await inTurn({ papaparse: () => parseAll([text]) }, { warmUps: 1, rounds: 9 });
  const parse = papaparse.median;
  console.log(`\nOne character; papaparse takes ${parse.toFixed(0)} ms for the register, so at most ${(parse / share).toFixed(1)} ms`);
  for (const [where, first] of Object.entries({ 'in the middle': clutches / 2, 'among the latest': clutches - 200 })) {
    const places = Array.from({ length: 40 }, (_, i) => ({ path, record: first + i }));
    line(where, 'median ms', 'worst ms', 'share', 'with fills', 'worst', 'files');
    for (const [header, character] of Object.entries(characters)) {
      typeInto(plan, places.slice(0, 20), { header, character });
      const { problems, fills, touched } = typeInto(plan, places, { header, character });
      line(`  ${header}`, problems.median, problems.worst, `1/${(parse / problems.median).toFixed(0)}`, fills.median, fills.worst, touched);
    }
  }
  if (fileOf(plan, path).doc.text() !== text) throw new Error('what was typed was not taken back');
});
