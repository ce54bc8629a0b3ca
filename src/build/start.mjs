// npm start [-- --sample NAME] [-- --today]: copies a sample to a scratch folder, prints what is due and what else the command line says of it, and opens it in VS Code: the
// desktop's where `code` is found, else one served on this machine. --served: served in any case; --once: served, and ends as soon as it answers.
import { existsSync, rmSync } from 'node:fs';
import { delimiter, dirname, join } from 'node:path';
import { parseArgs } from 'node:util';
import { installHost, installProject } from './install.mjs';
import { inRoot, root } from './paths.mjs';
import { mustRun, run } from './run.mjs';
import { copySample, defaultSample, sampleNow } from './sample.mjs';

const { values } = parseArgs({
  options: { sample: { type: 'string', default: defaultSample }, today: { type: 'boolean' }, served: { type: 'boolean' }, once: { type: 'boolean' } },
});

await installProject();
const { build } = await import('./build.mjs');
await build();
const folder = copySample({ sample: values.sample, ...(!values.today && { now: sampleNow }) });
console.log(`The fishroom is a copy in ${folder}; do with it what you like.`);
for (const verb of ['due', 'check', 'fill']) {
  console.log(`\nbroodsheet ${verb === 'due' ? 'due --days 1' : verb}:`);
  const args = [inRoot('dist/cli.js'), verb, folder, ...(verb === 'due' ? ['--days', '1'] : []), ...(values.today ? [] : ['--now', sampleNow])];
  // 1: there are errors in the records, or cells to fill.
  if ((await run(process.execPath, args)) > 1) throw new Error(`broodsheet ${verb} could not do its work`);
}

const desktop = values.served || values.once ? undefined : desktopCode();
if (desktop) {
  console.log('\nOpening it in VS Code.');
  await mustRun(desktop, [`--extensionDevelopmentPath=${root}`, folder], { shell: process.platform === 'win32' });
} else {
  await serve();
}

function desktopCode() {
  const names = process.platform === 'win32' ? ['code.cmd'] : ['code'];
  const candidates = (process.env['PATH'] ?? '').split(delimiter).flatMap((place) => names.map((name) => join(place, name)));
  return candidates.find((path) => existsSync(path));
}

async function serve() {
  await installHost();
  const { packVsix } = await import('./package.mjs');
  const { startServer } = await import('../../test/host/host.mjs');
  const server = await startServer({ vsix: [(await packVsix()).file] });
  const url = server.urlOf({ folder });
  console.log(`\nVS Code with Broodsheet is served at\n\n  ${url}\n\nOpen it in a browser of this machine. Saving writes to the copy. Ctrl-C ends it.`);
  if (values.once) {
    // As a browser does: the token becomes a cookie, and the address loses it.
    const first = await fetch(url, { redirect: 'manual' });
    const cookie = first.headers.get('set-cookie')?.split(';')[0] ?? '';
    const answer = await fetch(new URL(first.headers.get('location') ?? '', url), { headers: { cookie } });
    const page = await answer.text();
    await server.stop();
    rmSync(dirname(folder), { recursive: true });
    if (!answer.ok || !page.includes('vscode-workbench')) throw new Error(`the server answered with ${answer.status}:\n${page}`);
    console.log('The server answered.');
    process.exit(0);
  }
  for (const signal of /** @type {const} */ (['SIGINT', 'SIGTERM'])) {
    process.once(signal, () => {
      void server.stop().then(() => {
        console.log(`\nEnded. What you saved is in ${folder}.`);
        process.exit(0);
      });
    });
  }
}
