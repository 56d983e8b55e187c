import { strict as assert } from 'node:assert';
import { assemble, type Origin } from '../../src/readers/assemble.ts';
import type { ReadOptions, Recording } from '../../src/readers/recording.ts';
import type { Table, TableColumn } from '../../src/readers/table.ts';
import { each, labels, noise, numbers, stamps, tableOf } from './tables.ts';

interface Asked {
  readonly origin?: Partial<Origin>;
  readonly table?: Partial<Table>;
}

const made = (
  columns: readonly TableColumn[],
  options: ReadOptions = {},
  { origin, table }: Asked = {},
): Recording | string => {
  const result = assemble(
    {
      origin: { path: 'run.csv', layout: { format: 'delimited text', rows: 0 }, findings: [], ...origin },
      table: tableOf(columns, table),
    },
    options,
  );
  return result.ok ? result.value : `${result.failure.code}: ${result.failure.message}`;
};
const recording = (...asked: Parameters<typeof made>): Recording => {
  const found = made(...asked);
  assert.ok(typeof found === 'object', String(found));
  return found;
};
const codes = ({ findings }: Recording): string[] => findings.map(({ code }) => code);
const leftOut = ({ layout }: Recording): string[] =>
  (layout.leftOut ?? []).map(({ column, why }) => `${column} ${why.code}`);

const count = 200;
const time = numbers(
  't (s)',
  each(count, (i) => i / 100),
);
const axes = [
  numbers('x (g)', noise(count)),
  numbers('y (g)', noise(count, 2)),
  numbers(
    'z (g)',
    each(count, (i) => 1 + Math.round(100 * Math.sin(i)) / 1000),
  ),
];
const sound = [time, ...axes];

describe('a recording made of a table', () => {
  it('has its channels, its clock and how it was understood', () => {
    const { file, channels, clock, layout, findings } = recording(sound);
    assert.equal(file, 'run.csv');
    assert.deepEqual(
      channels.map(({ name }) => name),
      ['x', 'y', 'z'],
    );
    assert.deepEqual([clock.rate, clock.rateFrom, clock.epoch], [100, 'stamps', 0]);
    assert.deepEqual(layout, {
      format: 'delimited text',
      rows: 0,
      time: { column: 't (s)', style: 's', quantum: 0.01 },
    });
    assert.deepEqual(findings, []);
  });

  it('tells why each other column is no channel', () => {
    const others = [
      numbers(
        'sample',
        each(count, (i) => i),
      ),
      labels(
        'state',
        each(count, (i) => i).map((i) => (i % 3 === 0 ? 'on' : 'off')),
      ),
      stamps(
        'day',
        each(count, () => 0),
        { clock: false },
      ),
      numbers(
        'heat',
        each(count, (i) => (i === 50 ? NaN : 20.5)),
      ),
      {
        kind: 'other',
        header: 'note',
        why: { code: 'column.text', facts: {}, message: 'it holds text' },
      } as TableColumn,
    ];
    const found = recording([...sound, ...others]);
    assert.deepEqual(leftOut(found), [
      '"heat" column.gaps',
      '"sample" column.counter',
      '"state" column.text',
      '"day" column.dates',
      '"note" column.text',
    ]);
    assert.match(found.layout.leftOut![2].why.message, /"on" and "off"/);
  });

  it('is refused with fewer than two rows', () => {
    assert.match(String(made([numbers('x', [])])), /^too-short: .*has no row/);
    assert.match(String(made([numbers('x', [1])])), /^too-short: .*has one row/);
  });

  it('is refused with options that can’t be', () => {
    assert.match(String(made(sound, { scale: 0, unit: 'g' })), /^scale: .*other than 0/);
    assert.match(String(made(sound, { scale: NaN, unit: 'g' })), /^scale/);
    assert.match(String(made(sound, { scale: 2 })), /^scale: .*unit g scale 2/);
    assert.match(String(made(sound, { timezone: 'somewhere' })), /^timezone: .*"somewhere"/);
    for (const timezone of ['local', '+02:00', 'UTC'])
      assert.equal(typeof made(sound, { timezone }), 'object', timezone);
  });

  it('is refused where an axis reads as text, or numbers have a mark stuck to them', () => {
    const words = (header: string, cell: (i: number) => string): TableColumn =>
      labels(
        header,
        each(count, (i) => i).map((i) => cell(Math.floor(i / 30))),
      );
    assert.match(
      String(made([time, ...axes.slice(1), words('x (g)', (i) => `1,${i}`)])),
      /^axis-not-numbers: .*"x \(g\)" is an axis by its name.*"1,0"/,
    );
    assert.equal(typeof made([...sound, words('x (g)', (i) => `1,${i}`)], { channels: { x: 'y (g)' } }), 'object');
    for (const [before, after] of [
      ['[', ''],
      ['', ']'],
      ['"', ''],
      ['', ';'],
    ])
      assert.match(
        String(made([...sound, words('level', (i) => `${before}1.${i}${after}`)])),
        /^axis-not-numbers: .*"level" would be numbers/,
      );
    assert.equal(typeof made([...sound, words('level', (i) => (i < 4 ? `on ${'abcd'[i]}` : `[1.${i}`))]), 'object');
    assert.equal(typeof made([...sound, words('level', (i) => `on ${i}`)]), 'object');
  });

  it('without a time needs a rate, and counts lost rows by its counter', () => {
    const counter = numbers(
      'sample',
      each(count, (i) => i + (i >= 100 ? 50 : 0)),
    );
    assert.match(
      String(made([counter, ...axes])),
      /^no-rate: .*"sample" counts rows and no column tells the time: state the rate/,
    );
    assert.match(String(made(axes)), /^no-rate: run\.csv: no column tells the time/);
    const rated = recording([counter, ...axes], { rate: 50 });
    assert.deepEqual([rated.clock.rate, rated.clock.rateFrom, rated.clock.epoch], [50, 'option', undefined]);
    assert.deepEqual(rated.clock.stretches, [
      { from: 0, to: 100, start: 0 },
      { from: 100, to: 200, start: 3 },
    ]);
    const stated = recording(axes, {}, { origin: { stated: { rate: 25, from: 'preamble', name: '"rate"' } } });
    assert.deepEqual([stated.clock.rate, stated.clock.rateFrom], [25, 'preamble']);
    assert.deepEqual(stated.clock.stretches, [{ from: 0, to: count, start: 0 }]);
    const torn = axes.map((column) => ({
      ...column,
      values: column.values.map((value, i) => (i >= 60 && i < 70 ? NaN : value)),
    }));
    assert.deepEqual(
      recording(torn, { rate: 10 }).clock.stretches.map(({ from, to, start }) => [from, to, Math.round(10 * start)]),
      [
        [0, 60, 0],
        [60, 190, 70],
      ],
    );
  });

  it('follows the rate of the option, and tells where the stamps give another', () => {
    const rated = recording(sound, { rate: 200 });
    assert.deepEqual([rated.clock.rate, rated.clock.rateFrom], [200, 'option']);
    assert.deepEqual(codes(rated), ['rate-differs']);
    assert.deepEqual(
      codes(recording(sound, {}, { origin: { stated: { rate: 120, from: 'preamble', name: '"rate"' } } })),
      ['rate-differs'],
    );
    assert.match(
      String(
        made([
          numbers(
            't (s)',
            each(count, (i) => i * 2e4),
          ),
          ...axes,
        ]),
      ),
      /^rate-impossible: .*0\.00005 Hz/,
    );
  });

  it('tells what was found of all of it, the worst first', () => {
    const found = recording(
      sound.map((column) => ({ ...column, header: undefined }) as TableColumn),
      {},
      {
        table: { named: false },
        origin: {
          dropped: 7,
          findings: [{ code: 'zero-bytes', severity: 'note', facts: {}, message: 'A note.' }],
        },
      },
    );
    assert.deepEqual(codes(found).sort(), ['dropped-samples', 'no-header', 'zero-bytes']);
    assert.equal(found.findings[0].code, 'dropped-samples');
    assert.equal(found.findings[0].value, 7);
    const gap = [
      numbers(
        't (s)',
        each(count, (i) => (i + (i >= 100 ? 50 : 0)) / 100),
      ),
      ...axes,
    ];
    assert.deepEqual(codes(recording(gap, {}, { origin: { dropped: 50 } })), ['gap']);
    assert.deepEqual(codes(recording(gap, {}, { origin: { dropped: 51 } })).sort(), ['dropped-samples', 'gap']);
  });
});

