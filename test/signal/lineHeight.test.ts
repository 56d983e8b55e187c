import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { lineBetweenBins, worstLoss } from '../../src/signal/lineHeight.ts';
import { peakAmplitude, welchDensity } from '../../src/signal/welch.ts';
import { windowNames, windowShape } from '../../src/signal/windows.ts';

const rate = 200;

/** Height and frequency of a sine of 1 in its highest bin, corrected. */
function read(
  name: (typeof windowNames)[number],
  frequency: number,
  length = 400,
): { readonly bin: number; readonly height: number; readonly frequency: number } {
  const samples = Float64Array.from({ length: 12_000 }, (_, n) => Math.cos((2 * Math.PI * frequency * n) / rate + 1));
  const shape = windowShape(name, length);
  const found = welchDensity([samples], { shape, rate });
  const heights = peakAmplitude(found);
  const bin = heights.indexOf(Math.max(...heights));
  const line = lineBetweenBins(found.density, bin, shape, length) ?? assert.fail('not corrected');
  return { bin: heights[bin], height: heights[bin] * line.gain, frequency: (bin + line.offset) * found.step };
}

describe('lineBetweenBins', () => {
  for (const name of windowNames)
    it(`a unit sine anywhere between two bins has height 1 and its frequency with ${name}`, () => {
      fc.assert(
        fc.property(fc.double({ min: 25, max: 75, noNaN: true }), (frequency) => {
          const found = read(name, frequency);
          assert.ok(Math.abs(found.height - 1) < 0.01, `${found.height} at ${frequency} Hz`);
          assert.ok(Math.abs(found.frequency - frequency) < 0.01, `${found.frequency} for ${frequency} Hz`);
        }),
        { numRuns: 20 },
      );
    });

  it('a sine half-way between the bins of a Hann window reads 15 % low without it', () => {
    const found = read('hann', 20.25);
    assert.ok(Math.abs(found.bin - 0.849) < 5e-4);
    assert.ok(Math.abs(found.height - 1) < 1e-3);
    assert.ok(Math.abs(worstLoss(windowShape('hann', 400)) - 0.151) < 1e-3);
  });

  it('gives nothing where the mirror image at a negative frequency, or past half the rate, reaches the bin', () => {
    const density = new Float64Array(201).fill(1e-9);
    const shape = windowShape('rectangular', 400);
    for (const bin of [2, 198]) {
      density[bin] = 1;
      assert.equal(lineBetweenBins(density, bin, shape, 400), undefined);
      density[bin] = 1e-9;
    }
    density[3] = 1;
    assert.equal(lineBetweenBins(density, 3, shape, 400), undefined);
    assert.equal(lineBetweenBins(density, 3, windowShape('hann', 400), 400)?.gain.toFixed(3), '1.000');
  });
});
