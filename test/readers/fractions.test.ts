import { strict as assert } from 'node:assert';
import { clockInDigits, joinFractions } from '../../src/readers/fractions.ts';
import type { NumberColumn, StampColumn } from '../../src/readers/table.ts';

const numbers = (header: string, values: readonly number[], decimals = 0): NumberColumn => ({
  kind: 'number',
  header,
  values: Float64Array.from(values),
  decimals,
});

const stamps = (values: readonly number[], change: Partial<StampColumn> = {}): StampColumn => ({
  kind: 'stamp',
  header: 'time',
  values: Float64Array.from(values),
  base: 0,
  clock: true,
  style: 'clock',
  zone: undefined,
  quantum: 1,
  doubtful: false,
  ...change,
});

/** 250 Hz over 3 s: whole seconds, and what is left of each in ms. */
const whole = Array.from({ length: 750 }, (_, i) => Math.floor(i / 250));
const millis = Array.from({ length: 750 }, (_, i) => 4 * (i % 250));
const together = whole.map((second, i) => second + millis[i] / 1000);

const part = { index: 1, column: numbers('ms', millis), scale: 1e-3 };

describe('a time whose fraction stands in another column', () => {
  it('is both together, from the first on', () => {
    const seconds = whole.map((second) => second + 100);
    const joined = joinFractions([{ index: 0, column: numbers('s', seconds), scale: 1 }, part]);
    assert.deepEqual([joined?.whole, joined?.part], [0, 1]);
    assert.deepEqual([...(joined?.column.values ?? [])], together);
    const { header, base, style, zone, quantum, clock, doubtful } = joined!.column;
    assert.deepEqual(
      [header, base, style, zone, quantum, clock, doubtful],
      ['s', undefined, 's with a fraction beside it', undefined, 1e-3, true, false],
    );
  });

  it('tells the date where the seconds count from 1970', () => {
    const seconds = whole.map((second) => second + 1_700_000_000);
    const joined = joinFractions([{ index: 0, column: numbers('s', seconds), scale: undefined }, part]);
    assert.deepEqual([...(joined?.column.values ?? [])], together);
    const { base, style, zone } = joined!.column;
    assert.deepEqual([base, style, zone], [1_700_000_000, 'epoch s with a fraction beside it', '+00:00']);
  });

  it('keeps what a clock of whole seconds tells, at the fraction’s own step', () => {
    const clock = stamps(
      whole.map((second) => second + 7),
      { base: 50 },
    );
    const joined = joinFractions([{ index: 0, column: clock, scale: undefined }, part]);
    assert.deepEqual(
      [...(joined?.column.values ?? [])],
      together.map((time) => time + 7),
    );
    assert.deepEqual([joined?.column.base, joined?.column.quantum, joined?.column.style], [50, 1e-3, 'clock']);
  });

  it('needs a fraction to begin anew only once', () => {
    const column = numbers('s', whole.slice(0, 400));
    const joined = joinFractions([
      { index: 0, column, scale: 1 },
      { ...part, column: numbers('ms', millis.slice(0, 400)) },
    ]);
    assert.deepEqual([...(joined?.column.values ?? [])], together.slice(0, 400));
  });

  it('is found whichever column comes first', () => {
    const joined = joinFractions([part, { index: 4, column: numbers('s', whole), scale: 1 }]);
    assert.deepEqual([joined?.whole, joined?.part], [4, 1]);
  });

  const seconds = { index: 0, column: numbers('s', whole), scale: 1 };
  const none = (title: string, ...times: Parameters<typeof joinFractions>[0]): void => {
    it(`is none ${title}`, () => {
      assert.equal(joinFractions(times), undefined);
    });
  };
  none('by itself', part);
  none('where the fraction has decimals', seconds, { ...part, column: numbers('ms', millis, 1) });
  none('where its unit is not stated', seconds, { ...part, scale: undefined });
  none('where its unit is a second or more', seconds, { ...part, scale: 1 });
  none('where it never begins anew', seconds, {
    ...part,
    column: numbers(
      'ms',
      whole.map((_, i) => i),
    ),
  });
  none('where it reaches a whole second', seconds, {
    ...part,
    column: numbers(
      'ms',
      millis.map((value) => (value === 996 ? 1000 : value)),
    ),
  });
  none('where it is below zero', seconds, {
    ...part,
    column: numbers(
      'ms',
      millis.map((value) => value - 4),
    ),
  });
  none('where the seconds have decimals', { ...seconds, column: numbers('s', whole, 1) }, part);
  none('where the seconds are minutes', { ...seconds, scale: 60 }, part);
  none(
    'where the clock tells less than seconds',
    { ...seconds, column: stamps(whole, { quantum: 0.1 }), scale: undefined },
    part,
  );
  none('where the stamp has no clock', { ...seconds, column: stamps(whole, { clock: false }), scale: undefined }, part);
  none(
    'where both together run backward',
    {
      ...seconds,
      column: numbers(
        's',
        whole.map(() => 0),
      ),
    },
    {
      ...part,
      column: numbers(
        'ms',
        whole.map((_, i) => 4 * (i % 10)),
      ),
    },
  );
});

describe('a clock written as one number', () => {
  const clock = (from: number, count: number, step = 1): Float64Array =>
    Float64Array.from({ length: count }, (_, i) => {
      const time = from + i * step;
      return Math.floor(time / 3600) * 10_000 + (Math.floor(time / 60) % 60) * 100 + (time % 60);
    });

  it('is seconds of the day, through full minutes and hours', () => {
    const from = 14 * 3600 + 58 * 60 + 30;
    assert.deepEqual(
      clockInDigits(clock(from, 400, 0.5)),
      Float64Array.from({ length: 400 }, (_, i) => from + i / 2),
    );
  });

  it('is none without a full minute, or where not half of the minutes show it', () => {
    assert.equal(clockInDigits(clock(3600, 119, 0.5)), undefined);
    assert.deepEqual(clockInDigits(Float64Array.of(159.5, 200)), Float64Array.of(119.5, 120));
    assert.deepEqual(clockInDigits(Float64Array.of(159.5, 200, 300)), Float64Array.of(119.5, 120, 180));
    assert.equal(clockInDigits(Float64Array.of(159.5, 200, 300, 400)), undefined);
  });

  it('is none where the numbers have no such seconds, minutes or hours', () => {
    const good = (from: number): number[] => [...clock(from, 60, 0.5)];
    const [night, midday, evening] = [good(50), good(14 * 3600 + 50), good(86_400 - 70)];
    assert.ok(clockInDigits(Float64Array.from([0, ...night])) !== undefined);
    assert.equal(clockInDigits(Float64Array.from([-1, ...night])), undefined);
    assert.ok(clockInDigits(Float64Array.from([...evening, 235_959])) !== undefined);
    assert.equal(clockInDigits(Float64Array.from([...evening, 240_000])), undefined);
    assert.ok(clockInDigits(Float64Array.from([...midday, 140_159])) !== undefined);
    for (const odd of [140_160, 140_099, 146_000, 146_001])
      assert.equal(clockInDigits(Float64Array.from([...midday, odd])), undefined, String(odd));
  });

  it('shows by steps between 40 and 41 onto the first second of a minute alone', () => {
    assert.ok(clockInDigits(Float64Array.of(159.9, 200.2)) !== undefined);
    for (const [before, after] of [
      [159, 200],
      [159.5, 199.5],
      [110.5, 151],
      [110, 152],
      [145_959.5, 146_000],
      [160.5, 201],
    ])
      assert.equal(clockInDigits(Float64Array.of(before, after)), undefined, `${before} ${after}`);
  });
});
