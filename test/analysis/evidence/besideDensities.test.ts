import { strict as assert } from 'node:assert';
import { besideDensities } from '../../../src/analysis/evidence/besideDensities.ts';
import type { Track } from '../../../src/analysis/evidence/sides.ts';
import { spectrumOf } from '../../../src/analysis/spectra/spectrum.ts';
import { success } from '../../../src/result/result.ts';
import { welchDensity } from '../../../src/signal/welch.ts';
import type { Files, WantedDensity } from '../../../src/values/ports.ts';
import type { Channel, Run, Signal } from '../../../src/values/run.ts';
import type { WindowValue } from '../../../src/values/window.ts';
import { quietWatch } from '../../engine/memoryFiles.ts';

const window: WindowValue = { kind: 'window', shape: 'hann', length: 2, overlap: 0.5 };
const signal = (count: number, seed: number): Signal => ({
  name: 'z',
  unit: { symbol: 'g' } as Signal['unit'],
  unitFrom: 'the header',
  includesStatic: true,
  samples: Float64Array.from({ length: count }, (_, i) => Math.sin(i * (0.3 + seed)) + Math.sin(i * i * 0.01)),
});

function track(channel: Channel, count: number, cut = 0.4): Track {
  const stretches = [
    { from: 0, to: Math.floor(cut * count), start: 0 },
    { from: Math.floor(cut * count), to: count, start: 1000 },
  ];
  const run = { label: 'run', rate: 100, stretches, channels: [channel] } as unknown as Run;
  return { run, channel };
}

/** Files of a host with other threads, that make every density but those of some places. */
function filesWith(missing: readonly number[] = []): { readonly files: Files; readonly asked: WantedDensity[] } {
  const asked: WantedDensity[] = [];
  const files: Files = {
    expand: () => Promise.resolve(success([])),
    open: () => Promise.reject(new Error('nothing is opened')),
    identify: () => Promise.reject(new Error('nothing is identified')),
    densities: (wanted) => {
      asked.push(...wanted);
      return Promise.resolve(
        wanted.map(({ pieces, options }, k) => (missing.includes(k) ? undefined : welchDensity(pieces, options))),
      );
    },
  };
  return { files, asked };
}

describe('densities of a comparison that other threads make', () => {
  const count = 300_000;
  const [one, two] = [signal(count, 0.1), signal(count, 0.2)];
  const resultant = {
    ...one,
    samples: undefined,
    axes: [signal(count, 0.3), signal(count, 0.4)],
  } as unknown as Channel;
  const tracks = [track(one, count), track(two, count), track(resultant, count), track(signal(count, 0.5), count)];

  it('are those that a spectrum makes, to the bit, of signals and resultants', async () => {
    const { files } = filesWith();
    const found = await besideDensities(tracks, window, { files, watch: quietWatch });
    assert.equal(found.size, 4);
    for (const { run, channel } of tracks) {
      const alone = spectrumOf({ set: undefined, runs: [run] }, { window }, quietWatch);
      assert.ok(alone.ok);
      assert.deepEqual(found.get(channel)?.density, alone.value.entries[0].density);
    }
  });

  it('are left to be made where a thread failed, of a resultant with any of its axes', async () => {
    const { files } = filesWith([0, 3]);
    const found = await besideDensities(tracks, window, { files, watch: quietWatch });
    assert.deepEqual([...found.keys()], [tracks[1].channel, tracks[3].channel]);
  });

  it('are not asked for where there is little to do, a run holds no segment, or is uneven', async () => {
    const { files, asked } = filesWith();
    const uneven = { ...tracks[0].run, stamps: { times: new Float64Array(count), jitter: 0.1 } };
    for (const some of [
      tracks.slice(0, 1),
      [...tracks, track(signal(150, 1), 150)],
      [{ ...tracks[0], run: uneven }, ...tracks],
    ])
      assert.equal((await besideDensities(some, window, { files, watch: quietWatch })).size, 0);
    assert.equal(asked.length, 0);
    const { densities: _none, ...without } = files;
    assert.equal((await besideDensities(tracks, window, { files: without, watch: quietWatch })).size, 0);
  });
});
