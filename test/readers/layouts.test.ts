import { strict as assert } from 'node:assert';
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync, copyFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { read } from '../../src/readers/read.ts';
import type { ReadOptions, Recording } from '../../src/readers/recording.ts';
import { findingOf, samplesOf, source } from './memory.ts';

const folder = fileURLToPath(new URL('fixtures/', import.meta.url));
const bytesOf = (name: string): Uint8Array => new Uint8Array(readFileSync(join(folder, name)));

async function fixture(name: string, options: ReadOptions = {}): Promise<Recording> {
  const result = await read(source(bytesOf(name), name), options);
  assert.ok(result.ok, result.ok ? '' : result.failure.message);
  return result.value;
}

async function refused(name: string, options: ReadOptions = {}): Promise<string> {
  const result = await read(source(bytesOf(name), name), options);
  assert.ok(!result.ok, `${name} was read`);
  return result.failure.message;
}

/** Names and units of the axes, rate, stretches, and the first and last reading of z. */
function brief(recording: Recording): unknown {
  const axes = recording.channels.filter(({ axis }) => axis);
  const z = samplesOf(recording, 'z');
  return {
    axes: axes.map(({ name }) => name).join(''),
    unit: axes.map(({ unit }) => unit)[0],
    from: axes[0].unitFrom,
    rate: Number(recording.clock.rate.toPrecision(6)),
    stretches: recording.clock.stretches.map(({ from, to }) => to - from),
    z: [z[0], z[z.length - 1]],
  };
}

const column = (name: string, row: number, index: number, delimiter: RegExp): number =>
  Number(
    readFileSync(join(folder, name), 'utf8')
      .trimEnd()
      .split(/\r?\n/)
      .at(row)!
      .split(delimiter)
      [index].replace(',', '.'),
  );

