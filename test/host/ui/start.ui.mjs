import { match, strictEqual } from 'node:assert/strict';
import { runQuietly } from '../../../src/build/run.mjs';

describe('npm start', () => {
  it('prints what the command line says of a copy of the sample, and serves it', async () => {
    const { code, output } = await runQuietly(process.execPath, ['src/build/start.mjs', '--once']);
    strictEqual(code, 0, output);
    for (const line of [/^broodsheet check:$/m, /^broodsheet fill:$/m, /^ {2}http:\/\/127\.0\.0\.1:\d+\/\?folder=\S+$/m, /^The server answered\.$/m]) match(output, line);
  });
});
