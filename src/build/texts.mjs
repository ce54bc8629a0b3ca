// npm run texts: puts each translation into the order of the English texts, leaves an empty place for what it lacks, takes out what nobody asks for, and says
// what is still to be written.
import { writeFileSync } from 'node:fs';
import { inRoot } from './paths.mjs';
import { faultsOf, translations } from './translations.mjs';

for (const { file, english, texts } of translations()) {
  const sorted = Object.fromEntries(Object.keys(english).map((key) => [key, texts[key] ?? '']));
  writeFileSync(inRoot(file), `${JSON.stringify(sorted, null, 2)}\n`);
}
const faults = translations().flatMap(faultsOf);
for (const fault of faults) console.error(fault);
if (faults.length > 0) process.exitCode = 1;
