import { strict as assert } from 'node:assert';
import type { ReadOptions } from '../../src/readers/recording.ts';
import { readTime, type TimeRole } from '../../src/readers/timeRole.ts';
import type { NumberColumn, StampColumn } from '../../src/readers/table.ts';
import { each, numbers, stamps } from './tables.ts';

interface Asked {
  readonly scale?: number;
  readonly byName?: boolean;
  readonly options?: ReadOptions | undefined;
  readonly stated?: number;
}

const read = (
  column: NumberColumn | StampColumn,
  { scale, byName = true, options = {}, stated }: Asked = {},
): TimeRole | string | undefined => {
  const result = readTime('run.csv', { index: 3, column, scale, byName }, options, stated);
  return result.ok ? result.value : `${result.failure.code}: ${result.failure.message}`;
};
const role = (column: NumberColumn | StampColumn, asked: Asked = {}): TimeRole => {
  const found = read(column, asked);
  assert.ok(typeof found === 'object', String(found));
  return found;
};
const near = (a: number, b: number, by = 1e-9): void => assert.ok(Math.abs(a - b) < by, `${a} is not ${b}`);

describe('a column of numbers as time', () => {
  it('is in its stated unit, exactly', () => {
    const ms = role(
      numbers(
        't',
        each(20, (i) => 5 * i),
      ),
      { scale: 1e-3 },
    );
    assert.deepEqual([...ms.seconds.subarray(0, 4)], [0, 0.005, 0.01, 0.015]);
    assert.deepEqual(
      [ms.index, ms.origin, ms.style, ms.resolution, ms.base, ms.zone],
      [3, 0, 'ms', 1e-3, undefined, undefined],
    );
    assert.equal(ms.assumed, undefined);
    // 9 x 0.001 is 0.009000000000000001 in doubles, and 3 x 1e-9 is no less off.
    const whole = numbers(
      't',
      each(20, (i) => 3 * i + 6),
    );
    assert.equal(role(whole, { scale: 1e-3 }).seconds[1], 0.009);
    assert.deepEqual([role(whole, { scale: 1e-9 }).seconds[19], role(whole, { scale: 1e-3 }).origin], [63 / 1e9, 0]);
    const minutes = role(
      numbers(
        't',
        each(20, (i) => 0.5 * i),
      ),
      { scale: 60 },
    );
    assert.deepEqual([...minutes.seconds.subarray(0, 3)], [0, 30, 60]);
    near(minutes.resolution, 6);
    const seconds = numbers(
      't',
      each(20, (i) => i / 100),
    );
    assert.equal(role(seconds, { scale: 1 }).resolution, 0.01);
    assert.deepEqual([...role(seconds, { scale: 1 }).seconds], [...seconds.values]);
  });

  it('holds nothing where a number lies beyond all dates', () => {
    const t = each(20, (i) => i / 100);
    t[7] = 2.2e307;
    t[9] = -8.65e12;
    const { seconds } = role(numbers('t', t), { scale: 1 });
    assert.deepEqual(
      [...seconds.keys()].filter((i) => Number.isNaN(seconds[i])),
      [7, 9],
    );
    assert.equal(seconds[8], 0.08);
    const first = role(
      numbers(
        't',
        each(20, (i) => (i === 0 ? 1e300 : i / 100)),
      ),
      { scale: 1 },
    );
    assert.ok(Number.isNaN(first.seconds[0]));
  });

  it('keeps the last of all dates, and numbers of which most lie beyond them', () => {
    // 100,000,000 days on either side of 1970 (ECMA-262, 21.4.1.1).
    const last = 8.64e12;
    const beyond = (count: number): number => {
      const t = each(20, (i) => (i < count ? (-1) ** i * (last + 1) : i));
      t.splice(18, 2, -last, last);
      return [...role(numbers('t', t, { decimals: 0 }), { scale: 1 }).seconds].filter(Number.isNaN).length;
    };
    assert.deepEqual([0, 1, 7, 10, 11].map(beyond), [0, 1, 7, 10, 0]);
  });

  it('counts from its first number where it counts from 1970 or is a spreadsheet’s day', () => {
    const epoch = role(
      numbers(
        't',
        each(20, (i) => 1_714_557_600_000 + 5 * i),
      ),
      { scale: 1e-3 },
    );
    assert.deepEqual([...epoch.seconds.subarray(0, 3)], [0, 0.005, 0.01]);
    assert.deepEqual([epoch.origin, epoch.base, epoch.zone, epoch.style], [1_714_557_600, 0, '+00:00', 'epoch ms']);
    const gappy = role(numbers('t', [NaN, ...each(20, (i) => 1_714_557_600_000 + 5 * i)], { decimals: 0 }), {
      scale: 1e-3,
    });
    assert.equal(gappy.origin, 1_714_557_600);
    const days = role(
      numbers(
        't',
        each(20, (i) => 45_000.5 + i / 864_000),
        { decimals: 9 },
      ),
    );
    assert.deepEqual([days.style, days.base, days.zone], ['days', Date.UTC(1899, 11, 30) / 1000, undefined]);
    near(days.seconds[3], 0.3, 1e-5);
    near(days.origin, 45_000.5 * 86_400);
  });

  it('goes on where its counter begins anew', () => {
    const wrapped = role(
      numbers(
        't',
        each(20, (i) => (4_294_967_000 + 50 * i) % 4_294_967_296),
      ),
      { scale: 1e-6 },
    );
    near(wrapped.seconds[19] - wrapped.seconds[0], 950e-6, 1e-12);
  });

  it('may be hours, minutes and seconds in six digits, where its name is one of a time', () => {
    // 14:29:50 and on, in tenths of a second.
    const digits = numbers(
      'time',
      each(300, (i) => (i < 100 ? 142_950 + i / 10 : 143_000 + (i - 100) / 10)),
    );
    const clock = role(digits);
    assert.equal(clock.style, 'hhmmss');
    assert.equal(clock.seconds[0], 14 * 3600 + 29 * 60 + 50);
    assert.equal(clock.seconds[100], 14.5 * 3600);
    assert.equal(clock.resolution, 0.1);
    assert.deepEqual([clock.origin, clock.base, clock.zone], [0, undefined, undefined]);
    const unnamed = read(digits, { byName: false });
    assert.ok(typeof unnamed !== 'object' || unnamed.style !== 'hhmmss');
    const stated = read(digits, { scale: 1e-3 });
    assert.ok(typeof stated === 'object' && stated.style === 'ms');
  });

  it('is refused where it may as well count rows', () => {
    const count = numbers(
      't',
      each(50, (i) => i + 7),
    );
    assert.match(String(read(count)), /^time-or-counter: run\.csv: "t" goes up by exactly 1/);
    assert.equal(role(count, { options: { rate: 1000 } }).style, 'ms');
    assert.equal(role(count, { scale: 1 }).style, 's');
    assert.equal(role(count, { stated: 1000 }).style, 'ms');
    assert.match(String(read(count, { stated: 300 })), /^time-or-counter/);
    const late = numbers(
      't',
      each(50, (i) => (i < 49 ? i : 50)),
    );
    assert.ok(!String(read(late)).startsWith('time-or-counter'));
  });

  it('is settled by a rate that the file or the option states', () => {
    const fine = numbers(
      't',
      each(50, (i) => 100 * i),
    );
    assert.match(String(read(fine)), /^time-unit: .*ms \(10 Hz\) and as us \(10000 Hz\)/);
    assert.equal(role(fine, { stated: 9000 }).style, 'us');
    assert.equal(role(fine, { stated: 10 }).style, 'ms');
    assert.match(String(read(fine, { stated: 14 })), /^time-unit/);
    assert.equal(role(fine, { stated: 13 }).style, 'ms');
    assert.equal(role(fine, { options: { rate: 10 } }).style, 'ms');
  });

  it('is refused where no unit gives a plausible rate, or is none where it can be done without', () => {
    const slow = numbers(
      't',
      each(50, (i) => 1e13 * i),
    );
    assert.match(String(read(slow)), /^time-unit: .*\(step 10000000000000\).* sampled at: name/);
    assert.equal(read(slow, { byName: false }), undefined);
    assert.equal(read(slow, { options: { rate: 400 } }), undefined);
    assert.match(String(read(slow, { options: { rate: 400, time: 't' } })), /sampled at or at the stated 400 Hz/);
  });

  it('tells a unit that plausibility alone settles, and the next likely', () => {
    const values = numbers(
      't',
      each(200, (i) => 5 * i),
    );
    const { assumed } = role(values);
    assert.deepEqual(assumed, {
      column: '"t"',
      taken: { unit: 'ms', rate: 200, length: 0.995 },
      other: { unit: 's', rate: 0.2, length: 995 },
    });
    assert.equal(role(values, { scale: 1e-3 }).assumed, undefined);
    assert.equal(role(values, { options: { rate: 200 } }).assumed, undefined);
    assert.equal(role(values, { stated: 200 }).assumed, undefined);
    assert.notEqual(role(values, { stated: 3000 }).assumed, undefined);
    const later = role(
      numbers(
        't',
        each(200, (i) => 1000 + 5 * i),
      ),
    );
    assert.deepEqual([later.assumed?.taken.rate, later.assumed?.taken.length], [200, 0.995]);
    // Seconds are what a time without a unit is in, with a fraction or not, and a date is one.
    assert.equal(
      role(
        numbers(
          't',
          each(200, (i) => i / 50),
        ),
      ).assumed,
      undefined,
    );
    assert.equal(
      role(
        numbers(
          't',
          each(200, (i) => 2.5 * i),
        ),
      ).assumed?.taken.unit,
      'ms',
    );
    assert.equal(
      role(
        numbers(
          't',
          each(200, (i) => 1_714_557_600_000 + 5 * i),
        ),
      ).assumed,
      undefined,
    );
  });

  it('has the step of most, or the mean where many stand still', () => {
    // One of four stamps is shared: 4 steps of 10 ms for 5 samples.
    const shared = role(
      numbers(
        't',
        each(200, (i) => 8 * Math.floor((i * 5) / 8)),
      ),
      { scale: 1e-3 },
    );
    assert.equal(shared.style, 'ms');
    const long = numbers('t', [...each(60, (i) => 5 * i), ...each(60, (i) => 90_000 + 5 * i)]);
    assert.equal(role(long).assumed?.taken.rate, 1 / (7.5 * 1e-3));
    // A tenth stands still, and there is a gap: the mean, which is far above the median.
    const held = (zero: number): number | undefined => {
      let at = 0;
      const steps = each(100, (i) => (i < zero ? 0 : i === 99 ? 1000 : 5));
      const values = numbers('t', [0, ...steps.map((step) => (at += step))]);
      return role(values).assumed?.taken.rate;
    };
    near(held(10)!, 100 / 1.445);
    near(held(6)!, 100 / 1.465);
    near(held(5)!, 1 / 7.5e-3);
    const still = numbers(
      't',
      each(100, (i) => 10 * Math.floor(i / 2)),
    );
    near(role(still).assumed!.taken.rate, 99_000 / 490);
  });
});

