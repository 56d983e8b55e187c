import { strict as assert } from 'node:assert';
import type { ChartPart } from '../../../src/charts/output.ts';
import { levelsChart } from '../../../src/charts/plots/levels.ts';
import { runOrderChart } from '../../../src/charts/plots/runOrder.ts';
import type { ComparisonValue } from '../../../src/values/comparison.ts';
import type { LevelsValue } from '../../../src/values/levels.ts';
import { foam, foamSpectrum, gelSpectrum, madeComparison, madeLevels } from '../madeUp.ts';

const { rows } = madeLevels(foam);
const [row] = rows;

/** Runs whose levels rise and fall within 1 to 2 g, of which one is at 9 g. */
const levelOf = (k: number): number => 1 + ((k * 37) % 101) / 100;
const many = (count: number, odd = 57, name = 'many'): { name: string; value: LevelsValue } => ({
  name,
  value: {
    ...{ kind: 'levels', set: name },
    rows: Array.from({ length: count }, (_, k) => ({
      ...row,
      run: { ...row.run, label: `${name}-${k}` },
      rms: k === odd ? 9 : levelOf(k),
    })),
  },
});

interface Datum {
  readonly series?: string;
  readonly share?: number;
  readonly run?: string;
  readonly name?: string;
  readonly place?: number | readonly number[];
  readonly rms?: readonly number[];
  readonly to?: readonly number[];
  readonly told?: readonly { readonly text: string }[];
}

const dataOf = ({ vega }: ChartPart): Datum[] =>
  (vega['data'] as readonly { readonly values?: readonly Datum[] }[]).flatMap(({ values }) => values ?? []);
const dotsOf = (chart: ChartPart): string[] => dataOf(chart).flatMap(({ run }) => run ?? []);

describe('levels of very many runs', () => {
  const crowd = many(1000);
  const chart = levelsChart([crowd])!;

  it('are drawn as where most of them lie, not one by one', () => {
    assert.ok(dotsOf(chart).length <= 20, dotsOf(chart).join());
    assert.ok(JSON.stringify(chart.vega).length < 60_000);
    assert.match(chart.subtitle, /median .* middle 50 % and 90 %/);
  });

  it('lie within the bands, as many as these say, stretch by stretch', () => {
    const bands = dataOf(chart).filter(({ share }) => share !== undefined);
    assert.deepEqual(
      bands.map(({ share }) => share),
      [0.9, 0.5],
    );
    for (const { share, rms, to } of bands) {
      // At both ends the first and the last stretch go on.
      const stretches = rms!.length - 2;
      const size = 1000 / stretches;
      for (let k = 0; k < stretches; k++) {
        const own = crowd.value.rows.slice(k * size, (k + 1) * size).map((one) => one.rms);
        const inside = own.filter((level) => level >= rms![k + 1] - 1e-4 && level <= to![k + 1] + 1e-4).length;
        assert.ok(Math.abs(inside / own.length - share!) <= 0.06, `${inside} of ${own.length} in stretch ${k}`);
      }
    }
  });

  it('name the runs farthest out, in the picture and in words', () => {
    const names = dataOf(chart).flatMap(({ name }) => name ?? []);
    assert.ok(names.includes('many-57'), names.join());
    assert.ok(dotsOf(chart).includes('many-57'));
    assert.match(
      chart.description,
      /median of 1000 runs 1\.50 g, .* lowest 1\.00 g \(many-0\), highest 9\.00 g \(many-57\)\.$/,
    );
  });

  it('tell at the pointer which runs stand there', () => {
    const told = dataOf(chart).flatMap(({ told: lines }) =>
      lines === undefined ? [] : [lines.map(({ text }) => text)],
    );
    assert.equal(told.length, 60);
    assert.equal(told[0][0], 'many-0 to many-16');
    assert.match(told[0][1], /^many: median 1\.\d\d g, 1\.00 to [12]\.\d\d$/);
  });

  it('have a few of another set beside them as dots', () => {
    const both = levelsChart([crowd, many(4, -1, 'few')])!;
    assert.deepEqual(
      dotsOf(both).filter((run) => run.startsWith('few')),
      ['few-0', 'few-1', 'few-2', 'few-3'],
    );
    assert.match(both.description, /few: median of 4 runs/);
  });

  it('are dots up to a hundred of a set', () => {
    assert.equal(new Set(dotsOf(levelsChart([many(100)])!)).size, 100);
    assert.ok(dotsOf(levelsChart([many(101)])!).length <= 20);
  });

  it('are looked at a few times each, not once for every other, where their set has no name', () => {
    let looks = 0;
    const rows = crowd.value.rows.map((one) => ({
      ...one,
      run: Object.defineProperty({ ...one.run }, 'label', { get: () => (looks++, one.run.label), enumerable: true }),
    }));
    levelsChart([{ name: undefined, value: { ...crowd.value, set: undefined, rows } }]);
    assert.ok(looks <= 10 * rows.length, `${looks} looks at ${rows.length} runs`);
  });

  it('that are all alike have no outliers', () => {
    const alike = many(200, -1);
    const same = levelsChart([
      { ...alike, value: { ...alike.value, rows: alike.value.rows.map((one) => ({ ...one, rms: 2 })) } },
    ])!;
    assert.ok(dotsOf(same).length <= 2);
    assert.doesNotMatch(JSON.stringify(same.vega), /NaN/);
  });
});

describe('very many runs of a comparison', () => {
  const made = madeComparison(foamSpectrum, gelSpectrum);
  const [first] = made.rows;
  const side = (of: ComparisonValue['a'], count: number): ComparisonValue['a'] => ({
    ...of,
    runs: Array.from({ length: count }, (_, k) => ({ ...of.runs[0], label: `${of.name}-${k}` })),
  });
  const figures = Array.from({ length: 500 }, (_, k) => (k === 57 ? 9 : levelOf(k)));
  const one = { ...first, aRuns: figures, bRuns: figures };
  const value: ComparisonValue = { ...made, a: side(made.a, 500), b: side(made.b, 500), rows: [one] };

  it('are drawn and told as where most of them lie', () => {
    const chart = runOrderChart(value, one)!;
    assert.ok(dotsOf(chart).length <= 40);
    assert.ok(dotsOf(chart).includes(`${made.a.name}-57`));
    assert.ok(chart.description.length < 600, chart.description);
    assert.match(chart.description, /: median of 500 runs 1\.50 /);
    assert.match(chart.subtitle, /geometric means/);
  });
});
