import { strict as assert } from 'node:assert';
import type { ChartPart } from '../../src/charts/output.ts';
import { present } from '../../src/charts/present.ts';
import { signalsOf, type Run } from '../../src/values/run.ts';
import type { Value } from '../../src/values/value.ts';
import { everyPlot, everyValue, plotOf } from './everyValue.ts';
import * as made from './madeUp.ts';
import * as more from './madeUpMore.ts';

const charts = (value: Value): ChartPart[] => present(value, 'v', []).parts.filter((part) => part.type === 'chart');

interface Row {
  readonly [field: string]: unknown;
}

/** All inline rows of a chart's data. */
function rowsOf({ vega }: ChartPart): Row[] {
  const data = vega['data'] as readonly { readonly values?: readonly Row[] }[];
  return data.flatMap(({ values }) => values ?? []);
}

const found = (chart: ChartPart, test: (row: Row) => boolean): Row[] => rowsOf(chart).filter(test);

/** Titles of axes, anywhere in the specification. */
function axisTitles(part: unknown): string[] {
  if (typeof part !== 'object' || part === null) return [];
  const own =
    'axes' in part
      ? (part.axes as readonly { title?: unknown }[]).flatMap(({ title }) => (typeof title === 'string' ? [title] : []))
      : [];
  return [...own, ...Object.values(part).flatMap(axisTitles)];
}

