import { strict as assert } from 'node:assert';
import { spikes } from '../../../src/readers/checks/spikes.ts';
import type { CheckedRun } from '../../../src/readers/checks/checked.ts';
import type { Finding, Stretch } from '../../../src/readers/recording.ts';

/** Even noise about `middle` in so many samples: half of them within 1, all within 2, so that 12 deviations are 17.8. */
const limit = 12 * 1.4826;
const noise = (middle = 0, count = 400): Float64Array =>
  Float64Array.from({ length: count }, (_, i) => middle + ((i * 163) % 401) / 100 - 2);

function found(samples: Float64Array, stretches?: readonly Stretch[]): Finding | undefined {
  const run: CheckedRun = {
    rate: 100,
    stretches: stretches ?? [{ from: 0, to: samples.length, start: 0 }],
    channels: [{ name: 'z', unit: 'g', axis: true, samples }],
  };
  return spikes(run, {}).at(0);
}

const with_ = (places: Readonly<Record<number, number>>, middle = 0): Float64Array => {
  const samples = noise(middle);
  for (const [at, value] of Object.entries(places)) samples[Number(at)] = value;
  return samples;
};

describe('spikes', () => {
  it('are lone samples farther from the middle than 12 deviations, on either side', () => {
    assert.equal(found(noise()), undefined);
    for (const middle of [0, 50])
      for (const side of [1, -1]) {
        assert.equal(found(with_({ 100: middle + side * 0.95 * limit }, middle)), undefined);
        const spike = found(with_({ 100: middle + side * 1.05 * limit }, middle));
        assert.deepEqual([spike?.code, spike?.severity, spike?.channel], ['spikes', 'warning', 'z']);
        assert.ok(Math.abs((spike?.value ?? 0) - 1.05 * 12) < 0.3, String(spike?.value));
        assert.equal(spike?.threshold, 12);
      }
  });

  it('are counted, told with the largest, and where they are', () => {
    const spike = found(with_({ 100: 2 * limit, 200: -3 * limit, 301: 2 * limit }));
    const facts = spike?.facts as { count: number; largest: number; limit: number; unit: string };
    assert.equal(facts.count, 3);
    assert.ok(Math.abs(facts.largest - 36) < 1 && Math.abs(facts.limit - limit) < 0.5);
    const places = spike?.spans?.map(({ from, to }) => [from, to].map((time) => Number(time.toFixed(6))));
    assert.deepEqual(
      places?.map(([from]) => from),
      [1, 2, 3.01],
    );
    for (const [from, to] of places ?? []) assert.ok(Math.abs(to - from - 0.01) < 1e-6);
  });

  it('are none that last: a sample beside them is half as far, or beyond the limit itself', () => {
    assert.equal(found(with_({ 100: 1.8 * limit, 101: 0.95 * limit })), undefined);
    assert.equal(found(with_({ 100: 0.95 * limit, 101: 1.8 * limit })), undefined);
    assert.equal(found(with_({ 100: 3 * limit, 101: 1.2 * limit })), undefined);
    assert.equal(found(with_({ 100: 1.2 * limit, 101: 3 * limit })), undefined);
    assert.notEqual(found(with_({ 100: 3 * limit, 101: 0.9 * limit })), undefined);
    assert.notEqual(found(with_({ 100: 3 * limit, 101: -0.9 * limit })), undefined);
    assert.equal(found(with_({ 100: 1.8 * limit, 101: -0.95 * limit })), undefined);
    assert.equal(found(with_({ 100: 50 + 1.8 * limit, 101: 50 + 0.95 * limit }, 50)), undefined);
  });

  it('are found at both ends of a recording, and beside a gap, whatever lies beyond it', () => {
    assert.notEqual(found(with_({ 0: 2 * limit })), undefined);
    assert.notEqual(found(with_({ 399: 2 * limit })), undefined);
    const apart = [
      { from: 0, to: 200, start: 0 },
      { from: 200, to: 400, start: 10 },
    ];
    const twins = with_({ 199: 2 * limit, 200: 2 * limit });
    assert.equal(found(twins), undefined);
    assert.deepEqual(
      found(twins, apart)?.spans?.map(({ from }) => Number(from.toFixed(6))),
      [1.99, 10],
    );
  });

  it('are held against a step of the converter where the channel hardly moves', () => {
    const still = (height: number): Float64Array =>
      Float64Array.from({ length: 400 }, (_, i) => (i === 70 ? 1 : i === 200 ? height : 0));
    assert.equal(found(still(12)), undefined);
    assert.notEqual(found(still(13)), undefined);
    assert.equal(found(new Float64Array(400)), undefined);
  });
});
