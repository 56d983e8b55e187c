import { strict as assert } from 'node:assert';
import { whyNoRange, whyUnfit, type Asked, type Known } from '../../src/language/argument.ts';
import type { Accept } from '../../src/language/form.ts';
import { quantity } from '../../src/units/arithmetic.ts';

const asked = (...accepts: readonly Accept[]): Asked => ({
  where: { verb: 'verb', slot: 'slot', option: true },
  accepts,
  found: 'it',
  kinds: new Map(),
});

const known = (value: number, unit: string): Known => {
  const constant = quantity(value, unit);
  return { kind: 'quantity', dimension: constant.unit.dimension, constant };
};

const codeOf = (of: Known, ...accepts: readonly Accept[]): string | undefined => whyUnfit(of, asked(...accepts))?.code;

describe('what a form asks of an argument', () => {
  const size: Accept = { type: 'quantity', dimension: 'ratio', least: 0, most: 0.95 };

  it('is one of its kinds; a place for sizes takes quantities', () => {
    const runs: Known = { kind: 'runs', dimension: undefined, constant: undefined };
    assert.equal(codeOf(runs, { type: 'value', kinds: ['runs', 'spectrum'] }), undefined);
    assert.equal(codeOf(runs, { type: 'value', kinds: ['spectrum'] }), 'kind.mismatch');
    assert.equal(codeOf(runs, { type: 'integer' }), 'kind.mismatch');
    assert.equal(codeOf(known(3, ''), { type: 'integer' }), undefined);
  });

  it('is silent of what is not known yet', () => {
    const unknown: Known = { kind: undefined, dimension: undefined, constant: undefined };
    assert.equal(codeOf(unknown, size), undefined);
    assert.equal(codeOf({ ...known(1, 'Hz'), constant: undefined }, size), 'unit.dimension');
  });

  it('is read to 15 digits, so that 95 % is no more than 95 %', () => {
    assert.equal(codeOf(known(95, '%'), size), undefined);
    assert.equal(codeOf(known(95.01, '%'), size), 'value.most');
  });

  it('is held against the bounds of the way of giving it that measures the same', () => {
    const ways: readonly Accept[] = [
      { type: 'quantity', dimension: 'speed', above: 0 },
      { type: 'quantity', dimension: 'frequency', least: 2 },
    ];
    assert.equal(codeOf(known(1, 'Hz'), ...ways), 'value.least');
    assert.equal(codeOf(known(1, 'm/s'), ...ways), undefined);
    assert.equal(codeOf(known(0, 'm/s'), ...ways), 'value.above');
  });

  it('is a quantity of at least 0, unless its form says that it has a sign', () => {
    assert.equal(codeOf(known(-1, 's'), { type: 'quantity', dimension: 'time' }), 'value.least');
    assert.equal(codeOf(known(-1, 's'), { type: 'quantity', dimension: 'time', signed: true }), undefined);
    assert.equal(codeOf(known(-1, ''), { type: 'number' }), undefined);
  });

  it('is a range from a lower to a higher end', () => {
    const place = asked({ type: 'range', dimension: 'time' });
    const of = (from: number, to: number, unit = 's'): string | undefined =>
      whyNoRange(quantity(from, unit), quantity(to, unit), place, '')?.code;
    assert.equal(of(1, 2), undefined);
    assert.equal(of(2, 1), 'range.reversed');
    assert.equal(of(2, 2), 'range.empty');
    assert.equal(of(1, 2, 'Hz'), 'unit.dimension');
  });
});