describe('the time of the first sample', () => {
  const noon = 43_200;
  const start = { seconds: 1_700_000_000, day: 1_699_920_000, zone: undefined } as Origin['start'];
  const epoch = (
    columns: readonly TableColumn[],
    options: ReadOptions = {},
    origin: Partial<Origin> = {},
  ): number | undefined => recording(columns, options, { origin }).clock.epoch;
  const clock = stamps(
    'Time',
    each(count, (i) => noon + i / 100),
  );

  it('is that of the clock, with the day that the stamps have', () => {
    assert.equal(epoch([clock, ...axes]), noon);
    const dated = { ...clock, base: 86_400 * 100, style: 'iso8601' };
    assert.equal(epoch([dated, ...axes]), 86_400 * 100 + noon);
    assert.equal(epoch([dated, ...axes], { timezone: '+02:00' }), 86_400 * 100 + noon - 7200);
    assert.equal(epoch([dated, ...axes], { timezone: 'local' }), 86_400 * 100 + noon);
    assert.equal(epoch([{ ...dated, zone: '+01:00' }, ...axes], { timezone: '+02:00' }), 86_400 * 100 + noon);
    assert.equal(epoch([dated, ...axes], {}, { start }), 86_400 * 100 + noon);
  });

  it('takes its day, or all of it, from a start above the rows', () => {
    assert.equal(epoch([clock, ...axes], {}, { start }), start!.day + noon);
    assert.equal(epoch([clock, ...axes], { timezone: '+01:00' }, { start }), start!.day + noon - 3600);
    assert.equal(epoch(sound, {}, { start }), start!.seconds);
    const later = (from: number): TableColumn =>
      numbers(
        't (s)',
        each(count, (i) => from + i / 100),
      );
    assert.equal(epoch([later(5), ...axes], {}, { start }), start!.seconds + 5);
    assert.equal(epoch([later(59), ...axes], {}, { start }), start!.seconds + 59);
    assert.equal(epoch([later(61), ...axes], {}, { start }), start!.seconds);
    assert.equal(epoch(axes, { rate: 100 }, { start }), start!.seconds);
    assert.equal(epoch(axes, { rate: 100 }, { epoch: 77 }), 77);
    assert.equal(epoch(axes, { rate: 100 }), undefined);
  });
});
