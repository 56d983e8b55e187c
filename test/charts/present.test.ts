import { strict as assert } from 'node:assert';
import type { Part } from '../../src/charts/output.ts';
import { present } from '../../src/charts/present.ts';
import type { Value } from '../../src/values/value.ts';
import { everyPlot, everyValue, plotOf } from './everyValue.ts';
import { madeRun } from './madeUp.ts';

const tables = (parts: readonly Part[]): Extract<Part, { type: 'table' }>[] =>
  parts.filter((part) => part.type === 'table');
const charts = (parts: readonly Part[]): Extract<Part, { type: 'chart' }>[] =>
  parts.filter((part) => part.type === 'chart');
const texts = (parts: readonly Part[]): string[] => parts.flatMap((part) => (part.type === 'text' ? [part.text] : []));
const cells = (value: Value): readonly (readonly string[])[] => tables(present(value, 'v', []).parts)[0].rows;

/** Paths of what JSON could not carry: figures that are none, functions, typed arrays. */
function notPlain(value: unknown, path = ''): string[] {
  if (typeof value === 'number') return Number.isFinite(value) ? [] : [path];
  if (typeof value === 'function' || ArrayBuffer.isView(value)) return [path];
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, part]) => notPlain(part, `${path}/${key}`));
}

describe('present', () => {
  for (const [name, value] of [
    ...Object.entries(everyValue),
    ...Object.entries(everyPlot).map(([of, chart]) => [`plot of ${of}`, chart] as const),
  ]) {
    it(`shows ${name} as plain JSON with the whole in words`, () => {
      const output = present(value, 'v', [{ severity: 'warning', code: 'gap', message: 'There is a gap.' }]);
      assert.equal(output.version, 1);
      assert.equal(output.kind, value.kind);
      assert.ok(output.parts.length > 0);
      // What crosses to the webview is JSON, where a figure that is none would turn into null.
      assert.deepEqual(notPlain(output), []);
      assert.ok(!/NaN|Infinity|undefined/.test(output.text), output.text);
      assert.ok(output.text.includes('There is a gap.'));
      for (const { columns, rows } of tables(output.parts))
        for (const row of rows) assert.equal(row.length, columns.length);
      for (const { title, description, height } of charts(output.parts)) {
        assert.ok(title.length > 3 && description.length > 20 && height > 80);
        assert.ok(!/NaN|Infinity|undefined/.test(title + description), title + description);
      }
    });
  }

  it('keeps a notebook small: no picture of this study needs more than 300 kB', () => {
    for (const value of [...Object.values(everyValue), ...Object.values(everyPlot)]) {
      for (const { title, vega } of charts(present(value, 'v', []).parts)) {
        assert.ok(JSON.stringify(vega).length < 300_000, `${title}: ${JSON.stringify(vega).length}`);
      }
    }
  });

  it('shows nothing but a sentence where there is nothing to draw', () => {
    const parts = present(plotOf([{ kind: 'runs', set: undefined, runs: [] }]), undefined, []).parts;
    assert.deepEqual(charts(parts), []);
    assert.match(texts(parts)[0], /nothing to draw/);
  });
});

