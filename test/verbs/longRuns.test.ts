import { strict as assert } from 'node:assert';
import { Engine } from '../../src/engine/engine.ts';
import type { PartSizes } from '../../src/readers/recording.ts';
import type { RunningValue } from '../../src/values/running.ts';
import { MemoryHost, quietWatch } from '../engine/memoryFiles.ts';
import { difference, sizes, SmallHost, statements, withGap } from './longHost.ts';

const contents = { 'run.csv': withGap() };
const load = 'a = load "run.csv"';

async function differenceOf(cell: string, own: PartSizes = sizes): Promise<number> {
  const whole = await statements(new MemoryHost(contents), [load, cell]);
  return difference(whole, await statements(new SmallHost(own, contents), [load, cell]), cell);
}

describe('a recording that is too large for memory', () => {
  it('gives to the last digit the spectra and what is made of them, whatever the parts', async () => {
    for (const cell of [
      'spectrum a using window hann 1 s',
      'spectrum (a | trim 2..38 s) as amplitude using window hann 1 s overlap 75 %',
      'band 2..80 Hz (spectrum a as velocity)',
      'peaks (spectrum (channel a z))',
      'spectrogram a',
      'spectrogram (a in m/s^2) using window hann 0.2 s',
    ])
      for (const part of [30_000, 77_777]) assert.equal(await differenceOf(cell, { ...sizes, part }), 0, cell);
  });

  it('gives to the last digit its levels and running levels', async () => {
    for (const cell of [
      'levels a',
      'levels (a | trim 2..38 s)',
      'levels ((channel a z) in mm/s^2)',
      'running a over 0.5 s',
    ]) {
      const own = { ...sizes, most: cell.startsWith('running') ? 1e6 : sizes.most };
      assert.equal(await differenceOf(cell, { ...own, part: 17_000 }), 0, cell);
    }
  });

  it('gives a stretch that fits into memory as a run like any other', async () => {
    for (const cell of ['a | trim 5..12 s | highpass 2 Hz | levels', 'check (channel a z | trim 5..25 s)'])
      assert.equal(await differenceOf(cell), 0, cell);
  });

  it('is refused by a verb that needs all samples at once, in a sentence that says which do not', async () => {
    for (const [cell, verb] of [
      ['highpass a 2 Hz', 'highpass'],
      ['resample a 100 Hz', 'resample'],
      ['integrate a to velocity', 'integrate'],
      ['check a', 'check'],
      ['resultant a', 'resultant'],
    ] as const) {
      const { results } = await new Engine(new SmallHost(sizes, contents)).run(
        { cells: [load, cell], wanted: 'all' },
        quietWatch,
      );
      const found = JSON.stringify(results[1]);
      assert.ok(found.includes('"run.long"'), `${cell}: ${found}`);
      assert.match(
        found,
        new RegExp(
          `run is too large for memory, and ${verb} needs all .*: trim it to at most 10 s first; .*levels, running`,
        ),
      );
    }
  });

  it('keeps the lowest and the highest of so many running levels where there are too many, and says so', async () => {
    const of = async (host: MemoryHost): Promise<RunningValue> => {
      const cells = [load, 'running (channel a z) over 0.5 s'];
      const { results } = await new Engine(host).run({ cells, wanted: 'all' }, quietWatch);
      assert.deepEqual(
        results[1].warnings.map(({ code }) => code),
        host instanceof SmallHost ? ['running.thinned'] : [],
      );
      assert.ok(results[1].value?.kind === 'running');
      return results[1].value;
    };
    const [whole] = (await of(new MemoryHost(contents))).entries;
    const [thin] = (await of(new SmallHost({ ...sizes, most: 800 }, contents))).entries;
    assert.ok(thin.times.length < 200 && whole.times.length > 5000);
    assert.ok(thin.largest === whole.largest && thin.largestAt === whole.largestAt);
    for (const [i, time] of thin.times.entries()) {
      const at = whole.times.indexOf(time);
      assert.ok(at >= 0 && thin.rms[i] === whole.rms[at]);
    }
  });

  it('refuses a calibration that would have to be applied to all samples', async () => {
    const still = Object.fromEntries(
      (['x', 'y', 'z'] as const).flatMap((axis, k) =>
        [1, -1].map((sign) => [`still-${axis}${sign}.csv`, stillFile(k, sign)]),
      ),
    );
    const host = new SmallHost(sizes, contents);
    for (const [path, text] of Object.entries(still)) host.contents.set(path, text);
    const cells = ['c = calibrate (load "still-*.csv")', 'load "run.csv" calibration c'];
    const { results } = await new Engine(host).run({ cells, wanted: 'all' }, quietWatch);
    assert.ok(JSON.stringify(results[1]).includes('"load.long"'), JSON.stringify(results));
  });
});

/** A sensor at rest with gravity along one of its axes. */
function stillFile(axis: number, sign: number): string {
  const rows = Array.from({ length: 30 }, (_, i) => {
    const values = [0, 1, 2].map((k) => (k === axis ? sign : 0) + 0.0001 * (((i + k) % 5) - 2));
    return [(i / 200).toFixed(4), ...values.map((value) => value.toFixed(4))].join(',');
  });
  return ['t (s),x (g),y (g),z (g)', ...rows, ''].join('\n');
}
