import { strict as assert } from 'node:assert';
import { present } from '../../../src/charts/present.ts';
import { curvesOf, differenceText, nearest, placeText, valueText } from '../../../src/renderer/handles/readings.ts';
import type { ChartPart } from '../../../src/charts/output.ts';
import { everyValue, plotOf } from '../../charts/everyValue.ts';
import { foamSpectrum } from '../../charts/madeUp.ts';

const chartOf = (subjects: Parameters<typeof plotOf>[0]): ChartPart =>
  present(plotOf(subjects), undefined, []).parts.find((part) => part.type === 'chart')!;

describe('what is read of a chart at a place', () => {
  const rows = [
    {
      series: 'foam',
      f: [1, 2, 4],
      v: [0.01, 0.02, null],
      reads: { label: 'foam', unit: 'g²/Hz', times: 10 as const },
    },
    { f: [1, 2], v: [1, 1] },
    { t: [5, 6], v: [-1, 2], v2: [3, 2], reads: { label: 'z', unit: 'g' } },
    { t: [8, 9], v: [0, 0], v2: [0, 0], reads: { label: 'z', unit: 'g' } },
  ];
  const part = { vega: { data: [{ name: 'a' }, { name: 'b', values: rows }] } } as unknown as ChartPart;
  const [foam, z] = curvesOf(part);

  it('are the curves that say what they are, pieces joined', () => {
    assert.equal(curvesOf(part).length, 2);
    assert.deepEqual(z.at, [5, 6, 8, 9]);
    assert.equal(foam.series, 'foam');
  });

  it('are one place where one stands there twice: the lowest and the highest of a column', () => {
    const told = { series: 'a', t: [1, 1, 2, 2], v: [0.3, 0.1, null, 0.2], reads: { label: 'a', unit: 'g' } };
    const [curve] = curvesOf({ vega: { data: [{ name: 'c', values: [told] }] } } as unknown as ChartPart);
    assert.deepEqual(
      [curve.at, curve.low, curve.high],
      [
        [1, 2],
        [0.1, 0.2],
        [0.3, 0.2],
      ],
    );
    assert.equal(valueText(curve, 1), '0.100 to 0.300 g');
  });

  it('is the value of the nearest point, or the lowest and highest sample of a column, and nothing in a gap', () => {
    assert.deepEqual(
      [0, 1.4, 1.6, 9].map((place) => nearest([1, 2, 4], place)),
      [0, 0, 1, 2],
    );
    assert.equal(valueText(foam, 1.9), '0.0200 g²/Hz');
    assert.equal(valueText(foam, 4), undefined);
    assert.equal(valueText(z, 5), '−1.00 to 3.00 g');
    assert.equal(valueText(z, 6), '2.00 g');
  });

  it('differs in dB and in percent where these have a meaning', () => {
    assert.equal(differenceText(foam, 1, 2), '0.0100 g²/Hz → 0.0200 g²/Hz (+3.0 dB, +100 %)');
    assert.equal(differenceText(z, 6, 8), '2.00 g → 0 g');
  });

  it('is told in dB where the chart is', () => {
    const level = { ...foam, unit: 'dB', factor: 100 };
    assert.equal(valueText(level, 1), '0.0 dB');
  });

  it('names a place to what the chart can tell', () => {
    assert.equal(placeText(12.3456, 0.04, 'Hz'), '12.35 Hz');
    assert.equal(placeText(12.3456, 3, 's'), '12 s');
  });

  it('are found in the charts of spectra, traces and comparisons', () => {
    assert.ok(curvesOf(chartOf([foamSpectrum])).length > 0);
    assert.ok(curvesOf(chartOf([everyValue.runs])).every(({ at }) => at.every((t, k) => k === 0 || t >= at[k - 1])));
    assert.ok(curvesOf(chartOf([everyValue.comparison])).length > 0);
  });
});
