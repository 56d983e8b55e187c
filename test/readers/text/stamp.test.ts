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
});
