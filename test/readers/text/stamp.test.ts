import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { daysFromCivil, StampReader, zoneMinutes, zoneText } from '../../../src/readers/text/stamp.ts';
import { isStamp, stampForm } from '../../../src/readers/text/stampForm.ts';

/** Seconds between two stamps of one spelling, and seconds from 1970 of the first where its date is known. */
function between(first: string, second: string): { step: number; epoch: number | undefined } {
  const form = stampForm([first, second]);
  assert.ok(form, `${first} and ${second} are of no form`);
  const reader = new StampReader(form);
  const read = (text: string): number => {
    const bytes = new TextEncoder().encode(text);
    return reader.read(bytes, 0, bytes.length);
  };
  const [a, b] = [read(first), read(second)];
  return { step: b - a, epoch: reader.base === undefined ? undefined : reader.base * 86_400 + a };
}

const spring = Date.UTC(2024, 4, 14, 9, 30, 12, 250) / 1000;

describe('clock stamps', () => {
  const spellings: [string, string, number | undefined][] = [
    ['2024-05-14T09:30:12.250Z', '2024-05-14T09:30:12.260Z', spring],
    ['2024-05-14 09:30:12,250', '2024-05-14 09:30:12,260', spring],
    ['2024/05/14 09:30:12.25', '2024/05/14 09:30:12.26', spring],
    ['2024-05-14T11:30:12.250+02:00', '2024-05-14T11:30:12.260+02:00', spring],
    ['2024-05-14T04:00:12.250-0530', '2024-05-14T04:00:12.260-0530', spring],
    ['14.05.2024 09:30:12.250', '14.05.2024 09:30:12.260', spring],
    ['05/14/2024 9:30:12.250 AM', '05/14/2024 9:30:12.260 AM', spring],
    ['5/14/2024 9:30:12.250 PM', '5/14/2024 9:30:12.260 PM', spring + 12 * 3600],
    ['14-May-2024 09:30:12.250', '14-May-2024 09:30:12.260', spring],
    ['14 May 2024, 09:30:12.250', '14 May 2024, 09:30:12.260', spring],
    ['20240514 09:30:12.250', '20240514 09:30:12.260', spring],
    ['20240514T093012.250', '20240514T093012.260', spring],
    ['2024-05-14T09.30.12.250', '2024-05-14T09.30.12.260', spring],
    ['2024-05-14_09:30:12:250', '2024-05-14_09:30:12:260', spring],
    ['09:30:12.250', '09:30:12.260', undefined],
    ['09:30:12:250', '09:30:12:260', undefined],
    ['09.30.12.250', '09.30.12.260', undefined],
    ['9:30:12.250', '9:30:12.260', undefined],
    ['30:12.25', '30:12.26', undefined],
    ['14.05.24 09:30:12.250', '14.05.24 09:30:12.260', undefined],
    ['03.04.2024 09:30:12.250', '03.04.2024 09:30:12.260', undefined],
  ];
  for (const [first, second, epoch] of spellings) {
    it(`${first} and ${second} are 10 ms apart`, () => {
      const found = between(first, second);
      assert.ok(Math.abs(found.step - 0.01) < 1e-9, String(found.step));
      if (epoch === undefined) assert.equal(found.epoch, undefined);
      else assert.ok(Math.abs((found.epoch ?? 0) - epoch) < 1e-6, String(found.epoch));
    });
  }

  it('run on over midnight, over the end of a year and into summer time', () => {
    assert.ok(Math.abs(between('2023-12-31 23:59:59.995', '2024-01-01 00:00:00.005').step - 0.01) < 1e-9);
    assert.ok(Math.abs(between('2024-03-31T01:59:59.995+01:00', '2024-03-31T03:00:00.005+02:00').step - 0.01) < 1e-9);
    assert.equal(between('12:00:00.000 AM', '12:00:00.000 PM').step, 43_200);
  });

  it('.5, .10, .15 are milliseconds without leading zeros where a fraction would run backwards', () => {
    const form = stampForm(['12:00:00.5', '12:00:00.10', '12:00:00.15', '12:00:00.995', '12:00:01.0']);
    assert.equal(form?.fraction, 'milliseconds');
    assert.equal(stampForm(['12:00:00.5', '12:00:00.55', '12:00:00.6'])?.fraction, 'decimal');
  });

  it('numbers, words and impossible times are none', () => {
    for (const text of ['12', '1.5', '12.5.1', '1:2', 'now', '20240514', '1.2.3.4.5', '192.168.0.1', '-12:00:00', '']) {
      assert.ok(!isStamp(text) || !stampForm([text]), text);
    }
    const reader = new StampReader(stampForm(['2024-05-14 09:30:12'])!);
    for (const text of [
      '2024-05-14 25:30:12',
      '2024-05-14 09:61:12',
      '2024-13-14 09:30:12',
      '2024-05',
      'x',
      '2024-05-14 09:30:12.1.2.3.4',
    ]) {
      const bytes = new TextEncoder().encode(text);
      assert.ok(Number.isNaN(reader.read(bytes, 0, bytes.length)), text);
    }
  });

  it('days from a date agree with the calendar of the language for four centuries', () => {
    const law = fc.property(fc.integer({ min: -60_000, max: 90_000 }), (days) => {
      const date = new Date(days * 86_400_000);
      assert.equal(daysFromCivil(date.getUTCFullYear(), date.getUTCMonth() + 1, date.getUTCDate()), days);
    });
    fc.assert(law);
  });

  it('any moment of this century comes back from its ISO spelling', () => {
    const law = fc.property(
      fc.integer({ min: Date.UTC(2000, 0), max: Date.UTC(2099, 0) }),
      fc.integer({ min: -840, max: 840 }),
      (ms, minutes) => {
        const local = new Date(ms + minutes * 60_000).toISOString().replace('Z', zoneText(minutes));
        const { epoch } = between(local, local);
        assert.ok(Math.abs(epoch! - ms / 1000) < 1e-6, local);
        assert.equal(zoneMinutes(zoneText(minutes)), minutes);
      },
    );
    fc.assert(law, { numRuns: 300 });
  });

  const two = (value: number): string => String(value).padStart(2, '0');
  const date = fc.record({
    year: fc.integer({ min: 1970, max: 2099 }),
    month: fc.integer({ min: 1, max: 12 }),
    day: fc.integer({ min: 1, max: 28 }),
  });
  const clock = fc.record({
    hour: fc.integer({ min: 0, max: 23 }),
    minute: fc.integer({ min: 0, max: 59 }),
    second: fc.integer({ min: 0, max: 59 }),
    part: fc.string({ unit: fc.constantFrom(...'0123456789'), minLength: 1, maxLength: 9 }),
  });
  const names = 'Jan Feb Mar Apr May Jun Jul Aug Sep Oct Nov Dec'.split(' ');

  it('any date and clock is read in each order of its parts, from within a longer line', () => {
    const orders = {
      ymd: (y: number, m: number, d: number) => `${y}-${two(m)}-${two(d)}`,
      dmy: (y: number, m: number, d: number) => `${two(d)}.${two(m)}.${y}`,
      mdy: (y: number, m: number, d: number) => `${m}/${d}/${y}`,
      named: (y: number, m: number, d: number) => `${d}-${names[m - 1]}-${y}`,
      whole: (y: number, m: number, d: number) => `${y}${two(m)}${two(d)}`,
    } as const;
    const law = fc.property(
      date,
      clock,
      fc.constantFrom(...(Object.keys(orders) as (keyof typeof orders)[])),
      fc.boolean(),
      ({ year, month, day }, { hour, minute, second, part }, order, isJoined) => {
        const time = isJoined ? `${two(hour)}${two(minute)}${two(second)}` : `${hour}:${two(minute)}:${two(second)}`;
        const text = `${orders[order](year, month, day)} ${time}.${part}`;
        const line = new TextEncoder().encode(`9,${text},9`);
        const form = {
          date: order === 'named' ? 'dmy' : order === 'whole' ? 'ymd' : order,
          clock: 'hms',
          fraction: 'decimal',
          doubtful: false,
          named: order === 'named',
        } as const;
        const reader = new StampReader(form);
        const seconds = reader.read(line, 2, line.length - 2);
        assert.equal(reader.base, Date.UTC(year, month - 1, day) / 86_400_000, text);
        const wanted = 3600 * hour + 60 * minute + second + Number(`0.${part}`);
        assert.ok(Math.abs(seconds - wanted) < 1e-9 * 86_400, `${text}: ${seconds}`);
      },
    );
    fc.assert(law, { numRuns: 1000 });
  });

  const read = (reader: StampReader, text: string): number => {
    const bytes = new TextEncoder().encode(text);
    return reader.read(bytes, 0, bytes.length);
  };
  const of = (...cells: string[]): StampReader => new StampReader(stampForm(cells)!);

  it('count from midnight of the first one’s day, and go back before it', () => {
    const reader = of('2024-05-14 09:30:12');
    assert.equal(read(reader, '2024-05-14 09:30:12'), 34_212);
    assert.equal(read(reader, '2024-05-15 00:00:00'), 86_400);
    assert.equal(read(reader, '2024-05-13 23:59:59'), -1);
    assert.equal(read(reader, '2025-05-14 00:00:00'), 365 * 86_400);
  });

  it('a date whose parts are in doubt is not used, only its clock', () => {
    const reader = of('03.04.2024 09:30:12');
    assert.equal(read(reader, '03.04.2024 09:30:12'), 34_212);
    assert.equal(read(reader, '04.04.2024 09:30:12'), 34_212);
    assert.equal(reader.base, undefined);
  });

  it('a date alone is its midnight, minutes and seconds may pass the hour', () => {
    const dates = of('2024-05-14', '2024-05-15');
    assert.deepEqual([read(dates, '2024-05-14'), read(dates, '2024-05-16')], [0, 2 * 86_400]);
    assert.ok(Number.isNaN(read(dates, '2024-05')));
    const minutes = of('09:30.5', '75:12.25');
    assert.deepEqual([read(minutes, '09:30.5'), read(minutes, '75:12.25')], [570.5, 4512.25]);
    assert.ok(Number.isNaN(read(minutes, '09')));
  });

  it('twelve is the first hour of each half of a day', () => {
    const reader = of('12:00:00 AM');
    const hours = ['12:30:00 AM', '1:30:00 am', '11:30:00 AM', '12:30:00 PM', '1:30:00 pm', '11:30:00 P.M.'];
    assert.deepEqual(
      hours.map((text) => read(reader, text) / 3600),
      [0.5, 1.5, 11.5, 12.5, 13.5, 23.5],
    );
    assert.equal(read(reader, '12:30:00') / 3600, 12.5);
  });

  it('the last moment of each part is read, and what is beyond it is none', () => {
    const read24 = (text: string): number => read(of('2024-05-14 09:30:12'), text);
    for (const [text, seconds] of [
      ['2024-05-14 24:00:00', 86_400],
      ['2024-05-14 23:59:60', 86_400],
      ['2024-01-01 00:59:00', 3540],
      ['2024-12-31 00:00:00', 0],
    ] as const)
      assert.equal(read24(text), seconds, text);
    for (const text of [
      '2024-05-14 25:00:00',
      '2024-05-14 09:60:00',
      '2024-05-14 09:30:61',
      '2024-00-14 09:30:12',
      '2024-13-14 09:30:12',
      '2024-05-00 09:30:12',
      '2024-05-32 09:30:12',
      '2024-05-14 09:30',
      '2024-05-14 09:30:12.1.1',
      '1 2 3 4 5 6 7 8 9 10 11 12 13',
    ])
      assert.ok(Number.isNaN(read24(text)), text);
  });

  it('an offset from UTC is taken off, in any of its spellings, and told', () => {
    const cases: [string, number, string][] = [
      ['2024-05-14 12:00:00Z', 43_200, '+00:00'],
      ['2024-05-14 12:00:00 UTC', 43_200, '+00:00'],
      ['2024-05-14 12:00:00 GMT', 43_200, '+00:00'],
      ['2024-05-14 12:00:00+02:00', 36_000, '+02:00'],
      ['2024-05-14 12:00:00.5+0200', 36_000.5, '+02:00'],
      ['2024-05-14 12:00:00-03:30', 55_800, '-03:30'],
      ['2024-05-14 12:00:00-0330', 55_800, '-03:30'],
      ['2024-05-14 12:00:00+00:30', 41_400, '+00:30'],
    ];
    for (const [text, seconds, zone] of cases) {
      const reader = of(text);
      assert.equal(read(reader, text), seconds, text);
      assert.equal(reader.zone, zone, text);
    }
    const reader = of('2024-05-14 12:00:00+02:00');
    read(reader, '2024-05-14 12:00:00+02:00');
    assert.equal(read(reader, '2024-05-14 12:00:00+03:00'), 32_400);
    assert.equal(reader.zone, '+02:00');
    assert.equal(read(reader, '2024-05-14 12:00:00+2'), 36_000);
  });

  it('digits without leading zeros are milliseconds where the form says so', () => {
    const reader = of('12:00:00.5', '12:00:00.10', '12:00:00.995', '12:00:01.0');
    assert.deepEqual(
      ['12:00:00.5', '12:00:00.10', '12:00:00.995'].map((text) => Math.round(1000 * (read(reader, text) - 43_200))),
      [5, 10, 995],
    );
  });

  it('words of a date are brought to figures first', () => {
    const reader = of('Tue, 14 May 2024 09:30:12');
    assert.equal(read(reader, ' Tue, 14 May 2024 09:30:13 '), 34_213);
    assert.equal(reader.base, Date.UTC(2024, 4, 14) / 86_400_000);
    assert.ok(Number.isNaN(read(reader, 'no stamp of any kind')));
    const named = of('14-May-2024 09:30:12');
    for (const [k, month] of names.entries()) {
      read(named, '14-May-2024 00:00:00');
      const from = Date.UTC(2024, 4, 14);
      assert.equal(read(named, `02-${month}-2024 00:00:00`), (Date.UTC(2024, k, 2) - from) / 1000, month);
    }
    assert.ok(Number.isNaN(read(named, '14-Anf-2024 09:30:12')));
    assert.ok(Number.isNaN(read(named, '14-Ma')));
  });

  it('offsets are spelt with two digits each, and read from what loggers make of them', () => {
    const spelt: [number, string][] = [
      [0, '+00:00'],
      [-30, '-00:30'],
      [90, '+01:30'],
      [-720, '-12:00'],
      [845, '+14:05'],
    ];
    for (const [minutes, text] of spelt) assert.equal(zoneText(minutes), text);
    const known: [string, number][] = [
      ['Z', 0],
      [' utc ', 0],
      ['gmt', 0],
      ['UTC+2', 120],
      ['UTC -3', -180],
      ['GMT+05:45', 345],
      ['-0330', -210],
      ['+1', 60],
    ];
    for (const [text, minutes] of known) assert.equal(zoneMinutes(text), minutes, text);
    for (const text of ['', 'CET', '2', 'UTC+', '+02:0', '+123456', 'UTC 2'])
      assert.equal(zoneMinutes(text), undefined, text);
  });
});
