import { strict as assert } from 'node:assert';
import { rangeOf } from '../../../src/readers/messages/figures.ts';

const of = (name: string, values: readonly number[]) => values.map((value) => ({ facts: { [name]: value } }));

describe('the range of what findings of several runs turn on', () => {
  it('goes from the smallest to the largest as the sentences write it, or is one figure', () => {
    assert.equal(rangeOf('clipped', of('share', [0.1975, 0.0201, 0.05])), '2.01 % to 19.8 %');
    assert.equal(rangeOf('drift', of('change', [0.1, -0.25])), '-0.25 g to 0.1 g');
    assert.equal(rangeOf('uneven', of('jitter', [0.20001, 0.20002])), '20 %');
    for (const code of ['aliasing', 'gap', 'one-event', 'readings-repeat'])
      assert.equal(rangeOf(code, of('share', [0.3, 0.125])), '12.5 % to 30 %', code);
    assert.equal(rangeOf('gravity', of('length', [0.9, 1.1])), '0.9 g to 1.1 g');
    assert.equal(rangeOf('spikes', of('count', [7, 1, 12])), '1 to 12');
  });

  it('is none of findings that turn on no figure', () => {
    assert.equal(rangeOf('bursts', of('share', [1, 2])), undefined);
    assert.equal(rangeOf('toString', of('share', [1])), undefined);
  });
});
