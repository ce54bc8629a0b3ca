import assert from 'node:assert/strict';
import { filled, planOf } from '../../bench/filled';
import { register } from '../../bench/register';
import { room } from '../../bench/room';

const rooms = { register: () => register(600), room: () => room(60) };

for (const [name, make] of Object.entries(rooms)) {
  describe(`the ${name} that is measured`, () => {
    it('is the same each time', () => {
      assert.deepEqual([...make()], [...make()]);
    });

    it('is free of errors', () => {
      const plan = planOf(make());
      const errors = plan.paths().flatMap((path) => plan.problems(path)).filter(({ severity }) => severity === 'error');
      assert.deepEqual(errors.map(({ file, code, message }) => ({ file, code, message })), []);
    });

    it('has nothing left to fill once it is filled', () => {
      const plan = planOf(filled(make()));
      assert.deepEqual(plan.paths().flatMap((path) => plan.fills(path).changes), []);
    });
  });
}

describe('the register that is measured', () => {
  it('has as many clutches as asked for, most of them ended, a note in about one of six', () => {
    const { doc } = planOf(register(600)).records.file('clutches.csv') ?? assert.fail('no clutches.csv');
    const columnOf = (header: string): number => Array.from({ length: doc.cellCount(0) }, (_, i) => doc.value(0, i)).indexOf(header);
    const filledIn = (header: string): number =>
      Array.from({ length: doc.rowCount - 1 }, (_, i) => doc.value(i + 1, columnOf(header))).filter((cell) => cell !== '').length;
    assert.equal(doc.rowCount - 1, 600);
    assert.ok(filledIn('ended') > 450);
    assert.ok(filledIn('note') > 70 && filledIn('note') < 130);
  });
});

describe('the room that is measured', () => {
  it('gives every clutch that is over a log of 8 to 25 rows', () => {
    const plan = planOf(room(60));
    const lengths = [...plan.records.files()].filter(({ schema }) => schema.name === 'clutch-log').map(({ doc, path }) => ({ path, rows: doc.rowCount - 1, text: doc.text() }));
    assert.equal(lengths.length, 60);
    assert.deepEqual(lengths.filter(({ rows, text }) => rows > 25 || (rows < 8 && text.includes(',ended,'))), []);
  });
});