describe('layouts of logger files', () => {
  it('1: several time columns side by side; the finest is read and the others are named', async () => {
    const recording = await fixture('01-three-clocks.csv');
    assert.deepEqual(brief(recording), {
      axes: 'xyz',
      unit: 'g',
      from: 'header',
      rate: 100,
      stretches: [500],
      z: [1.06, column('01-three-clocks.csv', -1, 5, /,/)],
    });
    assert.equal(recording.clock.epoch, Date.UTC(2024, 4, 14, 9, 30, 12, 345) / 1000);
    assert.equal(recording.layout.leftOut?.length, 2);
    const local = await fixture('01-three-clocks.csv', { time: 'local time (UTC+0200)' });
    assert.ok(Math.abs(local.clock.epoch! - recording.clock.epoch!) < 1e-6);
    assert.ok(Math.abs(local.clock.rate - 100) < 1e-9);
    assert.equal((await fixture('01-three-clocks.csv', { time: 'elapsed' })).clock.epoch, 0);
  });

  it('2: the time in the last column; gaps are found and the rush after them is left out', async () => {
    const recording = await fixture('02-time-last.csv');
    assert.deepEqual(brief(recording), {
      axes: 'xyz',
      unit: 'g',
      from: 'mean vector',
      rate: 50,
      stretches: [300, 275, 275],
      z: [1.0703, column('02-time-last.csv', -1, 2, /,/)],
    });
    assert.equal(findingOf(recording, 'rush')?.value, 50);
    assert.equal(recording.layout.time?.style, 'epoch ms');
    assert.equal(recording.channels[3].name, 'Temp');
  });

  it('3: no header and a counter first; columns are named by number and the rate is asked for', async () => {
    assert.match(await refused('03-no-header.txt'), /counts rows.*rate 400 Hz/);
    const recording = await fixture('03-no-header.txt', { rate: 200 });
    assert.deepEqual(
      recording.channels.map(({ name }) => name),
      ['column2', 'column3', 'column4', 'column5', 'column6'],
    );
    assert.match(findingOf(recording, 'no-header')?.message ?? '', /column2.*channels/);
    const named = await fixture('03-no-header.txt', {
      rate: 200,
      channels: { x: 'column2', y: 'column3', z: 'column4' },
    });
    assert.deepEqual(brief(named), {
      axes: 'xyz',
      unit: 'g',
      from: 'mean vector',
      rate: 200,
      stretches: [400],
      z: [column('03-no-header.txt', 0, 3, /,/), column('03-no-header.txt', -1, 3, /,/)],
    });
  });

  it('4: a padded header and a constant text; rows that repeat stamp and readings are left out', async () => {
    const recording = await fixture('04-padded.csv');
    assert.deepEqual(brief(recording), {
      axes: 'xyz',
      unit: 'm/s^2',
      from: 'mean vector',
      rate: 100,
      stretches: [400],
      z: [10.114, column('04-padded.csv', -1, 4, /,/)],
    });
    assert.equal(findingOf(recording, 'rows-repeated')?.value, 200);
    assert.equal(recording.channels[0].header, 'X-Axis');
  });

  it('5: a label first and raw counts; the unit is asked for with the scale that the mean vector suggests', async () => {
    const recording = await fixture('05-counts.csv');
    assert.equal(recording.channels[0].unit, undefined);
    assert.match(findingOf(recording, 'unit-unsettled')?.message ?? '', /4096 counts.*unit g scale 0\.000244140625/);
    assert.deepEqual(
      recording.channels.map(({ name, axis }) => `${name}${axis ? '*' : ''}`),
      ['x*', 'y*', 'z*', 'mx', 'my', 'mz', 'temp'],
    );
    const scaled = await fixture('05-counts.csv', { unit: 'g', scale: 1 / 4096 });
    assert.deepEqual(brief(scaled), {
      axes: 'xyz',
      unit: 'g',
      from: 'option',
      rate: 125,
      stretches: [600],
      z: [column('05-counts.csv', 1, 4, /,/) / 4096, column('05-counts.csv', -1, 4, /,/) / 4096],
    });
    assert.equal(scaled.channels[6].samples[0], 24.5);
  });

  it('6: small backward steps are false stamps and no unevenness; the jump at a segment border is a gap', async () => {
    const recording = await fixture('06-segments.csv');
    assert.deepEqual(brief(recording), {
      axes: 'xyz',
      unit: 'g',
      from: 'header',
      rate: 400,
      stretches: [600, 400],
      z: [1.0525, column('06-segments.csv', -1, 3, /;/)],
    });
    assert.equal(recording.clock.jitter, 0);
    assert.ok(Math.abs(recording.clock.stretches[1].start - 2.5) < 1e-9);
    assert.equal(findingOf(recording, 'stamps-out-of-order')?.value, 11);
  });

  it('7: bursts, of which a half repeat a stamp and some run back, give one even stretch at the slope of the stamps', async () => {
    const recording = await fixture('07-bursts.csv');
    assert.deepEqual(recording.clock.stretches, [{ from: 0, to: 1200, start: 0 }]);
    assert.ok(Math.abs(recording.clock.rate - 100) < 0.5, String(recording.clock.rate));
    assert.equal(recording.channels[2].unit, 'm/s^2');
    assert.equal(findingOf(recording, 'bursts')?.severity, 'warning');
  });

  it('8: three bare columns are x, y, z once the rate is stated', async () => {
    assert.match(await refused('08-bare.txt'), /rate 400 Hz/);
    assert.deepEqual(brief(await fixture('08-bare.txt', { rate: 400 })), {
      axes: 'xyz',
      unit: 'g',
      from: 'mean vector',
      rate: 400,
      stretches: [400],
      z: [column('08-bare.txt', 0, 2, /, /), column('08-bare.txt', -1, 2, /, /)],
    });
  });

  it('9: the rate stands in the preamble, and the counter shows where samples were dropped', async () => {
    const recording = await fixture('09-hash-keys.csv');
    assert.deepEqual(brief(recording), {
      axes: 'xyz',
      unit: 'g',
      from: 'header',
      rate: 400,
      stretches: [500, 300],
      z: [1.0841, column('09-hash-keys.csv', -1, 3, /,/)],
    });
    assert.equal(recording.clock.rateFrom, 'preamble');
    assert.equal(recording.layout.keys?.range, '16 g');
    assert.equal(findingOf(recording, 'dropped-samples'), undefined);
    assert.ok(findingOf(recording, 'gap'));
  });

  it('10: percent comments with the header in the last; the stated calibration is applied, as the mean vector confirms', async () => {
    const recording = await fixture('10-percent.txt');
    assert.deepEqual(brief(recording), {
      axes: 'xyz',
      unit: 'g',
      from: 'header',
      rate: 250,
      stretches: [500],
      z: [281 * 0.0039, column('10-percent.txt', -1, 3, /\t/) * 0.0039],
    });
    assert.ok(findingOf(recording, 'calibrated'));
  });

  it('11: ten free lines, of which the period gives the rate', async () => {
    const recording = await fixture('11-free-lines.csv');
    assert.deepEqual(brief(recording), {
      axes: 'xyz',
      unit: 'g',
      from: 'header',
      rate: 400,
      stretches: [500],
      z: [1.1052, column('11-free-lines.csv', -1, 2, /;/)],
    });
    assert.equal(recording.layout.decimal, ',');
    assert.equal(recording.layout.keys?.['Start date'], '14.05.2024');
    assert.equal(recording.layout.headerLine, 12);
  });

  it('12: several sensors in turn; one is picked with an option, whatever its case', async () => {
    assert.match(await refused('12-long-form.csv'), /"pad" and "frame".*sensor "pad"/);
    assert.match(await refused('12-long-form.csv', { sensors: ['post'] }), /no sensor "post".*"pad" and "frame"/);
    const recording = await fixture('12-long-form.csv', { sensors: ['Frame'] });
    assert.deepEqual(brief(recording), {
      axes: 'xyz',
      unit: 'g',
      from: 'mean vector',
      rate: 200,
      stretches: [400],
      z: [column('12-long-form.csv', 2, 4, /;/), column('12-long-form.csv', -1, 4, /;/)],
    });
    assert.deepEqual(recording.layout.sensors, ['pad', 'frame']);
  });

  it('13: clock stamps with a colon before the milliseconds over midnight, day first, and in whole seconds', async () => {
    const colon = await fixture('13a-colon-ms.csv');
    assert.equal(colon.clock.rate, 100);
    assert.equal(colon.clock.epoch, 86_399);
    assert.equal(colon.clock.stretches.length, 1);
    const day = await fixture('13b-day-first.csv');
    assert.equal(day.clock.epoch, Date.UTC(2024, 4, 14, 9, 30, 12, 345) / 1000);
    assert.equal((await fixture('13b-day-first.csv', { timezone: '+02:00' })).clock.epoch, day.clock.epoch! - 7200);
    const whole = await fixture('13c-whole-seconds.csv');
    assert.ok(Math.abs(whole.clock.rate - 100) < 0.2);
    assert.equal(whole.clock.jitter, 0);
  });

  it('14: a banner and chatter before the header are passed over; the line number is no channel', async () => {
    const recording = await fixture('14-chatter.log');
    assert.deepEqual(brief(recording), {
      axes: 'xyz',
      unit: 'm/s^2',
      from: 'header',
      rate: 200,
      stretches: [400],
      z: [10.5607, column('14-chatter.log', -1, 4, /, /)],
    });
    assert.equal(recording.layout.preamble?.length, 4);
    assert.equal(recording.channels.length, 3);
  });

  it('15: rows of names, kinds and units; of raw and calibrated readings the calibrated are the axes', async () => {
    const recording = await fixture('15-three-headers.txt');
    assert.deepEqual(brief(recording), {
      axes: 'xyz',
      unit: 'm/s^2',
      from: 'header',
      rate: 204.8,
      stretches: [400],
      z: [11.25263, column('15-three-headers.txt', -1, 6, /\t/)],
    });
    assert.deepEqual(
      [recording.layout.headerLine, recording.layout.unitsLine, recording.layout.firstRowLine],
      [2, 4, 5],
    );
  });

  it('16: a labelled serial capture with a clock in front', async () => {
    const recording = await fixture('16-serial-capture.log');
    assert.deepEqual(brief(recording), {
      axes: 'xyz',
      unit: 'm/s^2',
      from: 'mean vector',
      rate: 125,
      stretches: [400],
      z: [10.18, column('16-serial-capture.log', -1, 4, /,/)],
    });
  });

  it('17: each device keeps its own unit and sign', async () => {
    const [one, two] = [await fixture('17a-first-device.csv'), await fixture('17b-second-device.csv')];
    assert.deepEqual([one.channels[2].unit, two.channels[2].unit], ['g', 'm/s^2']);
    assert.ok(samplesOf(one, 'z')[0] > 0.8 && samplesOf(two, 'z')[0] < -8);
    assert.equal(two.clock.rate, 200);
  });

  it('18: a comment mark on the header row, mm/s2, and the measured rate rather than the nominal', async () => {
    const recording = await fixture('18-comment-header.csv');
    assert.deepEqual(brief(recording), {
      axes: 'xyz',
      unit: 'mm/s^2',
      from: 'header',
      rate: 3086.42,
      stretches: [1600],
      z: [10386.3, column('18-comment-header.csv', -1, 3, /,/)],
    });
  });
});