describe('what the kinds say', () => {
  it('quantity: figure and unit', () =>
    assert.deepEqual(texts(present(everyValue.quantity, 'f', []).parts), ['4.123 Hz']));

  it('runs: rate, samples, duration, unit and where it came from', () => {
    const [row] = cells(everyValue.runs);
    assert.deepEqual(row, ['a1', 'raw/a1.csv', 'z', '350.0', '23800', '8.000', '68.00', 'g (from the header)']);
  });

  it('runs: how many gaps, and how long they are together', () => {
    const run = {
      ...madeRun('a1', 1),
      stretches: [
        { from: 0, to: 3500, start: 0 },
        { from: 3500, to: 29750, start: 12.5 },
      ],
    };
    assert.equal(cells({ kind: 'runs', set: undefined, runs: [run] })[0].at(-1), '1, 2.5 s in all');
  });

  it('spectrum: one row a run with its settings, not its bins', () => {
    const rows = cells(everyValue.spectrum);
    assert.equal(rows.length, 4);
    assert.deepEqual(rows[0].slice(0, 6), ['a1', 'z', '67', '63.6', '0.5', '0.75']);
  });

  it('comparison: the sentence of each row first, then change and interval to the same decimals', () => {
    const { parts } = present(everyValue.comparison, 'C', []);
    assert.equal(parts[0].type, 'text');
    assert.equal(texts(parts)[0].split('\n').length, 3);
    const row = tables(parts)[0].rows[1];
    assert.equal(row[1], 'lower');
    assert.match(row[2], /^−\d+\.\d$/);
    assert.match(row[3], /^−\d+\.\d to −\d+\.\d$/);
  });

  it('comparison: the band named beforehand is the answer, the others follow', () => {
    const { rows, ...rest } = everyValue.comparison;
    const named = rows.map((row, index) => ({ ...row, primary: index === 0 }));
    const [answer, others] = present({ ...rest, rows: named }, 'C', []).parts;
    assert.ok(answer.type === 'text' && others.type === 'text');
    assert.deepEqual([answer.style, answer.text], ['lead', rows[0].sentence]);
    assert.equal(others.text.split('\n').length, 2);
  });

  it('comparison: many bands are counted by outcome, and told one by one on demand', () => {
    const { rows, ...rest } = everyValue.comparison;
    const many = [...rows, ...rows];
    const [counted, told] = present({ ...rest, rows: many }, 'C', []).parts;
    assert.ok(counted.type === 'text' && told.type === 'text');
    assert.match(counted.text, /^Of 6 bands: lower in \d/);
    assert.equal(told.folded, 'Every band in a sentence');
    assert.equal(told.text.split('\n').length, 6);
    // The primary one, which is told before, is not told twice.
    const [first, ...others] = many;
    const [answer, further] = present({ ...rest, rows: [{ ...first, primary: true }, ...others] }, 'C', []).parts;
    assert.ok(answer.type === 'text' && further.type === 'text');
    assert.ok(answer.text.startsWith(first.sentence));
    assert.deepEqual(
      [further.folded, further.text.split('\n').length],
      ['Every other band in a sentence', others.length],
    );
  });

  it('comparison: p for all bands only where there is a family of them', () => {
    const { rows, ...rest } = everyValue.comparison;
    const names = (shown: typeof rows): string[] =>
      tables(present({ ...rest, rows: shown, family: shown.length }, 'C', []).parts)[0].columns.map(({ name }) => name);
    const adjusted = rows.map((row) => ({ ...row, pAdjusted: 0.03 }));
    assert.ok(names(adjusted).includes('p for all bands'));
    assert.ok(!names(adjusted.slice(0, 1)).includes('p for all bands'));
    // The primary one's interval and p are its own.
    const [first, ...others] = adjusted;
    const withPrimary = names([{ ...first, primary: true }, ...others]);
    assert.ok(withPrimary.includes('p') && withPrimary.includes('95 % interval'), withPrimary.join('; '));
    const ofFamilies = { ...rest, rows: [{ ...first, family: 1, primary: true }, ...others], family: others.length };
    const [{ caption }] = tables(present(ofFamilies, 'C', []).parts);
    assert.match(
      caption,
      /The intervals and p hold for the primary band by itself and for both other bands together\.$/,
    );
  });

  it('comparison without interval: no column pretends one', () => {
    const { rows, ...rest } = everyValue.comparison;
    const bare = rows.map((row) => ({
      ...row,
      lowPercent: undefined,
      highPercent: undefined,
      p: undefined,
      pAdjusted: undefined,
      outcome: 'not shown' as const,
    }));
    const [table] = tables(present({ ...rest, rows: bare }, 'C', []).parts);
    assert.ok(table.columns.every(({ name }) => !/interval|^p/.test(name)));
  });

  it('levels: a dash for what a channel has not', () => {
    const [row] = everyValue.levels.rows;
    const shown = cells({ ...everyValue.levels, rows: [{ ...row, vdv: undefined, crestFactor: undefined }, row] })[0];
    assert.equal(shown.filter((cell) => cell === '–').length, 2);
  });

  it('levels: no column for what no channel has, and the weighting beside the channel', () => {
    const [row] = everyValue.levels.rows;
    const weighted = { ...row, vdv: undefined, channel: { ...row.channel, weighting: 'Wk' } };
    const [table] = tables(present({ ...everyValue.levels, rows: [weighted] }, 'L', []).parts);
    assert.ok(!table.columns.some(({ name }) => name === 'VDV'));
    assert.equal(table.rows[0][1], 'z, Wk-weighted');
  });

  it('findings: the most serious first, and a clean check says so', () => {
    assert.deepEqual(
      cells(everyValue.findings).map(([severity]) => severity),
      ['fault', 'warning', 'note'],
    );
    assert.match(texts(present({ kind: 'findings', rows: [] }, 'c', []).parts)[0], /every check passed/);
  });

  it('findings: what is said of several runs in the same words is said once', () => {
    const [row] = everyValue.findings.rows;
    const twice = { kind: 'findings' as const, rows: [row, { ...row, run: madeRun('a2', 2) }] };
    assert.deepEqual(
      cells(twice).map((cell) => cell[2]),
      [`${row.run.label}, a2`],
    );
  });

  it('table: measured figures stand under one another, far apart ones as powers of ten', () => {
    const rows = [
      [4, 0.5001434, 3.1379612e-6],
      [10, 174.5714, 0.0019141],
    ];
    const columns = ['from', 'frequency', 'density'].map((name) => ({ name, unit: '' }));
    assert.deepEqual(cells({ kind: 'table', caption: 't', columns, rows }), [
      ['4', '0.500', '3.13796×10⁻⁶'],
      ['10', '174.571', '1.91410×10⁻³'],
    ]);
  });

  it('table: whole numbers without decimals, however long', () => {
    const rows = [
      [20976, -4, 12_345_678],
      [100_000, 31_234, null],
    ];
    const columns = ['samples', 'offset', 'counts'].map((name) => ({ name, unit: '' }));
    assert.deepEqual(cells({ kind: 'table', caption: 't', columns, rows }), [
      ['20976', '−4', '12345678'],
      ['100000', '31234', '–'],
    ]);
  });

  it('table: the first 200 rows, and how many there are', () => {
    const rows = Array.from({ length: 450 }, (_, index) => [index, 'x']);
    const [table] = tables(present({ ...everyValue.table, rows }, 't', []).parts);
    assert.equal(table.rows.length, 200);
    assert.match(table.caption, /first 200 of 450 rows/);
    assert.deepEqual(
      table.columns.map(({ align }) => align),
      ['right', 'left'],
    );
  });

  it('verdict: the verdict is the first thing read', () => {
    assert.match(texts(present(everyValue.verdict, 'v', []).parts)[0], /^NOT SHOWN: /);
  });

  it('repeats: how many runs of each, in a sentence', () => {
    assert.match(texts(present(everyValue.repeats, 'n', []).parts)[0], /make 11 runs of each/);
  });

  it('sheet: how many runs are excluded', () => {
    assert.match(tables(present(everyValue.sheet, 's', []).parts)[0].caption, /1 run, 1 excluded/);
  });

  it('sheet: figures to the right, no empty column, remarks last', () => {
    const facts = { file: 'a.csv', note: 'dry', mass: '75.0', empty: '', why: 'broken off' };
    const row = { ...everyValue.sheet.rows[0], facts };
    const [table] = tables(present({ ...everyValue.sheet, columns: Object.keys(facts), rows: [row] }, 's', []).parts);
    assert.deepEqual(
      table.columns.map(({ name, align }) => `${name} ${align}`),
      ['file left', 'mass right', 'why left', 'note left'],
    );
  });
});
