import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { compareRecords, writtenByAnother } from '../../src/notebook/compareRecords.ts';
import {
  makeRecord,
  parseRecord,
  recordText,
  roundTo6,
  type NotebookRecord,
  type RunDocument,
} from '../../src/notebook/record.ts';

const statement = (name: string | null, kind: string, value: unknown) => ({
  name,
  kind,
  value,
  warnings: [],
  error: null,
});

const rows = [
  { run: 'gel-1', channel: 'z', rms: 0.123456789, vdv: null },
  { run: 'gel-1', channel: 'y', rms: 12345678, vdv: 2 },
];

const run: RunDocument = {
  notebook: 'ride.washboard.md',
  sources: [
    { path: 'raw/b.csv', bytes: 20, sha256: 'bb'.repeat(32) },
    { path: 'raw/a.csv', bytes: 10, sha256: 'aa'.repeat(32) },
  ],
  cells: [
    { index: 0, statements: [statement('after', 'levels', { unit: 'g', rows })] },
    {
      index: 2,
      statements: [
        statement(null, 'comparison', {
          channel: 'z',
          rows: [{ from_hz: 10, to_hz: 50, p: 0.0123456789, outcome: 'lower', sentence: 'Less.' }],
        }),
        statement(null, 'spectrum', { frequency_hz: [0, 0.5000001] }),
        statement(null, 'chart', { shows: [{ name: 'after', kind: 'levels' }] }),
        { name: 'bad', kind: null, value: null, warnings: [{ code: 'gap' }], error: { code: 'past-the-end' } },
      ],
    },
  ],
};

const record = makeRecord(run, 'washboard 0.1.0');
const changed = (
  change: (copy: { -readonly [key in keyof NotebookRecord]: NotebookRecord[key] }) => void,
): NotebookRecord => {
  const copy = structuredClone(record);
  change(copy);
  return copy;
};

