import assert from 'node:assert/strict';
import { newFishroom } from '../../../src/acts/newFishroom';
import type { FishroomAnswers } from '../../../src/acts/newFishroom';
import { computedHeaders } from '../../../src/planner/columns/registry';
import { schemaForPath } from '../../../src/schema/catalog';
import { moment, berlin } from '../../support/moments';
import { roomOf } from '../../support/room';

const now = '2026-06-10T09:00';

function filesFor(answers: Partial<FishroomAnswers>): ReadonlyMap<string, string> {
  const asked: FishroomAnswers = { name: 'Cellar', timezone: 'Europe/Berlin', rooms: [{ id: 'front' }], species: [{ id: 'kribensis' }], waterTests: 'remind' };
  return newFishroom({ ...asked, ...answers }, moment(now, berlin).instant);
}

describe('a new fishroom', () => {
  const all: Partial<FishroomAnswers> = {
    name: 'The "old" cellar, left',
    timezone: 'America/Chicago',
    rooms: [{ id: 'front-room', name: 'Front room, "left"' }, { id: 'B2' }],
    species: [{ id: 'kribensis' }, { id: 'red-betta', name: 'Red betta', care: 'bubble-nest' }],
  };

  for (const [what, answers] of [['with all answers', all], ['with the fewest', { name: '', rooms: [], species: [], waterTests: 'leave' }]] as const) {
    it(`${what} has no problems, and a fill changes nothing`, () => {
      const plan = roomOf(Object.fromEntries(filesFor(answers)), now);
      for (const path of plan.paths()) {
        assert.deepEqual(plan.problems(path).map(({ code }) => code), [], path);
        assert.deepEqual(plan.fills(path), { changes: [], handKept: [] }, path);
      }
    });
  }

  it('has its settings, names and switches where they belong', () => {
    const files = filesFor(all);
    assert.deepEqual(JSON.parse(files.get('fishroom.json') ?? ''), { name: 'The "old" cellar, left', timezone: 'America/Chicago' });
    assert.equal(files.get('rooms.csv'), 'room,name,note,tanks,open_clutches,overdue\nfront-room,"Front room, ""left""",,0,0,0\nB2,,,0,0,0\n');
    assert.match(files.get('species.csv') ?? '', /\nkribensis,,,,.*\nred-betta,,Red betta,bubble-nest,/);
    assert.equal(files.get('.gitattributes'), '*.csv -text\n');
  });

  it('has every computed column of its sheets, and every column that they need, once', () => {
    for (const [path, text] of filesFor(all)) {
      const schema = schemaForPath(path)?.schema;
      if (schema === undefined) continue;
      const headers = (text.split('\n')[0] ?? '').split(',');
      assert.equal(new Set(headers).size, headers.length, path);
      assert.deepEqual(headers.filter((header) => !schema.fieldNamed.has(header)), [], path);
      const needed = schema.fields.flatMap(({ name, computed, constraints }) => (constraints.required === true && !computed ? [name] : []));
      assert.deepEqual([...needed, ...computedHeaders(schema.name)].filter((name) => !headers.includes(name)), [], path);
    }
  });

  it('ends every line with \\n', () => {
    for (const [path, text] of filesFor(all)) assert.ok(text.endsWith('\n') && !text.includes('\r'), path);
  });

  it('reminds of water tests only where that was asked for', () => {
    const dueWith = (waterTests: FishroomAnswers['waterTests']): readonly string[] => {
      const files = Object.fromEntries(filesFor({ waterTests }));
      const plan = roomOf({ ...files, 'tanks.csv': `${files['tanks.csv'] ?? ''}T1,front,,,breeding,,,,${','.repeat(5)}\n`, 'readings.csv': `${files['readings.csv'] ?? ''}2026-06-01,T1,,tested,25${','.repeat(7)}\n` }, now);
      return plan.due(0).map(({ occurrence }) => occurrence.routine.routine);
    };
    assert.deepEqual(dueWith('remind'), ['test-water']);
    assert.deepEqual(dueWith('leave'), []);
  });

  it('lets the first brood be written down without a fault', () => {
    const files = Object.fromEntries(filesFor(all));
    const clutches = files['clutches.csv'] ?? '';
    const cells = clutches.trimEnd().split(',').length - 5;
    const plan = roomOf({ ...files, 'tanks.csv': `${files['tanks.csv'] ?? ''}T1,B2${','.repeat(12)}\n`, 'clutches.csv': `${clutches}K1,,red-betta,T1,2026-06-08T19:30${','.repeat(cells)}\n` }, now);
    assert.deepEqual(plan.paths().flatMap((path) => plan.problems(path)).filter(({ severity }) => severity !== 'hint').map(({ file, code }) => `${file} ${code}`), []);
    assert.equal(plan.fills('clutches.csv').changes.find(({ header }) => header === 'age_days')?.after, '2');
  });

  it('in a zone that there is not is refused', () => {
    assert.throws(() => filesFor({ timezone: 'Europe/Atlantis' }), /no time zone Europe\/Atlantis/);
  });
});
