import assert from 'node:assert/strict';
import Papa from 'papaparse';
import { zoneOf } from '../../../src/base/zone';
import { CastFailure, casterOf } from '../../../src/schema/cast';
import { schemaNamed } from '../../../src/schema/catalog';
import { defaultRoutinesText, defaultSpeciesText } from '../../../src/schema/defaults';

type Cells = Readonly<Record<string, string>>;

function read(text: string): readonly Cells[] {
  const result = Papa.parse<Cells>(text, { header: true, skipEmptyLines: true });
  assert.deepEqual(result.errors, []);
  return result.data;
}

const species = read(defaultSpeciesText);
const routines = read(defaultRoutinesText);

for (const [name, text, rows] of [
  ['species', defaultSpeciesText, species],
  ['routines', defaultRoutinesText, routines],
] as const) {
  describe(`the ${name} that come with the tool`, () => {
    const { fields, fieldNamed } = schemaNamed(name);

    it('have the columns of the keeper’s own sheet', () => {
      assert.deepEqual(
        text.split('\n')[0]?.split(','),
        fields.map((field) => field.name).filter((column) => column !== 'accept'),
      );
    });

    it('are right in every cell', () => {
      const zone = zoneOf('UTC');
      assert.ok(zone);
      for (const row of rows) {
        for (const [column, cell] of Object.entries(row)) {
          const field = fieldNamed.get(column);
          assert.ok(field);
          assert.ok(!(casterOf(field)(cell, zone) instanceof CastFailure), `${column} ${cell}`);
          assert.ok(cell !== '' || field.constraints.required !== true, `${Object.values(row)[0]} has no ${column}`);
        }
      }
    });
  });
}

describe('the species that come with the tool', () => {
  const numbers = (row: Cells, columns: string): readonly number[] => columns.split(' ').map((column) => Number(row[column]));

  it('are two dozen or more, several of every care', () => {
    assert.ok(species.length >= 24);
    for (const care of schemaNamed('species').fieldNamed.get('care')?.constraints.enum ?? []) {
      assert.ok(species.filter((row) => row['care'] === care).length >= 3, care);
    }
  });

  it('are named once, with lower-case words and hyphens', () => {
    const names = species.map((row) => row['species'] ?? '');
    assert.equal(new Set(names).size, names.length);
    for (const name of names) assert.match(name, /^[a-z]+(-[a-z]+)*$/);
  });

  it('have the numbers that their care needs, and no others', () => {
    const always = 'ref_temp_c juvenile_d sale_d hatch_mm sale_mm max_mm interval_d survival_pct feeds_per_day temp_min_c temp_max_c ph_min ph_max';
    const eggs = 'hatch_h first_feed_h free_swim_h';
    const held = 'release_d strip_d';
    for (const row of species) {
      const care = row['care'];
      const needed = care === 'livebearer' ? [] : care === 'mouthbrooder' ? held.split(' ') : eggs.split(' ');
      for (const column of always.split(' ')) assert.notEqual(row[column], '', `${row['species']} ${column}`);
      for (const column of `${eggs} ${held}`.split(' ')) {
        assert.equal(row[column] !== '', needed.includes(column), `${row['species']} ${column}`);
      }
    }
  });

  it('grow, and live within their ranges', () => {
    for (const row of species) {
      for (const columns of ['hatch_mm sale_mm max_mm', 'juvenile_d sale_d', 'ph_min ph_max', 'temp_min_c temp_max_c']) {
        const values = numbers(row, columns);
        assert.ok(values.every((value, index) => index === 0 || value > (values[index - 1] ?? NaN)), `${row['species']} ${columns}`);
      }
      const [least = NaN, reference = NaN, most = NaN] = numbers(row, 'temp_min_c ref_temp_c temp_max_c');
      assert.ok(least <= reference && reference <= most, `${row['species']} ref_temp_c`);
      assert.ok(row['zero_temp_c'] === '' || Number(row['zero_temp_c']) < least, `${row['species']} zero_temp_c`);
    }
  });

  it('say where their numbers come from, and a reckoned zero temperature how', () => {
    for (const row of species) {
      assert.match(row['source'] ?? '', /common practice$/, row['species']);
      assert.equal(row['zero_temp_c'] !== '', (row['source'] ?? '').includes('zero_temp_c'), row['species']);
      for (const column of (row['source'] ?? '').match(/\b[a-z]+(_[a-z]+)*_(c|h|d|mm|min|max|pct)\b/g) ?? []) {
        assert.notEqual(row[column] ?? '', '', `${row['species']}: ${column}`);
      }
    }
  });

  // Common practice, no source: hatch at about 72 h, yolk gone 6 to 7 days later, free-swimming about 10 days after
  // hatching, fed two or three times a day, about 10 mm at 40 days, the next spawn within 30 to 43 days.
  for (const name of ['kribensis', 'cockatoo-apistogramma']) {
    it(`make ${name} the small cave-spawning cichlid of the trade`, () => {
      const row = species.find((each) => each['species'] === name);
      assert.ok(row);
      const [reference, hatch, feed = NaN, swim = NaN, feeds = NaN, interval = NaN] = numbers(
        row,
        'ref_temp_c hatch_h first_feed_h free_swim_h feeds_per_day interval_d',
      );
      assert.deepEqual([row['care'], reference, hatch], ['cave', 26, 72]);
      assert.ok(feed >= 6 * 24 && feed <= 7 * 24, `${feed}`);
      assert.ok(Math.abs(swim - 10 * 24) <= 12, `${swim}`);
      assert.ok(feeds === 2 || feeds === 3);
      assert.ok(interval >= 30 && interval <= 43);
      // Von Bertalanffy with the hatch length at day 0; K solves L(sale_d) = sale_mm.
      const [start = NaN, sale = NaN, most = NaN, days = NaN] = numbers(row, 'hatch_mm sale_mm max_mm sale_d');
      const rate = Math.log((most - start) / (most - sale)) / days;
      assert.ok(Math.abs(most - (most - start) * Math.exp(-rate * 40) - 10) <= 0.5);
    });
  }
});

