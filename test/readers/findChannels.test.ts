import { strict as assert } from 'node:assert';
import { findChannels } from '../../src/readers/channels.ts';
import type { ReadOptions } from '../../src/readers/recording.ts';
import type { Table, TableColumn } from '../../src/readers/table.ts';
import { each, noise, numbers, tableOf } from './tables.ts';

interface Asked {
  readonly options?: ReadOptions | undefined;
  readonly unit?: string;
  readonly table?: Partial<Table>;
}

function found(
  columns: readonly TableColumn[],
  { options = {}, unit, table }: Asked = {},
): { channels: string[]; leftOut: string[]; remark: string | undefined; samples: number[] } | string {
  const result = findChannels('run.csv', tableOf(columns, table), [...columns.keys()], unit, options);
  if (!result.ok) return `${result.failure.code}: ${result.failure.message}`;
  const { channels, leftOut } = result.value;
  return {
    channels: channels.map(
      ({ name, axis, unit: own, unitFrom }) => `${name}${axis ? '*' : ''} ${own ?? '?'} ${unitFrom}`,
    ),
    leftOut: leftOut.map(({ column, why }) => `${column} ${why.code}`),
    remark: result.value.unit.remark?.message,
    samples: channels.map(({ samples }) => samples[0]),
  };
}
const channels = (...asked: Parameters<typeof found>): string[] | string => {
  const result = found(...asked);
  return typeof result === 'string' ? result : result.channels;
};
const of = (...headers: (string | undefined)[]): TableColumn[] =>
  headers.map((header, k) => numbers(header, noise(40, k + 1)));
const xyz = (unit: string, level = 1): TableColumn[] => [
  ...of(`x (${unit})`, `y (${unit})`),
  numbers(
    `z (${unit})`,
    each(40, (i) => level * (1 + 0.01 * Math.sin(i))),
  ),
];

describe('the channels of a table', () => {
  it('are the axes and whatever else there is, each with its unit', () => {
    assert.deepEqual(channels(xyz('g')), ['x* g header', 'y* g header', 'z* g header']);
    assert.deepEqual(channels([...xyz('g'), ...of('Force [N]', 'level')]), [
      'x* g header',
      'y* g header',
      'z* g header',
      'Force N header',
      'level ? none',
    ]);
    const none = findChannels('run.csv', tableOf(of('x')), [], undefined, {});
    assert.ok(!none.ok && none.failure.code === 'no-channels');
    assert.match(none.failure.message, /check the delimiter and the decimal mark\.$/);
  });

  it('without names are x, y, z where they are three, else numbered', () => {
    const bare = of(undefined, undefined, undefined);
    bare[2] = numbers(
      undefined,
      each(40, (i) => 1 + 0.01 * Math.sin(i)),
    );
    assert.deepEqual(channels(bare, { table: { named: false } }), [
      'x* g mean vector',
      'y* g mean vector',
      'z* g mean vector',
    ]);
    assert.deepEqual(channels(of(undefined, undefined), { table: { named: false } }), [
      'column1 ? none',
      'column2 ? none',
    ]);
    const below = bare.map((column) => ({ ...column, unitBelow: '[m/s²]' }) as TableColumn);
    assert.match(
      String(channels(below, { table: { named: false } })),
      /^unit-conflict: .*header says m\/s\^2, but the mean vector is 1\.\d+ long, which is gravity in g/,
    );
  });

  it('of columns without a name among named ones are numbered', () => {
    assert.deepEqual(channels([...xyz('g'), ...of(undefined, '(V)')]).slice(3), ['column4 ? none', '(V) ? none']);
  });

  it('that another unit than one of acceleration names are no axes', () => {
    assert.deepEqual(channels(of('x (deg)', 'y (N)', 'z (rpm)')), ['x ? none', 'y N header', 'z ? none']);
    for (const unit of ['counts', 'raw', 'V', 'mV', '-', 'none', 'unitless'])
      assert.deepEqual(String(channels(of(`x (${unit})`, `y (${unit})`, `z (${unit})`))).match(/\*/g)?.length, 3, unit);
    assert.deepEqual(channels(of('Seat Z (g)')), ['z* g header']);
    assert.deepEqual(channels(of('Seat Z')), ['Seat Z ? none']);
  });

  it('that come twice keep their headers, and get a number where these are alike', () => {
    assert.deepEqual(channels(of('front x (g)', 'rear x (g)', 'rear x (g)')), [
      'front x* g header',
      'rear x* g header',
      'rear x 2* g header',
    ]);
    assert.deepEqual(channels(of('a', 'a', 'a')), ['a ? none', 'a 2 ? none', 'a 3 ? none']);
  });

  it('of several sensors have the sensor before their names', () => {
    const beside = [...xyz('g'), ...xyz('g')].map(
      (column, k) => ({ ...column, sensor: k < 3 ? 'seat' : 'hub' }) as TableColumn,
    );
    assert.deepEqual(channels(beside), [
      'seat_x* g header',
      'seat_y* g header',
      'seat_z* g header',
      'hub_x* g header',
      'hub_y* g header',
      'hub_z* g header',
    ]);
    const bare = [...xyz('g'), ...xyz('g', 4)].map(
      (column, k) => ({ ...column, header: 'xyz'[k % 3], sensor: k < 3 ? 'seat' : 'hub' }) as TableColumn,
    );
    // The first one's mean vector is gravity in g.
    assert.deepEqual(channels(bare).slice(0, 1), ['seat_x* g mean vector']);
  });
});

