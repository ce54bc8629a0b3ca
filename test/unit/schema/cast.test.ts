import assert from 'node:assert/strict';
import { textOf } from '../../../src/base/messages';
import { formatMoment } from '../../../src/base/moment';
import { zoneOf } from '../../../src/base/zone';
import { schemaNamed } from '../../../src/schema/catalog';
import { CastFailure, casterOf, type Value } from '../../../src/schema/cast';
import type { SheetName } from '../../../src/schema/descriptor';

const zone = zoneOf('Europe/Warsaw');
assert.ok(zone);

/** `sheet.column` and a cell's text → what it is, or code and suggestions of the failure. */
function cast(column: string, text: string): unknown {
  assert.ok(zone);
  const [sheet, name] = column.split('.') as [SheetName, string];
  const field = schemaNamed(sheet).fieldNamed.get(name);
  assert.ok(field, column);
  const value = casterOf(field)(text, zone);
  return value instanceof CastFailure ? `${value.message.code} ${value.suggestions.join(' | ')}`.trim() : plain(value);
}

function plain(value: Value): unknown {
  return value !== undefined && typeof value === 'object' && 'instant' in value ? formatMoment(value, zone as NonNullable<typeof zone>) : value;
}

const cases: readonly (readonly [column: string, text: string, expected: unknown])[] = [
  // nothing
  ['tanks.tank', '', undefined],
  ['tanks.volume_l', '', undefined],
  ['clutches.spawned', '', undefined],
  ['tanks.use', '', undefined],
  // ids
  ['tanks.tank', 'T07', 'T07'],
  ['tanks.tank', '007', '007'],
  ['tanks.tank', 'K07-3_b.2', 'K07-3_b.2'],
  ['tanks.tank', 'Łosoś', 'Łosoś'],
  ['tanks.tank', '水槽7', '水槽7'],
  ['tanks.tank', 'ปลากัด', 'ปลากัด'],
  ['tanks.tank', '٣', '٣'],
  ['tanks.tank', ' T07', 'value-pattern.blanks T07'],
  ['tanks.tank', 'T07\u00a0', 'value-pattern.blanks T07'],
  ['tanks.tank', ' ', 'value-pattern.id'],
  ['tanks.tank', 'T 07', 'value-pattern.id'],
  ['tanks.tank', 'T07.', 'value-pattern.id'],
  ['tanks.tank', 'Ł07.', 'value-pattern.id'],
  ['tanks.tank', '.T07', 'value-pattern.id'],
  ['tanks.tank', '-T07', 'value-pattern.id'],
  ['tanks.tank', '__proto__', 'value-pattern.id'],
  ['tanks.tank', 'constructor', 'constructor'],
  ['tanks.tank', 'a/b', 'value-pattern.id'],
  ['tanks.tank', 'a\u0000b', 'value-pattern.id'],
  ['tanks.tank', 'a\nb', 'value-pattern.id'],
  ['tanks.tank', '\ud800', 'value-pattern.id'],
  ['tanks.tank', '🐟', 'value-pattern.id'],
  ['tanks.tank', '\u0301a', 'value-pattern.id'],
  ['tanks.tank', 'Kafe\u0301', 'value-pattern.accents Kaf\u00e9'],
  ['tanks.tank', 'con', 'value-pattern.reserved'],
  ['tanks.tank', 'Aux.7', 'value-pattern.reserved'],
  ['tanks.tank', 'LPT1', 'value-pattern.reserved'],
  ['tanks.tank', 'COM\u00b9', 'value-pattern.id'],
  ['tanks.tank', 'CONVICT', 'CONVICT'],
  ['tanks.tank', 'com10', 'com10'],
  ['maintenance.tanks', 'T07 T08', ['T07', 'T08']],
  ['maintenance.tanks', ' T07   T08 ', ['T07', 'T08']],
  ['maintenance.tanks', 'T07, T08', 'value-pattern.id'],
  ['maintenance.tanks', 'T07 e\u0301', 'value-pattern.accents T07 \u00e9'],
  // text
  ['tanks.note', ' anything, "at" all ', ' anything, "at" all '],
  ['clutch-log.photo', '../photos/k07.jpg', '../photos/k07.jpg'],
  // words
  ['tanks.use', 'grow-out', 'grow-out'],
  ['tanks.use', 'Grow-Out', 'value-enum.meant grow-out'],
  ['tanks.use', 'growout', 'value-enum.meant grow-out'],
  ['tanks.use', 'pantry', 'value-enum.unknown'],
  ['tanks.use', ' storage', 'value-pattern.blanks storage'],
  ['tanks.use', ' Storage', 'value-enum.meant storage'],
  ['tanks.use', '__proto__', 'value-enum.unknown'],
  ['fish.sex', 'x', 'value-enum.unknown'],
  ['fish.sex', 'M', 'value-enum.meant m'],
  ['clutches.accept', 'no-news spawn-late', ['no-news', 'spawn-late']],
  ['clutches.accept', 'no-news spawn-lat', 'value-enum.meant no-news spawn-late'],
  ['clutches.accept', 'everything', 'value-enum.unknown'],
  ['routines.done_by', 'checked fungus water_change', ['checked', 'fungus', 'water_change']],
  // numbers
  ['tanks.temp_c', '26', 26],
  ['tanks.temp_c', '26.50', 26.5],
  ['tanks.temp_c', '+26.5', 26.5],
  ['tanks.temp_c', '-4', -4],
  ['tanks.temp_c', '-0', 0],
  ['tanks.temp_c', '0026', 26],
  ['tanks.temp_c', '26,5', 'value-type.number 26.5'],
  ['tanks.temp_c', '.5', 'value-type.number 0.5'],
  ['tanks.temp_c', '26.', 'value-type.number 26'],
  ['tanks.temp_c', ' 26', 'value-type.blanks 26'],
  ['tanks.temp_c', ' 26,5', 'value-type.number 26.5'],
  ['tanks.temp_c', '26 °C', 'value-type.number'],
  ['tanks.temp_c', '2.6e1', 'value-type.number'],
  ['tanks.temp_c', '0x1a', 'value-type.number'],
  ['tanks.temp_c', 'Infinity', 'value-type.number'],
  ['tanks.temp_c', 'NaN', 'value-type.number'],
  ['tanks.temp_c', '-', 'value-type.number'],
  ['tanks.temp_c', '.', 'value-type.number'],
  ['tanks.temp_c', '1.2.3', 'value-type.number'],
  ['tanks.temp_c', '--1', 'value-type.number'],
  ['tanks.temp_c', '２６', 'value-type.number'],
  ['tanks.temp_c', '60', 60],
  ['tanks.temp_c', '60.1', 'value-range.above'],
  ['tanks.temp_c', '-5.1', 'value-range.below'],
  ['tanks.temp_f', '140', 140],
  ['tanks.temp_f', '141', 'value-range.above'],
  ['tanks.volume_l', '0', 'value-range.not-above'],
  ['tanks.volume_l', '1,200', 'value-type.number 1.200 | 1200'],
  ['tanks.volume_l', '1,200.5', 'value-type.number 1200.5'],
  ['tanks.volume_l', '1.200,5', 'value-type.number 1200.5'],
  ['tanks.volume_l', "1'200", 'value-type.number 1200'],
  ['tanks.volume_l', '9'.repeat(400), 'value-range.large'],
  ['readings.ph', '14', 14],
  ['readings.ph', '72', 'value-range.above'],
  ['readings.change_pct', '101', 'value-range.above'],
  ['orders.quantity', '24', 24],
  ['orders.quantity', '24.0', 'value-type.integer 24'],
  ['orders.quantity', '24.5', 'value-type.integer'],
  ['orders.quantity', '1,200', 'value-type.integer 1200'],
  ['orders.quantity', '0', 'value-range.below'],
  // counts
  ['clutches.eggs', '200', { value: 200, about: false }],
  ['clutches.eggs', '~200', { value: 200, about: true }],
  ['clutches.eggs', '0', { value: 0, about: false }],
  ['clutches.eggs', '~ 200', 'value-type.count ~200'],
  ['clutches.eggs', '200?', 'value-type.count ~200'],
  ['clutches.eggs', 'ca. 200', 'value-type.count ~200'],
  ['clutches.eggs', '~1,200', 'value-type.count ~1200'],
  ['clutches.eggs', '~', 'value-type.count'],
  ['clutches.eggs', '~~2', 'value-type.count'],
  ['clutches.eggs', '2.5', 'value-type.count'],
  ['clutches.eggs', '~2.0', 'value-type.count ~2'],
  ['clutches.eggs', '-3', 'value-range.below'],
  ['clutches.eggs', '99999999999999999999', 'value-range.large'],
  // moments
  ['clutches.spawned', '2026-03-04', '2026-03-04'],
  ['clutches.spawned', '~2026-03-04T19:30', '~2026-03-04T19:30'],
  ['clutches.spawned', '2026-03-04 19:30', '2026-03-04T19:30'],
  ['clutches.spawned', '2026-03-04T18:30Z', '2026-03-04T19:30'],
  ['clutches.spawned', '3/4/2026', 'value-type.date-order 2026-04-03 | 2026-03-04'],
  ['clutches.spawned', '04.03.2026', 'value-type.date-order 2026-03-04 | 2026-04-03'],
  ['clutches.spawned', '25.03.2026', 'value-type.moment 2026-03-25'],
  ['clutches.spawned', '3/25/2026', 'value-type.moment 2026-03-25'],
  ['clutches.spawned', '3/3/2026', 'value-type.moment 2026-03-03'],
  ['clutches.spawned', '2026/3/4', 'value-type.moment 2026-03-04'],
  ['clutches.spawned', '2026-3-4', 'value-type.moment 2026-03-04'],
  ['clutches.spawned', '20260304', 'value-type.moment 2026-03-04'],
  ['clutches.spawned', '4.3.26', 'value-type.date-order 2026-03-04 | 2026-04-03'],
  ['clutches.spawned', '26/03/04', 'value-type.date-order 2004-03-26 | 2026-03-04'],
  ['clutches.spawned', '4. 3. 2026', 'value-type.date-order 2026-03-04 | 2026-04-03'],
  ['clutches.spawned', '~25/3/2026 7:30 pm', 'value-type.moment ~2026-03-25T19:30'],
  ['clutches.spawned', '25/3/2026 12:05 am', 'value-type.moment 2026-03-25T00:05'],
  ['clutches.spawned', '2026-03-04T9:30', 'value-type.moment 2026-03-04T09:30'],
  ['clutches.spawned', '31.2.2026', 'value-type.moment'],
  ['clutches.spawned', '2026-02-30', 'value-type.moment'],
  ['clutches.spawned', '2026', 'value-type.moment'],
  ['clutches.spawned', '2026-W10-1', 'value-type.moment'],
  ['clutches.spawned', 'yesterday', 'value-type.moment'],
  ['clutches.spawned', ' 2026-03-04', 'value-type.blanks 2026-03-04'],
  // days
  ['orders.due', '2026-03-04', '2026-03-04'],
  ['orders.due', '2026-03-04T19:30', 'value-type.day 2026-03-04'],
  ['orders.due', '~2026-03-04 19:30', 'value-type.day ~2026-03-04'],
  ['orders.due', '3/4/2026 19:30', 'value-type.date-order 2026-04-03 | 2026-03-04'],
  ['orders.due', 'soon', 'value-type.day'],
  // durations
  ['routines.grace', 'PT36H', { days: 0, ms: 129_600_000, hasTime: true }],
  ['routines.grace', 'P2W', { days: 14, ms: 0, hasTime: false }],
  ['routines.grace', '36h', 'value-type.duration PT36H'],
  ['routines.grace', '14 days', 'value-type.duration P14D'],
  ['routines.grace', 'pt36h', 'value-type.duration PT36H'],
  ['routines.grace', '14', 'value-type.duration'],
  ['routines.grace', '-P1D', 'value-range.below'],
  ['routines.grace', 'P0D', { days: 0, ms: 0, hasTime: false }],
  ['routines.every', 'feeds_per_day', 'feeds_per_day'],
  ['routines.every', 'feeds-per-day', 'value-type.duration-or-word feeds_per_day'],
  ['routines.every', 'P0D', 'value-range.below'],
  ['routines.every', 'PT1S', 'value-range.below'],
  ['routines.every', 'P7D', { days: 7, ms: 0, hasTime: false }],
  ['routines.offset', '-P7D', { days: -7, ms: 0, hasTime: false }],
  ['routines.offset', '2026-03-04T08:00', '2026-03-04T08:00'],
  ['routines.offset', '4.3.2026', 'value-type.duration-or-moment 2026-03-04 | 2026-04-03'],
  ['routines.until_offset', '2026-03-04', 'value-type.duration'],
];