describe('the routines that come with the tool', () => {
  /** As promised to keepers, copied by hand: what holds where no row with off = yes is closer. */
  const promised: readonly string[] = [
    'look-at-eggs habit clutch spawned PT24H until hatched_from every PT24H grace PT12H done_by checked fungus not mouthbrooder livebearer',
    'hatch warn clutch hatched grace P0D lapse P90D done_by hatched not mouthbrooder livebearer',
    'strip remind clutch mouthbrooder strip grace P1D lapse P7D done_by stripped released moved',
    'release warn clutch mouthbrooder released grace P0D lapse P90D done_by released stripped',
    'shrimp remind clutch first_feed_from -PT36H grace PT12H lapse PT36H done_by first_feed fed not livebearer',
    'first-feed warn clutch first_feed grace PT24H lapse P3D done_by first_feed fed not livebearer',
    'swim remind clutch free_swimming grace P2D lapse P7D done_by free_swimming not mouthbrooder livebearer',
    'feed round clutch first_feed until sale_size every feeds_per_day',
    'count habit clutch free_swimming P14D until sale_size every P28D grace P3D lapse P10D done_by counted',
    'clear-tank remind clutch next_spawn_from -P2D grace P2D lapse P21D done_by moved',
    'offer remind clutch sale_size every P28D grace P7D done_by sold',
    'measure remind clutch free_swimming P14D until sale_size every P14D grace P3D done_by measured off',
    'test-water warn tank reading P7D every P7D grace P3D done_by tested off not holding display storage',
    'change-water warn tank change P7D every P7D grace P3D done_by water_change off not holding display storage',
  ];

  it('are the promised ones', () => {
    const never = (name: string): string =>
      routines
        .filter((row) => row['routine'] === name && isExclusion(row))
        .map((row) => `${row['care']}${row['use']}`)
        .join(' ');
    assert.deepEqual(
      routines.filter((row) => !isExclusion(row)).map((row) => {
        const parts = [row['routine'], row['level'], row['about'], row['care'], row['anchor'], row['offset']];
        for (const [word, column] of [['until', 'until_anchor'], ['every', 'every'], ['grace', 'grace'], ['lapse', 'lapse'], ['done_by', 'done_by']] as const) {
          if (row[column] !== '') parts.push(word, row[column]);
        }
        if (row['off'] === 'yes') parts.push('off');
        const not = never(row['routine'] ?? '');
        if (not !== '') parts.push('not', not);
        return parts.filter((part) => part !== '').join(' ');
      }),
      promised,
    );
  });

  it('are told apart by their filters', () => {
    const keys = routines.map((row) => [row['routine'], row['care'], row['species'], row['use']].join('|'));
    assert.equal(new Set(keys).size, keys.length);
  });

  it('can be switched on or changed by a row without filters, for every one that is not for mouthbrooders alone', () => {
    for (const name of new Set(routines.map((row) => row['routine']))) {
      const plain = routines.some((row) => row['routine'] === name && row['care'] === '' && row['use'] === '');
      assert.equal(plain, name !== 'strip' && name !== 'release', name);
    }
  });

  /** A row that only takes things out of its routine. */
  function isExclusion(row: Cells): boolean {
    return row['off'] === 'yes' && row['anchor'] === '';
  }
});
