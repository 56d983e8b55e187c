import { strict as assert } from 'node:assert';
import type { ChartPart } from '../../src/charts/output.ts';
import { present } from '../../src/charts/present.ts';
import { themes } from '../../src/charts/theme.ts';
import { wrapped } from '../../src/charts/titles.ts';
import { toSvg } from '../../src/report/svg.ts';
import { everyPlot, everyValue } from './everyValue.ts';

const values = Object.entries({ ...everyValue, ...everyPlot });
const charts = values.flatMap(([name, value]) =>
  present(value, name, []).parts.flatMap((part) =>
    part.type === 'chart' ? [[name, part] as [string, ChartPart]] : [],
  ),
);

/** Width in px that an SVG says it has. */
const widthOf = (svg: string): number => Number(/<svg[^>]*\bwidth="([\d.]+)"/.exec(svg)?.[1]);

/** The chart with every y axis over another domain. */
const over = (chart: ChartPart, domain: readonly [number, number]): ChartPart => ({
  ...chart,
  vega: JSON.parse(JSON.stringify(chart.vega), (_key, value: { name?: unknown; range?: unknown } | null) =>
    typeof value?.name === 'string' && /(^|_)y$/.test(value.name) && 'range' in value ? { ...value, domain } : value,
  ) as ChartPart['vega'],
});

describe('charts as SVG', () => {
  for (const [name, chart] of charts) {
    it(`${name}: ${chart.title} is drawn whole, at the wanted width`, async () => {
      const svg = await toSvg(chart, themes.light, 640);
      assert.ok(!/NaN|undefined/.test(svg));
      assert.ok(svg.includes(wrapped(chart.title, 640 / 7.54)[0].split(' ')[0]));
      // Few bars stay slim, whatever the room.
      const least = chart.title.includes('in bands') ? 400 : 560;
      assert.ok(widthOf(svg) > least && widthOf(svg) <= 660, `${widthOf(svg)} px`);
    });
  }

  it('hold the colours of their theme and none of another', async () => {
    const [, chart] = charts[0];
    for (const theme of Object.values(themes)) {
      const svg = await toSvg(chart, theme);
      assert.ok(svg.includes(theme.series[0]) && svg.includes(theme.background));
      for (const other of Object.values(themes)) {
        if (other.series[0] !== theme.series[0])
          assert.ok(!svg.includes(other.series[0]), `${other.name} in ${theme.name}`);
      }
    }
  });

  it('keep the title of a y axis clear of figures with a mantissa', async () => {
    const [trace] = present(everyPlot.running, 'plot', []).parts.filter(
      (part): part is ChartPart => part.type === 'chart',
    );
    const drawn = [over(trace, [-3e-5, 3e-5]), over(trace, [-2.5e5, 2.5e5])];
    let seen = 0;
    for (const chart of drawn) {
      const svg = await toSvg(chart, themes.light, 640);
      const title = Math.max(
        ...[...svg.matchAll(/translate\((-[\d.]+),[-\d.]+\) rotate\(-90\)/g)].map(([, x]) => Number(x)),
      );
      for (const [, end, figure] of svg.matchAll(
        /text-anchor="end" transform="translate\((-[\d.]+),[-\d.]+\)"[^>]*>([^<]*×10[^<]*)</g,
      )) {
        seen++;
        assert.ok(Number.isFinite(title));
        // In 11 px figures are 7 px wide, those that are raised 5.
        const wide = [...figure].reduce((sum, one) => sum + (/[\d×−-]/.test(one) ? 7 : one === '.' ? 3.5 : 5), 0);
        assert.ok(title < Number(end) - wide, `${chart.title}: ${figure} under the title at ${title}`);
      }
    }
    assert.ok(seen > 2, `${seen} figures`);
  });

  it('leave out what only answers a pointer', async () => {
    const [, chart] = charts[0];
    assert.ok(JSON.stringify(chart.vega).includes('pointer'));
    const svg = await toSvg(chart, themes.light);
    const strips = JSON.stringify(chart.vega).match(/"says"/g)?.length ?? 0;
    assert.ok(
      strips > 400 && svg.split('<path').length < strips,
      `${svg.split('<path').length} shapes for ${strips} strips`,
    );
  });

  it('are the same every time', async () => {
    const [, chart] = charts[0];
    const first = await toSvg(chart, themes.light);
    assert.ok(first === (await toSvg(chart, themes.light)), 'two drawings of one chart differ');
    assert.ok(!/(id="|url\(#)clip/.test(first));
  });
});
