import { strict as assert } from 'node:assert';
import type { ChartPart, Part } from '../../src/charts/output.ts';
import { present } from '../../src/charts/present.ts';
import { themes } from '../../src/charts/theme.ts';
import { toSvg } from '../../src/report/svg.ts';
import type { SpectrumValue } from '../../src/values/spectrum.ts';
import type { Value } from '../../src/values/value.ts';
import { everyValue, plotOf } from './everyValue.ts';
import { foamSpectrum, gelSpectrum, madeBands, madeComparison } from './madeUp.ts';

/** Values at the edges of what is drawn: nothing but zeros, very large and very small, very many, very long names. */

const parts = (value: Value): readonly Part[] => present(value, 'v', []).parts;
const charts = (value: Value): ChartPart[] => parts(value).filter((part) => part.type === 'chart');
const texts = (value: Value): string =>
  parts(value)
    .flatMap((part) => (part.type === 'text' ? [part.text] : []))
    .join();
const drawn = (chart: ChartPart, width = 640): Promise<string> => toSvg(chart, themes.light, width);

/** Figures and names that stand in a picture. */
const written = (svg: string): string[] => [...svg.matchAll(/<text[^>]*>([^<]+)/g)].map(([, text]) => text);

/** A spectrum with every level times a factor. */
function scaled(spectrum: SpectrumValue, factor: number): SpectrumValue {
  const times = (levels: Float64Array): Float64Array => levels.map((level) => level * factor);
  const curve = <T extends { level: Float64Array; low: Float64Array; high: Float64Array }>(one: T): T => ({
    ...one,
    level: times(one.level),
    low: times(one.low),
    high: times(one.high),
  });
  return {
    ...spectrum,
    entries: spectrum.entries.map((entry) => ({ ...curve(entry), density: times(entry.density) })),
    means: spectrum.means.map(curve),
  };
}

describe('figures on axes', () => {
  it('are powers of ten with raised exponents, all of an axis or none', async () => {
    const labels = written(await drawn(charts(plotOf([foamSpectrum]))[0]));
    assert.ok(labels.includes('10⁻³') && labels.includes('10⁻⁵'), labels.join(' '));
    assert.ok(!labels.some((label) => /^0\.0+1$|e-/.test(label)), labels.join(' '));
  });

  it('are not grouped, and begin at zero', async () => {
    const large = { ...everyValue.levels, rows: everyValue.levels.rows.map((row) => ({ ...row, rms: row.rms * 4e5 })) };
    const labels = written(await drawn(charts(plotOf([large]))[0]));
    assert.ok(labels.includes('0') && labels.includes('20000'), labels.join(' '));
    assert.ok(!labels.some((label) => label.includes(',')), labels.join(' '));
  });
});

describe('nothing but zeros', () => {
  const zero = scaled(foamSpectrum, 0);

  it('has no place on a log axis, and that is said', () => {
    assert.match(texts(zero), /No bin lies above zero/);
    assert.equal(charts(zero).length, 1);
  });

  it('stands on the foot of an axis from 0 to 1', async () => {
    for (const value of [zero, { ...madeBands(foamSpectrum), rows: madeBands(zero).rows }]) {
      const labels = written(await drawn(charts(value)[0]));
      assert.ok(labels.includes('0') && labels.includes('1.0'), labels.join(' '));
    }
  });

  it('has no highest bin', () => {
    const [table] = parts(zero).filter((part) => part.type === 'table');
    assert.deepEqual(table.rows[0].slice(-2), ['–', '–']);
  });
});

describe('what lies far apart', () => {
  it('is named where the picture does not reach it', () => {
    const faint = { ...scaled(gelSpectrum, 1e-12), set: 'faint' };
    assert.match(charts(plotOf([foamSpectrum, faint]))[0].subtitle, /Below the picture: faint, mean of 4 runs\.$/);
    assert.doesNotMatch(charts(plotOf([foamSpectrum, gelSpectrum]))[0].subtitle, /Below/);
  });

  it('has one scale of colours in the spectrograms of a set', () => {
    const { entries, ...rest } = everyValue.spectrogram;
    const quiet = { ...entries[0], density: entries[0].density.map((level) => level / 100) };
    const [alone] = charts({ ...rest, entries: [entries[0]] });
    const both = charts({ ...rest, entries: [entries[0], quiet] });
    const domain = ({ vega }: ChartPart): unknown =>
      (vega['scales'] as readonly { name: string; domain: unknown }[]).find(({ name }) => name === 'color')?.domain;
    assert.deepEqual(domain(both[0]), domain(both[1]));
    assert.notDeepEqual(domain(both[0]), domain(alone));
    assert.match(both[0].subtitle, /One colour scale for all runs/);
    assert.doesNotMatch(alone.subtitle, /One colour scale/);
  });
});

