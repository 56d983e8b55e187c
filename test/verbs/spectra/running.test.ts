import { strict as assert } from 'node:assert';
import { moments } from '../../../src/signal/levels.ts';
import { runningRms } from '../../../src/signal/running.ts';
import { axesOf } from '../../../src/values/run.ts';
import { tabulate } from '../../../src/values/tabulate.ts';
import { toJson } from '../../../src/values/json.ts';
import { errorOf, near, recordingOf, resultOf, sine, valueOf, warningsOf } from '../notebook.ts';

const load = 'r = load "a.csv" unit g\n';
/** 10 Hz, three times as strong from 12 s to 14 s; a gap of 3 s after 15 s. */
const at = Array.from({ length: 5000 }, (_, i) => i / 200 + (i < 3000 ? 0 : 3));
const burst = {
  'a.csv': recordingOf({ z: (t) => 1 + sine(10)(t) * (t >= 12 && t < 14 ? 3 : 1) }, { times: at }),
};

describe('running', () => {
  it('follows the level, with gravity taken out, and marks its maximum on the recording’s axis', async () => {
    const { entries, over } = await valueOf('running', `${load}running r over 1 s`, burst);
    const [entry] = entries;
    assert.equal(over, 1);
    near(entry.rms[entry.times.indexOf(5)], Math.SQRT1_2, 2e-3);
    near(entry.largest, 3 * Math.SQRT1_2, 2e-3);
    assert.ok(entry.largestAt >= 12.99 && entry.largestAt < 14.01, String(entry.largestAt));
    near(entry.times[0], 1 - 1 / 200, 1e-9);
  });

  it('keeps the recording’s times after a trim, and has no span across a gap', async () => {
    const part = (await valueOf('running', `${load}trim r 10..27 s | running over 1 s`, burst)).entries[0];
    near(part.times[0], 11 - 1 / 200, 1e-9);
    const steps = part.times.map((t, i) => (i === 0 ? 0 : t - part.times[i - 1]));
    const jumps = steps.filter((step) => step > 0.0051);
    assert.equal(jumps.length, 1);
    near(jumps[0], 4, 1e-6);
  });

  it('takes 1 s where nothing is said, and any other span', async () => {
    assert.equal((await valueOf('running', `${load}running r`, burst)).over, 1);
    const short = (await valueOf('running', `${load}running r over 100 ms`, burst)).entries[0];
    near(short.largest, 3 * Math.SQRT1_2, 5e-3);
  });

  it('refuses a span that does not fit, and warns of one of few samples', async () => {
    const { code, message } = await errorOf(`${load}running r over 20 s`, burst);
    assert.equal(code, 'running.long');
    assert.match(message, /stretch of a is 15 s/);
    assert.equal((await errorOf(`${load}running r over 1 us`, burst)).code, 'running.short');
    assert.deepEqual(await warningsOf(`${load}running r over 20 ms`, burst), ['running.few']);
  });

  it('is of a long stretch what all of it gives at once, with times that the channels share', async () => {
    const rate = 1000;
    const times = Array.from({ length: 200_003 }, (_, i) => i / rate + (i < 90_000 ? 0 : 5));
    const loud = (t: number): number => (t > 150 && t < 151 ? 4 : 1);
    const files = { 'a.csv': recordingOf({ x: (t) => loud(t) * sine(7.3)(t), z: sine(11.9) }, { times }) };
    const { entries } = await valueOf('running', `${load}running r over 0.3 s`, files);
    const lengths = [90_000, 110_003];
    for (const { run, channel, times: ends, rms, largest, largestAt } of entries) {
      const [{ samples }] = axesOf(channel);
      const { mean } = moments(samples);
      const wholes = run.stretches.map(({ from, to }) => runningRms(samples.subarray(from, to), 300, mean));
      assert.deepEqual(
        run.stretches.map(({ from, to }) => to - from),
        lengths,
      );
      assert.deepEqual(rms, Float64Array.from(wholes.flatMap(({ values }) => [...values])));
      const [{ start }] = run.stretches.slice(1);
      const at =
        wholes[0].maximum >= wholes[1].maximum
          ? wholes[0].maximumAt / run.rate
          : start + wholes[1].maximumAt / run.rate;
      assert.deepEqual([largest, largestAt], [Math.max(...wholes.map(({ maximum }) => maximum)), at]);
      assert.equal(ends[lengths[0] - 299], start + 299 / run.rate);
    }
    assert.equal(entries[0].times, entries[1].times);
  });

  it('stands in table and JSON span after span, so that their mean square is the run’s', async () => {
    const value = await valueOf('running', `${load}trim r 0..12 s | running over 1 s`, burst);
    const { rows } = toJson(value) as { rows: { time_s: number[]; rms: number[]; largest: number }[] };
    assert.deepEqual(
      rows[0].time_s.map((t) => Math.round(t)),
      [1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12],
    );
    near(Math.sqrt(rows[0].rms.reduce((sum, v) => sum + v * v, 0) / 12), Math.SQRT1_2, 1e-4);
    assert.equal(tabulate(value)?.rows.length, 12);
    const field = await resultOf(`${load}R = running r\nR.largest`, burst);
    assert.ok(field.value?.kind === 'quantity' && field.value.quantity.unit.symbol === 'g');
  });
});
