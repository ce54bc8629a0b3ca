import assert from 'node:assert/strict';
import type { AskedField } from '../../../src/acts/act';
import { likelyLine, typedAnswers } from '../../../src/acts/typedAnswers';
import { textOf } from '../../../src/base/messages';

const field = (name: string, likely = ''): AskedField => ({ name, header: name, isNeeded: false, likely, choices: [] });
const fields = [field('temp'), field('ph', '7'), field('tan_mg_l')];

describe('typedAnswers', () => {
  it('reads values in order, and leaves out what is not known', () => {
    assert.deepEqual(typedAnswers(' 25.5  -   0 ', fields), { answers: { temp: '25.5', ph: '', tan_mg_l: '0' } });
    assert.deepEqual(typedAnswers('25.5', fields), { answers: { temp: '25.5', ph: '', tan_mg_l: '' } });
    assert.deepEqual(typedAnswers('12 oak leaves, two', [field('count'), field('note')]), { answers: { count: '12', note: 'oak leaves, two' } });
  });

  it('says what is too much', () => {
    const read = typedAnswers('25 7 0 1 2', fields);
    assert.equal('fault' in read && textOf(read.fault), '"1 2" is more than was asked for: temp ph tan_mg_l.');
  });

  it('reads the likely line back', () => {
    assert.equal(likelyLine(fields), '- 7');
    assert.deepEqual(typedAnswers(likelyLine(fields), fields), { answers: { temp: '', ph: '7', tan_mg_l: '' } });
    assert.equal(likelyLine([field('temp')]), '');
  });
});