describe('other formats', () => {
  it('WAV of whole numbers gives counts, which scale turns into a unit', async () => {
    const counts = await fixture('19a-counts.wav');
    assert.match(findingOf(counts, 'unit-unsettled')?.message ?? '', /2048 counts/);
    assert.equal(samplesOf(counts, 'z')[0], 2314);
    assert.equal(counts.clock.rate, 800);
    assert.equal(counts.clock.rateFrom, 'file header');
    const scaled = await fixture('19a-counts.wav', { unit: 'g', scale: 1 / 2048 });
    assert.equal(samplesOf(scaled, 'z')[0], 2314 / 2048);
    assert.equal(samplesOf(scaled, 'z').length, 1000);
    const wide = await fixture('19c-24-bits.wav', { unit: 'g', scale: 1 / 500_000 });
    assert.ok(samplesOf(wide, 'y').every((value, i) => Math.abs(value - samplesOf(scaled, 'y')[i]) < 1 / 2048));
  });

  it('WAV of floating point gives the samples as they stand', async () => {
    const recording = await fixture('19b-float.wav');
    assert.equal(recording.channels[2].unit, 'g');
    const counts = await fixture('19a-counts.wav', { unit: 'g', scale: 1 / 2048 });
    assert.ok(
      samplesOf(recording, 'x').every((value, i) => Math.abs(value - samplesOf(counts, 'x')[i]) <= 0.5 / 2048 + 1e-9),
    );
  });

  it('WAV that was cut off gives what is there and says so', async () => {
    const bytes = bytesOf('19a-counts.wav').slice(0, 3000);
    const result = await read(source(bytes, 'cut.wav'), { unit: 'g', scale: 1 / 2048 });
    assert.ok(result.ok);
    assert.equal(result.value.channels[0].samples.length, Math.floor((3000 - 56) / 6));
    assert.ok(findingOf(result.value, 'cut-short'));
  });

  it('gzip of a text reads as the text, by content and not by name', async () => {
    const [packed, plain] = [await fixture('20-packed.csv.gz'), await fixture('17a-first-device.csv')];
    assert.deepEqual(
      packed.channels.map(({ samples }) => [...samples]),
      plain.channels.map(({ samples }) => [...samples]),
    );
    const renamed = await read(source(bytesOf('20-packed.csv.gz'), 'run.txt'));
    assert.ok(renamed.ok);
    const cut = await read(source(bytesOf('20-packed.csv.gz').slice(0, 2000), 'run.csv.gz'));
    assert.ok(!cut.ok && /damaged or cut short/.test(cut.failure.message));
  });

  it('Universal File dataset 58 gives a channel a function, its axis from its direction, its unit and its step', async () => {
    const recording = await fixture('21-universal.unv');
    assert.equal(recording.layout.format, 'Universal File, dataset 58');
    assert.deepEqual(
      recording.channels.map(({ name, unit, axis }) => [name, unit, axis]),
      [
        ['x', 'm/s^2', true],
        ['y', 'm/s^2', true],
        ['z', 'm/s^2', true],
      ],
    );
    assert.ok(Math.abs(recording.clock.rate / 300 - 1) < 2e-6);
    assert.equal(samplesOf(recording, 'z')[0], 10.6968);
    assert.equal(samplesOf(recording, 'z').length, 600);
    const text = Buffer.from(bytesOf('21-universal.unv')).toString();
    const as = async (of: string): Promise<string> => {
      const result = await read(source(of, 'run.unv'));
      return result.ok ? 'read' : result.failure.message;
    };
    assert.match(
      await as(
        text.replace(/    58\n/g, '    58b     1     1          11        2400     0     0           0           0\n'),
      ),
      /binary numbers of a VAX/,
    );
    assert.match(await as(text.replace(/^ {9}2 {7}600 {9}1/m, '         5       600         1')), /complex/);
    assert.match(await as(text.replace(/^ {9}2 {7}600 {9}1/m, '         2       600         2')), /neither even nor/);
    assert.match(await as(text.replace(/\n {4}1 {9}([123]) /g, '\n    4         $1 ')), /no time response/);
    assert.match(await as(text.slice(0, 5000)), /not closed/);
    assert.equal(await as(text.replace(/\n/g, '\r\n')), 'read');
  });

  it('Parquet gives its columns of numbers and its stamps, packed or not', async () => {
    for (const name of ['22a-plain.parquet', '22b-snappy.parquet']) {
      const recording = await fixture(name);
      assert.deepEqual(brief(recording), {
        axes: 'xyz',
        unit: 'g',
        from: 'header',
        rate: 250,
        stretches: [400],
        z: [1.1013, samplesOf(recording, 'z')[399]],
      });
      assert.equal(recording.clock.epoch, Date.UTC(2024, 4, 14, 9, 30, 12, 345) / 1000);
      assert.equal(recording.channels.length, 3);
    }
    const cut = await read(source(bytesOf('22a-plain.parquet').slice(0, 5000), 'run.parquet'));
    assert.ok(!cut.ok && /damaged/.test(cut.failure.message));
  });

  it('what can not be read is named for what it is', async () => {
    const cases: [number[] | string, RegExp][] = [
      [[0x50, 0x4b, 3, 4, 20, 0], /workbook.*CSV/],
      ['%PDF-1.7', /a PDF/],
      ['MATLAB 5.0 MAT-file', /MATLAB/],
      [Array.from({ length: 300 }, (_, i) => (i * 37) % 256), /neither text/],
    ];
    for (const [content, wanted] of cases) {
      const result = await read(source(typeof content === 'string' ? content : Uint8Array.from(content)));
      assert.ok(!result.ok);
      assert.match(result.failure.message, wanted);
    }
  });
});

describe('the fixtures', () => {
  it('are what their script writes, byte for byte', () => {
    const scratch = mkdtempSync(join(tmpdir(), 'washboard-fixtures-'));
    try {
      for (const name of ['make.ts', 'parquet.ts']) copyFileSync(join(folder, name), join(scratch, name));
      const root = fileURLToPath(new URL('../../', import.meta.url));
      execFileSync(process.execPath, ['--import', 'tsx', join(scratch, 'make.ts')], { cwd: root });
      for (const name of readdirSync(scratch)) {
        if (name.endsWith('.gz')) continue; // its bytes depend on the library that packs
        assert.ok(readFileSync(join(scratch, name)).equals(readFileSync(join(folder, name))), name);
      }
    } finally {
      rmSync(scratch, { recursive: true });
    }
  });
});
