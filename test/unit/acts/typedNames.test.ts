import assert from 'node:assert/strict';
import { typedNames } from '../../../src/acts/typedNames';
import { textOf } from '../../../src/base/messages';

function read(text: string): readonly string[] | string {
  const outcome = typedNames(text);
  return 'fault' in outcome ? textOf(outcome.fault) : outcome.names.map(({ id, name }) => (name === undefined ? id : `${id} (${name})`));
}

describe('typed names', () => {
  it('are ids where they can be', () => {
    assert.deepEqual(read('front,B2 , Keller.alt'), ['front', 'B2', 'Keller.alt']);
    assert.deepEqual(read('подвал'), ['подвал']);
  });

  it('keep what was typed beside an id made of its words', () => {
    assert.deepEqual(read('Front room, Mum & dad’s cellar'), ['front-room (Front room)', 'mum-dad-s-cellar (Mum & dad’s cellar)']);
  });

  it('that are blank are passed over', () => {
    assert.deepEqual(read(' , front,,'), ['front']);
    assert.deepEqual(read(''), []);
  });

  it('that lead to one id are refused, also in other capitals', () => {
    assert.equal(read('Front room, front-room'), 'front-room is here twice, or too much like another name. Use another one.');
    assert.equal(read('front, FRONT'), 'FRONT is here twice, or too much like another name. Use another one.');
  });

  it('that can be no id are refused', () => {
    assert.match(read('front, ???') as string, /^"\?\?\?" can not be a name here\./);
    assert.match(read('con') as string, /Windows keeps it for itself/);
  });
});