describe('columns that are left out', () => {
  const sparse = (empty: number, header: string): TableColumn =>
    numbers(
      header,
      each(40, (i) => (i < empty ? NaN : i)),
      { decimals: 0 },
    );

  it('are those with more than a twentieth of empty cells, where there are more than three and they are no axes', () => {
    const leftOut = (columns: readonly TableColumn[], options?: ReadOptions): string[] => {
      const result = found(columns, { options });
      return typeof result === 'string' ? [result] : result.leftOut;
    };
    assert.deepEqual(leftOut([...xyz('g'), sparse(3, 'note')]), ['"note" column.empty']);
    assert.deepEqual(leftOut([...xyz('g'), sparse(2, 'note')]), []);
    assert.deepEqual(leftOut([...xyz('g').slice(1), sparse(30, 'note')]), []);
    assert.deepEqual(leftOut([...xyz('g'), sparse(3, 'acc x')]), []);
    assert.deepEqual(leftOut([...xyz('g'), sparse(3, 'note')], { wanted: ['NOTE'] }), []);
    assert.deepEqual(leftOut([...xyz('g'), sparse(3, 'note')], { channels: { n: 'note' } }), []);
    assert.deepEqual(leftOut([...xyz('g'), sparse(3, 'note')], { wanted: ['other'] }), ['"note" column.empty']);
  });

  it('are raw readings beside calibrated ones of the same axes', () => {
    const both = (raw: readonly TableColumn[], good: readonly TableColumn[]): string => {
      const result = found([...raw, ...good]);
      return typeof result === 'string'
        ? result
        : `${result.channels.map((one) => one.split(' ')[0]).join(' ')}; ${result.leftOut.length}`;
    };
    assert.equal(both(of('x (counts)', 'y (counts)', 'z (counts)'), xyz('g')), 'x* y* z*; 3');
    assert.equal(both(of('raw x', 'raw_y', 'raw z'), xyz('g')), 'x* y* z*; 3');
    const kinds = of('x', 'y', 'z').map((column) => ({ ...column, kindBelow: 'raw' }) as TableColumn);
    assert.equal(both(kinds, xyz('g')), 'x* y* z*; 3');
    // Nothing is left out where an axis has no calibrated reading, or all are raw, or calibrated ones come twice.
    assert.match(both(of('x (counts)', 'y (counts)', 'z (counts)'), xyz('g').slice(1)), /; 0$/);
    assert.match(both(of('raw x', 'raw y'), of('raw a x', 'raw a y')), /; 0$/);
    assert.match(both(of('raw x'), of('front x (g)', 'rear x (g)')), /; 0$/);
  });
});

