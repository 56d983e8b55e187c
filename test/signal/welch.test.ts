import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { Cancelled } from '../../src/signal/cancel.ts';
import { totalMeanSquare } from '../../src/signal/band.ts';
import { hopOf, peakAmplitude, segmentCount, welchDensity, WelchSum } from '../../src/signal/welch.ts';
import { windowNames, windowShape } from '../../src/signal/windows.ts';
import { close, near, noise, record } from '../published/vectors.ts';

const hann = (length: number): Float64Array => windowShape('hann', length);
const sine = (count: number, rate: number, frequency: number, amplitude: number): Float64Array =>
  Float64Array.from({ length: count }, (_, n) => amplitude * Math.sin((2 * Math.PI * frequency * n) / rate));

describe('welchDensity', () => {
  it('spreads a sine at a bin centre over three Hann bins as 1/12, 1/3, 1/12 of its height', () => {
    const found = welchDensity([sine(4000, 1000, 50, 1)], { shape: hann(1000), rate: 1000 });
    near(found.density.subarray(49, 52), [1 / 12, 1 / 3, 1 / 12], 1e-12);
    close(totalMeanSquare(found), 0.5, 1e-12);
  });

  it('reads a sine of any window as its peak amplitude, and integrates it to its mean square', () => {
    for (const name of windowNames) {
      const found = welchDensity([sine(3000, 1000, 100, 2.5)], { shape: windowShape(name, 500), rate: 1000 });
      close(peakAmplitude(found)[50], 2.5, 1e-12, name);
      close(totalMeanSquare(found), 2.5 ** 2 / 2, 1e-12, name);
    }
  });

  it('reads an alternating signal at half the rate as its peak amplitude', () => {
    const found = welchDensity([Float64Array.from({ length: 100 }, (_, n) => (n % 2 === 0 ? 3 : -3))], {
      shape: hann(20),
      rate: 10,
    });
    close(peakAmplitude(found)[10], 3, 1e-12);
  });

  it('gives white noise of variance s^2 the level 2 s^2 / rate', () => {
    const found = welchDensity([noise(5, 200_000)], { shape: hann(200), rate: 350 });
    const middle = found.density.subarray(5, 95);
    close(middle.reduce((sum, value) => sum + value) / middle.length, 2 / 12 / 350, 0.01);
  });

  it('takes gravity out of every segment', () => {
    const samples = record(3, 2000, 0);
    const raised = samples.map((value) => value + 1);
    const options = { shape: hann(140), rate: 350 };
    near(welchDensity([raised], options).density, welchDensity([samples], options).density, 1e-13);
  });

  it('grows with the square of the signal and does not mind its direction in time', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 99 }), fc.double({ min: -100, max: 100, noNaN: true }), (seed, factor) => {
        const samples = record(seed, 640);
        // The last segment must end with the last sample for the reversed record to have the same segments.
        const options = { shape: windowShape('hamming', 80), rate: 400 };
        const { density } = welchDensity([samples], options);
        near(
          welchDensity([samples.map((value) => factor * value)], options).density,
          density.map((value) => factor ** 2 * value),
          1e-12,
        );
        const mirrored = { ...options, shape: Float64Array.from(options.shape).reverse() };
        near(welchDensity([samples.slice().reverse()], mirrored).density, density, 1e-12);
      }),
      { numRuns: 30 },
    );
  });

  it('uses exactly the segment length it is given, a prime one too', () => {
    const found = welchDensity([record(1, 5000)], { shape: hann(353), rate: 350 });
    assert.equal(found.segmentLength, 353);
    assert.equal(found.density.length, 177);
    assert.equal(found.step, 350 / 353);
  });

  it('lets no segment cross a gap', () => {
    const samples = record(9, 1000, 0);
    const jump = samples.map((value, n) => (n < 500 ? value : value + 50));
    const pieces = (of: Float64Array): Float64Array[] => [of.subarray(0, 500), of.subarray(500)];
    const options = { shape: hann(100), rate: 100 };
    near(welchDensity(pieces(jump), options).density, welchDensity(pieces(samples), options).density, 1e-11);
    assert.equal(welchDensity(pieces(samples), options).segments, 18);
  });

  it('counts stretches as independent in its effective averages', () => {
    const options = { shape: hann(100), rate: 100, overlap: 0 };
    const { averages, segments } = welchDensity([record(1, 350), record(2, 220)], options);
    assert.equal(segments, 5);
    assert.equal(averages, 5);
  });

  it('refuses a record shorter than a segment, an overlap of 1, a rate of 0 and a sample that is no number', () => {
    assert.throws(
      () => welchDensity([record(1, 99)], { shape: hann(100), rate: 100 }),
      /no stretch is as long as a segment of 100/,
    );
    assert.throws(() => welchDensity([record(1, 99)], { shape: hann(10), rate: 100, overlap: 1 }), /overlap/);
    assert.throws(() => welchDensity([record(1, 99)], { shape: hann(10), rate: 0 }), /rate/);
    assert.throws(
      () => welchDensity([record(1, 99).fill(NaN, 50, 51)], { shape: hann(10), rate: 1 }),
      /no finite number/,
    );
  });

  it('stops when it is cancelled', () => {
    assert.throws(
      () => welchDensity([record(1, 9999)], { shape: hann(10), rate: 1, cancelled: () => true }),
      Cancelled,
    );
  });
});

describe('WelchSum', () => {
  it('gives the same to the last digit from blocks of any size as from the whole, with vectors and without', () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 1, max: 230 }), { minLength: 1, maxLength: 12 }),
        fc.constantFrom(0, 0.5, 0.75, 0.9),
        fc.boolean(),
        (blocks, overlap, vectors) => {
          const samples = record(
            7,
            blocks.reduce((sum, size) => sum + size, 60),
          );
          const options = { shape: hann(60), rate: 350, overlap, vectors };
          const sum = new WelchSum(options);
          let from = 0;
          for (const size of [...blocks, 60]) sum.addBlock(samples.subarray(from, (from += size)));
          const found = sum.density();
          const expected = welchDensity([samples], options);
          assert.equal(found.segments, expected.segments);
          assert.equal(found.averages, expected.averages);
          assert.deepEqual(found.density, expected.density);
        },
      ),
    );
  });
});

describe('hopOf and segmentCount', () => {
  it('step by L - floor(L x overlap), not misled by binary fractions', () => {
    assert.equal(hopOf(100, 0.57), 43);
    assert.equal(hopOf(75, 0.5), 38);
    assert.equal(hopOf(10, 0), 10);
  });

  it('count whole segments only', () => {
    assert.deepEqual(
      [99, 100, 149, 150, 200].map((count) => segmentCount(count, 100, 50)),
      [0, 1, 1, 2, 3],
    );
  });
});
