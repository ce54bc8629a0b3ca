import assert from 'node:assert/strict';
import { schemaForPath, schemaNamed, schemas } from '../../../src/schema/catalog';
import type { Field, SheetName, SheetSchema } from '../../../src/schema/descriptor';
import { problemCodes } from '../../../src/schema/problemCodes';

/**
 * The sheets as they are promised to keepers, copied by hand: `*` key, `!` required, `=` computed, `→` refers to.
 * `accept` may stand in every register, units in °F, US gallons and inches beside every temp_c, volume_l and length_mm.
 */
const promised: Readonly<Record<SheetName, string>> = {
  rooms: 'room* name accept note =tanks =open_clutches =overdue',
  tanks:
    'tank* room!→rooms position system volume_l volume_gal use temp_c temp_f retired accept note =fish =last_reading =nh3_mg_l =next_action =next_due',
  species:
    'species* like→species scientific_name common_name care! ref_temp_c zero_temp_c hatch_h first_feed_h free_swim_h release_d strip_d juvenile_d sale_d ' +
    'hatch_mm sale_mm max_mm interval_d survival_pct feeds_per_day temp_min_c temp_max_c ph_min ph_max source accept',
  pairs:
    'pair* kind species!→species tank!→tanks male→fish female→fish formed retired accept note =clutches =last_spawned =interval_median_days ' +
    '=next_spawn_from =next_spawn_expected =next_spawn_to =kinship',
  fish: 'fish* species!→species sex sire→fish dam→fish clutch→clutches origin born tank→tanks left accept note =inbreeding_f',
  clutches:
    'clutch* pair→pairs species→species sire→fish dam→fish tank!→tanks spawned! eggs hatched free_swimming ended outcome accept note =age_days =stage ' +
    '=stage_basis =tanks_now→tanks =alive =survival_pct =spawn_interval_days =hatch_expected =sale_expected =next_action =next_due =overdue',
  'clutch-log':
    'time! event! tank→tanks count length_mm length_in to_tank→tanks ref unit_price hold_until photo note =age_days =stage =alive',
  log: 'time! clutch!→clutches event! tank→tanks count length_mm length_in to_tank→tanks ref unit_price hold_until photo note =age_days =stage =alive',
  'tank-log': 'time! event temp_c temp_f ph tan_mg_l no2_mg_l no3_mg_l gh_dh kh_dh ec_us_cm change_pct note =nh3_mg_l',
  readings: 'time! tank→tanks room→rooms event temp_c temp_f ph tan_mg_l no2_mg_l no3_mg_l gh_dh kh_dh ec_us_cm change_pct note =nh3_mg_l',
  routines:
    'routine! action! level about! care species→species use anchor offset until_anchor until_offset every grace lapse done_by off accept',
  maintenance: 'job* what! tanks→tanks room→rooms from! to! accept note',
  cultures: 'culture* food! started! volume_l volume_gal grams temp_c temp_f yield_per_g renew_every ended accept note =ready =renew_due',
  orders:
    'order* buyer species!→species quantity! min_mm due! unit_price sent shipment accept note =covered =short =ready_expected =chance_pct',
  prices: 'species→species min_mm unit_price accept',
};

const care = 'cave substrate bubble-nest scatterer mop mouthbrooder livebearer';
const use = 'breeding grow-out holding quarantine display egg-tank storage';
const stage = 'egg holding wriggler free-swimming juvenile sale-size ended';
const clutchEvents =
  'spawned checked fungus hatched first_feed fed free_swimming released stripped counted measured lost culled moved sold kept joined treated ended';
const tankEvents = 'tested water_change cleaned treated fault';
const anchors =
  'spawned hatched hatched_from hatched_to first_feed first_feed_from first_feed_to free_swimming free_swimming_from free_swimming_to ' +
  'released released_from released_to juvenile juvenile_from juvenile_to sale_size sale_size_from sale_size_to ' +
  'strip next_spawn next_spawn_from reading change due';

const enumerations: Readonly<Record<string, string>> = {
  'tanks.use': use,
  'species.care': care,
  'pairs.kind': 'pair trio harem colony',
  'fish.sex': 'm f u',
  'clutches.outcome': 'sold kept eaten infertile fungus lost culled joined unknown',
  'clutches.stage': stage,
  'clutches.stage_basis': 'recorded expected unanswered',
  'clutch-log.event': clutchEvents,
  'clutch-log.stage': stage,
  'log.event': clutchEvents,
  'log.stage': stage,
  'tank-log.event': tankEvents,
  'readings.event': tankEvents,
  'routines.level': 'warn habit remind round',
  'routines.about': 'clutch tank pair order',
  'routines.care': care,
  'routines.use': use,
  'routines.anchor': anchors,
  'routines.until_anchor': anchors,
  'routines.off': 'yes no',
  'cultures.food': 'brine_shrimp microworm vinegar_eel infusoria other',
};

