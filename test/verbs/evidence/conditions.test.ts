import { strict as assert } from 'node:assert';
import { inPrint, laidOut } from '../../../src/charts/layout.ts';
import { present } from '../../../src/charts/present.ts';
import type { ComparisonRow } from '../../../src/values/comparisonParts.ts';
import { toJson } from '../../../src/values/json.ts';
import { errorOf, near, resultOf, valueOf, warningsOf } from '../notebook.ts';
import { loadMounts, mounts, wobble, type Mounts } from '../mounts.ts';

const names = ['rigid', 'rubber', 'cork'];
const sizes: Readonly<Record<string, number>> = { rigid: 0.3, rubber: 0.24, cork: 0.29, reference: 0.2 };

/** Runs in an order of letters, of flows in turn. */
function study(order: string, flows: readonly string[] = [''], facts: (k: number) => object = () => ({})): Mounts {
  const runs = flows.flatMap((flow, f) =>
    [...order].map((letter, k) => {
      const condition = { A: 'rigid', B: 'rubber', C: 'cork', R: 'reference' }[letter] ?? '';
      const at = f * order.length + k;
      const level = sizes[condition] * (1 + f / 20) * Math.exp(wobble(at));
      return { condition, level, facts: { order: k + 1, ...(flow === '' ? {} : { flow }), ...facts(at) } };
    }),
  );
  return { runs };
}

const williams = 'ABCCBABCAACB';
const three = mounts(study(williams));
const over = 'over 10..30 Hz, 50..70 Hz';
const rowsOf = async (
  text: string,
  files: Record<string, string>,
  load = loadMounts(names),
): Promise<readonly ComparisonRow[]> => (await valueOf('comparison', load + text, files)).rows;

const logs = (rows: readonly number[]): number => rows.reduce((sum, level) => sum + Math.log(level), 0) / rows.length;

describe('compare within strata', () => {
  it('tells whether a change differs between them, in figures and in one sentence that names what it assumes', async () => {
    const files = mounts(study('ABBABAAB', ['low', 'high']));
    const text = `${loadMounts(['rigid', 'rubber'])}compare rigid with rubber within flow ${over}`;
    const value = await valueOf('comparison', text, files);
    for (const { stratum, interaction } of value.rows) assert.equal(interaction === undefined, stratum !== undefined);
    const { interaction } = value.rows[0];
    assert.ok(interaction !== undefined);
    assert.deepEqual(interaction.df, [1, 11]);
    assert.match(
      interaction.sentence,
      /^Whether the change of acceleration r\.m\.s\. \(z, 10 to 30 Hz\) from rigid to rubber differs between flow low and flow high: F [\d.]+ with 1 and 11 degrees of freedom, p (> )?[\d.]+ for both changes together \(analysis of variance, which assumes equal scatter of all these runs, steady drift taken out\)\. No verdict rests on it\.$/,
    );
    const json = toJson(value) as { rows: { interaction_f?: number; interaction_degrees_of_freedom?: number[] }[] };
    assert.deepEqual(json.rows[0].interaction_degrees_of_freedom, [1, 11]);
    assert.equal(json.rows[0].interaction_f, interaction.f);
    assert.ok(json.rows.some((row) => !('interaction_f' in row)));
    const texts = present(value, undefined, []).parts.flatMap((part) => (part.type === 'text' ? part.text : []));
    assert.ok(texts.some((one) => one.includes(interaction.sentence)));
    assert.doesNotMatch(interaction.sentence, /lower|higher|not shown/);
  });
});

