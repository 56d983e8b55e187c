import { strict as assert } from 'node:assert';
import { fractionDigits, isStamp, stampForm } from '../../../src/readers/text/stampForm.ts';

const form = (...cells: string[]): string => {
  const found = stampForm(cells);
  if (found === undefined) return 'none';
  const { date, clock, fraction, doubtful, named, worded } = found;
  return [
    date,
    clock,
    fraction,
    ...(doubtful ? ['doubtful'] : []),
    ...(named ? ['named'] : []),
    ...(worded ? ['worded'] : []),
  ].join(' ');
};

describe('the form of a column of stamps', () => {
  it('has the order of its date, which a part above twelve tells', () => {
    assert.equal(form('2024-05-14 09:30:12'), 'ymd hms decimal');
    assert.equal(form('20240514 09:30:12'), 'ymd hms decimal');
    assert.equal(form('14.05.2024 09:30:12'), 'dmy hms decimal');
    assert.equal(form('05/14/2024 09:30:12'), 'mdy hms decimal');
    assert.equal(form('12.05.2024 09:30:12', '13.05.2024 09:30:12'), 'dmy hms decimal');
    assert.equal(form('05/12/2024 09:30:12', '05/13/2024 09:30:12'), 'mdy hms decimal');
    assert.equal(form('09:30:12'), 'none hms decimal');
  });

  it('is in doubt where no part, or each, tells it, or the year is short', () => {
    assert.equal(form('12.12.2024 09:30:12'), 'dmy hms decimal doubtful');
    assert.equal(form('13.05.2024 09:30:12', '05.13.2024 09:30:12'), 'mdy hms decimal doubtful');
    assert.equal(form('14.05.24 09:30:12'), 'dmy hms decimal doubtful');
    assert.equal(form('14-May-24 09:30:12'), 'dmy hms decimal doubtful named');
    assert.equal(form('14-May-2024 09:30:12'), 'dmy hms decimal named');
  });

  it('is one: cells of several are none', () => {
    assert.equal(form(), 'none');
    assert.equal(form('09:30:12', '2024-05-14 09:30:12'), 'none');
    assert.equal(form('2024-05-14 09:30:12', 'now'), 'none');
    assert.equal(form('14.05.2024 09:30:12', '2024-05-14 09:30:12'), 'none');
    assert.equal(form('now'), 'none');
  });

  it('may be of minutes and seconds, or of dates alone', () => {
    assert.equal(form('09:30', ' 123:59.5 '), 'none ms decimal');
    assert.equal(form('09:30', '09:60'), 'none');
    assert.equal(form('2024-05-14', '2024-05-15'), 'ymd none decimal');
    assert.equal(form('14.05.2024'), 'dmy none decimal');
    assert.equal(form('14-May-2024'), 'dmy none decimal named');
    assert.equal(form('2024-05-14', '2024-05-15 09:30:12'), 'none');
  });

  it('may be in words, which are brought to figures', () => {
    assert.equal(form('Tue, 14 May 2024 09:30:12'), 'ymd hms decimal worded');
    assert.equal(form('20240514093012'), 'ymd hms decimal worded');
    assert.equal(form('2024-05-14 09:30'), 'ymd hms decimal worded');
    assert.equal(form('Tue, 14 May 2024 09:30:12', 'yesterday'), 'none');
  });

  it('has milliseconds without zeros before them where a fraction would run back and they do not', () => {
    assert.equal(form('12:00:00.5', '12:00:00.10', '12:00:00.15'), 'none hms milliseconds');
    assert.equal(form('12:00:00.5', '12:00:00.55', '12:00:00.6'), 'none hms decimal');
    assert.equal(form('12:00:00.5', '12:00:00.10', '12:00:00.9'), 'none hms decimal');
    // Another second begins anew.
    assert.equal(form('12:00:00.5', '12:00:01.10', '12:00:02.15'), 'none hms decimal');
    assert.equal(form('12:00:00.500', '12:00:00.510', '12:00:00.505'), 'none hms decimal');
    assert.equal(form('12:00:00.5', '12:00:00.1000', '12:00:00.1500'), 'none hms decimal');
    assert.equal(form('12:00:00', '12:00:00.5', '12:00:00.10'), 'none hms milliseconds');
  });
});

describe('a clock stamp', () => {
  it('is a date with a clock, either alone, or what words tell', () => {
    for (const text of [
      '2024-05-14 09:30:12',
      '2024.5.4T9:30:12.5Z',
      '14/5/24, 09.30.12',
      '14-5-2024 - 09:30:12',
      '20240514_093012',
      '9h30m12s',
      '09:30:12,250 PM',
      '09:30:12 a.m.',
      '09:30:12+0200',
      '09:30:12 UTC',
      '09:30',
      '2024-05-14',
      '14 May 2024',
      '14.Sept.2024',
    ])
      assert.ok(isStamp(text), text);
    for (const text of [
      '',
      '12',
      '1.2.3',
      '1.2.24',
      '20240514',
      '09:60',
      '9:3:1',
      '12:00:00.1234567890',
      'May',
      '09:30:12 X',
    ])
      assert.ok(!isStamp(text), text);
  });

  it('has digits behind its seconds', () => {
    const cases: [string, number][] = [
      ['09:30:12', 0],
      ['09:30:12.25', 2],
      [' 2024-05-14 09:30:12,123456 ', 6],
      ['30:12.250', 3],
      ['30:12', 0],
      ['1.25', 0],
    ];
    for (const [text, digits] of cases) assert.equal(fractionDigits(text), digits, text);
  });
});
