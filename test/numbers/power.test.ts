import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { powerOf, tenTo } from '../../src/numbers/power.ts';

/** A number above 0 as a whole number times a power of two, exactly. */
function exact(value: number): { readonly mantissa: bigint; readonly exponent: number } {
  const view = new DataView(new ArrayBuffer(8));
  view.setFloat64(0, value);
  const bits = view.getBigUint64(0);
  const biased = Number((bits >> 52n) & 0x7ffn);
  const mantissa = bits & ((1n << 52n) - 1n);
  return biased === 0 ? { mantissa, exponent: -1074 } : { mantissa: mantissa | (1n << 52n), exponent: biased - 1075 };
}

/** Whether a^n is below b^m, exactly. */
function isBelow(a: number, n: number, b: number, m: number): boolean {
  const [left, right] = [exact(a), exact(b)];
  const shift = left.exponent * n - right.exponent * m;
  const [one, other] = [left.mantissa ** BigInt(n), right.mantissa ** BigInt(m)];
  return shift >= 0 ? one << BigInt(shift) < other : one < other << BigInt(-shift);
}

const bitsOf = (value: number): string => {
  const view = new DataView(new ArrayBuffer(8));
  view.setFloat64(0, value);
  return view.getBigUint64(0).toString(16).padStart(16, '0');
};

const next = (value: number, step: 1n | -1n): number => {
  const view = new DataView(new ArrayBuffer(8));
  view.setFloat64(0, value);
  view.setBigUint64(0, view.getBigUint64(0) + step);
  return view.getFloat64(0);
};

const positive = fc.double({ min: 1e-60, max: 1e60, noNaN: true });

describe('powerOf', () => {
  it('lies within one unit of the last digit of quarters and whole powers, by exact arithmetic', () => {
    fc.assert(
      fc.property(positive, fc.integer({ min: 1, max: 18 }), (base, quarters) => {
        const found = powerOf(base, quarters / 4);
        assert.ok(
          isBelow(next(found, -1n), 4, base, quarters),
          `${base}^${quarters / 4} is not above ${found} - 1 unit`,
        );
        assert.ok(
          isBelow(base, quarters, next(found, 1n), 4),
          `${base}^${quarters / 4} is not below ${found} + 1 unit`,
        );
      }),
      { numRuns: 3000 },
    );
  });

  it('is exact for whole powers that a number holds', () => {
    for (const base of [2, 3, 5, 7, 10, 12])
      for (let n = 0; base ** n <= Number.MAX_SAFE_INTEGER; n++)
        assert.equal(powerOf(base, n), Number(BigInt(base) ** BigInt(n)), `${base}^${n}`);
  });

  it('gives a power of two exactly, down to the smallest number', () => {
    let expected = 1;
    for (let n = 0; n >= -1074; n--, expected /= 2) assert.equal(powerOf(2, n), expected, `2^${n}`);
    assert.equal(powerOf(2, -1076), 0);
    assert.equal(powerOf(2, 1023), 2 * powerOf(2, 1022));
    assert.equal(powerOf(2, 1024), Infinity);
  });

  it('has the inverse at the opposite exponent, to a unit of the last digit each', () => {
    fc.assert(
      fc.property(positive, fc.double({ min: -4, max: 4, noNaN: true }), (base, exponent) => {
        assert.ok(Math.abs(powerOf(base, exponent) * powerOf(base, -exponent) - 1) < 5e-16);
      }),
    );
  });

  it('comes near to the exponential of a logarithm for any exponent', () => {
    fc.assert(
      fc.property(positive, fc.double({ min: -4, max: 4, noNaN: true }), (base, exponent) => {
        const log = exponent * Math.log(base);
        const error = Math.abs(powerOf(base, exponent) / Math.exp(log) - 1);
        assert.ok(error < 1e-15 + 4e-16 * Math.abs(log), `${base}^${exponent}: off by ${error}`);
      }),
    );
  });

  it('treats signs, zeros and what is not finite as the operator does', () => {
    const values = [0, -0, 1, -1, 2, -2, 3, -3, 0.5, -0.5, Infinity, -Infinity, NaN];
    for (const base of values)
      for (const exponent of values) {
        const [found, expected] = [powerOf(base, exponent), base ** exponent];
        assert.ok(
          Object.is(found, expected) || Math.abs(found / expected - 1) < 3e-16,
          `${base}^${exponent} gave ${found}, not ${expected}`,
        );
      }
    assert.equal(powerOf(-3, 3), -27);
    assert.ok(Object.is(powerOf(-0.5, 1e300), 0) && powerOf(1.5, 1e300) === Infinity && powerOf(1.5, -1e300) === 0);
  });

  it('gives these bits in every engine', () => {
    const bits = [
      [10, 0.3],
      [7.3, 0.25],
      [0.0123, -1.3],
      [2, 1 / 12],
      [1e-310, 0.7],
      [123.456, 3],
    ].map(([base, exponent]) => bitsOf(powerOf(base, exponent)));
    assert.deepEqual(bits, [
      '3fffec982d5bb8af',
      '3ffa4cb8c13dc748',
      '407302cc561f4412',
      '3ff0f38f92d97963',
      '12e1a66c1e139f6f',
      '413cb6284b926969',
    ]);
  });
});

describe('tenTo', () => {
  it('is the number nearest to a power of ten', () => {
    assert.deepEqual([-5, -1, 0, 3, 22, 308].map(tenTo), [0.00001, 0.1, 1, 1000, 1e22, 1e308]);
  });
});
