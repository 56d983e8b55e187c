import { strict as assert } from 'node:assert';
import type { Part } from '../../src/charts/output.ts';
import { present } from '../../src/charts/present.ts';
import type { Value } from '../../src/values/value.ts';
import { everyValue, plotOf } from './everyValue.ts';
import * as made from './madeUp.ts';

const parts = (value: Value): readonly Part[] => present(value, 'v', []).parts;
const text = (value: Value): string => present(value, 'v', []).text;
const tables = (value: Value): Extract<Part, { type: 'table' }>[] =>
  parts(value).filter((part) => part.type === 'table');
const charts = (value: Value): Extract<Part, { type: 'chart' }>[] =>
  parts(value).filter((part) => part.type === 'chart');

describe('what travels with a result', () => {
  const excluded = [{ label: 'b2', path: 'raw/b2.csv', why: 'stopped halfway', run: undefined }];

  it('is said beside every kind that leaves runs out', () => {
    const { comparison } = everyValue;
    const values: Value[] = [
      { ...everyValue.runs, excluded },
      { ...everyValue.spectrum, excluded },
      { ...everyValue.levels, excluded },
      { ...everyValue.bands, excluded },
      { ...everyValue.transfer, excluded },
      { ...comparison, b: { ...comparison.b, excluded } },
      { ...everyValue.verdict, comparison: { ...comparison, b: { ...comparison.b, excluded } } },
    ];
    for (const value of values)
      assert.match(text(value), /Left out by the run sheet: b2 \(stopped halfway\)\./, value.kind);
  });

  it('is the plan with every deviation from it', () => {
    const plan = {
      name: 'plan',
      hash: '0123456789abcdef',
      question: 'Does gel give less?',
      deviations: [{ code: 'deviation.order', facts: {}, message: 'the order was A B A B' }],
    };
    assert.match(text({ ...everyValue.comparison, plan }), /Not as planned:\n– The order was A B A B\./);
    assert.match(
      text({ ...everyValue.comparison, plan: { ...plan, deviations: [] } }),
      /As written here, it was followed in every point/,
    );
  });

  it('is what forbids a verdict', () => {
    assert.match(
      text({ ...everyValue.comparison, guards: [{ code: 'guard.fault', facts: {}, message: 'a run is clipped' }] }),
      /No verdict may rest on this, because a run is clipped\./,
    );
  });

  it('is what the data rule out, in a table of its own', () => {
    const { rows, ...rest } = everyValue.comparison;
    const value: Value = {
      ...rest,
      rows: rows.map((row) => ({
        ...row,
        excludes: { reductionPercent: 31.2, increasePercent: 0, eitherWayPercent: 31.2 },
      })),
    };
    const [, details] = tables(value);
    assert.deepEqual(
      details.columns.map(({ name }) => name),
      ['Band', 'Ruled out beyond, either way'],
    );
    assert.equal(details.folded, true);
  });

  it('are the cautions beside published ranges', () => {
    const [run] = everyValue.levels.rows.map((row) => row.run);
    const exposure = {
      rows: [
        {
          run,
          channels: ['z'],
          weightings: ['Wk'],
          body: 'whole body' as const,
          total: 0.62,
          daily: 0.62,
          comfort: ['a little uncomfortable', 'fairly uncomfortable'],
          action: 0.5,
          limit: 1.15,
          sentences: ['a1 lies in two ranges.'],
        },
      ],
      cautions: ['This is no finding on health.'],
    };
    const shown = text({ ...everyValue.levels, exposure });
    assert.match(shown, /a little uncomfortable \/ fairly uncomfortable/);
    assert.match(shown, /This is no finding on health\./);
  });
});

describe('rows that are of no band', () => {
  it('are called the whole signal, and shade nothing', () => {
    const { rows, ...rest } = everyValue.comparison;
    const value: Value = { ...rest, metric: 'vibration dose value', metricCode: 'vdv', rows: rows.slice(0, 1) };
    assert.equal(tables(value)[0].rows[0][0], 'whole signal');
    assert.ok(!JSON.stringify(charts(value)[0].vega).includes('10–30 Hz'));
  });
});

describe('bands without a figure', () => {
  it('have a dash in the table and no bar', () => {
    const { rows, ...rest } = everyValue.bands;
    const value: Value = { ...rest, rows: rows.map((row) => (row.band.from === 10 ? { ...row, rms: NaN } : row)) };
    assert.equal(tables(value)[0].rows[0][2], '–');
    const [chart] = charts(value);
    assert.ok(!/NaN/.test(chart.description + JSON.stringify(chart.vega)));
  });
});

describe('spectra over cycles per metre', () => {
  const axis = { name: 'cycles per metre' as const, unit: { ...made.hertzUnit, symbol: '1/m' }, by: '1.2 m/s' };
  const value: Value = { ...everyValue.spectrum, axis };

  it('say so on the axis, in the words and in the table', () => {
    const [chart] = charts(value);
    assert.ok(JSON.stringify(chart.vega).includes('"Cycles per metre (1/m)"'));
    assert.match(chart.subtitle, /divided by 1\.2 m\/s/);
    assert.match(chart.description, /against cycles per metre from 0 cycles\/m to 175 cycles\/m/);
    assert.equal(tables(value)[0].columns[4].unit, '1/m');
  });

  it('show no bands in Hz, and no spectrum in Hz in the same picture', () => {
    const shown = charts(plotOf([value, everyValue.spectrum, everyValue.bands] as Parameters<typeof plotOf>[0]));
    assert.equal(shown.length, 2);
    assert.ok(!JSON.stringify(shown[0].vega).includes('10–30 Hz'));
    assert.ok(JSON.stringify(shown[1].vega).includes('10–30 Hz'));
  });
});

describe('planning', () => {
  it('gives the run sheet to be filled in, and what the letters stand for', () => {
    const shown = text({ ...everyValue.order, conditions: ['foam', 'gel'], sheet: 'file,condition\n,foam\n' });
    assert.match(shown, /A is foam, B is gel: foam, gel, gel, foam\./);
    assert.match(shown, /file,condition\n,foam/);
  });

  it('holds a spectrum against a profile', () => {
    const [run] = made.foam.runs;
    const against = [
      {
        run,
        channel: run.channels[0],
        rms: 0.21,
        decibels: -7.9,
        highest: { decibels: 1.2, frequency: 18 },
        lowest: { decibels: -20, frequency: 5 },
        outside: 0.7,
      },
    ];
    assert.deepEqual(tables({ ...everyValue.profile, against })[1].rows[0], [
      'a1',
      'z',
      '0.2100',
      '−7.90',
      '+1.2',
      '18.00',
      '−20.0',
      '5.000',
      '70.0',
    ]);
  });
});
