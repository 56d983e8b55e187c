import { strict as assert } from 'node:assert';
import { findingOf, recordingOf, refusalOf, rows, samplesOf } from './memory.ts';

const turns = (names: readonly [string, string], later: number, top = (k: number): number => k / 100): string =>
  'time (s),sensor,x (g),z (g)\n' +
  rows(400, (i) => {
    const k = Math.floor(i / 2);
    const isTop = i % 2 === 1;
    return [(0.01 * k + (isTop ? later : 0)).toFixed(4), names[i % 2], isTop ? top(k) : -k / 100, 1];
  });

describe('several sensors of a long-form file', () => {
  it('stand side by side at the times of the first, each channel with its sensor’s name', async () => {
    const recording = await recordingOf(turns(['seat base', 'top'], 0), { sensors: ['seat base', 'top'] });
    assert.deepEqual(
      recording.channels.map(({ name, unit, axis }) => [name, unit, axis]),
      ['seat_base_x', 'seat_base_z', 'top_x', 'top_z'].map((name) => [name, 'g', true]),
    );
    assert.deepEqual(samplesOf(recording, 'top_x').slice(0, 3), [0, 0.01, 0.02]);
    assert.deepEqual(samplesOf(recording, 'seat_base_x').slice(1, 3), [-0.01, -0.02]);
    assert.equal(recording.clock.rate, 100);
    assert.equal(findingOf(recording, 'sensors-offset'), undefined);
  });

  it('are told by how much later one is read than the other', async () => {
    const recording = await recordingOf(turns(['1', '2'], 0.0025), { sensors: ['1', '2'] });
    assert.deepEqual([recording.channels[0].name, recording.channels[2].name], ['sensor1_x', 'sensor2_x']);
    assert.match(
      findingOf(recording, 'sensors-offset')!.message,
      /sensor2 is read 2\.5 ms after sensor1.* 0\.9° at 1 Hz/,
    );
  });

  it('take the same of two readings where they take turns evenly, whatever the rounding of the stamps', async () => {
    const text = `ms\tunit id\tx mg\tz mg\n${rows(4000, (i) => [((1000 * i) / 833.3).toFixed(2), ['hub', 'rail'][i % 2], i, 1000], '\t')}`;
    const recording = await recordingOf(text, { sensors: ['hub', 'rail'] });
    assert.equal(recording.clock.stretches.length, 1);
    assert.equal(findingOf(recording, 'empty-cells'), undefined);
    const [hub, rail] = ['hub_x', 'rail_x'].map((name) => samplesOf(recording, name));
    assert.equal(rail.length, 2000);
    assert.ok(rail.every((value, k) => value - hub[k] === 1));
    assert.match(findingOf(recording, 'sensors-offset')!.message, /rail is read 1\.2 ms after hub/);
  });

  it('are met row by row where one has lost some, and those rows count as lost', async () => {
    const text = turns(['base', 'top'], 0)
      .split('\n')
      .filter((line) => !line.startsWith('0.5000,top'))
      .join('\n');
    const recording = await recordingOf(text, { sensors: ['base', 'top'] });
    assert.equal(findingOf(recording, 'empty-cells')?.value, 1);
    assert.deepEqual(samplesOf(recording, 'top_x').slice(49, 51), [0.49, 0.51]);
  });

  it('are met in their order where rows share stamps or have none, and not at all where one of them has more rows', async () => {
    const options = { sensors: ['base', 'top'] };
    const shared =
      'time (s),sensor,x (g),z (g)\n' +
      rows(800, (i) => [(0.04 * Math.floor(i / 8)).toFixed(2), ['base', 'top'][i % 2], Math.floor(i / 2), 1]);
    const bare = shared.replace(/^[^,]*,/gm, '');
    for (const [text, given] of [
      [shared, options],
      [bare, { ...options, rate: 100 }],
    ] as const) {
      const recording = await recordingOf(text, given);
      const [base, top] = ['base_x', 'top_x'].map((name) => samplesOf(recording, name));
      assert.deepEqual(top, base);
      assert.deepEqual([base.length, base[7]], [400, 7]);
      const lost = text
        .split('\n')
        .filter((_, line) => line !== 302)
        .join('\n');
      assert.equal((await refusalOf(lost, given)).code, 'sensors-apart');
    }
  });

  it('are refused at unequal rates, whichever stands first', async () => {
    // At 200 Hz and at 180 Hz: nine of ten rows meet, and would look like a clock of 180 Hz.
    const events = [200, 180].flatMap((rate) => Array.from({ length: 5 * rate }, (_, i) => [i / rate, rate] as const));
    events.sort((a, b) => a[0] - b[0]);
    const text =
      'time (s),sensor,z (g)\n' +
      rows(events.length, (i) => [events[i][0].toFixed(4), events[i][1] === 200 ? 'base' : 'top', 1]);
    for (const sensors of [
      ['base', 'top'],
      ['top', 'base'],
    ]) {
      const failure = await refusalOf(text, { sensors });
      assert.equal(failure.code, 'sensors-unequal');
      assert.match(failure.message, /top (is read )?at 180 Hz/);
    }
  });

  it('are refused where they are not read together, and without a name', async () => {
    const apart = 'time (s),sensor,z (g)\n' + rows(40, (i) => [i < 20 ? i : i + 500, i < 20 ? 'base' : 'top', 1]);
    const { code, message } = await refusalOf(apart, { sensors: ['base', 'top'] });
    assert.equal(code, 'sensors-apart');
    assert.match(message, /0 of 20 rows/);
    assert.match((await refusalOf(turns(['base', 'top'], 0))).message, /sensor "base", "top"\.$/);
  });
});
