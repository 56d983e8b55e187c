import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { couldBeThousands, decimalsOf, isMissing, isOverload, parseNumber } from '../../../src/readers/text/number.ts';

describe('parseNumber', () => {
  it('reads what any number is printed as, by either mark', () => {
    fc.assert(
      fc.property(fc.double({ noNaN: true, noDefaultInfinity: true }), (value) => {
        assert.equal(parseNumber(String(value), '.'), value + 0);
        assert.equal(parseNumber(String(value).replace('.', ','), ','), value + 0);
      }),
    );
  });

  it('takes a sign, an exponent of C or Fortran, a typographic minus, and blanks about it', () => {
    const cases: [string, number][] = [
      [' +1.5 ', 1.5],
      ['.5', 0.5],
      ['5.', 5],
      ['1e-3', 0.001],
      ['1.25D+02', 125],
      ['-2d3', -2000],
      ['\u22121.5', -1.5],
      ['\u20131.5', -1.5],
      ['- 1.5', -1.5],
      ['+\u00a02', 2],
    ];
    for (const [text, value] of cases) assert.equal(parseNumber(text, '.'), value, text);
  });

  it('takes thousands apart only where a fraction follows, or the mark between them could be no decimal mark', () => {
    assert.equal(parseNumber('1,234.5', '.'), 1234.5);
    assert.equal(parseNumber('1.234,5', ','), 1234.5);
    assert.equal(parseNumber("1'234'567", '.'), 1234567);
    assert.equal(parseNumber('1\u202f234,5', ','), 1234.5);
    assert.equal(parseNumber('-12 345', '.'), -12345);
    for (const text of ['1,234', '1,23.5', '12,3456.7', '1234,567.8', "1'23"])
      assert.equal(parseNumber(text, '.'), undefined, text);
    assert.equal(parseNumber('1.234', ','), undefined);
  });

  it('refuses what is no number, one in hexadecimal and one too large for a double', () => {
    for (const text of ['', '-', '.', 'e5', '1e', '0x10', '1.2.3', '1e999', 'Infinity', '5 g', `${'1'.repeat(41)} 0`])
      assert.equal(parseNumber(text, '.'), undefined, text);
    assert.equal(parseNumber('1.5', ','), undefined);
    assert.equal(parseNumber('1,5', '.'), undefined);
  });
});

describe('isMissing and isOverload', () => {
  it('know the words for no reading, and those for one beyond the range', () => {
    for (const text of [
      '',
      ' ',
      '-',
      '---',
      'NaN',
      '-nan(ind)',
      'n/a',
      '#N/A',
      'NULL',
      '1.#QNAN',
      '-Inf',
      '*',
      '#WERT!',
    ]) {
      assert.ok(isMissing(text), text);
      assert.ok(!isOverload(text), text);
    }
    for (const text of ['OL', '-OVER', 'over-load', 'Overloaded', 'SAT', ' clipped ']) {
      assert.ok(isOverload(text), text);
      assert.ok(isMissing(text), text);
    }
    for (const text of ['0', '1.5', 'oil', 'nano', 'x']) assert.ok(!isMissing(text), text);
  });
});

describe('decimalsOf', () => {
  it('counts digits after the mark, less the exponent', () => {
    const cases: [string, number][] = [
      ['1.250', 3],
      ['12', 0],
      ['-0.5', 1],
      [' .25', 2],
      ['1.25e-3', 5],
      ['1.25E2', 0],
      ['1.25d1', 1],
      ['5e3', -3],
      ['1.', 0],
      ['x1.25', 0],
    ];
    for (const [text, digits] of cases) assert.equal(decimalsOf(text, '.'), digits, text);
    assert.equal(decimalsOf('1,25', ','), 2);
    assert.equal(decimalsOf('1,25', '.'), 0);
  });
});

describe('couldBeThousands', () => {
  it('are groups of three behind a group that does not begin with 0', () => {
    for (const text of ['1.234', '-12.345.678', ' 999.000 ']) assert.ok(couldBeThousands(text, '.'), text);
    for (const text of ['0.234', '1.23', '1234.567', '1,234', '1.234.56'])
      assert.ok(!couldBeThousands(text, '.'), text);
    assert.ok(couldBeThousands('1,234', ',') && !couldBeThousands('1.234', ','));
  });
});
