import { strict as assert } from 'node:assert';
import type { ChartPart } from '../../../src/charts/output.ts';
import { present } from '../../../src/charts/present.ts';
import { themes } from '../../../src/charts/theme.ts';
import { toSvg } from '../../../src/report/svg.ts';
import type { BandsValue } from '../../../src/values/bands.ts';
import { everyValue } from '../everyValue.ts';

/** One band of so many runs, whose r.m.s. in g are 1, 2, 3 …, in another order. */
function bandsOf(count: number, set = 'foam'): BandsValue {
  const { bands, rows, ...rest } = everyValue.bands;
  const [first] = rows;
  const band = bands[0];
  const many = Array.from({ length: count }, (_, k) => {
    const rms = ((k * 7) % count) + 1;
    return { ...first, band, rms, run: { ...first.run, label: `run-${rms}` } };
  });
  return { ...rest, set, bands: [band], rows: many };
}

const chartOf = (value: BandsValue): ChartPart =>
  present(value, undefined, []).parts.find((part) => part.type === 'chart')!;
const drawnIn = (chart: ChartPart): string => JSON.stringify(chart.vega);

describe('a chart of bands', () => {
  it('has a dot for each run, as long as these can be told apart', () => {
    const chart = chartOf(bandsOf(100));
    assert.match(chart.subtitle, /^Bar: geometric mean of the runs\. Each dot is one run, in the order of the set\.$/);
    assert.equal(drawnIn(chart).match(/"slot":"/g)?.length, 100);
  });

  // Quantiles of 1 … 151, linear between neighbours as numpy.percentile has them: 25 and 75 % are 38.5 and 113.5, 5 and 95 % 8.5 and 143.5.
  it('has lines over the middle of very many runs, and names the lowest and the highest', () => {
    const chart = chartOf(bandsOf(151));
    assert.equal(
      chart.subtitle,
      'Bar: geometric mean of the runs. Lines over bars of 151 runs: the middle 50 % (thick) and 90 % of them (thin).',
    );
    const told = drawnIn(chart);
    assert.equal(told.match(/"slot":"/g), null, 'runs are drawn as dots');
    for (const [low, high] of [
      [8.5, 143.5],
      [38.5, 113.5],
    ])
      assert.ok(told.includes(`"rms":${low},"to":${high}`), `no line from ${low} to ${high}`);
    assert.match(told, /middle 90 % of 151 runs: 8\.500? to 143\.5 g\\nmiddle 50 % of 151 runs: 38\.50? to 113\.5 g/);
    assert.match(told, /lowest: 1(\.0+)? g \(run-1\)\\nhighest: 151(\.0)? g \(run-151\)/);
    assert.ok(told.length < drawnIn(chartOf(bandsOf(100))).length, 'more runs make a larger chart');
    assert.match(chart.description, /\(runs 1(\.0+)? to 151\)/);
  });

  it('is drawn in every theme, many runs beside few', async () => {
    const many = bandsOf(151);
    const few = bandsOf(3, 'gel');
    const plot = { ...everyValue.chart, subjects: [many, few].map((value) => ({ name: undefined, value })) };
    const chart = present(plot, undefined, []).parts.find((part) => part.type === 'chart')!;
    assert.match(chart.subtitle, /Each dot is one run.* Lines over bars of 151 runs/);
    for (const theme of Object.values(themes)) assert.ok(!/NaN|undefined/.test(await toSvg(chart, theme)), theme.name);
  });
});