describe('the overlay of spectra', () => {
  const { foamSpectrum, gelSpectrum } = made;
  const [overlay] = charts(plotOf([foamSpectrum, gelSpectrum, made.madeBands(foamSpectrum)]));

  it('titles its axes with quantity and unit', () => {
    const titles = axisTitles(overlay.vega);
    assert.ok(
      titles.includes('Acceleration spectral density (g²/Hz)') && titles.includes('Frequency (Hz)'),
      titles.join(),
    );
  });

  it('holds every run as a line, one strong line and one confidence band a set', () => {
    const curves = found(overlay, (row) => Array.isArray(row['v']));
    assert.equal(curves.filter((row) => row['run'] !== undefined).length, 8);
    assert.equal(curves.filter((row) => row['v2'] !== undefined).length, 2);
    assert.equal(curves.filter((row) => row['run'] === undefined && row['v2'] === undefined).length, 2);
  });

  it('says set and number of runs in the legend, and the channel in the title', () => {
    assert.match(JSON.stringify(overlay.vega), /"foam, mean of 4 runs","gel, mean of 4 runs"/);
    assert.equal(overlay.title, 'Acceleration spectral density of foam and gel, channel z');
  });

  it('names sets apart that are called the same', () => {
    const [chart] = charts(plotOf([foamSpectrum, { ...gelSpectrum, set: 'foam' }]));
    assert.match(JSON.stringify(chart.vega), /"foam, mean of 4 runs","foam \(2\), mean of 4 runs"/);
  });

  it('shades and labels the bands that are plotted along, and draws no chart of them', () => {
    assert.equal(charts(plotOf([foamSpectrum, made.madeBands(foamSpectrum)])).length, 1);
    const names = found(overlay, (row) => typeof row['text'] === 'string').map((row) => row['text']);
    assert.deepEqual(names, ['10–30 Hz', '30–50 Hz', '50–100 Hz']);
  });

  it('keeps the highest level of every run when there are more bins than points', () => {
    const fine = made.madeSpectrum({
      set: 'fine',
      runs: made.foam.runs,
      shift: 1,
      damp: 1,
      seed: 11,
      bins: 8001,
      spacing: 0.02,
    });
    const [chart] = charts(plotOf([fine]));
    for (const entry of fine.entries) {
      const [row] = found(chart, (each) => each['run'] === entry.run.label);
      const levels = row['v'] as number[];
      assert.ok(levels.length <= 800);
      assert.equal(Math.max(...levels), Number(Math.max(...entry.level.subarray(1)).toPrecision(5)));
    }
  });

  describe('of over a hundred runs', () => {
    const [run] = made.foam.runs;
    const many = (count: number) => {
      const runs = Array.from({ length: count }, (_, index) => ({ ...run, label: `r${index + 1}` }));
      return made.madeSpectrum({ set: 'many', runs, shift: 1, damp: 1, seed: 5 });
    };
    const bandsOf = (chart: ChartPart): Row[] => found(chart, (row) => Array.isArray(row['v2']));
    const linesOf = (chart: ChartPart): Row[] =>
      found(chart, (row) => Array.isArray(row['v']) && row['v2'] === undefined);

    it('draws bands that hold the middle 90 % and 50 % of the runs, bin by bin, below the mean, and says so', () => {
      const spectrum = many(120);
      const [chart] = charts(plotOf([spectrum]));
      assert.equal(linesOf(chart).length, 1);
      const [wide, narrow] = bandsOf(chart);
      assert.equal(bandsOf(chart).length, 2);
      assert.match(chart.subtitle, /bands of 120 runs: the middle 50 % and 90 % of them\.$/);
      assert.doesNotMatch(chart.subtitle, /thin|limits/);
      const at = 30;
      const bin = Math.round((wide['f'] as number[])[at] / spectrum.entries[0].spacing);
      const inside = ({ v, v2 }: Row): number =>
        spectrum.entries.filter(({ level }) => level[bin] >= (v as number[])[at] && level[bin] <= (v2 as number[])[at])
          .length;
      assert.ok(Math.abs(inside(wide) - 108) <= 2, String(inside(wide)));
      assert.ok(Math.abs(inside(narrow) - 60) <= 2, String(inside(narrow)));
    });

    it('goes by each set: one of a hundred keeps its lines and its limits', () => {
      const [chart] = charts(plotOf([many(100)]));
      assert.equal(linesOf(chart).length, 101);
      assert.match(chart.subtitle, /thin: each run; band: 95 % limits of the estimate\.$/);
      const [both] = charts(plotOf([many(120), gelSpectrum]));
      assert.equal(linesOf(both).length, 1 + 5);
      assert.match(both.subtitle, /thin: each run; bands of 120 runs: .* of them; band: 95 % limits/);
    });
  });

  it('breaks the line at levels of zero and says how many there are', () => {
    const [first, ...others] = foamSpectrum.entries;
    const level = first.level.map((value, bin) => (bin === 40 || bin === 41 ? 0 : value));
    const [chart] = charts(plotOf([{ ...foamSpectrum, entries: [{ ...first, level }, ...others] }]));
    assert.match(chart.description, /2 bins are zero/);
    const [row] = found(chart, (each) => each['run'] === first.run.label);
    assert.equal((row['v'] as unknown[]).filter((value) => value === null).length, 2);
  });

  it('states window, overlap, spacing, noise bandwidth, segments, averages and confidence', () => {
    for (const word of [
      'hann window of 2 s',
      'overlap 50 %',
      '0.5 Hz apart',
      'noise bandwidth 0.75 Hz',
      '67 segments',
      '63.6 averages',
      '95 % limits',
    ]) {
      assert.ok(overlay.subtitle.toLowerCase().includes(word.toLowerCase()), `${word} in ${overlay.subtitle}`);
    }
  });

  it('says in words where each set is highest and where the two differ most', () => {
    assert.match(overlay.description, /foam, mean of 4 runs: highest 0\.00\d+ g²\/Hz at \d+(\.\d)? Hz/);
    assert.match(
      overlay.description,
      /They differ most at [\d.]+ Hz, where the level of gel is [\d.]+ times that of foam\./,
    );
  });

  it('draws spectra of different units in charts of their own', () => {
    const other = { ...made.density, symbol: '(m/s^2)^2/Hz' };
    const metric = {
      ...gelSpectrum,
      entries: gelSpectrum.entries.map((entry) => ({ ...entry, unit: other })),
      means: [],
    };
    assert.equal(charts(plotOf([foamSpectrum, metric])).length, 2);
  });

  it('draws only the frequencies asked for, and none below the first bin on a log axis', () => {
    const [chart] = charts(plotOf([foamSpectrum], { frequency: 'log', over: { from: 0, to: 20 } }));
    const frequencies = found(chart, (row) => Array.isArray(row['f'])).flatMap((row) => row['f'] as number[]);
    assert.ok(Math.min(...frequencies) > 0 && Math.max(...frequencies) <= 20);
  });
});