describe('compare of several conditions', () => {
  it('holds each against the baseline, band by band, in one family that every sentence names', async () => {
    const value = await valueOf('comparison', `${loadMounts(names)}compare rigid with rubber, cork ${over}`, three);
    assert.deepEqual(
      value.rows.map(({ condition, band, family }) => [condition, band.from, family]),
      [
        ['rubber', 10, 4],
        ['cork', 10, 4],
        ['rubber', 50, 4],
        ['cork', 50, 4],
      ],
    );
    for (const { sentence } of value.rows)
      assert.match(sentence, /95 % for all 4 changes together; 4 \+ 4 runs in order/);
    const json = toJson(value) as {
      baseline: string;
      conditions: string[];
      rows: { condition: string; stratum: string }[];
    };
    assert.deepEqual([json.baseline, json.conditions], ['rigid', ['rubber', 'cork']]);
    assert.deepEqual(json.rows.map(({ condition, stratum }) => [condition, stratum])[1], ['cork', 'all']);
    const alone = await rowsOf('compare rigid with rubber over 10..30 Hz', three);
    assert.equal(alone[0].family, 1);
  });

  it('compares every two where all pairs are asked for, and changes of a circle add up to none', async () => {
    const rows = await rowsOf('compare rigid with rubber, cork all-pairs over 10..30 Hz', three);
    assert.deepEqual(
      rows.map(({ baseline, condition, family }) => [baseline, condition, family]),
      [
        ['rigid', 'rubber', 3],
        ['rigid', 'cork', 3],
        ['rubber', 'cork', 3],
      ],
    );
    const [one, both, other] = rows.map(({ changePercent }) => Math.log1p(changePercent / 100));
    near(one + other, both, 1e-9);
  });

  it('tells a column in which the runs of every condition differ once, with all of them', async () => {
    const { warnings } = await resultOf(
      `${loadMounts(names)}compare rigid with rubber, cork over 10..30 Hz`,
      mounts(study(williams, ['low', 'high'])),
    );
    const mixed = warnings.filter(({ code }) => code === 'compare.mixed');
    assert.equal(mixed.length, 1);
    assert.match(
      mixed[0].message,
      /^The runs of rigid, those of rubber and those of cork differ in flow \(low, high\)/,
    );
  });

  it('names the one scatter for all runs on which intervals rest that a plan pools', async () => {
    const plan = 'p = plan "Which is less?" baseline rigid conditions rubber, cork over 10..30 Hz pooled\n';
    const load = loadMounts(names);
    const { rows } = await valueOf('comparison', `${plan}${load}compare rigid with rubber, cork plan p`, three);
    for (const { sentence } of rows) assert.match(sentence, /steady drift taken out, one scatter for all as planned\)/);
    const apart = await rowsOf('compare rigid with rubber, cork over 10..30 Hz', three);
    for (const { sentence } of apart) assert.doesNotMatch(sentence, /one scatter/);
  });

  it('gives the primary band of all conditions as a family of its own', async () => {
    const rows = await rowsOf('compare rigid with rubber, cork primary 10..30 Hz over 50..70 Hz, 52..68 Hz', three);
    assert.deepEqual(
      rows.map(({ primary, family }) => [primary === true, family]),
      [...Array<unknown>(2).fill([true, 2]), ...Array<unknown>(4).fill([false, 4])],
    );
  });

  it('shows conditions by shape and dash in one chart and names them in one table', async () => {
    const value = await valueOf('comparison', `${loadMounts(names)}compare rigid with rubber, cork ${over}`, three);
    const { parts } = present(value, undefined, []);
    const charts = parts.filter((part) => part.type === 'chart');
    assert.match(charts[0].title, /from rigid to rubber and cork/);
    assert.ok(/"strokeDash"/.test(JSON.stringify(charts[0])) && /10–30 Hz, cork: /.test(charts[0].description));
    const table = parts.find((part) => part.type === 'table');
    assert.ok(table?.type === 'table');
    assert.deepEqual(
      table.rows.map(([, condition]) => condition),
      ['rubber', 'cork', 'rubber', 'cork'],
    );
  });

  it('judges a claim about the condition that it names, and asks which where none is named', async () => {
    const compared = `${loadMounts(names)}C = compare rigid with rubber, cork over 10..30 Hz\n`;
    const { row, verdict } = await valueOf('verdict', `${compared}claim C rubber reduction 10 %`, three);
    assert.deepEqual([row.condition, verdict], ['rubber', 'supported']);
    assert.equal((await valueOf('verdict', `${compared}claim C cork reduction 10 %`, three)).verdict, 'contradicted');
    const { code, message } = await errorOf(`${compared}claim C reduction 10 %`, three);
    assert.deepEqual([code, /conditions rubber, cork/.test(message)], ['claim.which', true]);
    for (const other of ['rigid', 'nowhere', '"no such"']) {
      const unknown = await errorOf(`${compared}claim C ${other} reduction 10 %`, three);
      assert.equal(unknown.code, 'claim.which');
      assert.equal(unknown.message, `The comparison has no condition ${other.replaceAll('"', '')}, only rubber, cork.`);
    }
    // A misspelt direction is no condition.
    const misspelt = await errorOf(`${compared}claim C rubber reducton 10 %`, three);
    assert.match(misspelt.message, /did you mean `reduction`/);
    const unplanned = await valueOf('verdict', `${compared}claim C rubber reduction over 12..30 Hz`, three);
    assert.deepEqual([unplanned.verdict, unplanned.row.family, unplanned.row.condition], ['not shown', 4, 'rubber']);
  });

  it('leaves a condition with too few runs without a statement, and the others theirs', async () => {
    const rows = await rowsOf('compare rigid with rubber, cork over 10..30 Hz', mounts(study('ABCCBABAAB')));
    assert.deepEqual(
      rows.map(({ outcome, lowPercent }) => [outcome, lowPercent === undefined]),
      [
        ['lower', false],
        ['not shown', true],
      ],
    );
    assert.equal(rows[0].family, 1);
  });

  it('takes one run for two conditions from none of them', async () => {
    const text = `${loadMounts(names)}more = load sheet "runs.csv" where condition cork unit g | channel z\n`;
    assert.equal((await errorOf(`${text}compare rigid with cork, more ${over}`, three)).code, 'compare.same');
  });
});