describe('a record', () => {
  it('names each value by its statement and the way to it, rounded to 6 significant digits', () => {
    assert.deepEqual(Object.entries(record.results), [
      ['after.unit', 'g'],
      ['after.rows[gel-1 z].rms', 0.123457],
      ['after.rows[gel-1 z].vdv', null],
      ['after.rows[gel-1 y].rms', 12345700],
      ['after.rows[gel-1 y].vdv', 2],
      ['cell 3 statement 1.channel', 'z'],
      ['cell 3 statement 1.rows[10..50 Hz].from_hz', 10],
      ['cell 3 statement 1.rows[10..50 Hz].to_hz', 50],
      ['cell 3 statement 1.rows[10..50 Hz].p', 0.0123457],
      ['cell 3 statement 1.rows[10..50 Hz].outcome', 'lower'],
      ['cell 3 statement 2.frequency_hz[1]', 0],
      ['cell 3 statement 2.frequency_hz[2]', 0.5],
      ['bad.error', 'past-the-end'],
      ['bad.warnings[1]', 'gap'],
    ]);
  });

  it('holds once what a later statement only shows again, and the error of one that cannot', () => {
    const shows = { ...statement(null, 'levels', { unit: 'g', rows }), shows: 'after' };
    const fails = { ...shows, kind: null, value: null, error: { code: 'lost' } };
    const again = makeRecord({ ...run, cells: [...run.cells, { index: 3, statements: [shows, fails] }] }, '');
    assert.deepEqual(again.results, { ...record.results, 'cell 4 statement 2.error': 'lost' });
  });

  it('tells rows of one label apart', () => {
    const twice = {
      rows: [
        { run: 'a', rms: 1 },
        { run: 'a', rms: 2 },
      ],
    };
    const { results } = makeRecord({ ...run, cells: [{ index: 0, statements: [statement('x', 'table', twice)] }] }, '');
    assert.deepEqual(results, { 'x.rows[a].rms': 1, 'x.rows[a #2].rms': 2 });
  });

  it('holds the raw files in the order of their paths, with size and SHA-256', () => {
    assert.deepEqual(
      record.sources.map(({ path }) => path),
      ['raw/a.csv', 'raw/b.csv'],
    );
    assert.equal(record.sources[0].sha256, 'aa'.repeat(32));
  });

  it('is written with one value a line, and read back the same', () => {
    const text = recordText(record);
    const lines = text.split('\n').filter((line) => line.includes(': '));
    assert.ok(lines.every((line) => /^ +"[^"]*": ("[^"]*"|[^",{[]*|[{[]),?$/.test(line)));
    assert.ok(text.endsWith('\n'));
    const read = parseRecord(text);
    assert.ok(read.ok);
    assert.deepEqual(read.value, JSON.parse(text));
    assert.deepEqual(compareRecords(read.value, record), []);
  });

  it('says in a sentence why a file is no record', () => {
    const reason = (read: ReturnType<typeof parseRecord>): string => (read.ok ? 'it is one' : read.failure.message);
    assert.match(reason(parseRecord('<<<<<<< HEAD')), /no JSON/);
    assert.match(reason(parseRecord('null')), /no object/);
    assert.match(reason(parseRecord('{"record":2}')), /version 2/);
    assert.match(reason(parseRecord('{"record":1,"sources":[],"results":{"a":{}}}')), /not complete/);
    assert.match(reason(parseRecord('{"record":1,"sources":[{}],"results":{}}')), /not complete/);
  });
});

describe('compareRecords', () => {
  it('finds nothing in two records of the same run', () => {
    assert.deepEqual(compareRecords(record, makeRecord(structuredClone(run), 'washboard 0.2.0')), []);
  });

  it('tells a changed value with its change in percent', () => {
    const now = changed((copy) => (copy.results = { ...copy.results, 'after.rows[gel-1 z].rms': 0.135803 }));
    assert.deepEqual(compareRecords(record, now), [
      {
        kind: 'figure',
        where: 'after.rows[gel-1 z].rms',
        old: '0.123457',
        now: '0.135803',
        relative: '+10 %',
        message: 'after.rows[gel-1 z].rms: recorded 0.123457, now 0.135803 (+10 %)',
      },
    ]);
  });

  it('tells the numbers of a list together, by the one that changed most', () => {
    const bins = (factor: number): Record<string, number> =>
      Object.fromEntries([1, 2, 3, 4, 5].map((k) => [`after.rows[gel-1 z].density[${k}]`, k === 5 ? 7 : k * factor]));
    const [old, now] = [bins(1), bins(1.5)].map((more) =>
      changed((copy) => (copy.results = { ...copy.results, ...more })),
    );
    assert.deepEqual(
      compareRecords(old, now).map(({ where, old, now, relative, message }) => [where, old, now, relative, message]),
      [
        [
          'after.rows[gel-1 z].density',
          ...['4', '6', '+50 %'],
          'after.rows[gel-1 z].density: 4 values differ, most of all after.rows[gel-1 z].density[4]: recorded 4, now 6 (+50 %)',
        ],
      ],
    );
    const three = changed(
      (copy) => (copy.results = { ...old.results, ...bins(1), 'after.rows[gel-1 z].density[1]': 2 }),
    );
    assert.deepEqual(
      compareRecords(old, three).map(({ message }) => message),
      ['after.rows[gel-1 z].density[1]: recorded 1, now 2 (+100 %)'],
    );
  });

  it('tells no percentage of a p, of a percentage, of decibels, and of next to nothing', () => {
    const results = {
      'c.rows[1].p': 1e-17,
      'c.rows[1].p_adjusted': 0.01,
      'c.rows[1].low_percent': -2,
      'c.rows[1].change_db': 0.1,
      'c.rows[1].a': 1e-17,
      'c.rows[1].b': 0.1,
    };
    const old = changed((copy) => (copy.results = results));
    const now = changed(
      (copy) => (copy.results = Object.fromEntries(Object.entries(results).map(([key, value]) => [key, value + 0.9]))),
    );
    assert.deepEqual(
      compareRecords(old, now).flatMap(({ where, relative }) =>
        relative === undefined ? [] : [`${where} ${relative}`],
      ),
      ['c.rows[1].b +900 %'],
    );
    assert.equal(compareRecords(old, now)[0].message, 'c.rows[1].p: recorded 1e-17, now 0.9');
  });

  it('tells words that changed, values that are new and values that are gone', () => {
    const now = changed((copy) => {
      const { 'bad.error': _, ...rest } = copy.results;
      copy.results = { ...rest, 'after.unit': 'm/s^2', more: 1 };
    });
    assert.deepEqual(
      compareRecords(record, now).map(({ message }) => message),
      [
        'after.unit: recorded "g", now "m/s^2"',
        'more: now 1, and not in the record',
        'bad.error: recorded "past-the-end", and gone now',
      ],
    );
  });

  it('tells raw files that changed, are new and are gone, before the values', () => {
    const now = changed((copy) => {
      copy.sources = [
        { ...copy.sources[0], sha256: 'cc'.repeat(32), bytes: 11 },
        { path: 'raw/c.csv', bytes: 1, sha256: '' },
      ];
      copy.results = { ...copy.results, 'after.unit': 'N' };
    });
    assert.deepEqual(
      compareRecords(record, now).map(({ kind, message }) => `${kind}: ${message}`),
      [
        'source: raw/a.csv: the file has changed; recorded 10 bytes with SHA-256 aaaaaaaaaaaa…, now 11 bytes with SHA-256 cccccccccccc…',
        'source: raw/c.csv: read now, and not in the record',
        'source: raw/b.csv: in the record, and not read any more',
        'figure: after.unit: recorded "g", now "N"',
      ],
    );
  });

  it('tells verdicts first, then changes, raw files and the levels behind them', () => {
    const results = {
      'cut.rows[4..10.5 Hz].a': 0.1,
      'cut.rows[4..10.5 Hz].change_percent': -20,
      'cut.rows[4..10.5 Hz].outcome': 'lower',
      'cut.rows[4..10.5 Hz].a_each[1]': 0.1,
      'other.p': 0.1,
      'claimed.verdict': 'supported',
      'claimed.low_percent': 12,
    };
    const other = Object.fromEntries(Object.keys(results).map((key) => [key, 1]));
    const now = changed((copy) => {
      copy.results = other;
      copy.sources = [];
    });
    const found = compareRecords(
      changed((copy) => (copy.results = results)),
      now,
    );
    assert.deepEqual(
      found.map(({ kind, where }) => `${kind} ${where.replace(/.*\./, '')}`),
      [
        ...['verdict verdict', 'verdict low_percent', 'change change_percent', 'change outcome'],
        ...['source csv', 'source csv', 'figure a', 'figure a_each[1]', 'figure p'],
      ],
    );
  });

  it('tells of a record that another version wrote, and of no other', () => {
    const later = makeRecord(run, 'washboard 0.2.0');
    assert.match(writtenByAnother(record, later)?.message ?? '', /by washboard 0\.1\.0, and this is washboard 0\.2\.0/);
    assert.equal(writtenByAnother(record, record), undefined);
  });

  it('sees a change in the sixth digit and none beyond it', () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-12, max: 1e12, noNaN: true }), fc.boolean(), (size, negative) => {
        const value = roundTo6(negative ? -size : size);
        const at = (number: number) => changed((copy) => (copy.results = { number }));
        assert.deepEqual(compareRecords(at(value), at(value * (1 + 1e-9))), []);
        assert.equal(compareRecords(at(value), at(value * (1 + 1.1e-5))).length, 1);
      }),
    );
  });
});
