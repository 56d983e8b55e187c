import { strict as assert } from 'node:assert';
import { Cache } from '../../src/engine/cache.ts';
import { withoutSamples } from '../../src/values/away.ts';
import { signalsOf, type Run } from '../../src/values/run.ts';
import { answered } from '../../src/result/result.ts';
import type { Value } from '../../src/values/value.ts';
import { madeRun } from '../charts/madeUp.ts';

const bytesOf = (run: Run): number => signalsOf(run).reduce((sum, { samples }) => sum + samples.byteLength, 0);
const runs = Array.from({ length: 12 }, (_, k) => madeRun(`r${k}`, k + 1));
const room = 4 * bytesOf(runs[0]);
const valueOf = (run: Run): Value => ({ kind: 'runs', set: undefined, runs: [run] });

describe('answers in memory', () => {
  it('let samples go that the run at hand has not touched, the least recently used first', () => {
    const cache = new Cache({ samples: room });
    cache.begin();
    for (const run of runs.slice(0, 4)) {
      assert.ok(cache.admits(run));
      cache.set(run.label, answered(valueOf(run)));
    }
    assert.ok(!cache.admits(runs[4]), 'of the run at hand none goes');
    assert.ok(cache.isShort);
    cache.begin();
    cache.get('r0');
    assert.ok(cache.admits(runs[4]));
    assert.deepEqual(
      runs.slice(0, 5).map((run) => cache.holds(run)),
      [true, false, true, true, true],
    );
  });

  it('stay without the samples that went, with all that was made of them', () => {
    const cache = new Cache({ samples: room });
    cache.begin();
    for (const run of runs.slice(0, 4)) {
      assert.ok(cache.admits(run));
      cache.set(run.label, answered(valueOf(run)));
    }
    const before = cache.bytes;
    cache.begin();
    assert.ok(cache.admits(runs[4]));
    assert.deepEqual(cache.get('r0'), withoutSamples(answered(valueOf(runs[0]))));
    assert.deepEqual(cache.get('r1'), answered(valueOf(runs[1])));
    assert.equal(cache.bytes, before - bytesOf(runs[0]));
  });

  it('let samples go that an answer held before they were known as such', () => {
    const cache = new Cache({ samples: room });
    cache.begin();
    for (const run of runs.slice(0, 4)) {
      cache.set(run.label, answered(valueOf(run)));
      assert.ok(cache.admits(run));
    }
    cache.begin();
    assert.ok(cache.admits(runs[4]));
    assert.ok(!cache.holds(runs[0]));
  });

  it('are not looked through for each recording that comes, where they hold no samples', () => {
    const cache = new Cache({ samples: room });
    let looks = 0;
    cache.begin();
    for (let k = 0; k < 500; k++) {
      const text: Value = { kind: 'text', text: `${k}` };
      const seen = Object.defineProperty({ ...answered(text) }, 'value', {
        get: () => (looks++, text),
        enumerable: true,
      });
      cache.set(`old ${k}`, seen);
    }
    const before = looks;
    cache.begin();
    for (const run of runs) if (cache.admits(run)) cache.set(run.label, answered(valueOf(run)));
    assert.equal(looks, before);
  });
});