describe('a column of stamps as time', () => {
  const even = each(50, (i) => 36_000 + i / 100);

  it('keeps its clock, its style and its day', () => {
    const plain = role(stamps('Time', even));
    assert.deepEqual(
      [plain.style, plain.resolution, plain.base, plain.zone, plain.origin],
      ['clock', 0.01, undefined, undefined, 0],
    );
    assert.deepEqual([...plain.seconds], even);
    const dated = role(stamps('Time', even, { base: 1_700_006_400, zone: '+02:00', style: 'iso8601' }));
    assert.deepEqual([dated.style, dated.base, dated.zone], ['iso8601', 1_700_006_400, '+02:00']);
  });

  it('goes on over midnight where it has no day', () => {
    const night = each(50, (i) => (86_399.8 + i / 100) % 86_400);
    const { seconds } = role(stamps('Time', night));
    near(seconds[49], 86_400.29, 1e-6);
    near(seconds[0], 86_399.8);
    const twice = role(stamps('Time', [86_000, 100, 86_100, 200]));
    assert.deepEqual([...twice.seconds], [86_000, 86_500, 172_500, 173_000]);
    const noon = role(stamps('Time', [50_000, 6_801, 6_802]));
    assert.deepEqual([...noon.seconds], [50_000, 6_801, 6_802]);
    assert.equal(role(stamps('Time', [50_000, 6_800])).seconds[1], 6_800);
    assert.equal(role(stamps('Time', [50_000, 6_799.5])).seconds[1], 93_199.5);
    const dated = role(stamps('Time', night, { base: 0 }));
    assert.deepEqual([...dated.seconds], night);
  });

  it('has the offset of its header where it has none of its own', () => {
    const headed = (header: string, more: Partial<StampColumn> = {}): [number | undefined, string | undefined] => {
      const { base, zone } = role(stamps(header, even, { base: 86_400, ...more }));
      return [base, zone];
    };
    assert.deepEqual(headed('Time (UTC+0200)'), [86_400 - 7200, 'UTC+0200']);
    assert.deepEqual(headed('Time -03:30'), [86_400 + 12_600, '-03:30']);
    assert.deepEqual(headed('Time UTC'), [86_400, 'UTC']);
    assert.deepEqual(headed('Time'), [86_400, undefined]);
    assert.deepEqual(headed('Time (UTC+0200)', { zone: '+01:00' }), [86_400, '+01:00']);
    assert.deepEqual(headed('Time UTC+0200', { base: undefined }), [undefined, 'UTC+0200']);
  });

  it('of two parts may be hours and minutes', () => {
    const parts = stamps(
      'hh:mm',
      each(600, (i) => 600 + Math.floor(i / 100)),
      { style: 'clock m:s', quantum: 1 },
    );
    const found = role(parts, { options: { clock: 'hh:mm' } });
    assert.deepEqual(
      [found.style, found.resolution, found.seconds[0], found.seconds[599]],
      ['clock h:m', 60, 36_000, 36_300],
    );
    const short = role(parts, { options: { clock: 'mm:ss' } });
    assert.deepEqual([short.style, short.resolution, short.seconds[0]], ['clock m:s', 1, 600]);
  });

  it('of two parts that nothing tells apart is refused, and none at a rate that fits neither', () => {
    const parts = stamps(
      'clock',
      each(600, (i) => 600 + Math.floor(i / 100)),
      { style: 'clock m:s', quantum: 1 },
    );
    assert.match(String(read(parts)), /^clock-parts: /);
    assert.equal(role(parts, { stated: 100 }).style, 'clock m:s');
    assert.equal(role(parts, { options: { rate: 1.5 } }).style, 'clock h:m');
    assert.equal(read(parts, { stated: 20_000 }), undefined);
  });
});
