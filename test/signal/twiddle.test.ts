import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { rootOfUnity } from '../../src/signal/twiddle.ts';

function root(k: number, n: number): [re: number, im: number] {
  const [re, im] = [new Float64Array(2), new Float64Array(2)];
  rootOfUnity(k, n, re, im, 1);
  assert.deepEqual([re[0], im[0]], [0, 0], 'writes at the place asked for alone');
  return [re[1], im[1]];
}

describe('rootOfUnity', () => {
  it('is exp(-2 pi i k / n)', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 5000 }), fc.nat(20_000), (n, k) => {
        const angle = (-2 * Math.PI * (k % n)) / n;
        const [re, im] = root(k, n);
        assert.ok(Math.abs(re - Math.cos(angle)) < 1e-15 && Math.abs(im - Math.sin(angle)) < 1e-15);
      }),
    );
  });

  it('is exact at quarters of the circle, and has equal parts to the last bit at eighths', () => {
    assert.deepEqual(
      [0, 1, 2, 3, 4].map((k) => root(k, 4).map((part) => part + 0)),
      [
        [1, 0],
        [0, -1],
        [-1, 0],
        [0, 1],
        [1, 0],
      ],
    );
    for (const k of [1, 3, 5, 7]) {
      const [re, im] = root(k, 8).map(Math.abs);
      assert.ok(Math.abs(re - im) <= 2 ** -53);
    }
  });

  it('mirrors, to the last bit or nearly: the root of n - k is the conjugate of that of k', () => {
    fc.assert(
      fc.property(fc.integer({ min: 2, max: 5000 }), fc.nat(), (n, seed) => {
        const k = 1 + (seed % (n - 1));
        const [[re, im], [mirroredRe, mirroredIm]] = [root(k, n), root(n - k, n)];
        assert.ok(Math.abs(re - mirroredRe) <= 2 ** -53 && Math.abs(im + mirroredIm) <= 2 ** -53);
      }),
    );
  });
});
