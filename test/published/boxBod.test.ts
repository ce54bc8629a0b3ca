import assert from 'node:assert/strict';
import { fitGrowth, grown } from '../../src/domain/growthFit';
import { leastSquares } from '../../src/domain/leastSquares';

/**
 * NIST Statistical Reference Datasets, nonlinear regression, BoxBOD (Box, Hunter & Hunter 1978, Statistics for
 * Experimenters, pages 483-487), "higher" level of difficulty: y = b1 (1 − e^(−b2 x)), which is von Bertalanffy's curve
 * from length 0 at day 0. Data, starts and certified values seen in the copies of NIST's file BoxBOD.dat in ceres-solver
 * (data/nist) and of its numbers in ampl/gsl (multifit_nlinear/test_boxbod.c).
 */
const points = [
  [1, 109],
  [2, 149],
  [3, 149],
  [5, 191],
  [7, 213],
  [10, 224],
].map(([x, y]) => ({ x: x as number, y: y as number }));

function assertClose(actual: number, certified: number, digits: number): void {
  assert.ok(Math.abs(actual - certified) <= Math.abs(certified) * 10 ** -digits, `${actual} is not ${certified}`);
}

describe('NIST BoxBOD', () => {
  for (const [name, start] of [
    ['1', [1, 1]],
    ['2', [100, 0.75]],
  ] as const) {
    it(`has the certified values from NIST’s start ${name}`, () => {
      const fit = leastSquares(grown(0), points, start);
      assert.ok(fit !== undefined);
      assertClose(fit.parameters[0] as number, 213.80940889, 10);
      assertClose(fit.parameters[1] as number, 0.54723748542, 10);
      assertClose(fit.errors[0] as number, 12.354515176, 9);
      assertClose(fit.errors[1] as number, 0.10455993237, 9);
      assertClose(fit.rss, 1168.0088766, 10);
    });
  }

  it('is fitted as growth, whose full-grown length these data carry', () => {
    const fit = fitGrowth(points.map(({ x, y }) => ({ days: x, mm: y })), { hatchMm: 0, maxMm: 240 });
    assert.ok(fit?.maxError !== undefined);
    assertClose(fit.curve.maxMm, 213.80940889, 10);
    assertClose(fit.curve.perDay, 0.54723748542, 10);
  });
});