describe('time traces', () => {
  const { foam } = made;

  it('show the whole recording with the stretch in use over it', () => {
    const [chart] = charts(plotOf([{ ...foam, runs: foam.runs.slice(0, 1) }]));
    const times = found(chart, (row) => Array.isArray(row['t'])).map((row) => row['t'] as number[]);
    const spans = times.map((t) => [Math.round(t[0]), Math.round(t[t.length - 1])]);
    assert.deepEqual(spans, [
      [0, 85],
      [8, 76],
    ]);
    assert.match(chart.description, /the stretch in use 8 to 76 s of 85 s/);
  });

  it('never bridge a gap', () => {
    const run: Run = {
      ...made.madeRun('a1', 1),
      stretches: [
        { from: 0, to: 10000, start: 0 },
        { from: 10000, to: 29750, start: 40 },
      ],
    };
    const [chart] = charts(plotOf([{ kind: 'runs', set: undefined, runs: [run] }]));
    const pieces = found(chart, (row) => Array.isArray(row['t']));
    assert.equal(pieces.length, 2);
    assert.ok((pieces[0]['t'] as number[]).every((t) => t < 29) && (pieces[1]['t'] as number[]).every((t) => t >= 40));
    assert.match(chart.description, /1 gap/);
  });

  it('draw uneven samples as logged, each at its own time, and all of those in the stretch that is seen', () => {
    const samples = Float64Array.of(1, 2, 3, 4, 5, 6, 7, 8);
    const times = Float64Array.of(0, 0.1, 0.2, 0.3, 5, 6, 7, 8);
    const base = made.madeRun('a1', 1);
    const run: Run = {
      ...base,
      rate: 0.9,
      channels: [{ ...signalsOf(base)[0], samples }],
      stretches: [{ from: 0, to: 8, start: 0 }],
      stamps: { times, jitter: 1 },
    };
    const whole = { kind: 'runs', set: undefined, runs: [run] } as const;
    const drawn = (value: Value): [unknown, unknown] => {
      const [piece] = found(charts(value)[0], (row) => Array.isArray(row['t']));
      return [piece['t'], piece['v']];
    };
    assert.deepEqual(drawn(plotOf([whole])), [[...times], [...samples]]);
    assert.deepEqual(drawn({ ...plotOf([whole]), over: { from: 0.15, to: 6.5 } }), [
      [0.1, 0.2, 0.3, 5, 6, 7],
      [2, 3, 4, 5, 6, 7],
    ]);
  });

  it('keep the highest and the lowest sample', () => {
    const run = made.madeRun('a1', 5);
    const [chart] = charts(plotOf([{ kind: 'runs', set: undefined, runs: [run] }]));
    const [piece] = found(chart, (row) => Array.isArray(row['t']));
    const { samples } = signalsOf(run)[0];
    assert.equal(Math.max(...(piece['v2'] as number[])), Number(Math.max(...samples).toPrecision(5)));
    assert.equal(Math.min(...(piece['v'] as number[])), Number(Math.min(...samples).toPrecision(5)));
  });

  it('are cut at 12 panels, and say so', () => {
    const runs = Array.from({ length: 14 }, (_, index) => ({ ...foam.runs[0], label: `r${index}` }));
    const [chart] = charts(plotOf([{ kind: 'runs', set: undefined, runs }]));
    assert.match(chart.subtitle, /first 12 of 14/);
  });

  it('mark the places of findings', () => {
    const [chart] = charts(everyValue.findings);
    assert.deepEqual(
      found(chart, (row) => row['label'] !== undefined).map((row) => row['label']),
      ['spike', 'clipped'],
    );
  });
});

describe('band bars', () => {
  it('are geometric means, with every run a dot', () => {
    const bands = made.madeBands(made.foamSpectrum);
    const [chart] = charts(plotOf([bands]));
    const dots = found(chart, (row) => row['band'] === '10–30 Hz' && row['rms'] !== undefined);
    assert.equal(dots.length, 5);
    const rms = bands.rows.filter(({ band }) => band.from === 10).map((row) => row.rms);
    const mean = Math.exp(rms.reduce((sum, value) => sum + Math.log(value), 0) / rms.length);
    assert.equal(dots[0]['rms'], Number(mean.toPrecision(5)));
  });
});

describe('the comparison', () => {
  it('holds change and interval of every band, and every run in the order it was made', () => {
    const [change, order] = charts(everyValue.comparison);
    const rows = found(change, (row) => row['change'] !== undefined && row['outcome'] !== undefined);
    assert.equal(new Set(rows.map((row) => row['band'])).size, 3);
    assert.equal(found(order, (row) => row['place'] !== undefined).length, 8);
    assert.match(order.subtitle, /order in which the runs were made is not known/);
  });

  it('follows the run sheet where it knows the order', () => {
    const ordered = (runs: readonly Run[], places: readonly number[]): Run[] =>
      runs.map((run, index) => ({ ...run, sheet: { order: places[index], facts: {} } }));
    const { a, b, ...rest } = everyValue.comparison;
    const value = {
      ...rest,
      a: { ...a, runs: ordered(a.runs, [1, 4, 5, 8]) },
      b: { ...b, runs: ordered(b.runs, [2, 3, 6, 7]) },
    };
    const [, order] = charts(value);
    const places = found(order, (row) => row['place'] !== undefined).map((row) => row['place']);
    assert.deepEqual(places, ['1. a1', '2. b1', '3. b2', '4. a2', '5. a3', '6. b3', '7. b4', '8. a4']);
  });

  it('names outcomes in words with a shape each', () => {
    const [change] = charts(everyValue.comparison);
    const text = JSON.stringify(change.vega);
    for (const shape of ['triangle-down', 'circle']) assert.ok(text.includes(shape));
    assert.match(change.description, /lower/);
  });

  it('cuts an interval that is far wider than the changes, and says so', () => {
    const { rows, ...rest } = everyValue.comparison;
    const wide = rows.map((row, index) => (index === 0 ? { ...row, lowPercent: -90, highPercent: 900 } : row));
    const [change] = charts({ ...rest, rows: wide });
    assert.match(change.subtitle, /goes on beyond it/);
    const highs = found(change, (row) => row['high'] !== undefined).map((row) => row['high'] as number);
    assert.ok(Math.max(...highs) < 400);
  });

  it('shows the margin as a zone when one was declared', () => {
    const [change] = charts({ ...everyValue.comparison, margin: 0.05 });
    // As far either way by its factor: 1/1.05 to 1.05, which is what counts as none.
    const [zone] = found(change, (row) => 'from' in row && 'to' in row);
    assert.deepEqual([Number(zone['from']).toFixed(4), Number(zone['to']).toFixed(4)], ['-4.7619', '5.0000']);
    assert.match(change.subtitle, /Shaded: changes of −4\.76 to \+5 %, declared to count as none/);
  });
});

