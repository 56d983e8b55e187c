import { strict as assert } from 'node:assert';
import type { ReadOptions, Recording } from '../../../src/readers/recording.ts';
import { findingOf, recordingOf, refusalOf, rows, samplesOf } from '../memory.ts';

const start = Date.UTC(2025, 2, 7, 14, 22, 31, 500);
const iso = (i: number, rate = 100): string => new Date(start + (1000 * i) / rate).toISOString();
const two = (value: number): string => String(value).padStart(2, '0');

/** A file of 100 Hz whose time stands in the first columns. */
const timed = (
  header: string,
  cells: (i: number) => readonly (string | number)[],
  count = 300,
  options: ReadOptions = {},
): Promise<Recording> =>
  recordingOf(`${header},x,y,z\n` + rows(count, (i) => [...cells(i), 0.01 * (i % 5), 0.02, 1]), options);

function assertEven({ clock }: Recording, rate = 100): void {
  assert.ok(Math.abs(clock.rate / rate - 1) < 1e-6, String(clock.rate));
  assert.equal(clock.stretches.length, 1);
  assert.equal(clock.times, undefined);
}

describe('columns of time as loggers write them', () => {
  it('gives a rate that the stamps state exactly as it is, without a trace of rounding', async () => {
    for (const [rate, digits] of [
      [100, 3],
      [200, 3],
      [400, 4],
      [51_200, 9],
    ] as const) {
      const text = 't (s),x,y,z\n' + rows(301, (i) => [(i / rate).toFixed(digits), 0, 0, 1]);
      const { clock } = await recordingOf(text);
      if (rate < 1000) assert.equal(clock.rate, rate);
      else assert.ok(Math.abs(clock.rate / rate - 1) < 1e-6);
    }
  });

  it('joins whole seconds and the part of the second beside them', async () => {
    const seconds = (i: number): number => Math.floor((start + 10 * i) / 1000);
    const split = await timed('sec,nsec', (i) => [seconds(i), ((start + 10 * i) % 1000) * 1e6]);
    assertEven(split);
    assert.equal(split.clock.epoch, start / 1000);
    const clock = await timed('Date,Time,Millis', (i) => ['07.03.2025', iso(i).slice(11, 19), (start + 10 * i) % 1000]);
    assertEven(clock);
    assert.ok(
      clock.layout.leftOut?.some(({ column, why }) => column === '"Millis"' && why.message.includes('was added')),
    );
  });

  it('reads a clock written as one number, which leaves out 40 at every full minute', async () => {
    const digits = (i: number): string => {
      const of = new Date(start + 10 * i);
      const whole = `${two(of.getUTCHours())}${two(of.getUTCMinutes())}${two(of.getUTCSeconds())}`;
      return `${whole}.${two(of.getUTCMilliseconds() / 10)}`;
    };
    assertEven(await timed('Time', (i) => [digits(i)], 9000));
  });

  it('reads parts of a day and days of a spreadsheet', async () => {
    assertEven(await timed('Time', (i) => [(0.6 + i / 8_640_000).toFixed(12)]));
    const days = await timed('Time', (i) => [(45_723.5 + i / 8_640_000).toFixed(11)]);
    assert.ok(Math.abs(days.clock.rate / 100 - 1) < 1e-4);
    assert.equal(days.clock.epoch, Date.UTC(2025, 2, 7, 12) / 1000);
  });

  it('sums up the steps where the column tells the time since the row before', async () => {
    assertEven(await timed('dt (ms)', () => [10]));
    const jittered = await timed('delta_us', (i) => [10_000 + ((7 * i) % 5) - 2]);
    assert.ok(Math.abs(jittered.clock.rate / 100 - 1) < 1e-5);
  });

  it('reads a day of the week, a month in words and a date in digits alone', async () => {
    const spell: readonly ((i: number) => string)[] = [
      (i) => `Fri Mar 07 ${iso(i).slice(11, 23)} 2025`,
      (i) => `Freitag 7. März 2025 ${iso(i).slice(11, 23)}`,
      (i) => `March 7 2025 ${iso(i).slice(11, 23)}`,
      (i) => iso(i).replace(/[^\d]/g, ''),
      (i) => `${iso(i).slice(0, 19).replace(/[^\d]/g, '')}.${iso(i).slice(20, 23)}`,
    ];
    for (const of of spell) {
      const recording = await timed('Time', (i) => [of(i)]);
      assertEven(recording);
      assert.equal(recording.clock.epoch, start / 1000, of(0));
    }
  });

  it('calls it a fault where the clock stands still, and takes the rate from the rest', async () => {
    const recording = await timed('t (s)', (i) => [(Math.min(i, 400) / 100).toFixed(2)], 600);
    assert.equal(recording.clock.rate, 100);
    const found = findingOf(recording, 'clock-stopped');
    assert.equal(found?.severity, 'fault');
    assert.match(found?.message ?? '', /199 rows.*from line 402/);
  });

  it('never calls a change of rate a rounding of the stamps', async () => {
    const recording = await timed('t (s)', (i) => [(i < 300 ? i / 50 : 6 + (i - 300) / 100).toFixed(2)], 600);
    assert.equal(findingOf(recording, 'uneven')?.severity, 'warning');
    assert.ok(recording.clock.times !== undefined);
  });

  it('takes what rises evenly and is no time for what it is', async () => {
    const rising = (name: string, step: number, head = '# rate = 100 Hz\n'): string =>
      `${head}x,y,z,${name}\n` + rows(300, (i) => [0.01 * (i % 5), 0.02, 1, (20 + step * i).toFixed(3)]);
    for (const [name, step] of [
      ['T', 0.0012],
      ['distance', 0.05],
      ['angle', 3],
      ['whatever', 0.01],
    ] as const) {
      const { clock, channels } = await recordingOf(rising(name, step));
      assert.equal(clock.rate, 100, name);
      assert.equal(clock.rateFrom, 'preamble', name);
      assert.ok(channels.some((one) => one.name === name));
    }
    assert.match((await refusalOf(rising('distance', 0.05, ''))).message, /no column tells the time.*rate/);
    // A name that says nothing may be the time, as in a language that is not known here.
    assert.equal((await recordingOf(rising('czas', 0.01, ''))).clock.rate, 100);
  });

  it('refuses a rate that no logger has', async () => {
    const text = 't (s),x,y,z\n' + rows(100, (i) => [`${i}e50`, 0.01 * (i % 5), 0.02, 1]);
    assert.match((await refusalOf(text)).message, /"t \(s\)" the rate would be 1e-50 Hz.*rate/);
  });

  it('lets the rate of a preamble settle the unit of a time that could be two', async () => {
    const text = (head: string): string =>
      `${head}time,x,y,z\n` + rows(300, (i) => [(i / 20).toFixed(2), 0.01 * (i % 5), 0.02, 1]);
    assert.equal((await recordingOf(text('# rate: 20 Hz\n'))).clock.rate, 20);
    assert.match((await refusalOf(text(''))).message, /rate/);
  });

  it('joins a clock stamp whose decimal comma is the delimiter, too', async () => {
    const cells = (i: number): string[] => [iso(i).slice(11, 19), iso(i).slice(20, 23)];
    const text = 'Time,x,y,z\n' + rows(300, (i) => [...cells(i), 0.01 * (i % 5), 0.02, 1]);
    const recording = await recordingOf(text);
    assertEven(recording);
    assert.equal(samplesOf(recording, 'z')[0], 1);
  });

  it('takes a column that goes up and down in small steps for no time, whatever its name ends in', async () => {
    const text =
      '# rate = 100 Hz\ncycle_us,x,y,z\n' + rows(300, (i) => [10_000 + ((7 * i) % 5) - 2, 0.01 * (i % 5), 0.02, 1]);
    const recording = await recordingOf(text);
    assert.equal(recording.clock.rateFrom, 'preamble');
    assert.equal(samplesOf(recording, 'z').length, 300);
  });
});
