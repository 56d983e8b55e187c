import { strict as assert } from 'node:assert';
import { drift } from '../../../src/readers/checks/drift.ts';
import { settings } from '../../../src/readers/settings.ts';
import { runOf, samplesOf } from './made.ts';

/** A line that rises by so many g from its first second to its last, of so many seconds. */
const rising = (change: number, seconds: number, rate = 10): number[] =>
  samplesOf(seconds * rate, (i) => (change * Math.floor(i / rate)) / (seconds - 1));

describe('a line that drifts', () => {
  it('is told with its change from the first second to the last, one way and the other', () => {
    for (const change of [0.2, -0.2]) {
      const [found, ...others] = drift(runOf({ z: rising(change, 30) }), {});
      assert.equal(others.length, 0);
      assert.deepEqual([found.code, found.severity, found.channel], ['drift', 'warning', 'z']);
      assert.ok(Math.abs(found.value! - change) < 1e-9, String(found.value));
      assert.equal(found.threshold, settings.drift);
    }
  });

  it('is none up to the limit, or in less than six seconds', () => {
    assert.deepEqual(drift(runOf({ z: rising(0.99 * settings.drift, 30) }), {}), []);
    assert.equal(drift(runOf({ z: rising(1.01 * settings.drift, 30) }), {}).length, 1);
    assert.deepEqual(drift(runOf({ z: rising(0.2, 5) }), {}), []);
    assert.equal(drift(runOf({ z: rising(0.2, 6) }), {}).length, 1);
  });

  it('is measured in g, whatever the unit, and not in what is no acceleration', () => {
    const inMetres = rising(0.2 * 9.80665, 30);
    const [found] = drift(runOf({ z: inMetres }, { channel: { unit: 'm/s^2' } }), {});
    assert.ok(Math.abs(found.value! - 0.2) < 1e-9);
    for (const unit of ['N', undefined])
      assert.deepEqual(drift(runOf({ z: rising(5, 30) }, { channel: { unit } }), {}), []);
  });

  it('is none where the means wander by as much as they rise', () => {
    const wandering = samplesOf(300, (i) => 0.3 * ((7 * Math.floor(i / 10)) % 11) + (0.1 * i) / 300);
    assert.deepEqual(drift(runOf({ z: wandering }), {}), []);
  });

  it('is found of samples slower than one a second, and of seconds without a gap', () => {
    const [slow] = drift(runOf({ z: samplesOf(30, (i) => 0.01 * i) }, { rate: 0.25 }), {});
    assert.ok(Math.abs(slow.value! - 0.29) < 1e-9);
    // A second that a gap cuts is of no use: of these 80 samples are 7 whole seconds.
    const cut = runOf(
      { z: samplesOf(80, (i) => (i === 39 ? 1e6 : 0.1 * Math.floor(i / 10))) },
      {
        stretches: [
          [0, 39],
          [40, 80],
        ],
      },
    );
    const [found] = drift(cut, {});
    assert.ok(Math.abs(found.value! - 0.1 * 6) < 0.15, String(found.value));
  });
});
