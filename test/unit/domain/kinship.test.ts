import assert from 'node:assert/strict';
import fc from 'fast-check';
import { Pedigree } from '../../../src/domain/kinship';
import type { Lineage } from '../../../src/domain/kinship';

/** Fish 0, 1, 2 …, each with parents among those before it. */
const anyPedigree: fc.Arbitrary<readonly Lineage[]> = fc.array(fc.tuple(fc.nat(), fc.nat(), fc.nat(3)), { minLength: 1, maxLength: 30 }).map((picks) =>
  picks.map(([sire, dam, kind], i): Lineage => ({ fish: String(i), ...(i > 0 && kind !== 1 && { sire: String(sire % i) }), ...(i > 0 && kind !== 2 && { dam: String(dam % i) }) })),
);

/** The tabular method as the books have it, with the whole matrix. */
function tabular(all: readonly Lineage[]): readonly (readonly number[])[] {
  const a: number[][] = all.map(() => []);
  const value = (i: number, j: string | undefined): number => (j === undefined ? 0 : ((a[i] as number[])[Number(j)] as number));
  all.forEach(({ sire, dam }, i) => {
    for (let j = 0; j < i; j++) {
      const half = (value(j, sire) + value(j, dam)) / 2;
      (a[i] as number[])[j] = half;
      (a[j] as number[])[i] = half;
    }
    (a[i] as number[])[i] = 1 + (sire === undefined || dam === undefined ? 0 : value(Number(sire), dam) / 2);
  });
  return a;
}

const close = (a: number | undefined, b: number): boolean => a !== undefined && Math.abs(a - b) < 1e-12;

describe('kinship', () => {
  it('equals the tabular method, of single pairs and of one fish with all others', () => {
    fc.assert(
      fc.property(anyPedigree, fc.nat(29), (all, pick) => {
        const pedigree = new Pedigree(all);
        const a = tabular(all);
        const ids = all.map(({ fish }) => fish);
        for (const i of ids) for (const j of ids) assert.ok(close(pedigree.kinship(i, j), ((a[Number(i)] as number[])[Number(j)] as number) / 2), `${i} and ${j}`);
        const one = String(pick % all.length);
        pedigree.kinshipWith(one, ids).forEach((kinship, j) => assert.ok(close(kinship, ((a[Number(one)] as number[])[j] as number) / 2)));
      }),
      { numRuns: 300 },
    );
  });

  it('is symmetric, gives F between 0 and 1, and does not change when unrelated fish come or the order is another', () => {
    fc.assert(
      fc.property(anyPedigree.chain((all) => fc.tuple(fc.constant(all), fc.shuffledSubarray([...all], { minLength: all.length }))), ([all, shuffled]) => {
        const pedigree = new Pedigree(all);
        const other = new Pedigree([{ fish: 'x' }, { fish: 'y', sire: 'x' }, ...shuffled]);
        for (const { fish: i } of all) {
          const f = pedigree.inbreeding(i) ?? -1;
          assert.ok(f >= 0 && f <= 1);
          assert.ok(close(other.inbreeding(i), f));
          for (const { fish: j } of all) assert.ok(close(pedigree.kinship(j, i), pedigree.kinship(i, j) ?? -1));
        }
      }),
      { numRuns: 200 },
    );
  });

  it('can not be known of fish that go back to different unknown parents of one origin', () => {
    const pedigree = new Pedigree([
      { fish: 'a', origin: 'lake' },
      { fish: 'b', origin: 'lake' },
      { fish: 'c', origin: 'river' },
      { fish: 'ab', sire: 'a', dam: 'b' },
      { fish: 'ac', sire: 'a', dam: 'c' },
      { fish: 'ac2', sire: 'a', dam: 'c' },
      { fish: 'half', sire: 'a', origin: 'river' },
    ]);
    assert.deepEqual(['a', 'ab', 'ac'].map((fish) => pedigree.inbreeding(fish)), [0, undefined, 0]);
    assert.deepEqual([pedigree.kinship('a', 'b'), pedigree.kinship('a', 'c'), pedigree.kinship('ac', 'ac2'), pedigree.kinship('ac', 'b'), pedigree.kinship('ac', 'half')], [undefined, 0, 0.25, undefined, undefined]);
    assert.deepEqual(pedigree.kinshipWith('ac', ['b', 'ac2', 'half', 'nobody']), [undefined, 0.25, undefined, undefined]);
  });

  it('names the fish in a loop, and knows nothing of them and their offspring', () => {
    const pedigree = new Pedigree([
      { fish: 'a', sire: 'c' },
      { fish: 'b', sire: 'a' },
      { fish: 'c', sire: 'b', dam: 'z' },
      { fish: 'd', sire: 'c', dam: 'e' },
      { fish: 'self', sire: 'self' },
      { fish: 'between', sire: 'c' },
      { fish: 'p', sire: 'q', dam: 'between' },
      { fish: 'q', sire: 'p' },
      { fish: 'y', sire: 'z' },
    ]);
    assert.deepEqual([...pedigree.loops].sort(), ['a', 'b', 'c', 'p', 'q', 'self']);
    assert.deepEqual(['a', 'd', 'between', 'self', 'y', 'z'].map((fish) => pedigree.inbreeding(fish)), [undefined, undefined, undefined, undefined, 0, 0]);
    assert.equal(pedigree.kinship('d', 'z'), undefined);
  });

  it('takes parents that have no row of their own as founders, and of two rows the first', () => {
    const pedigree = new Pedigree([{ fish: 'x', sire: 's', dam: 'd' }, { fish: 'y', sire: 's', dam: 'd' }, { fish: 'y', sire: 'x', dam: 'd' }]);
    assert.equal(pedigree.kinship('x', 'y'), 0.25);
  });

  it('is known of ten thousand fish, and of long lines', () => {
    const many = Array.from({ length: 10_000 }, (_, i): Lineage => (i < 50 ? { fish: String(i) } : { fish: String(i), sire: String(i - 1 - ((i * 7919) % 49)), dam: String(i - 1 - ((i * 104_729) % 48)) }));
    const pedigree = new Pedigree(many);
    const f = pedigree.inbreeding('9999') ?? 0;
    assert.ok(f > 0 && f < 1);
    assert.equal(pedigree.kinshipWith('9998', many.map(({ fish }) => fish)).length, 10_000);
    const line = new Pedigree(Array.from({ length: 5000 }, (_, i): Lineage => ({ fish: String(i), ...(i > 0 && { sire: String(i - 1) }) })));
    assert.deepEqual([line.kinship('0', '4999'), line.kinship('0', '1'), line.kinship('4998', '4999')], [0, 0.25, 0.25]);
    const ring = new Pedigree(Array.from({ length: 20_000 }, (_, i): Lineage => ({ fish: String(i), sire: String((i + 1) % 20_000) })));
    assert.equal(ring.loops.size, 20_000);
  });
});
