import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { present } from '../../src/charts/present.ts';
import { standardUncertainty } from '../../src/units/uncertainty.ts';
import { toJson } from '../../src/values/json.ts';
import { errorOf, near, recordingOf, resultOf, sine, valueOf } from './notebook.ts';

const shown = async (text: string, files = {}): Promise<string> => {
  const { value, error } = await resultOf(text, files);
  assert.equal(error?.message, undefined);
  return present(value!, undefined, []).text.trim();
};

const size = async (text: string, files = {}): Promise<number> =>
  standardUncertainty((await valueOf('quantity', text, files)).parts!);

describe('a quantity with its uncertainty', () => {
  it('is written with one unit for both, in percent of it, or with ASCII signs', async () => {
    assert.equal(await shown('160 ± 5 N/mm'), '160.0 ± 5.0 N/mm');
    assert.equal(await shown('160 N/mm ± 3 %'), '160.0 ± 4.8 N/mm');
    assert.equal(await shown('12.3 +/- 0.2 Hz'), '12.30 ± 0.20 Hz');
    assert.equal(await shown('2 m ± 5 mm'), '2.0000 ± 0.0050 m');
    assert.equal(await shown('15 ± 2 %'), '15.0 ± 2.0 %');
    assert.equal(await shown('-160 ± 5 N/mm'), '−160.0 ± 5.0 N/mm');
    assert.equal(await shown('1234.5 ± 123'), '1230 ± 120');
  });

  it('passes through arithmetic to the first order', async () => {
    near(await size('k = 160 ± 3 N/mm\nm = 40 ± 4 N/mm\nk + m'), 5, 1e-12);
    near(await size('a = 3 ± 0.1 m\nb = 2 ± 0.1 m\na * b'), Math.hypot(0.2, 0.3), 1e-12);
    near(await size('a = 3 ± 0.1 m\n1 / a'), 0.1 / 9, 1e-12);
    near(await size('a = 3 ± 0.1 m\na ^ 2'), 0.6, 1e-12);
    near(await size('a = 3 ± 0.1 m\na * a'), 0.6, 1e-12);
    near(await size('a = 3 ± 0.1 m\na in mm'), 100, 1e-12);
    near((await size('k = 160 ± 5 N/mm\nnatural_frequency(k, 45 kg) / natural_frequency(k, 45 kg)')) + 1, 1, 1e-9);
    near(
      await size('k = 160 N/mm ± 2 %\nf = natural_frequency(k, 45 kg)\nf / natural_frequency(160 N/mm, 45 kg)'),
      0.01,
      1e-6,
    );
    near(await size('series(100 N/mm ± 1 %, 100 N/mm ± 1 %)'), (50 * 0.01) / Math.SQRT2, 1e-6);
  });

  it('keeps shared inputs together and inputs of the same words apart', async () => {
    assert.equal(await shown('k = 160 ± 5 N/mm\nk - k'), '0 ± 0 N/mm');
    near(await size('a = 160 ± 5 N/mm\nb = 160 ± 5 N/mm\na - b'), 5 * Math.SQRT2, 1e-12);
    near(await size('160 ± 5 N/mm - 160 ± 5 N/mm'), 5 * Math.SQRT2, 1e-12);
  });

  it('does not ask in which unit or in which order it is computed', async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.integer({ min: 1, max: 500 }),
        fc.integer({ min: 1, max: 500 }),
        fc.integer({ min: 1, max: 20 }),
        async (a, b, percent) => {
          const names = `a = ${a} mm ± ${percent} %\nb = ${b} ± 3 mm\n`;
          const one = await size(`${names}a * b + b`.replace(' + b', ' + b * 1 mm'));
          near(await size(`${names}b * (1 mm + a)`), one, 1e-9);
          near(await size(`${names}(b in m) * (1 mm + (a in m)) in mm^2`), one, 1e-9);
        },
      ),
      { numRuns: 8 },
    );
  });

  it('is expanded by a coverage, and says by which k', async () => {
    assert.equal(await shown('k = 160 ± 5 N/mm\nk coverage 95 %'), '160.0 ± 9.8 N/mm (95 %, k = 1.96)');
    assert.equal(
      await shown('k = 25 ± 3 mm dof 4\nk coverage 95 %'),
      '25.0 ± 8.3 mm (95 %, k = 2.78, 4 degrees of freedom)',
    );
    assert.deepEqual(toJson(await valueOf('quantity', '160 ± 5 N/mm', {})), {
      value: 160,
      unit: 'N/mm',
      uncertainty: 5,
      inputs: [{ input: 'cell 1, line 1 @0', size: 5, df: null }],
    });
    assert.deepEqual(toJson(await valueOf('quantity', '160 N/mm', {})), { value: 160, unit: 'N/mm' });
    assert.equal((await errorOf('k = 5 mm\nk coverage 95 %')).code, 'coverage.exact');
    assert.equal((await errorOf('5 ± 1 mm coverage 3 mm')).code, 'coverage.level');
    assert.equal((await errorOf('5 mm ± 1 kg')).code, 'uncertainty.dimension');
    assert.equal((await errorOf('correlation(1, 2)')).code, 'correlation.exact');
    assert.match((await errorOf('v = 1 ± 0.1\ncorrelated(2 ± 0.1, 1.2, v)')).message, /coefficient from -1 to 1/);
    assert.match(
      (await errorOf('v = 1 ± 0.1\nw = 1 ± 0.1\ncorrelated(2 ± 0.1, 0.9, v, 0.9, w)')).message,
      /contradict/,
    );
  });
});

describe('the calibration of a sensor', () => {
  const files = Object.fromEntries(
    ['a', 'b'].map((name, k) => [`${name}.csv`, recordingOf({ 'z (g)': sine(20, 0.3 + 0.1 * k, 1) })]),
  );
  const loaded = 'a = load "a.csv" calibration 2 %\nb = load "b.csv" calibration 2 %\nA = levels a\nB = levels b\n';

  it('widens absolute levels, through trims and changes of unit', async () => {
    const rms = 0.3 / Math.SQRT2;
    near(await size(`${loaded}A.rms`, files), 0.02 * rms, 1e-4);
    near(await size(`${loaded}L = levels (trim a 2..8 s) in m/s^2\nL.rms`, files), 0.02 * rms * 9.80665, 1e-3);
    near(await size(`${loaded}R = band (spectrum a) 10..30 Hz\nR.rms`, files), 0.02 * rms, 1e-3);
    assert.equal((await valueOf('quantity', `${loaded}A.crest_factor`, files)).parts, undefined);
    assert.equal((await valueOf('quantity', 'L = levels (load "a.csv")\nL.rms', files)).parts, undefined);
  });

  it('falls out of ratios of one sensor, and not of two that a sheet names', async () => {
    near(1 + (await size(`${loaded}A.rms / B.rms`, files)), 1, 1e-12);
    assert.match(await shown(`${loaded}(A.rms / B.rms - 1) in %`, files), /^−25 ± 0 %$/);
    const sheet = 'file,condition,sensor\na.csv,a,one\nb.csv,b,two\n';
    const two =
      'a = load sheet "runs.csv" where condition a calibration 2 %\nb = load sheet "runs.csv" where condition b calibration 2 %\nA = levels a\nB = levels b\n';
    const ratio = await valueOf('quantity', `${two}A.rms / B.rms`, { ...files, 'runs.csv': sheet });
    near(standardUncertainty(ratio.parts!), 0.02 * Math.SQRT2 * ratio.quantity.value, 1e-6);
  });
});
