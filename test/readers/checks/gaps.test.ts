import { strict as assert } from 'node:assert';
import { gapFinding, gapsOf } from '../../../src/readers/checks/gaps.ts';
import type { Clock } from '../../../src/readers/recording.ts';

/** Two stretches of eight samples at 4 Hz, the second of which begins at a time in s. */
const clock = (start: number): Clock => ({
  rate: 4,
  rateFrom: 'stamps',
  epoch: 0,
  stretches: [
    { from: 0, to: 8, start: 0 },
    { from: 8, to: 16, start },
  ],
  jitter: 0,
  times: undefined,
});

describe('the gaps of a clock', () => {
  it('last from the last sample before to the first after', () => {
    assert.deepEqual(gapsOf(clock(5)), [{ from: 1.75, to: 5, row: 8 }]);
  });

  it('are longer than a step and a quarter', () => {
    assert.deepEqual(gapsOf(clock(2)), []);
    assert.deepEqual(gapsOf(clock(2.0625)), []);
    assert.deepEqual(gapsOf(clock(2.125)), [{ from: 1.75, to: 2.125, row: 8 }]);
  });

  it('are a finding with the share of what is missing, a warning beyond 1 %', () => {
    const found = gapFinding(clock(5), { missing: 12 }, (row) => row + 2);
    assert.equal(found?.value, 12 / 28);
    assert.equal(found?.severity, 'warning');
    assert.deepEqual(found?.spans, [{ from: 1.75, to: 5 }]);
    assert.match(
      found?.message ?? '',
      /^A gap leaves out 12 samples \(42\.9 %\), the gap at 1\.75 s \(line 10\), the longest 3\.25 s:/,
    );
    assert.equal(gapFinding(clock(5), { missing: 0 }, () => undefined)?.severity, 'note');
    assert.equal(
      gapFinding(clock(2), { missing: 0 }, () => undefined),
      undefined,
    );
  });
});
