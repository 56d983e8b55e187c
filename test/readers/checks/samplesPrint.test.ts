import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { samplesPrint } from '../../../src/readers/checks/samplesPrint.ts';

const number = fc.double({ noNaN: true });
const moving = fc
  .array(number, { minLength: 2, maxLength: 50 })
  .filter((values) => values.some((value) => value !== values[0]));

const printOf = (...channels: readonly (readonly number[])[]): string | undefined =>
  samplesPrint(channels.map((samples) => Float64Array.from(samples)));

describe('the print of a recording’s samples', () => {
  it('is one of the very same samples, whatever the sign of a zero, and another where one differs', () => {
    fc.assert(
      fc.property(moving, fc.nat(), number, (samples, at, other) => {
        const print = printOf(samples);
        assert.equal(printOf(samples.map((value) => (value === 0 ? -value : value))), print);
        const changed = samples.map((value, i) => (i === at % samples.length ? other : value));
        const isSame = changed.every((value, i) => value === samples[i]);
        assert.equal(printOf(changed) === print, isSame, `${samples.join()} and ${changed.join()}`);
      }),
    );
  });

  it('tells the order of samples and of channels, and where one channel ends', () => {
    assert.notEqual(printOf([1, 2, 3]), printOf([1, 3, 2]));
    assert.notEqual(printOf([1, 2], [3, 4]), printOf([3, 4], [1, 2]));
    assert.notEqual(printOf([1, 2], [3, 4]), printOf([1, 2, 3, 4]));
    assert.notEqual(printOf([1, 2], [1, 2]), printOf([1, 2]));
  });

  it('is none where nothing moves, there is but one sample, or one is no number', () => {
    assert.deepEqual(
      [printOf(), printOf([]), printOf([1]), printOf([1, 1]), printOf([1, 2], [3]), printOf([1, NaN, 2])],
      Array(6).fill(undefined),
    );
    assert.notEqual(printOf([1, 1], [1, 2]), undefined);
  });

  it('meets no other among many recordings that are much alike', () => {
    const prints = new Set<string | undefined>();
    const samples = Array.from({ length: 16 }, (_, i) => i % 3);
    for (let k = 0; k < 65_536; k++)
      prints.add(printOf(samples.map((value, i) => (((k >> i) & 1) === 0 ? value : value + 2 ** -40))));
    assert.equal(prints.size, 65_536);
  });
});