describe('compare within strata', () => {
  const two = mounts(study('ABBABAAB', ['low', 'high']));
  const pair = loadMounts(names.slice(0, 2));

  it('is laid out in print for the room that its rows’ names leave, and names as many runs as have room', async () => {
    const value = await valueOf(
      'comparison',
      `${pair}compare rigid with rubber within flow over 4..10 Hz, 10..50 Hz`,
      two,
    );
    const chartsIn = (width: number): string[] =>
      laidOut(inPrint(width), () => present(value, undefined, []))
        .parts.filter((part) => part.type === 'chart')
        .map((part) => JSON.stringify(part));
    const secondRow = /"y":\{"value":24\}/;
    const [[narrow, narrowRuns], [wide]] = [353, 900].map(chartsIn);
    assert.ok(secondRow.test(narrow) && !secondRow.test(wide), 'the names of bands side by side');
    assert.match(narrowRuns, /% max\(1, ?ceil\(272 ?\/ ?max\(1, ?chartWidth - 72\)\)\)/);
  });

  it('is drawn in print with a line at zero that leaves out what figures stand on it', async () => {
    const value = await valueOf('comparison', `${pair}compare rigid with rubber within flow over 4..10 Hz`, two);
    const drawnIn = (width: number): string =>
      laidOut(inPrint(width), () =>
        JSON.stringify(present(value, undefined, []).parts.filter((part) => part.type === 'chart')[0]),
      );
    const broken = /"y2Offset"|"offset":-5/;
    assert.match(drawnIn(240), broken);
    assert.doesNotMatch(JSON.stringify(present(value, undefined, []).parts), broken);
  });

  it('draws every run stratum by stratum in its order, where each stratum has an order of its own', async () => {
    const value = await valueOf('comparison', `${pair}compare rigid with rubber within flow over 10..30 Hz`, two);
    const chart = present(value, undefined, []).parts.find((part) => part.type === 'chart' && part.what === 'runs');
    assert.ok(chart?.type === 'chart');
    assert.match(chart.subtitle, /^Stratum by stratum, in the order in which the runs were made/);
    const sides = [...chart.description.matchAll(/\((rigid|rubber)\)/g)].map(([, side]) =>
      side === 'rigid' ? 'A' : 'B',
    );
    assert.equal(sides.join(''), 'ABBABAAB'.repeat(2));
  });

  it('names the strata where not all have the order that a plan settled', async () => {
    const turned = mounts({
      runs: [...study('ABBABAAB', ['low']).runs, ...study('BAABABBA', ['high']).runs],
    });
    const plan = 'p = plan "Less?" channel z primary 10..30 Hz within flow repeats 4 order "ABBA BAAB"\n';
    const deviations = async (files: Record<string, string>): Promise<string[]> =>
      (await valueOf('comparison', `${plan}${pair}compare rigid with rubber plan p`, files)).plan!.deviations.map(
        ({ message }) => message,
      );
    assert.deepEqual(await deviations(turned), [
      'the order was planned as ABBABAAB and was ABBABAAB (low) and BAABABBA (high)',
    ]);
    assert.deepEqual(await deviations(two), []);
  });

  it('gives the change over all with equal weights, then each as if it were compared by itself', async () => {
    const rows = await rowsOf('compare rigid with rubber within flow over 10..30 Hz', two, pair);
    assert.deepEqual(
      rows.map(({ stratum, family }) => [stratum, family]),
      [
        [undefined, 1],
        ['low', 2],
        ['high', 2],
      ],
    );
    const [all, low, high] = rows;
    assert.match(all.sentence, /\(z, 10 to 30 Hz; flow low and flow high with equal weights\)/);
    assert.match(low.sentence, /\(z, 10 to 30 Hz, flow low\).*95 % for both changes within strata together/);
    assert.ok(all.lowPercent !== undefined && all.aRuns.length === 8 && low.aRuns.length === 4);
    for (const [row, flow] of [
      [low, 'low'],
      [high, 'high'],
    ] as const) {
      const load = loadMounts(names.slice(0, 2), `, flow ${flow}`);
      const [alone] = await rowsOf('compare rigid with rubber over 10..30 Hz', two, load);
      assert.deepEqual([row.changePercent, row.p, row.spread], [alone.changePercent, alone.p, alone.spread]);
    }
  });

  it('holds its share of the baseline’s mean square in each stratum by the runs of that stratum', async () => {
    const levels = { low: 0.05, high: 0.5 };
    const runs = (['low', 'high'] as const).flatMap((flow) =>
      [...'ABBA'].map((letter, k) => ({
        condition: letter === 'A' ? 'rigid' : 'rubber',
        level: levels[flow] * (1 + wobble(k)) * (letter === 'A' ? 1 : 0.8),
        facts: { order: k + 1, flow },
      })),
    );
    const text = `${loadMounts(['rigid', 'rubber'])}compare rigid with rubber within flow over 10..30 Hz`;
    const { rows } = await valueOf('comparison', text, mounts({ runs }));
    const shareIn = (flow: 'low' | 'high'): number => {
      const own = runs.filter(({ condition, facts }) => condition === 'rigid' && facts.flow === flow);
      // Beside the line at 20 Hz there is one of 60 Hz with an amplitude of 0.05.
      const shares = own.map(({ level }) => (100 * level ** 2) / (level ** 2 + 0.05 ** 2 / 2));
      return shares.reduce((sum, one) => sum + one, 0) / own.length;
    };
    const [all, low, high] = rows.map(({ shareOfA = NaN }) => shareOfA);
    near(low, shareIn('low'), 1e-3);
    near(high, shareIn('high'), 1e-3);
    near(all, (shareIn('low') + shareIn('high')) / 2, 1e-3);
  });

  it('with two runs a cell tells the change over all, and of the strata figures alone', async () => {
    const few = mounts(study('ABBA', ['low', 'mid', 'high']));
    const [all, ...strata] = await rowsOf('compare rigid with rubber within flow over 10..30 Hz', few, pair);
    assert.deepEqual([all.outcome, all.methodCode, all.family], ['lower', 'strata', 1]);
    const change = (row: ComparisonRow): number => logs(row.bRuns) - logs(row.aRuns);
    near(Math.log1p(all.changePercent / 100), strata.reduce((sum, row) => sum + change(row), 0) / 3, 1e-9);
    assert.ok(strata.every(({ outcome, lowPercent }) => outcome === 'not shown' && lowPercent === undefined));
    const compared = `${pair}C = compare rigid with rubber within flow over 10..30 Hz\n`;
    assert.equal((await valueOf('verdict', `${compared}claim C reduction`, few)).verdict, 'supported');
    // No interval within a stratum, so that none is said to hold there.
    const value = await valueOf('comparison', `${compared}C`, few);
    assert.doesNotMatch(JSON.stringify(present(value, undefined, []).parts), /within strata together/);
    const within = await valueOf('verdict', `${compared}claim C reduction 10 % stratum mid`, few);
    assert.deepEqual([within.verdict, within.row.stratum], ['not shown', 'mid']);
  });

  it('takes a day as one of other days from three on, else as these days', async () => {
    const days = (list: readonly string[]): Record<string, string> =>
      mounts({
        runs: study('ABBA', list).runs.map((run) => ({ ...run, facts: { ...run.facts, day: run.facts?.flow ?? '' } })),
      });
    const [three_] = await rowsOf('compare rigid with rubber within day over 10..30 Hz', days(['1', '2', '3']), pair);
    assert.equal(three_.methodCode, 'over-days');
    assert.match(three_.sentence, /as on other days like these/);
    const changes = await rowsOf('compare rigid with rubber within day over 10..30 Hz', days(['1', '2', '3']), pair);
    const d = changes.slice(1).map((row) => logs(row.bRuns) - logs(row.aRuns));
    const mean = (d[0] + d[1] + d[2]) / 3;
    const se = Math.sqrt(d.reduce((sum, one) => sum + (one - mean) ** 2, 0) / 6);
    near(1 + (three_.lowPercent ?? NaN) / 100, Math.exp(mean - 4.3026527297 * se), 1e-8);
    const [two_] = await rowsOf('compare rigid with rubber within day over 10..30 Hz', days(['1', '2']), pair);
    assert.ok(two_.methodCode === 'strata' && /on these days/.test(two_.sentence));
  });

  it('takes several columns for one stratum each', async () => {
    const surfaces = mounts(study('ABBA', ['low', 'high'], (k) => ({ surface: k % 8 < 4 ? 'brick' : 'tile' })));
    const rows = await rowsOf('compare rigid with rubber within flow, surface over 10..30 Hz', surfaces, pair);
    assert.deepEqual(
      rows.map(({ stratum }) => stratum),
      [undefined, 'low, brick', 'high, tile'],
    );
    assert.match(rows[0].sentence, /; flow low × surface brick and flow high × surface tile with equal weights\)/);
    assert.match(rows[0].sentence, /4 \+ 4 runs in order ABBA in each stratum, scatter taken within strata\)\.$/);
    assert.match(rows[1].sentence, /\(z, 10 to 30 Hz, flow low × surface brick\)/);
  });
});