describe('the catalog of sheets', () => {
  for (const schema of schemas) {
    it(`has the columns of ${schema.name}`, () => {
      assert.equal(schema.fields.map((field) => asPromised(schema, field)).join(' '), promised[schema.name]);
    });
  }

  it('has every sheet once', () => {
    assert.deepEqual(schemas.map((schema) => schema.name).sort(), Object.keys(promised).sort());
  });

  it('has the enumerations', () => {
    const found: Record<string, string> = {};
    for (const schema of schemas) {
      for (const field of schema.fields) {
        if (field.kind === 'enum') found[`${schema.name}.${field.name}`] = (field.constraints.enum ?? []).join(' ');
      }
    }
    assert.deepEqual(found, enumerations);
  });

  it('lets one log for all have the columns of a log of one', () => {
    const but = (name: SheetName, ...more: string[]): Field[] => schemaNamed(name).fields.filter((field) => !more.includes(field.name));
    assert.deepEqual(but('log', 'clutch'), schemaNamed('clutch-log').fields);
    assert.deepEqual(but('readings', 'tank', 'room'), schemaNamed('tank-log').fields);
  });

  it('knows which moments can not be later than now', () => {
    assert.deepEqual(named((field) => field.notFuture), [
      'tanks.retired',
      'pairs.retired',
      'clutches.spawned',
      'clutches.hatched',
      'clutches.free_swimming',
      'clutches.ended',
      'clutch-log.time',
      'log.time',
      'tank-log.time',
      'readings.time',
      'cultures.ended',
    ]);
  });

  it('knows milestones, filters, and columns of which one is needed', () => {
    assert.deepEqual(named((field) => field.milestone !== undefined), ['clutches.spawned', 'clutches.hatched', 'clutches.free_swimming']);
    assert.deepEqual(schemaNamed('routines').filters, ['care', 'species', 'use']);
    assert.deepEqual(
      schemas.filter((schema) => schema.oneOf.length > 0).map((schema) => [schema.name, schema.oneOf]),
      [
        ['clutches', [['pair', 'species']]],
        ['readings', [['tank', 'room']]],
      ],
    );
  });

  it('takes every problem code in accept', () => {
    for (const name of ['tanks', 'pairs', 'clutches', 'maintenance', 'orders'] as const) {
      assert.deepEqual(schemaNamed(name).fieldNamed.get('accept')?.words, problemCodes);
    }
  });

  it('says what a sale and a merge refer to', () => {
    assert.deepEqual(schemaNamed('log').fieldNamed.get('ref')?.referencesBy, {
      field: 'event',
      sheets: { sold: 'orders', joined: 'clutches' },
    });
  });

  it('explains every sheet and column in sentences', () => {
    for (const schema of schemas) {
      for (const { name, title, description } of [schema, ...schema.fields]) {
        assert.match(description, /^\S[^]*[.?]$/, `${schema.name}: ${name}`);
        assert.notEqual(title, '', `${schema.name}: ${name}`);
      }
    }
  });

  it('is not fooled by names of the language', () => {
    for (const name of ['__proto__', 'constructor', 'toString']) {
      assert.equal(schemaNamed('clutches').fieldNamed.get(name), undefined);
      assert.equal(schemaForPath(`${name}.csv`), undefined);
      assert.equal(schemaForPath(`${name}/x.csv`), undefined);
    }
  });
});

describe('the sheet at a path', () => {
  const cases: readonly (readonly [path: string, name: SheetName | undefined, thing?: string])[] = [
    ['clutches.csv', 'clutches'],
    ['log.csv', 'log'],
    ['readings.csv', 'readings'],
    ['clutches/K07-3.csv', 'clutch-log', 'K07-3'],
    ['clutches/2026/spring/K07-3.csv', 'clutch-log', 'K07-3'],
    ['clutches/log.csv', 'clutch-log', 'log'],
    ['clutches/__proto__.csv', 'clutch-log', '__proto__'],
    ['clutches/Kaf\u00e9.csv', 'clutch-log', 'Kaf\u00e9'],
    ['clutches/Kafe\u0301.csv', 'clutch-log', 'Kaf\u00e9'],
    ['tanks/T07.csv', 'tank-log', 'T07'],
    ['tanks/a.b.csv', 'tank-log', 'a.b'],
    ['clutch-log.csv', undefined],
    ['sub/clutches.csv', undefined],
    ['pairs/P1.csv', undefined],
    ['clutches/.csv', undefined],
    ['clutches/.K07-3.csv', undefined],
    ['clutches/.trash/K07-3.csv', undefined],
    ['clutches//K07-3.csv', undefined],
    ['clutches/K07-3.txt', undefined],
    ['clutches/**/*.csv', 'clutch-log', '*'],
    ['notes.csv', undefined],
    ['', undefined],
  ];
  for (const [path, name, thing] of cases) {
    it(`${path || '(none)'} is ${name ?? 'none'}${thing === undefined ? '' : ` of ${thing}`}`, () => {
      const found = schemaForPath(path);
      assert.equal(found?.schema.name, name);
      assert.equal(found?.thing, thing);
    });
  }

  it('is found for every register and log', () => {
    for (const schema of schemas) {
      assert.equal(schemaForPath(schema.path.replace('**/*', 'X'))?.schema, schema);
    }
  });
});

function asPromised(schema: SheetSchema, field: Field): string {
  const { required = false, unique = false } = field.constraints;
  assert.equal(unique, schema.key === field.name && schema.filters.length === 0, `${schema.name}.${field.name} is unique`);
  const mark = unique && required ? '*' : required ? '!' : '';
  return `${field.computed ? '=' : ''}${field.name}${mark}${field.references === undefined ? '' : `→${field.references}`}`;
}

function named(test: (field: Field) => boolean): readonly string[] {
  return schemas.flatMap((schema) => schema.fields.filter(test).map((field) => `${schema.name}.${field.name}`));
}
