import { deepStrictEqual, equal } from 'node:assert/strict';
import { formatMoment, momentAt } from '../../../../src/base/moment';
import { moment } from '../../../support/moments';
import { zoneOf } from '../../../../src/base/zone';
import type { Zone } from '../../../../src/base/zone';
import { runIn, Scratch } from '../../../support/commandLine';
import type { Ran } from '../../../support/commandLine';

const species = 'species,care,hatch_h,interval_d\nred,cave,60,10\n';

const utc = zoneOf('UTC') as Zone;

/** So many hours after the spawn of a brood. */
function at(brood: number, hours: number): string {
  const first = moment('2025-01-01T10:00', utc).instant;
  const instant = first + (brood * 240 + hours) * 3_600_000;
  return formatMoment(momentAt(instant, utc), utc);
}

/** Broods of a pair ten days apart, all hatched after 66 h. */
function broods(count: number): string {
  const rows = Array.from({ length: count }, (_, i) => `K${i},P1,T1,${at(i, 0)},${at(i, 66)}`);
  return `${['clutch,pair,tank,spawned,hatched', ...rows].join('\n')}\n`;
}

const room = (count: number): Readonly<Record<string, string>> => ({ 'fishroom.json': '{"timezone":"UTC"}', 'species.csv': species, 'pairs.csv': 'pair,species,tank\nP1,red,T1\n', 'clutches.csv': broods(count) });

/** The k-th brood was expected after 60·1.1^(k / (k + 4)) hours. */
const missed = Array.from({ length: 10 }, (_, k) => 66 - 60 * 1.1 ** (k / (k + 4))).reduce((sum, error) => sum + error / 10, 0);

describe('skill', () => {
  let scratch: Scratch;
  beforeEach(() => (scratch = new Scratch(room(10))));
  afterEach(() => scratch.remove());

  const skill = (...argv: readonly string[]): Promise<Ran> => runIn(scratch.path, ['skill', ...argv]);

  it('tells in a sentence how good forecasts were, then pair by pair, and where there are too few', async () => {
    deepStrictEqual(await skill(), {
      code: 0,
      err: '',
      out: [
        `Hatch: 10 forecasts, 10 of their windows held (100 %; 80 % is meant). Missed by ${missed.toFixed(1)} h on average; the species' number alone 6.0 h; the pair's plain mean 0.6 h.`,
        `  pair P1  10 forecasts  100 % held  missed by ${missed.toFixed(1)} h  species alone 6.0 h; plain mean 0.6 h`,
        'Next spawn: 9 forecasts, too few to say how good they are. It takes 10.',
        '',
      ].join('\n'),
    });
  });

  it('gives it as JSON, few or not', async () => {
    const hatch = { quantity: 'hatch', n: 10, held: 10, held_pct: 100, mae: Number(missed.toFixed(2)), mae_profile: 6, mae_mean: 0.6, unit: 'h' };
    const spawn = { quantity: 'spawn_interval', n: 9, held: 9, held_pct: 100, mae: 0, mae_profile: 0, mae_mean: 0, unit: 'd' };
    deepStrictEqual(JSON.parse((await skill('--format', 'json')).out), {
      now: '2026-03-10T12:00',
      skill: [hatch, { ...hatch, species: 'red' }, { ...hatch, pair: 'P1' }, spawn, { ...spawn, species: 'red' }],
      tried: [],
    });
  });

  it('looks back from another moment', async () => {
    const { skill: lines } = JSON.parse((await skill('--format', 'json', '--now', '2025-01-05')).out) as { readonly skill: readonly object[] };
    deepStrictEqual(lines, [
      { quantity: 'hatch', n: 1, held: 1, held_pct: 100, mae: 6, mae_profile: 6, mae_mean: null, unit: 'h' },
      { quantity: 'hatch', species: 'red', n: 1, held: 1, held_pct: 100, mae: 6, mae_profile: 6, mae_mean: null, unit: 'h' },
    ]);
  });

  it('says so where there is nothing to look back on', async () => {
    scratch.add({ 'clutches.csv': broods(1).replace(/,[^,]*\n$/, ',\n') });
    equal((await skill()).out, 'There is no forecast to look back on yet. It takes broods with a spawn and a hatch, first feed, free swimming or release that are recorded, measured lengths, or two spawns of a pair.\n');
  });

  it('names the folder where there are several fishrooms', async () => {
    scratch.add(Object.fromEntries(['one', 'two'].flatMap((folder) => Object.entries(room(1)).map(([path, text]) => [`${folder}/${path}`, text]))));
    const { skill: lines } = JSON.parse((await skill('one', 'two', '--format', 'json')).out) as { readonly skill: readonly { readonly folder: string }[] };
    deepStrictEqual(lines.map(({ folder }) => folder), ['one', 'one', 'two', 'two']);
    equal((await skill('one', 'two')).out.split('\n')[3], 'two');
  });

  it('tells what was tried beside what is filled', async () => {
    scratch.add({ 'log.csv': `time,clutch,event\n${Array.from({ length: 10 }, (_, i) => `${at(i, 58)},K${i},checked\n`).join('')}` });
    const { out } = await skill();
    equal(out.split('\n').slice(-3)[0], 'Tried on the same broods, and not used for what is filled');
    equal(out.split('\n').slice(-2)[0], '  A hatch counts as half-way between the last look and its record: 10 forecasts, 100 % held, missed by 0.0 h. As it is filled: 100 %, 0.0 h.');
  });
});