describe('compare with covariates and reference runs', () => {
  const pair = loadMounts(names.slice(0, 2));
  const speeds = (k: number): number => 5 + 0.2 * Math.sin(3 * k);
  /** Levels that go with speed to the power 1.5 and nothing else besides the condition. */
  const moving = (facts: (k: number) => object): Record<string, string> =>
    mounts({
      runs: study('ABBABAAB', [''], facts).runs.map((run, k) => ({ ...run, level: run.level * speeds(k) ** 1.5 })),
    });

  it('brings levels to one speed by the power that is stated, in whatever unit', async () => {
    const [still] = await rowsOf('compare rigid with rubber over 10..30 Hz', mounts(study('ABBABAAB')), pair);
    for (const [header, factor] of [
      ['speed (m/s)', 1],
      ['speed (km/h)', 3.6],
    ] as const) {
      const files = moving((k) => ({ [header]: (factor * speeds(k)).toFixed(9) }));
      const [row] = await rowsOf('compare rigid with rubber over 10..30 Hz adjust speed exponent 1.5', files, pair);
      near(row.changePercent, still.changePercent, 1e-5);
      near(row.lowPercent ?? NaN, still.lowPercent ?? NaN, 1e-4);
      assert.match(row.sentence, /at equal speed by the exponent 1\.5\)/);
    }
  });

  it('widens the interval by what the power is uncertain, and shows other powers', async () => {
    const files = moving((k) => ({ 'speed (m/s)': speeds(k).toFixed(9) }));
    const text = 'compare rigid with rubber over 10..30 Hz adjust speed exponent 1.5';
    const [sure] = await rowsOf(text, files, pair);
    const [unsure] = await rowsOf(`${text} uncertainty 5`, files, pair);
    assert.equal(unsure.changePercent, sure.changePercent);
    const [beside] = await rowsOf(`${text} ± 5`, files, pair);
    assert.deepEqual(beside, unsure);
    assert.match(beside.sentence, /by the exponent 1\.5 ± 5\)/);
    for (const wrong of ['± 5 uncertainty 5', 'uncertainty'])
      assert.equal((await errorOf(`${pair}${text} ${wrong}`, files)).code, 'adjust.words');
    assert.ok((unsure.lowPercent ?? 0) < (sure.lowPercent ?? 0) && (unsure.highPercent ?? 0) > (sure.highPercent ?? 0));
    const { warnings } = await resultOf(pair + text, files);
    const told = warnings.find(({ code }) => code === 'compare.adjusted');
    assert.match(
      told?.message ?? '',
      /^The change from rigid to rubber \(z, 10 to 30 Hz\) .* By the power 0, 0\.5 or 1 it/,
    );
  });

  it('fits a slope only where the plan names it', async () => {
    const warm = (k: number): number => 20 + ((5 * k) % 7);
    const runs = study('ABBABAAB', [''], (k) => ({ 'temperature (C)': warm(k) })).runs;
    const files = mounts({ runs: runs.map((run, k) => ({ ...run, level: run.level * Math.exp(0.02 * warm(k)) })) });
    const plan = 'p = plan "Less?" channel z, primary 10..30 Hz repeats 4 adjust temperature\n';
    assert.equal(
      (await errorOf(`${pair}compare rigid with rubber over 10..30 Hz adjust temperature`, files)).code,
      'adjust.unplanned',
    );
    const [row] = await rowsOf(`compare rigid with rubber plan p`, files, pair + plan);
    assert.match(row.sentence, /the part of temperature fitted and taken out/);
    const [bare] = await rowsOf('compare rigid with rubber over 10..30 Hz', files, pair);
    const width = ({ lowPercent = 0, highPercent = 0 }: ComparisonRow): number => highPercent - lowPercent;
    assert.ok(width(row) < width(bare), `${width(row)} ${width(bare)}`);
  });

  it('takes reference runs into the drift, and lets them tell sides that came in turn apart', async () => {
    const between = 'between = load sheet "runs.csv" where condition reference unit g | channel z\n';
    const load = pair + between;
    const drift = (order: string): Record<string, string> =>
      mounts({ runs: study(order).runs.map((run, k) => ({ ...run, level: run.level * Math.exp(0.03 * k) })) });
    const [mixed] = await rowsOf(
      'compare rigid with rubber over 10..30 Hz reference between',
      drift('RABBARBAABR'),
      load,
    );
    assert.match(mixed.sentence, /steady drift taken out, with 3 reference runs/);
    near(mixed.changePercent, -20, 0.1);
    const [turned] = await rowsOf(
      'compare rigid with rubber over 10..30 Hz reference between',
      drift('RRAAARRBBBRR'),
      load,
    );
    assert.ok(turned.sequence !== 'apart' && turned.outcome === 'lower', turned.sentence);
    const [alone] = await rowsOf('compare rigid with rubber over 10..30 Hz', drift('RRAAARRBBBRR'), pair);
    assert.deepEqual([alone.sequence, alone.outcome], ['apart', 'not shown']);
  });
});