describe('the unit of the channels', () => {
  it('is the preamble’s where their headers state none', () => {
    assert.deepEqual(channels(of('x', 'y', 'z'), { unit: 'mm/s^2' }), [
      'x* mm/s^2 header',
      'y* mm/s^2 header',
      'z* mm/s^2 header',
    ]);
    assert.deepEqual(channels([...of('x (mg)', 'y'), numbers('level', noise(40))], { unit: 'g' }).slice(0, 3), [
      'x* mg header',
      'y* g header',
      'level ? none',
    ]);
  });

  it('may differ from channel to channel, and is not settled for what has none', () => {
    assert.deepEqual(channels(of('x (g)', 'y (mg)')), ['x* g header', 'y* mg header']);
    const some = found(of('x (g)', 'y', 'z (g)'));
    assert.ok(typeof some === 'object');
    assert.deepEqual(some.channels, ['x* g header', 'y* ? none', 'z* g header']);
    assert.match(some.remark ?? '', /for some columns but none for y;/);
  });

  it('is the option’s, with its scale on the axes alone', () => {
    const scaled = found(
      [
        ...of('x', 'y', 'z'),
        numbers(
          'level',
          each(40, () => 7),
        ),
      ],
      { options: { unit: 'g', scale: 0.5 } },
    );
    assert.ok(typeof scaled === 'object');
    assert.deepEqual(scaled.channels, ['x* g option', 'y* g option', 'z* g option', 'level ? none']);
    const plain = found(
      [
        ...of('x', 'y', 'z'),
        numbers(
          'level',
          each(40, () => 7),
        ),
      ],
      { options: { unit: 'g' } },
    );
    assert.ok(typeof plain === 'object');
    assert.deepEqual(
      scaled.samples,
      plain.samples.map((value, k) => (k < 3 ? value / 2 : value)),
    );
    assert.match(
      String(channels(of('x (mg)', 'y (mg)'), { options: { unit: 'g' } })),
      /^unit-conflict: .*header says mg .*unit g/,
    );
    assert.match(
      String(channels(of('x (g)', 'y (mg)'), { options: { unit: 'g' } })),
      /^unit-conflict: .*header says mg/,
    );
  });

  it('says of counts, volts and unknown words what would settle it', () => {
    const remark = (unit: string): string => {
      const result = found(of(`x (${unit})`, `y (${unit})`, `z (${unit})`));
      return typeof result === 'string' ? result : (result.remark ?? 'none');
    };
    assert.match(remark('counts'), /says counts, which is no unit of acceleration/);
    assert.match(remark('mV'), /says mV/);
    assert.match(remark('volts'), /says volts/);
  });

  it('is found by whole counts', () => {
    const counts = [
      ...of('x', 'y'),
      numbers(
        'z',
        each(40, () => 4096),
      ),
    ].map((column) => ({ ...column, decimals: 0 }) as TableColumn);
    const whole = found(counts);
    assert.match(typeof whole === 'string' ? whole : (whole.remark ?? ''), /4096 counts a g/);
    const broken = found(counts.map((column, k) => (k === 0 ? ({ ...column, decimals: 1 } as TableColumn) : column)));
    assert.doesNotMatch(typeof broken === 'string' ? broken : (broken.remark ?? ''), /4096 counts a g/);
  });
});

describe('channels named by hand', () => {
  it('are looked for by header, name or number, whatever the case', () => {
    const options = (header: string): Asked => ({ options: { channels: { w: header } } });
    for (const header of ['Level (N)', ' LEVEL (n) ', 'level', 'Column2'])
      assert.deepEqual(channels(of('x (g)', 'Level (N)'), options(header)), ['x* g header', 'w N header'], header);
    // An axis by its header without the unit, too.
    assert.match(String(channels(of('AccX [g]', 'Level (N)'), options('accx'))), /^w\*? g header,/);
    assert.match(
      String(channels(of('x (g)', 'Level (N)'), options('Column3'))),
      /^no-such-channel: .*w="Column3".*"x \(g\)" and "Level \(N\)"/,
    );
  });

  it('are axes where they are called so, and take the name from another', () => {
    const named = (header: string, name: string): string[] | string =>
      channels(of(header, 'b (g)'), { options: { channels: { [name]: 'b' } } });
    assert.deepEqual(named('a (g)', 'x'), ['a g header', 'x* g header']);
    assert.deepEqual(named('x (g)', 'x'), ['x (g) g header', 'x* g header']);
    assert.deepEqual(named('level', 'level'), ['level ? none', 'level 2 g header']);
    assert.deepEqual(named('x (g)', 'w'), ['x* g header', 'w g header']);
  });
});