describe('the ratio of densities', () => {
  const ratio = more.madeRatio(made.foamSpectrum, made.gelSpectrum);
  const [, chart] = charts({ ...everyValue.comparison, ratio } as Value);

  it('is drawn as change of amplitude with an interval for all bins together', () => {
    const [limits, line] = found(chart, (row) => Array.isArray(row['v2']));
    const bin = (line['f'] as number[]).indexOf(40);
    const amplitude = 100 * (Math.sqrt(ratio.ratio[80]) - 1);
    assert.ok(Math.abs((line['v'] as number[])[bin] - amplitude) < 1e-3 * Math.abs(amplitude));
    assert.ok((limits['v'] as number[])[bin] < amplitude && amplitude < (limits['v2'] as number[])[bin]);
    assert.match(chart.subtitle, /95 % interval for all bins together/);
  });

  it('says where the interval leaves out no change', () =>
    assert.match(chart.description, /wholly below zero, widest stretches: .*\d Hz/));

  it('is not drawn of a comparison that carries none', () => {
    assert.ok(charts(everyValue.comparison).every(({ title }) => !title.startsWith('Change over frequency')));
  });
});

describe('other pictures', () => {
  it('a verdict draws the limit of the claim', () => {
    const [chart] = charts(everyValue.verdict);
    assert.deepEqual(
      found(chart, (row) => row['end'] !== undefined).flatMap((row) => row['text'] ?? []),
      ['claim −25 %'],
    );
    assert.match(chart.description, /The claim allows a reduction of 25 % or more\.$/);
  });

  it('a frequency response is grey where the coherence is too low', () => {
    const value = more.madeTransfer(made.foam.runs[0]);
    const [chart] = charts(value);
    const [all, readable] = found(chart, (row) => Array.isArray(row['v'])).map((row) => row['v'] as (number | null)[]);
    const { coherence } = value.entries[0];
    readable.forEach((level, index) =>
      assert.equal(level !== null, coherence[index + 1] >= 0.6 && all[index] !== null),
    );
  });

  it('peaks are marked where they are, each named once', () => {
    const [chart] = charts(everyValue.peaks);
    const names = found(chart, (row) => typeof row['text'] === 'string').map((row) => row['text']);
    assert.deepEqual([...new Set(names)], ['17.9 Hz', '20.4 Hz', '22.1 Hz', '47.3 Hz', '94.6 Hz']);
  });

  it('a running level marks the largest of each run', () => {
    const [chart] = charts(everyValue.running);
    const largest = found(chart, (row) => typeof row['v'] === 'number');
    assert.deepEqual(
      largest.map((row) => row['v']),
      everyValue.running.entries.map((entry) => Number(entry.largest.toPrecision(5))),
    );
  });

  it('a cumulative r.m.s. ends at the root of the sum of the density', () => {
    const [, cumulative] = charts(everyValue.spectrum);
    const [row] = found(cumulative, (each) => Array.isArray(each['v']));
    const drawn = row['v'] as number[];
    const mean = everyValue.spectrum.means[0];
    const total = Math.sqrt(mean.level.slice(1).reduce((sum, level) => sum + level * mean.spacing, 0));
    assert.equal(drawn[drawn.length - 1], Number(total.toPrecision(5)));
    assert.ok(drawn.every((value, index) => index === 0 || value >= drawn[index - 1]));
  });

  it('a profile beside a spectrum is drawn into its chart', () => {
    assert.equal(charts(everyPlot['profile and spectrum']).length, 1);
    assert.equal(charts(everyPlot['profile']).length, 1);
  });
});
