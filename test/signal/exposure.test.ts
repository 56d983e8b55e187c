import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { additionalMethods, comfortAt, vibrationTotal } from '../../src/signal/exposure.ts';
import { close } from '../published/vectors.ts';

describe('comfortAt', () => {
  it('gives both ranges at the ends that they share, and one at the outer ends', () => {
    assert.deepEqual(comfortAt(0), ['not']);
    assert.deepEqual(comfortAt(0.3149), ['not']);
    assert.deepEqual(comfortAt(0.315), ['a-little']);
    assert.deepEqual(comfortAt(0.5), ['a-little', 'fairly']);
    assert.deepEqual(comfortAt(0.63), ['a-little', 'fairly']);
    assert.deepEqual(comfortAt(0.64), ['fairly']);
    assert.deepEqual(comfortAt(2), ['very']);
    assert.deepEqual(comfortAt(2.001), ['very', 'extremely']);
    assert.deepEqual(comfortAt(2.5), ['very', 'extremely']);
    assert.deepEqual(comfortAt(2.501), ['extremely']);
  });
});

describe('vibrationTotal', () => {
  it('grows with the axes and does not mind their order', () => {
    const axis = fc.record({
      rms: fc.double({ min: 1e-3, max: 10, noNaN: true }),
      factor: fc.constantFrom(1, 1.4),
    });
    fc.assert(
      fc.property(
        fc.array(axis, { minLength: 1, maxLength: 3 }),
        fc.double({ min: 0, max: 9, noNaN: true }),
        (axes, by) => {
          const total = vibrationTotal(axes);
          close(vibrationTotal(axes.slice().reverse()), total, 1e-14);
          const grown = axes.map(({ rms, factor }) => ({ rms: by * rms, factor }));
          assert.ok(Math.abs(vibrationTotal(grown) - by * total) <= 1e-12 * (1 + by * total));
          assert.ok(total >= Math.max(...axes.map(({ rms, factor }) => rms * factor)) * (1 - 1e-15));
        },
      ),
    );
  });
});

describe('additionalMethods', () => {
  it('are called for above the thresholds 9, 1.5 and 1.75 of the ratios, not at them', () => {
    const of = { rms: 2, peak: 18, greatestRunning: 3, dose: 1.75 * 2 * 81 ** 0.25, seconds: 81 };
    const at = additionalMethods(of);
    assert.deepEqual([at.crest.value, at.transient.value, at.dose.value], [9, 1.5, 1.75]);
    assert.deepEqual([at.crest.calledFor, at.transient.calledFor, at.dose.calledFor], [false, false, false]);
    assert.deepEqual(
      [
        additionalMethods({ ...of, peak: 18.1 }).crest.calledFor,
        additionalMethods({ ...of, greatestRunning: 3.1 }).transient.calledFor,
        additionalMethods({ ...of, dose: of.dose * 1.01 }).dose.calledFor,
      ],
      [true, true, true],
    );
  });
});
