import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { aligned, delayBetween } from '../../src/signal/delay.ts';
import { noise } from '../published/vectors.ts';

/** A signal of many sines below a quarter of the rate, so that it can be shifted by parts of a sample. */
function band(seed: number, count: number, late: number): Float64Array {
  const draws = noise(seed, 400);
  return Float64Array.from({ length: count }, (_, n) => {
    let sum = 0;
    for (let k = 0; k < 200; k++)
      sum += Math.sin(2 * Math.PI * ((0.02 + 0.22 * (draws[2 * k] + 0.5)) * (n - late) + draws[2 * k + 1]));
    return sum;
  });
}

describe('delayBetween', () => {
  it('finds any delay to a twentieth of a sample, of either sign and either polarity', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 1000 }),
        fc.double({ min: -200, max: 200, noNaN: true }),
        fc.constantFrom(1, -1),
        (seed, late, sign) => {
          const output = band(seed, 2000, late).map((value) => 5 + 0.3 * sign * value);
          const found = delayBetween([{ input: band(seed, 2000, 0), output }]) ?? assert.fail('no delay');
          assert.ok(Math.abs(found.samples - late) < 0.05, `${found.samples} for ${late}`);
          assert.ok(sign * found.correlation > 0.9);
        },
      ),
      { numRuns: 15 },
    );
  });

  it('takes the longest stretch, and finds none in silence or between unrelated signals', () => {
    const short = { input: band(1, 300, 0), output: band(1, 300, 40) };
    const long = { input: band(2, 1500, 0), output: band(2, 1500, 7) };
    assert.ok(Math.abs(delayBetween([short, long])!.samples - 7) < 0.05);
    assert.equal(delayBetween([{ input: new Float64Array(100), output: new Float64Array(100) }]), undefined);
    assert.equal(delayBetween([{ input: noise(5, 4000), output: noise(6, 4000) }]), undefined);
  });
});

describe('aligned', () => {
  it('puts the samples that belong together beside one another, and leaves out what is too short', () => {
    const ramp = (count: number, from: number): Float64Array =>
      Float64Array.from({ length: count }, (_, n) => n + from);
    const pairs = [
      { input: ramp(10, 3), output: ramp(10, 0) },
      { input: ramp(3, 3), output: ramp(3, 0) },
    ];
    const [one, ...others] = aligned(pairs, 3);
    assert.deepEqual([...one.input], [...one.output]);
    assert.deepEqual([one.input.length, others.length], [7, 0]);
    const [back] = aligned([{ input: ramp(10, 0), output: ramp(10, 3) }], -3);
    assert.deepEqual([...back.input], [...back.output]);
  });
});
