import { strict as assert } from 'node:assert';
import { columnSink, type Element } from '../../../src/readers/formats/parquetColumns.ts';
import type { TableColumn } from '../../../src/readers/table.ts';

const filled = (element: Partial<Element>, ...chunks: readonly (readonly unknown[])[]): TableColumn => {
  const rows = chunks.reduce((sum, { length }) => sum + length, 0);
  const sink = columnSink({ name: 'a', ...element }, rows);
  let from = 0;
  for (const chunk of chunks) {
    sink.take(chunk, from);
    from += chunk.length;
  }
  return sink.column();
};
const valuesOf = (column: TableColumn): number[] => (column.kind === 'other' ? [] : [...column.values]);

describe('a column of a Parquet file', () => {
  it('of numbers keeps them, with nulls and what is not finite as empty', () => {
    for (const type of ['DOUBLE', 'FLOAT', 'INT32', 'INT64'])
      assert.deepEqual(valuesOf(filled({ type }, [1, null, 2.5], [Infinity, undefined, -3n, NaN])), [
        1,
        NaN,
        2.5,
        NaN,
        NaN,
        -3,
        NaN,
      ]);
    for (const more of [{ logical_type: { type: 'FLOAT16' } }, { converted_type: 'DECIMAL' }])
      assert.equal(filled({ type: 'FIXED_LEN_BYTE_ARRAY', ...more }, [1]).kind, 'number');
  });

  it('has decimals where a number is not whole', () => {
    const decimals = (...values: unknown[]): number | undefined => {
      const column = filled({ type: 'DOUBLE' }, values);
      return column.kind === 'number' ? column.decimals : undefined;
    };
    assert.equal(decimals(1, 2, 3), 0);
    assert.equal(decimals(1, 2.5, 3), 9);
    assert.equal(decimals(1, NaN, 3), 0);
    assert.equal(decimals(1, null, 3), 0);
  });

  it('is filled no farther than its rows', () => {
    const sink = columnSink({ name: 'a', type: 'DOUBLE' }, 3);
    sink.take([1, 2], 0);
    sink.take([3, 4, 5], 2);
    assert.deepEqual(valuesOf(sink.column()), [1, 2, 3]);
  });

  it('of numbers that are all empty holds none', () => {
    const empty = filled({ type: 'DOUBLE' }, [null, NaN, Infinity]);
    assert.equal(empty.kind === 'other' && empty.why.message, 'it holds no number');
  });

  it('of stamps counts from the midnight before the first, by its unit', () => {
    const noon = Date.UTC(2024, 4, 14, 12) / 1000;
    for (const [more, units] of [
      [{ logical_type: { type: 'TIMESTAMP', unit: 'MILLIS' } }, 1e-3],
      [{ logical_type: { type: 'TIMESTAMP', unit: 'MICROS' } }, 1e-6],
      [{ logical_type: { type: 'TIMESTAMP', unit: 'NANOS' } }, 1e-9],
      [{ converted_type: 'TIMESTAMP_MILLIS' }, 1e-3],
      [{ converted_type: 'TIMESTAMP_MICROS' }, 1e-6],
    ] as const) {
      const second = BigInt(Math.round(1 / units));
      const column = filled(
        { type: 'INT64', ...more },
        [null, BigInt(noon) * second],
        [BigInt(noon + 1) * second + second / 4n],
      );
      assert.ok(column.kind === 'stamp');
      assert.deepEqual(
        [column.base, column.quantum, column.clock, column.zone, column.doubtful],
        [noon - 43_200, units, true, '+00:00', false],
      );
      assert.deepEqual(valuesOf(column), [NaN, 43_200, 43_201.25]);
    }
    for (const [isAdjustedToUTC, zone] of [
      [true, '+00:00'],
      [false, undefined],
    ] as const) {
      const local = filled({ type: 'INT64', logical_type: { type: 'TIMESTAMP', unit: 'MILLIS', isAdjustedToUTC } }, [
        0n,
      ]);
      assert.equal(local.kind === 'stamp' && local.zone, zone);
    }
    const before = filled({ type: 'INT64', converted_type: 'TIMESTAMP_MILLIS' }, [-1000, 500]);
    assert.ok(before.kind === 'stamp');
    assert.deepEqual([before.base, ...before.values], [-86_400, 86_399, 86_400.5]);
    const none = filled({ type: 'INT64', converted_type: 'TIMESTAMP_MILLIS' }, [null]);
    assert.ok(none.kind === 'stamp' && none.base === undefined);
  });

  it('of clock times without a date counts from midnight, by its unit', () => {
    for (const [more, units] of [
      [{ logical_type: { type: 'TIME', unit: 'MILLIS' } }, 1e-3],
      [{ logical_type: { type: 'TIME', unit: 'MICROS' } }, 1e-6],
      [{ logical_type: { type: 'TIME', unit: 'NANOS' } }, 1e-9],
      [{ converted_type: 'TIME_MILLIS' }, 1e-3],
      [{ converted_type: 'TIME_MICROS' }, 1e-6],
    ] as const) {
      const second = BigInt(Math.round(1 / units));
      const column = filled({ type: 'INT64', ...more }, [36_000n * second, null], [36_000n * second + second / 4n]);
      assert.ok(column.kind === 'stamp');
      assert.deepEqual(
        [column.base, column.quantum, column.clock, column.zone, column.style],
        [undefined, units, true, undefined, 'clock'],
      );
      assert.deepEqual(valuesOf(column), [36_000, NaN, 36_000.25]);
    }
  });

  it('of stamps of 96 bits has them in nanoseconds', () => {
    const column = filled({ type: 'INT96' }, [86_400n * 10n ** 9n, 86_400_250_000_000n]);
    assert.ok(column.kind === 'stamp');
    assert.deepEqual([column.base, column.quantum, ...column.values], [86_400, 1e-9, 0, 0.25]);
  });

  it('of texts may be numbers, stamps or labels, as its first ones are', () => {
    const text = { type: 'BYTE_ARRAY' };
    const numbers = filled(text, ['1.25', '', '2.5', 'nan'], ['3', 'oh', null]);
    assert.ok(numbers.kind === 'number');
    assert.deepEqual([numbers.decimals, ...numbers.values], [2, 1.25, NaN, 2.5, NaN, 3, NaN, NaN]);
    const stamps = filled(text, ['2024-05-14 09:30:12.25Z', '2024-05-14 09:30:12.5Z'], [null, 'oh']);
    assert.ok(stamps.kind === 'stamp');
    assert.deepEqual(
      [stamps.base, stamps.quantum, stamps.zone, stamps.doubtful, ...stamps.values],
      [Date.UTC(2024, 4, 14) / 1000, 0.01, '+00:00', false, 34_212.25, 34_212.5, NaN, NaN],
    );
    const clock = filled(text, ['09:30:12', '09:30:13']);
    assert.ok(clock.kind === 'stamp' && clock.base === undefined && clock.quantum === 1);
    assert.equal(
      filled(text, ['03.04.24 09:30:12']).kind === 'stamp' &&
        (filled(text, ['03.04.24 09:30:12']) as { doubtful: boolean }).doubtful,
      true,
    );
    const late = filled(text, ['', null], [null, '1,25'], ['2,5']);
    assert.ok(late.kind === 'number', 'empty cells at the beginning say nothing, and a comma may be the mark');
    assert.deepEqual([late.decimals, ...late.values], [2, NaN, NaN, NaN, 1.25, 2.5]);
    const lateLabels = filled(text, [null, ''], ['left']);
    assert.ok(lateLabels.kind === 'label', 'empty cells are labels among labels');
    assert.deepEqual(
      [...lateLabels.values].map((k) => lateLabels.labels[k]),
      ['', '', 'left'],
    );
    for (const cells of [['2024-05-14', '2024-05-15'], ['a', '1'], ['', ''], []])
      assert.equal(filled(text, cells).kind, 'label', cells.join());
    const labels = filled(text, ['left', 'right', 'left'], [null, 'up']);
    assert.ok(labels.kind === 'label');
    assert.deepEqual(
      [labels.labels, [...labels.values]],
      [
        ['left', 'right', '', 'up'],
        [0, 1, 0, 2, 3],
      ],
    );
  });

  it('of more than 256 labels is only text', () => {
    const names = Array.from({ length: 257 }, (_, i) => `name ${i}`);
    assert.equal(filled({ type: 'BYTE_ARRAY' }, names.slice(0, 256)).kind, 'label');
    assert.equal(filled({ type: 'BYTE_ARRAY' }, names).kind, 'other');
  });

  it('that is nested, or of another type, is passed over', () => {
    const why = (element: Partial<Element>): string | undefined =>
      columnSink({ name: 'a', ...element }, 1).skip?.message;
    assert.equal(why({ type: 'DOUBLE', num_children: 2 }), 'it is nested');
    assert.equal(why({ type: 'FIXED_LEN_BYTE_ARRAY' }), 'it holds fixed_len_byte_array');
    assert.equal(why({ type: 'DOUBLE', repetition_type: 'REPEATED' }), 'it is nested');
    assert.equal(why({ type: 'INT32', converted_type: 'DATE' }), 'it holds dates');
    assert.equal(why({ type: 'INT32', logical_type: { type: 'DATE' } }), 'it holds dates');
    assert.equal(why({ type: 'BYTE_ARRAY', converted_type: 'JSON' }), 'it holds json');
    assert.equal(why({ type: 'BYTE_ARRAY', converted_type: 'BSON' }), 'it holds bson');
    assert.equal(why({ type: 'BYTE_ARRAY', logical_type: { type: 'GEOMETRY' } }), 'it holds geometry');
    for (const text of [
      {},
      { converted_type: 'UTF8' },
      { converted_type: 'ENUM' },
      { logical_type: { type: 'STRING' } },
    ])
      assert.equal(why({ type: 'BYTE_ARRAY', ...text }), undefined);
    assert.equal(filled({ type: 'BYTE_ARRAY', converted_type: 'DECIMAL' }, [1.25]).kind, 'number');
    assert.equal(why({}), 'it holds nothing that can be read');
    assert.equal(why({ type: 'DOUBLE', num_children: 0 }), undefined);
    const column = filled({ type: 'BOOLEAN' }, [true]);
    assert.ok(column.kind === 'other' && column.header === 'a' && column.why.message === 'it holds boolean');
  });
});
