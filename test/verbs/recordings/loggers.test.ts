import { strict as assert } from 'node:assert';
import { fieldOf } from '../../../src/values/fields.ts';
import { savedTables } from '../../../src/values/tabulate.ts';
import { near, resultOf, valueOf, warningsOf } from '../notebook.ts';
import { loggerFile, shaking } from '../sideBySide.ts';

const plate = [shaking(21)];
const cell = 'a = load "a.csv"\nb = load "b.csv"\nloggers a with b over 5..50 Hz';

describe('loggers', () => {
  it('finds how late and how fast one clock is, whatever the rates, and what it reads more', async () => {
    for (const [late, ppm, rate, gain] of [
      [0.42, 35, 200, 1.018],
      [-3.1, -140, 250, 0.97],
      [1.5, 4000, 160, 1.05],
    ]) {
      const files = {
        'a.csv': loggerFile(plate, { seconds: 50 }),
        'b.csv': loggerFile(plate, { ...{ late, ppm, rate, gain }, seconds: 45, seed: 2 }),
      };
      const { clock, rows, sentence } = await valueOf('loggers', cell, files);
      assert.ok(Math.abs(clock.late - late) < 1e-4, `${clock.late} s for ${late}`);
      assert.ok(Math.abs(1e6 * clock.fast - ppm) < 3, `${1e6 * clock.fast} ppm for ${ppm}`);
      const [{ ratio, low = NaN, high = NaN, coherence }] = rows;
      near(ratio, gain, 0.002);
      assert.ok(low < gain && gain < high, `${low} to ${high} for ${gain}`);
      assert.ok(coherence > 0.99);
      assert.match(sentence, late > 0 ? / s late and runs / : / s early and runs /);
    }
  });

  it('says it in one sentence that may be printed', async () => {
    const files = {
      'a.csv': loggerFile(plate),
      'b.csv': loggerFile(plate, { late: 0.42, ppm: 35, gain: 1.018, seed: 2 }),
    };
    const { sentence } = await valueOf('loggers', cell, files);
    assert.match(
      sentence,
      /^Against a, logger b reads 1\.\d+ % higher, \+1\.\d+ to \+1\.\d+ %, in z from 5 to 50 Hz \(coherence 0\.999 on average\); its clock is 0\.42 s late and runs 3\d\.\d+ ± 0\.\d+ ppm fast \(95 % intervals\)\.$/,
    );
  });

  it('says neither higher nor lower of loggers that read alike', async () => {
    const files = { 'a.csv': loggerFile(plate), 'b.csv': loggerFile(plate, { late: 0.42, seed: 2 }) };
    const { sentence } = await valueOf('loggers', cell, files);
    assert.match(
      sentence,
      /^Against a, logger b reads the same within 0\.\d+ % in z .* runs at the same rate within \d+\.\d+ ppm/,
    );
  });

  it('bridges lost samples that the stamps tell of', async () => {
    const rows = loggerFile(plate, { late: 0.42, ppm: 35, seed: 2 }).split('\n');
    const files = { 'a.csv': loggerFile(plate), 'b.csv': [...rows.slice(0, 3000), ...rows.slice(3060)].join('\n') };
    const { clock, rows: found } = await valueOf('loggers', cell, files);
    assert.ok(Math.abs(clock.late - 0.42) < 1e-4);
    assert.ok(found[0].coherence > 0.99);
    assert.ok(!(await warningsOf(cell, files)).includes('loggers.wander'));
  });

  it('gives fields with their uncertainty, and saves its clock and its responses', async () => {
    const files = {
      'a.csv': loggerFile(plate),
      'b.csv': loggerFile(plate, { late: 0.42, ppm: 35, gain: 1.018, seed: 2 }),
    };
    const value = await valueOf('loggers', cell, files);
    const late = fieldOf(value, 'late');
    assert.ok(late.ok && late.value.kind === 'quantity' && late.value.parts![0].size < 1e-4);
    const difference = fieldOf(value, 'difference');
    assert.ok(difference.ok && difference.value.kind === 'quantity');
    near(difference.value.quantity.value, 100 * (value.rows[0].ratio - 1), 1e-12);
    near(difference.value.parts![0].size, 100 * value.rows[0].ratio * value.rows[0].error!, 1e-12);
    const [bands, clock, responses] = savedTables(value);
    assert.equal(bands.cells.rows.length, 1);
    assert.equal(clock.of, 'clock');
    assert.equal(clock.cells.rows.length, 1);
    assert.equal(responses.cells.rows.length, value.responses[0].magnitude.length);
  });

  it('reads what is in other units of one dimension', async () => {
    const files = {
      'a.csv': loggerFile(plate),
      'b.csv': loggerFile(plate, { gain: 9.80665, hiss: 0.1, seed: 2, channels: ['z (m/s^2)'] }),
    };
    const [row] = (await valueOf('loggers', cell, files)).rows;
    near(row.ratio, 1, 0.003);
    assert.equal(row.unit.symbol, 'g');
  });

  it('refuses a pure tone, which fits at every turn of it', async () => {
    const tone = [(t: number) => Math.sin(2 * Math.PI * 12 * t)];
    const files = { 'a.csv': loggerFile(tone), 'b.csv': loggerFile(tone, { late: 0.42, seed: 2 }) };
    const { error } = await resultOf(cell, files);
    assert.equal(error?.code, 'loggers.unrelated');
  });

  it('is accounted for by methods: the clocks, the channel that told them, and the intervals', async () => {
    const files = {
      'a.csv': loggerFile(plate),
      'b.csv': loggerFile(plate, { late: 0.42, seed: 2 }),
    };
    const { clock } = await valueOf('loggers', cell, files);
    const { parts } = await valueOf('methods', `${cell.replace('loggers a', 'L = loggers a')}\nmethods L`, files);
    const told = parts.flatMap(({ about, text }) => (about === 'loggers' ? [text] : []));
    assert.equal(told.length, 1);
    assert.match(
      told[0],
      new RegExp(
        `^The loggers of a and b were held .* of channel ${clock.channel} in ${clock.stretches} stretches, .* confidence 95 %\\)\\.$`,
      ),
    );
    assert.ok(parts.some(({ about }) => about === 'software'));
  });
});