describe('long names', () => {
  const long = 'the pad as it was delivered with the chair in the spring of last year';
  const compared = madeComparison({ ...foamSpectrum, set: long }, gelSpectrum);
  const value: Value = { ...compared, a: { ...compared.a, name: long } };

  it('leave the plot its room', async () => {
    const svg = await drawn(charts(value)[0], 480);
    assert.ok(Number(/<svg[^>]*\bwidth="([\d.]+)"/.exec(svg)?.[1]) <= 490);
  });

  it('are cut in a table’s head, and stand whole in its name', () => {
    const [table] = parts(value).filter((part) => part.type === 'table');
    const heads = table.columns.map(({ name }) => name);
    assert.ok(heads.includes('A: the pad as it was delivered…'), heads.join());
    assert.ok(table.caption.includes(long));
  });
});

describe('the pointer over a running level', () => {
  it('says the value of every run there, and a dash where a run has none', () => {
    const { entries, ...rest } = everyValue.running;
    const [entry] = entries;
    const half = entry.times.length >> 1;
    const short = { ...entry, times: entry.times.slice(0, half), rms: entry.rms.slice(0, half) };
    const [chart] = charts({ ...rest, entries: [entry, { ...short, run: { ...entry.run, label: 'short' } }] });
    const data = chart.vega['data'] as readonly { readonly values?: readonly Record<string, unknown>[] }[];
    const rows = data.flatMap(({ values = [] }) => values.filter((row) => row['t2'] !== undefined));
    const said = rows.map(({ told }) => (told as readonly { text: string }[]).map(({ text }) => text).join('\n'));
    assert.equal(said.length, 120);
    assert.match(said[10], /^[\d.]+ s, in g\n\S+: 0\.\d+\nshort: 0\.\d+$/);
    assert.match(said[115], /short: –$/);
  });
});

describe('a set without a name', () => {
  const unnamed = { ...foamSpectrum, set: undefined };

  it('is called by its runs, or by how many they are', () => {
    const bare = (value: Value): ChartPart[] =>
      present(value, undefined, []).parts.filter((part) => part.type === 'chart');
    const [chart] = bare(unnamed);
    assert.equal(chart.title, 'Acceleration spectral density of 4 runs, channel z');
    assert.match(JSON.stringify(chart.vega), /"mean of 4 runs"/);
    const { entries, ...rest } = everyValue.running;
    assert.match(
      bare({ ...rest, set: undefined, entries: entries.slice(0, 1) })[0].title,
      new RegExp(`: ${entries[0].run.label}$`),
    );
  });
});

describe('many and few', () => {
  const octave = Array.from({ length: 15 }, (_, index) => ({
    from: 4 * 2 ** (index / 3),
    to: 4 * 2 ** ((index + 1) / 3),
    label: String(Math.round(4.5 * 2 ** (index / 3))),
  }));

  it('bars stay slim where they are few', async () => {
    const widthOf = (svg: string): number => Number(/<svg[^>]*\bwidth="([\d.]+)"/.exec(svg)?.[1]);
    const one = charts(madeBands(foamSpectrum, [{ from: 10, to: 50 }]))[0];
    assert.ok(widthOf(await drawn(one, 1000)) < 520);
    assert.ok(widthOf(await drawn(charts(madeBands(foamSpectrum, octave))[0], 1000)) > 900);
  });

  it('names of bands stay level where there is room, and turn where there is none', async () => {
    const chart = charts(madeBands(foamSpectrum, octave))[0];
    const turned = /rotate\(-40/;
    assert.doesNotMatch(await drawn(chart, 900), turned);
    assert.match(await drawn(chart, 320), turned);
  });

  it('dots of the runs stand side by side within their bar', () => {
    const [chart] = charts(madeBands(foamSpectrum));
    const data = chart.vega['data'] as readonly { readonly values?: readonly Record<string, unknown>[] }[];
    const slots = data.flatMap(({ values = [] }) =>
      values.flatMap((row) => (row['slot'] === undefined ? [] : [row['slot']])),
    );
    assert.equal(new Set(slots).size, foamSpectrum.entries.length);
  });

  it('neighbouring bands differ in shade, in whatever order they were named', () => {
    const { rows, ...rest } = madeComparison(foamSpectrum, gelSpectrum, [
      { from: 10, to: 50 },
      { from: 4, to: 10 },
      { from: 50, to: 100 },
    ]);
    const [chart] = charts({ ...rest, rows });
    const data = chart.vega['data'] as readonly { readonly values?: readonly Record<string, unknown>[] }[];
    const bands = data.flatMap(({ values = [] }) => values.filter((row) => row['odd'] !== undefined));
    assert.deepEqual(
      bands.map((row) => [row['f'], row['odd']]),
      [
        [4, 0],
        [10, 1],
        [50, 0],
      ],
    );
  });
});
