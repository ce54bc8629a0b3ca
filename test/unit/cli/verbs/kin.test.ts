import { deepStrictEqual, equal, match } from 'node:assert/strict';
import { runIn, Scratch } from '../../../support/commandLine';
import type { Ran } from '../../../support/commandLine';

const files = {
  'fishroom.json': '{"timezone":"Europe/Berlin"}',
  'fish.csv': 'fish,species,sex,sire,dam,origin,left\nA,guppy,m,,,lake,\nB,guppy,f,,,river,\nC,guppy,m,A,B,,\nD,guppy,f,A,B,,\nE,guppy,f,,,lake,\nF,guppy,f,A,B,,2026-03-01\nG,guppy,u,A,B,,\nH,kribensis,f,,,,\n',
  'pairs.csv': 'pair,species,tank,male,female\nP1,guppy,T1,A,B\n',
};

describe('kin', () => {
  let scratch: Scratch;
  beforeEach(() => (scratch = new Scratch(files)));
  afterEach(() => scratch.remove());

  const kin = (...argv: readonly string[]): Promise<Ran> => runIn(scratch.path, ['kin', ...argv]);

  it('lists the pairs that could be made, the least related first, those of which it can not be known last', async () => {
    deepStrictEqual(await kin('guppy'), {
      code: 0,
      err: '',
      out: ['Pairs of guppy by kinship, the least related first', '  0.0000     A  B  pair P1', '  0.2500     A  D', '  0.2500     C  B', '  0.2500     C  D', '  not known  A  E', '  not known  C  E', ''].join('\n'),
    });
  });

  it('gives them as JSON, as many as asked for', async () => {
    deepStrictEqual(JSON.parse((await kin('guppy', '--format', 'json', '--top', '2')).out), {
      now: '2026-03-10T13:00',
      species: 'guppy',
      pairs: [{ male: 'A', female: 'B', kinship: 0, pair: 'P1' }, { male: 'A', female: 'D', kinship: 0.25, pair: null }],
    });
  });

  it('takes no fish that has left, but one that leaves later', async () => {
    match((await kin('guppy', '--now', '2026-02-01')).out, /A {2}F/);
    equal((await kin('guppy')).out.includes('F'), false);
  });

  it('tells each of several fishrooms by itself, since fish of two may have one name', async () => {
    scratch.remove();
    const small = 'fish,species,sex,sire,dam\nA,guppy,m,,\nB,guppy,f,,\n';
    scratch = new Scratch({ 'one/fishroom.json': '{}', 'one/fish.csv': small, 'two/fishroom.json': '{}', 'two/fish.csv': small, 'three/fishroom.json': '{}', 'three/fish.csv': 'fish,species\nA,betta\n' });
    const title = 'Pairs of guppy by kinship, the least related first';
    const pair = '  0.0000  A  B';
    equal((await kin('guppy')).out, ['one', title, pair, 'two', title, pair, ''].join('\n'));
    deepStrictEqual((JSON.parse((await kin('guppy', '--format', 'json')).out) as { pairs: { folder: string }[] }).pairs.map(({ folder }) => folder), ['one', 'two']);
  });

  it('says so where there are no two, and refuses what is no species of a fish', async () => {
    equal((await kin('kribensis')).out, 'Of kribensis there are no male and female fish left that could be put together.\n');
    deepStrictEqual(await kin('gupy'), { code: 2, out: '', err: 'broodsheet: There is no fish of the species gupy in fish.csv. Did you mean guppy?\n' });
    deepStrictEqual(await kin(), { code: 2, out: '', err: 'broodsheet: Say of which species: kin kribensis.\n' });
    equal((await kin('guppy', '--top', '0')).code, 2);
    scratch.add({ 'fish.csv': 'fish,species\n' });
    equal((await kin('guppy')).err, 'broodsheet: There is no fish.csv with fish here, so nothing is known of their kinship.\n');
  });
});
