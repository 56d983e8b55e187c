import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { scan } from '../../../src/readers/text/scan.ts';
import { ColumnSink } from '../../../src/readers/text/sink.ts';
import { recordingOf, samplesOf } from '../memory.ts';

/** Reads one number through the scanner; undefined where it stops before it. */
function scanned(text: string, decimal = '.'): number | undefined {
  const bytes = new TextEncoder().encode(`${text}\n\0`);
  const sink = new ColumnSink('number', 1);
  const cursor = { at: 0, row: 0, line: 1 };
  scan(bytes, cursor, bytes.length - 1, 1, {
    delimiter: 59,
    blanks: false,
    decimal: decimal.charCodeAt(0),
    tail: 0,
    sinks: [sink],
  });
  return cursor.row === 1 ? sink.values[0] : undefined;
}

const spellings = [
  '0',
  '-0',
  '+1',
  '1.',
  '.5',
  '-.5',
  '007',
  '0.1',
  '123456789',
  '1234567890',
  '123456789012345',
  '1234567890123456',
  '0.30000000000000004',
  '179769313486231570000000000000000000',
  '1.7976931348623157e308',
  '2.2250738585072014e-308',
  '5e-324',
  '2.4703282292062328e-324',
  '4.9406564584124654e-324',
  '2.225073858507201136057409796709131975934819546351645648023426109724822222021076945516529523908135087914149158913039621106870086438694594645527657207407820621743379988141063267329253552286881372149012981122451451889849057222307285255133155755015914397476397983411801999323962548289017107081850690630666655994938275772572015763062690663332647565300009245888316433037779791869612049497390377829704905051080609940730262937128958950003583799967207254304360284078895771796150945516748243471030702609144621572289880258182545180325707018860872113128079512233426288368622321503775666622503982534335974568884423900265498198385487948292206894721689831099698365846814022854243330660339850886445804001034933970427567186443383770486037861622771738545623065874679014086723327636718751234567890123456789012345678901e-308',
  '9007199254740993',
  '9007199254740992.5',
  '1e22',
  '1e23',
  '8.5e22',
  '3e-22',
  '3e-23',
  '1E5',
  '1e+5',
  '1e-05',
  '0e999',
  '123456789e-15',
  '0.000000000000000000000001',
  '72057594037927945',
  '999999999999999.9',
];

describe('the byte scanner', () => {
  it('gives the double nearest to what is spelt, sign of zero included', () => {
    for (const text of spellings) assert.ok(Object.is(scanned(text), Number(text)), text);
    for (const text of spellings)
      assert.ok(Object.is(scanned(text.replace('.', ','), ','), Number(text)), `${text} with a comma`);
  });

  it('gives the same double as the language for any number, in any of its spellings', () => {
    const number = fc.double({ noNaN: true, noDefaultInfinity: true });
    const law = fc.property(number, fc.integer({ min: 0, max: 20 }), (value, digits) => {
      for (const text of [String(value), value.toExponential(digits), value.toPrecision(digits + 1)]) {
        const wanted = Number(text);
        assert.ok(Object.is(scanned(text), Number.isFinite(wanted) ? wanted : undefined), text);
      }
    });
    fc.assert(law, { numRuns: 1500 });
  });

  it('gives the same double for any string of digits, mark and exponent', () => {
    const digits = fc.string({ unit: fc.constantFrom(...'0123456789'), minLength: 1, maxLength: 24 });
    const law = fc.property(digits, digits, fc.integer({ min: -330, max: 300 }), (whole, part, power) => {
      const text = `${whole}.${part}e${power}`;
      const value = Number(text);
      assert.ok(Object.is(scanned(text), Number.isFinite(value) ? value : undefined), text);
    });
    fc.assert(law, { numRuns: 1500 });
  });

  it('stops at what is no number', () => {
    for (const text of [
      '-',
      '.',
      '+',
      'e5',
      '1e',
      '1e+',
      '1.2.3',
      '1,2',
      '0x10',
      '1 2',
      '--1',
      '1-',
      'nan',
      '1e999',
      '"1"',
      '1g',
    ]) {
      assert.equal(scanned(text), undefined, text);
    }
  });

  it('reads the same values with CRLF, blank lines, padding, a lone CR and no last line end', async () => {
    const lines = [
      't,x,y,z',
      ...Array.from(
        { length: 50 },
        (_, i) => `${(i / 100).toFixed(2)}, ${Math.sin(i)} ,${(i * 1e-3).toExponential()},1`,
      ),
    ];
    const plain = await recordingOf(lines.join('\n') + '\n');
    for (const text of [
      lines.join('\r\n'),
      lines.join('\r'),
      lines.join('\n\n'),
      lines.join('\r\n\r\n') + '\r\n',
      lines.join('  \n'),
    ]) {
      const other = await recordingOf(text);
      for (const name of ['x', 'y', 'z']) assert.deepEqual(samplesOf(other, name), samplesOf(plain, name));
    }
    assert.equal(samplesOf(plain, 'x')[7], Math.sin(7));
  });

  it('reads a file that ends anywhere within a piece as if it came whole', async () => {
    const text =
      't,x,y,z\n' +
      Array.from({ length: 30_000 }, (_, i) => `${(i / 400).toFixed(4)},${(i % 97) / 100},${i % 13},1.0`).join('\n') +
      '\n';
    const whole = await recordingOf(text);
    assert.equal(samplesOf(whole, 'x').length, 30_000);
    assert.ok(samplesOf(whole, 'x').every((value, i) => value === (i % 97) / 100));
  });
});
