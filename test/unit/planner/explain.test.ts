import assert from 'node:assert/strict';
import fc from 'fast-check';
import { textOf } from '../../../src/base/messages';
import type { Message } from '../../../src/base/messages';
import { computedHeaders } from '../../../src/planner/columns/registry';
import type { Explanation } from '../../../src/planner/explanation';
import { Plan } from '../../../src/planner/plan';
import { berlin, moment } from '../../support/moments';
import { textsOf } from '../../support/plans';
import { anyRoom } from '../../support/randomRoom';
import { filledRoom, roomOf } from '../../support/room';
import { fillAll, sampleRoom } from '../../support/samples';

const now = '2026-06-10T09:00';

const files = {
  'clutches.csv': 'clutch,species,tank,spawned,age_days\n\nK1,kribensis,T1,2026-06-01,\n',
  'log.csv': 'clutch,time,event,count\nK1,2026-06-09,counted,9\n',
};

/** Every computed cell of a plan with what explains it, also where the column isn't there. */
function everyExplanation(plan: Plan): readonly { readonly path: string; readonly record: number; readonly header: string; readonly told: Explanation | undefined }[] {
  return [...plan.records.files()].flatMap(({ path, schema, doc }) =>
    Array.from({ length: Math.max(0, doc.rowCount - 1) }, (_, i) => i + 1).flatMap((record) =>
      computedHeaders(schema.name).map((header) => ({ path, record, header, told: plan.explainCell(path, record, header) })),
    ),
  );
}

function messagesOf({ formula, notes, inputs, constants }: Explanation): readonly Message[] {
  return [formula, ...notes, ...inputs.map(({ name }) => name), ...constants.flatMap(({ name, source }) => [name, source])];
}

describe('an explanation', () => {
  it('is given by place, by record and header, and where the column is not there', () => {
    const plan = roomOf(files, now);
    const byPlace = plan.explain('clutches.csv', files['clutches.csv'].length - 1);
    assert.equal(byPlace?.value, '9');
    assert.deepEqual(plan.explainCell('clutches.csv', 2, 'age_days'), byPlace);
    assert.equal(plan.explainCell('clutches.csv', 2, 'stage')?.value, 'wriggler');
    assert.equal(plan.explainCell('log.csv', 1, 'alive')?.value, '9');
  });

  it('is not given of the keeper’s own cells, of the header, of blank lines, of rows without a thing, and outside', () => {
    const plan = roomOf({ ...files, 'pairs.csv': 'pair,species,tank\n,kribensis,T1\n' }, now);
    assert.equal(plan.explain('clutches.csv', 45), undefined);
    assert.equal(plan.explainCell('clutches.csv', 2, 'tank'), undefined);
    assert.equal(plan.explainCell('clutches.csv', 0, 'age_days'), undefined);
    assert.equal(plan.explainCell('clutches.csv', 1, 'age_days'), undefined);
    assert.equal(plan.explainCell('clutches.csv', 3, 'age_days'), undefined);
    assert.equal(plan.explainCell('clutches.csv', -1, 'age_days'), undefined);
    assert.equal(plan.explainCell('pairs.csv', 1, 'clutches'), undefined);
    assert.equal(plan.explainCell('nowhere.csv', 1, 'age_days'), undefined);
    assert.equal(plan.explain('clutches.csv', files['clutches.csv'].length), undefined, 'behind the last line');
    assert.throws(() => plan.explain('clutches.csv', 99_999), RangeError);
    assert.equal(plan.explain('nowhere.csv', 0), undefined);
  });

  it('is not given of a file that cannot be read, nor of a clutch to come', () => {
    assert.equal(roomOf({ 'clutches.csv': 'clutch,species,tank,spawned\nK1,kribensis,T1,"2026-06-01\n' }, now).explainCell('clutches.csv', 1, 'age_days'), undefined);
    assert.equal(roomOf({ 'clutches.csv': 'clutch,species,tank,spawned\nK1,kribensis,T1,2026-06-11\n' }, now).explainCell('clutches.csv', 1, 'age_days'), undefined);
  });

  it('says of every cell of a real room what the fill writes, in words, with places that hold what it says', async () => {
    const plan = fillAll(await sampleRoom('three-rooms'));
    const all = everyExplanation(plan);
    const texts = textsOf(plan);
    let placed = 0;
    for (const { path, record, header, told } of all) {
      if (told === undefined) continue;
      const { doc } = plan.records.file(path) as NonNullable<ReturnType<Plan['records']['file']>>;
      const column = Array.from({ length: doc.cellCount(0) }, (_, i) => doc.value(0, i)).indexOf(header);
      assert.equal(told.value, doc.value(record, column), `${path} ${record} ${header}`);
      for (const message of messagesOf(told)) assert.doesNotMatch(textOf(message), /\{\d\}|undefined|NaN/, `${path} ${record} ${header}`);
      for (const { value, place } of told.inputs) {
        if (place === undefined) continue;
        placed++;
        const written = (texts[place.file] ?? '').slice(place.span.start, place.span.end);
        assert.ok(written !== '' || value === '', `${header}: an input at an empty place`);
      }
    }
    assert.ok(placed > 3000, `${placed} places`);
    assert.deepEqual(all.filter(({ told }) => told === undefined).map(({ path, record, header }) => `${path} ${record} ${header}`), []);
  });

  it('agrees with the fill in random rooms', () => {
    let explained = 0;
    fc.assert(
      fc.property(anyRoom, (texts) => {
        const plan = new Plan({ machineZone: berlin, now: moment(now).instant });
        plan.apply([...texts].map(([path, text]) => ({ path, file: { text } })));
        const explanations = new Map(everyExplanation(plan).map(({ path, record, header, told }) => [`${path} ${record} ${header}`, told]));
        for (const { path, doc } of plan.records.files()) {
          for (const { header, after, span } of plan.fills(path, { overwrite: true }).changes) {
            const told = explanations.get(`${path} ${doc.at(span.start).row} ${header}`);
            if (told !== undefined) explained++;
            assert.equal(told?.value ?? '', after, `${path} ${header}`);
          }
        }
      }),
      { numRuns: 60 },
    );
    assert.ok(explained > 500, `${explained} cells were explained`);
  });

  it('has the window that the cell is the middle of', () => {
    const plan = filledRoom({ 'clutches.csv': 'clutch,species,tank,spawned\nK1,kribensis,T1,2026-06-09T20:00\n' }, now);
    const told = plan.explainCell('clutches.csv', 1, 'hatch_expected');
    assert.equal(told?.window?.expected, told?.value);
    assert.ok((told?.window?.from ?? '') < (told?.value ?? '') && (told?.value ?? '') < (told?.window?.to ?? ''));
  });
});
