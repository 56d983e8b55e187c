import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { aligned, fixed, interval, percent, plain, probability, signed, significant } from '../../src/values/number.ts';

/** What a reader would type for a shown figure. */
const read = (text: string): number => {
  const [mantissa, exponent = ''] = text.split('×10');
  const power = [...exponent].map((sign) => ('⁻' === sign ? '-' : '⁰¹²³⁴⁵⁶⁷⁸⁹'.indexOf(sign))).join('');
  return Number(`${mantissa.replace('−', '-')}e${power === '' ? '0' : power}`);
};

const finite = fc
  .double({ noNaN: true, noDefaultInfinity: true, min: -1e12, max: 1e12 })
  .filter((value) => value === 0 || Math.abs(value) > 1e-300);

describe('significant', () => {
  it('keeps the zeros at the end, because they say how exact a figure is', () => {
    assert.equal(significant(0.3), '0.3000');
    assert.equal(significant(12.345678), '12.35');
    assert.equal(significant(85, 4), '85.00');
  });

  it('counts digits after rounding', () => {
    assert.equal(significant(9.9996, 4), '10.00');
    assert.equal(significant(0.00099996, 4), '0.001000');
  });

  it('writes powers of ten where a plain figure would be hard to read', () => {
    assert.equal(significant(1.234e-5), '1.234×10⁻⁵');
    assert.equal(significant(12345678), '1.235×10⁷');
    assert.equal(significant(123456, 4), '123456');
  });

  it('shows a dash where there is no figure', () => {
    for (const none of [undefined, null, NaN, Infinity]) assert.equal(significant(none), '–');
  });

  it('reads back to within half of its last digit', () => {
    fc.assert(
      fc.property(finite, fc.integer({ min: 2, max: 6 }), (value, digits) => {
        const back = read(significant(value, digits));
        assert.ok(Math.abs(back - value) <= Math.abs(value) * 0.5000001 * 10 ** (1 - digits));
      }),
    );
  });
});

describe('plain', () => {
  it('drops the zeros at the end', () => {
    assert.equal(plain(2), '2');
    assert.equal(plain(12.5), '12.5');
    assert.equal(plain(1e-5), '1×10⁻⁵');
    assert.equal(plain(100), '100');
    assert.equal(plain(0), '0');
  });
});

describe('aligned', () => {
  it('gives a column equally many decimals, by its largest figure', () => {
    assert.deepEqual(aligned([0.09127, 0.1003, 0.09003]), ['0.0913', '0.1003', '0.0900']);
    assert.deepEqual(aligned([1.0016, 0.99854, -1.0031]), ['1.002', '0.999', '−1.003']);
    assert.deepEqual(aligned([45, 24.7771]), ['45.00', '24.78']);
  });

  it('leaves each figure its own digits where the smallest would lose too many', () => {
    assert.deepEqual(aligned([0.002345, 1.234]), ['0.002345', '1.234']);
    assert.deepEqual(aligned([1.234e-6, 0.5]), ['1.234×10⁻⁶', '0.5000']);
  });

  it('shows a dash for what is missing and 0 for nothing', () => {
    assert.deepEqual(aligned([undefined, 0, 2.5, NaN]), ['–', '0', '2.500', '–']);
    assert.deepEqual(aligned([null, undefined]), ['–', '–']);
  });

  it('never changes a figure by more than half of its last place, and keeps three digits of each', () => {
    const sizes = fc.double({ min: 1e-3, max: 1e5, noNaN: true });
    fc.assert(
      fc.property(fc.array(sizes, { minLength: 1, maxLength: 8 }), (values) => {
        aligned(values).forEach((text, index) => {
          assert.ok(Math.abs(read(text) / values[index] - 1) <= 0.005 + 1e-9, `${values[index]} as ${text}`);
        });
      }),
    );
  });
});

describe('interval', () => {
  it('gives the half-width two significant digits, and the figure as many decimals', () => {
    assert.deepEqual(interval(-14.1873, -19.0723, -9.0112), { value: '−14.2', low: '−19.1', high: '−9.0' });
    assert.deepEqual(interval(-14.1873, -14.55, -13.82), { value: '−14.19', low: '−14.55', high: '−13.82' });
  });

  it('says one decimal at least, so that a limit just below zero is seen to lie there', () => {
    assert.deepEqual(interval(11.8, -0.2, 25.3), { value: '11.8', low: '−0.2', high: '25.3' });
  });

  it('says one decimal where there is no interval', () => {
    assert.deepEqual(interval(-14.1873, undefined, undefined), { value: '−14.2', low: '–', high: '–' });
  });

  it('keeps the order of its three figures', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -99, max: 300, noNaN: true }),
        fc.double({ min: 1e-3, max: 80, noNaN: true }),
        (value, half) => {
          const text = interval(value, value - half, value + half);
          assert.ok(read(text.low) <= read(text.value) && read(text.value) <= read(text.high));
        },
      ),
    );
  });
});

describe('small texts', () => {
  it('never put a minus before zero', () => assert.equal(fixed(-0.004, 2), '0.00'));

  it('put a plus before what is above zero, and nothing before zero', () => {
    assert.deepEqual(['3.1', '−3.1', '0.0', '0.4', '–'].map(signed), ['+3.1', '−3.1', '0.0', '+0.4', '–']);
  });

  it('say of a very small probability only that it is small', () => {
    assert.deepEqual([0.00012, 0.0123, 0.456, 0.998, undefined].map(probability), [
      '< 0.001',
      '0.012',
      '0.46',
      '> 0.99',
      '–',
    ]);
  });

  it('write fractions in percent', () => assert.deepEqual([0.95, 0.5, 0.999].map(percent), ['95 %', '50 %', '99.9 %']));
});
