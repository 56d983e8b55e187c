import { strict as assert } from 'node:assert';
import { checkNotebook } from '../../src/language/check.ts';
import type { Diagnostic } from '../../src/language/diagnostic.ts';
import { catalogue } from './catalogue.ts';
import { ground } from './services/marked.ts';

const errorsOf = (cell: string): readonly Diagnostic[] =>
  checkNotebook([ground, cell], catalogue).problems[1].filter(({ severity }) => severity === 'error');

const codesOf = (cell: string): string[] => errorsOf(cell).map(({ code }) => code);

describe('the check of a call', () => {
  it('offers the one verb that makes what is wanted of a value that stands there, and of no other', () => {
    const [mismatch] = errorsOf('band r 10..50 Hz');
    assert.equal(mismatch.code, 'kind.mismatch');
    assert.deepEqual(
      mismatch.fixes?.map(({ text }) => text),
      ['(spectrum r)'],
    );
    assert.match(mismatch.message, /but `r` is runs; write `\(spectrum r\)`\.$/);
    const [none] = errorsOf('trim S 1..2 s');
    assert.deepEqual([none.code, none.fixes], ['kind.mismatch', undefined]);
    assert.match(none.message, /has to be runs, but `S` is a spectrum\.$/);
  });

  it('offers no brackets for what comes down the pipe', () => {
    const [mismatch] = errorsOf('r | band 10..50 Hz');
    assert.deepEqual([mismatch.code, mismatch.fixes], ['kind.mismatch', undefined]);
    assert.match(mismatch.message, /but `what comes down the pipe` is runs\.$/);
  });

  it('names the operand or the option that it speaks of', () => {
    assert.match(errorsOf('spectrum r confidence 5 Hz')[0].message, /^The option `confidence` of `spectrum` has to be/);
    assert.match(errorsOf('highpass r 5 s')[0].message, /^What `highpass` takes as [A-Z]+ has to be/);
  });

  it('knows the dimension of a product and of a quotient of what is computed', () => {
    assert.deepEqual(codesOf('highpass r (C.change * f0)'), []);
    assert.deepEqual(codesOf('highpass r (f0 / C.change)'), []);
    assert.deepEqual(codesOf('highpass r (C.change / f0)'), ['unit.dimension']);
    assert.deepEqual(codesOf('x = 2 ^ C.change'), []);
    assert.deepEqual(codesOf('x = C.change ^ f0'), ['arithmetic.exponent']);
  });

  it('knows the dimension of the root of what is computed', () => {
    assert.deepEqual(codesOf('highpass r sqrt(f0 * f0 * C.change)'), []);
    assert.deepEqual(codesOf('highpass r sqrt(f0 * C.change)'), ['unit.dimension']);
  });

  it('goes on with the values of an option, and with the options after a wrong one', () => {
    assert.deepEqual(codesOf('load "a" channel x y unit s'), []);
    assert.deepEqual(codesOf('load "a" channel x y unit nonsense'), ['unit.unknown']);
    assert.deepEqual(codesOf('spectrum r as nonsense confidence 5 Hz'), ['word.unknown', 'unit.dimension']);
  });

  it('does not ask for a kind of what comes down the pipe where that is wrong itself', () => {
    assert.deepEqual(codesOf('r | trim 80..5 s | band 10..50 Hz'), ['range.reversed']);
    assert.deepEqual(codesOf('r | 5 | band 10..50 Hz'), ['pipe.verb']);
  });

  it('offers a unit that fits in place of one that does not, where one is written', () => {
    const fixed = (cell: string): readonly string[] | undefined =>
      errorsOf(cell)[0].fixes?.map(({ text, place }) => cell.slice(0, place.from) + text + cell.slice(place.to));
    assert.deepEqual(fixed('highpass r 5 s'), ['highpass r 5 Hz']);
    assert.equal(fixed('highpass r k'), undefined);
  });

  it('says where a mass is wanted that g is gravity, and elsewhere what was found', () => {
    assert.match(errorsOf('natural_frequency(k, 80 g)')[0].message, /has to be a mass, but g is standard gravity here/);
    assert.match(errorsOf('natural_frequency(k, 80 s)')[0].message, /has to be a mass, but `80 s` is a time\.$/);
    assert.match(
      errorsOf('highpass r 80 g')[0].message,
      /has to be a frequency, in Hz.* but `80 g` is an acceleration\.$/,
    );
  });

  it('names the options that a verb has where none is near to what was written, or says that it has none', () => {
    assert.match(errorsOf('highpass r 5 Hz qqqqqq')[0].message, /has no option `qqqqqq`; it knows `order`\.$/);
    assert.match(errorsOf('levels r qqqqqq')[0].message, /has no option `qqqqqq`; it has no options\.$/);
    assert.match(errorsOf('highpass r 5 Hz ordr 4')[0].message, /has no option `ordr`; did you mean `order`\?$/);
  });

  it('tells of each mistake in form once, beside other statements that have their own', () => {
    assert.deepEqual(codesOf('x = 2 *\n\ny = 3 *'), ['syntax.missing', 'syntax.missing']);
  });

  it('tells a value that is made from itself from values that need each other', () => {
    assert.match(errorsOf('x = x + 1')[0].message, /^`x` is made from itself/);
    assert.match(errorsOf('x = y + 1\ny = x')[0].message, /^`x` and `y` need each other in a circle/);
  });

  it('tells of a pick without its number once', () => {
    assert.deepEqual(codesOf('levels r[]'), ['syntax.missing']);
    assert.deepEqual(codesOf('levels r[0]'), ['pick.index']);
    assert.deepEqual(codesOf('levels r[1.5]'), ['pick.index']);
  });

  it('picks and reads fields as the kinds that it was given say', () => {
    assert.deepEqual(codesOf('S[1]'), []);
    const [pick] = errorsOf('W[1]');
    assert.deepEqual([pick.code, pick.message.includes('is a window, and')], ['pick.kind', true]);
    const [field] = errorsOf('x = S.rms');
    assert.match(field.message, /^A spectrum has no fields/);
    assert.match(
      errorsOf('x = L.nothing')[0].message,
      /^Levels have no field `nothing`; the fields are `rms` and `peak`\.$/,
    );
  });
});