describe('casting a cell', () => {
  for (const [column, text, expected] of cases) {
    const shown = JSON.stringify(text.length > 40 ? `${text.slice(0, 40)}…` : text);
    it(`${column} ${shown}`, () => assert.deepEqual(cast(column, text), expected));
  }

  it('says what is wrong in a full sentence, with the cell cut to 40 characters on one line', () => {
    const message = (column: string, text: string): string => {
      const [sheet, name] = column.split('.') as [SheetName, string];
      const field = schemaNamed(sheet).fieldNamed.get(name);
      assert.ok(field && zone);
      const failure = casterOf(field)(text, zone);
      assert.ok(failure instanceof CastFailure);
      assert.equal(failure.message.code.split('.')[0], failure.code);
      return textOf(failure.message);
    };
    assert.equal(
      message('tanks.temp_c', '26,5'),
      '"26,5" is not a number. Write it with digits, and with a point before decimals: 7.5.',
    );
    assert.equal(message('tanks.temp_c', '78'), '"78" is too large for temp_c. It must be at most 60 °C.');
    assert.equal(message('tanks.volume_l', '-1'), '"-1" is too small for volume_l. It must be more than 0 l.');
    assert.equal(message('clutches.outcome', 'sodl'), '"sodl" means nothing in outcome. Did you mean sold?');
    assert.equal(message('fish.sex', 'male'), '"male" means nothing in sex. Use one of these: m, f, u.');
    assert.match(message('tanks.room', `a\nb${'\u0000'.repeat(100)}`), /^"a b {35}…" can not be a name here/);
    assert.match(message('tanks.temp_c', '🐟'.repeat(1000)), /^"(🐟){19}…" is not a number/u);
  });

  it('comes to its end in cells of a million characters', () => {
    assert.ok(zone);
    const length = 1_000_000;
    const hostile = ['1', 'a', '-', ' ', ',', '1,', '\u0301', 'é', '\ud800', '~', 'P1', '1 000'].map((part) =>
      part.repeat(length / part.length),
    );
    const columns = [
      ...['tanks.tank', 'maintenance.tanks', 'tanks.use', 'clutches.accept', 'tanks.temp_c', 'orders.quantity'],
      ...['clutches.eggs', 'clutches.spawned', 'orders.due', 'routines.grace', 'routines.every', 'routines.offset'],
    ];
    // What looks at a cell again for each of its characters doesn't come to its end here.
    for (const text of hostile) {
      for (const column of columns) cast(column, text);
    }
  });
});
