import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { claimedBothWays, claimZone, isPossible, type Claim } from '../../src/statistics/claimForm.ts';

const percent = fc.integer({ min: 0, max: 99 });
const zone = (claim: Claim): [number, number] => {
  const { low, high } = claimZone(claim);
  return [Number(low.toFixed(12)), Number(high.toFixed(12))];
};

describe('claimZone', () => {
  it('holds the ratios for which a claim is true', () => {
    assert.deepEqual(zone({ kind: 'reduces' }), [0, 1]);
    assert.deepEqual(zone({ kind: 'increases' }), [1, Infinity]);
    assert.deepEqual(zone({ kind: 'at least', direction: 'reduction', percent: 15 }), [0, 0.85]);
    assert.deepEqual(zone({ kind: 'at most', direction: 'reduction', percent: 15 }), [0.85, Infinity]);
    assert.deepEqual(zone({ kind: 'at least', direction: 'increase', percent: 15 }), [1.15, Infinity]);
    assert.deepEqual(zone({ kind: 'at most', direction: 'increase', percent: 15 }), [0, 1.15]);
    assert.deepEqual(zone({ kind: 'no worse than', percent: 5 }), [0, 1.05]);
    const about = { kind: 'about', percent: 15, tolerancePercent: 5 } as const;
    assert.deepEqual(zone({ ...about, direction: 'reduction' }), [0.8, 0.9]);
    assert.deepEqual(zone({ ...about, direction: 'increase' }), [1.1, 1.2]);
    assert.deepEqual(
      zone({ ...about, direction: 'increase', of: 'power', percent: 21, tolerancePercent: 40 }),
      [0.9, 1.268857754045],
    );
  });

  it('of power is that of amplitude, squared', () => {
    fc.assert(
      fc.property(percent, fc.constantFrom('at least', 'at most'), (size, kind) => {
        const ofPower = claimZone({ kind, direction: 'reduction', percent: size, of: 'power' });
        const ofAmplitude = claimZone({ kind, direction: 'reduction', percent: size, of: 'amplitude' });
        const end = (of: { low: number; high: number }): number => (kind === 'at least' ? of.high : of.low);
        assert.ok(Math.abs(end(ofPower) ** 2 - end(ofAmplitude)) < 1e-12);
      }),
    );
  });
});

describe('isPossible', () => {
  it('is a claim that a level can meet, for which alone there is a zone', () => {
    const claims = fc.record({
      kind: fc.constantFrom('at least', 'at most', 'about', 'no worse than'),
      direction: fc.constantFrom('reduction', 'increase'),
      percent: fc.constantFrom(-100, -1, 0, 50, 94, 99.9, 100, 101, Infinity, NaN),
      tolerancePercent: fc.constantFrom(-1, 0, 5, NaN),
    }) as fc.Arbitrary<Claim>;
    fc.assert(
      fc.property(claims, (claim) => {
        if (isPossible(claim)) assert.ok(claimZone(claim).low < claimZone(claim).high);
        else assert.throws(() => claimZone(claim), RangeError);
      }),
    );
  });

  it('ends where a reduction would leave nothing', () => {
    const reduction = (size: number): boolean =>
      isPossible({ kind: 'at least', direction: 'reduction', percent: size });
    assert.deepEqual([-1, 0, 99.9, 100, NaN].map(reduction), [false, true, true, false, false]);
    const about = (tolerancePercent: number): boolean =>
      isPossible({ kind: 'about', direction: 'reduction', percent: 90, tolerancePercent });
    assert.deepEqual([0, 1, 9.9, 10].map(about), [false, true, true, false]);
    const worse = (size: number): boolean => isPossible({ kind: 'no worse than', percent: size });
    assert.deepEqual([-100, -5, 0, 200, Infinity].map(worse), [false, true, true, true, false]);
    assert.ok(isPossible({ kind: 'reduces' }) && isPossible({ kind: 'increases' }));
  });
});

describe('claimedBothWays', () => {
  it('turns the number into amplitude and power, negative for a reduction', () => {
    const both = (claim: Claim): (string | undefined)[] => {
      const found = claimedBothWays(claim);
      return [found?.amplitudePercent.toFixed(2), found?.powerPercent.toFixed(2)];
    };
    assert.deepEqual(both({ kind: 'at least', direction: 'reduction', percent: 15 }), ['-15.00', '-27.75']);
    assert.deepEqual(both({ kind: 'at most', direction: 'reduction', percent: 27.75, of: 'power' }), [
      '-15.00',
      '-27.75',
    ]);
    assert.deepEqual(both({ kind: 'no worse than', percent: 10 }), ['10.00', '21.00']);
    assert.deepEqual(both({ kind: 'increases' }), [undefined, undefined]);
    assert.deepEqual(both({ kind: 'reduces' }), [undefined, undefined]);
  });
});
