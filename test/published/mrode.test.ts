import assert from 'node:assert/strict';
import { Pedigree } from '../../src/domain/kinship';
import type { Lineage } from '../../src/domain/kinship';

/** A pedigree as its sources print it: animal, sire, dam; 0 is unknown. */
function pedigree(rows: string): { readonly pedigree: Pedigree; readonly ids: readonly string[] } {
  const animals = rows.split(';').map((row): Lineage => {
    const [fish = '', sire, dam] = row.trim().split(' ').map((id) => (id === '0' ? undefined : id));
    return { fish, sire, dam };
  });
  return { pedigree: new Pedigree(animals), ids: animals.map(({ fish }) => fish) };
}

/** The numerator relationship matrix: a = 2·kinship. */
function matrix({ pedigree: all, ids }: ReturnType<typeof pedigree>): readonly (readonly number[])[] {
  return ids.map((i) => ids.map((j) => 2 * (all.kinship(i, j) ?? Number.NaN)));
}

describe('the numerator relationship matrix', () => {
  it('is that of Mrode, Linear Models for the Prediction of Animal Breeding Values, table 2.1', () => {
    // Pedigree as in the nadiv package's data set Mrode2 (seen); the matrix recomputed from it.
    const mrode = pedigree('1 0 0; 2 0 0; 3 1 2; 4 1 0; 5 4 3; 6 5 2');
    assert.deepEqual(matrix(mrode), [
      [1, 0, 0.5, 0.5, 0.5, 0.25],
      [0, 1, 0.5, 0, 0.25, 0.625],
      [0.5, 0.5, 1, 0.25, 0.625, 0.5625],
      [0.5, 0, 0.25, 1, 0.625, 0.3125],
      [0.5, 0.25, 0.625, 0.625, 1.125, 0.6875],
      [0.25, 0.625, 0.5625, 0.3125, 0.6875, 1.125],
    ]);
    assert.deepEqual(mrode.ids.map((id) => mrode.pedigree.inbreeding(id)), [0, 0, 0, 0, 0.125, 0.125]);
  });

  it('gives the inbreeding of the tabular example of the Royal Veterinary and Agricultural University, Copenhagen', () => {
    // Printed .125, .125 and .218 (seen); the last is 0.21875, cut off.
    const { pedigree: all } = pedigree('1 0 0; 2 1 0; 3 1 0; 4 1 0; 5 2 3; 6 4 3; 7 5 6');
    assert.deepEqual(['5', '6', '7'].map((id) => all.inbreeding(id)), [0.125, 0.125, 0.21875]);
  });
});

describe('inbreeding of well-known matings', () => {
  // Values seen in encyclopedias and course pages, and derived by path counting.
  const matings: readonly (readonly [name: string, rows: string, f: number])[] = [
    ['full sibs', 'a 0 0; b 0 0; c a b; d a b; x c d', 1 / 4],
    ['half sibs', 'a 0 0; b 0 0; e 0 0; c a b; d a e; x c d', 1 / 8],
    ['father and daughter', 'a 0 0; b 0 0; c a b; x a c', 1 / 4],
    ['uncle and niece', 'a 0 0; b 0 0; c a b; d a b; e 0 0; n c e; x d n', 1 / 8],
    ['first cousins', 'a 0 0; b 0 0; c a b; d a b; e 0 0; g 0 0; h c e; i d g; x h i', 1 / 16],
    ['double first cousins', 'a 0 0; b 0 0; e 0 0; g 0 0; c a b; d a b; h e g; i e g; j c h; k d i; x j k', 1 / 8],
  ];
  for (const [name, rows, f] of matings) it(`${name}: ${f}`, () => assert.equal(pedigree(rows).pedigree.inbreeding('x'), f));

  /** F of each generation. */
  function series(generations: number, rowsOf: (t: number) => readonly Lineage[]): readonly number[] {
    const all = new Pedigree(Array.from({ length: generations + 1 }, (_, t) => rowsOf(t)).flat());
    return Array.from({ length: generations + 1 }, (_, t) => all.inbreeding(`m${t}`) ?? Number.NaN);
  }

  it('full sibs for ten generations: F = (1 + 2F₁ + F₂)/4 (Falconer, Introduction to Quantitative Genetics, from memory)', () => {
    const found = series(11, (t) => [{ fish: `m${t}`, ...(t > 0 && { sire: `m${t - 1}`, dam: `w${t - 1}` }) }, { fish: `w${t}`, ...(t > 0 && { sire: `m${t - 1}`, dam: `w${t - 1}` }) }]);
    const printed = [0, 0.25, 0.375, 0.5, 0.5938, 0.6719, 0.7344, 0.7852, 0.8262, 0.8594, 0.8862];
    assert.deepEqual(found.slice(1).map((f) => Math.round(f * 1e4) / 1e4), printed);
  });

  it('back to a parent that is not inbred: 0, 1/4, 3/8, 7/16, 15/32', () => {
    const found = series(5, (t) => (t === 0 ? [{ fish: 'p' }, { fish: 'm0' }] : [{ fish: `m${t}`, sire: 'p', dam: `m${t - 1}` }]));
    assert.deepEqual(found.slice(1), [0, 0.25, 0.375, 0.4375, 0.46875]);
  });
});
