import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { envelope } from '../../src/signal/envelope.ts';

describe('envelope', () => {
  it('of a carrier whose strength changes slowly is that strength, whatever the phase and the length', () => {
    fc.assert(
      fc.property(fc.integer({ min: 400, max: 600 }), fc.double({ min: 0, max: 6, noNaN: true }), (count, phase) => {
        const turn = (2 * Math.PI) / count;
        const strength = (n: number): number => 2 + 0.5 * Math.cos(3 * turn * n) + 0.3 * Math.sin(5 * turn * n);
        const samples = Float64Array.from({ length: count }, (_, n) => strength(n) * Math.cos(80 * turn * n + phase));
        envelope(samples, new Float64Array(count)).forEach((value, n) => {
          assert.ok(Math.abs(value - strength(n)) < 1e-9);
        });
      }),
      { numRuns: 30 },
    );
  });

  it('is never below the signal, and of nothing is nothing', () => {
    const samples = Float64Array.from({ length: 101 }, (_, n) => Math.sin(n * n));
    envelope(samples, new Float64Array(101)).forEach((value, n) => assert.ok(value >= Math.abs(samples[n]) - 1e-12));
    assert.equal(envelope(new Float64Array(0), new Float64Array(0)).length, 0);
  });
});