describe('compare of several axes', () => {
  it('holds them together in one family, each row with its axis', async () => {
    const load = loadMounts(names, '', '');
    const rows = await rowsOf('compare rigid with rubber, cork axes x, z over 10..30 Hz', three, load);
    assert.deepEqual(
      rows.map(({ channel, condition, family }) => [channel, condition, family]),
      [
        ['x', 'rubber', 4],
        ['x', 'cork', 4],
        ['z', 'rubber', 4],
        ['z', 'cork', 4],
      ],
    );
    near(rows[0].changePercent, rows[2].changePercent, 0.01);
    assert.ok(
      !(await warningsOf(`${load}compare rigid with rubber axes x, z over 10..30 Hz`, three)).includes('channel.many'),
    );
    const verdict = await valueOf(
      'verdict',
      `${load}C = compare rigid with rubber axes x, z over 10..30 Hz\nclaim C reduction axis x`,
      three,
    );
    assert.equal(verdict.row.channel, 'x');
    const value = await valueOf('comparison', `${load}compare rigid with rubber axes x, z over 10..30 Hz`, three);
    const [chart] = present(value, undefined, []).parts.filter((part) => part.type === 'chart');
    assert.match(JSON.stringify(chart), /from rigid to rubber, channels x and z/);
  });
});
