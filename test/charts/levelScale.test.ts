import { strict as assert } from 'node:assert';
import { levelScaleOf } from '../../src/charts/levelScale.ts';
import { quantity } from '../../src/units/arithmetic.ts';
import { unit } from '../../src/units/parse.ts';

const overOne = { quantities: [quantity(1, 'g')] };

describe('levelScaleOf', () => {
  it('has whole steps of dB on its log axis, within the domain', () => {
    const { axis } = levelScaleOf(unit('g^2/Hz'), overOne).logarithmic('density', { from: 2e-7, to: 0.3 }) as {
      axis: { title: string; values: number[] };
    };
    assert.equal(axis.title, 'Density (dB re (1 g)²/Hz)');
    assert.deepEqual(
      axis.values.map((value) => Math.round(10 * Math.log10(value))),
      [-60, -50, -40, -30, -20, -10],
    );
  });

  it('begins a linear axis below the lowest level, since zero dB is no end', () => {
    const { scale } = levelScaleOf(unit('g'), overOne).linear('v', 'r.m.s.', [0.01, 0.1]) as {
      scale: { domain: number[]; zero: boolean };
    };
    assert.deepEqual(scale.domain, [-46, -17]);
    assert.equal(scale.zero, false);
  });

  it('leaves figures as they are without a reference of their dimension', () => {
    for (const reference of [undefined, { quantities: [quantity(1, 'mm/s')] }]) {
      const scale = levelScaleOf(unit('g'), reference);
      assert.deepEqual([scale.unit, scale.of(0.25), scale.write(0.25, 3)], ['g', 0.25, '0.250']);
    }
  });
});
