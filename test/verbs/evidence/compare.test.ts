import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { present } from '../../../src/charts/present.ts';
import { toJson } from '../../../src/values/json.ts';
import type { ComparisonRow } from '../../../src/values/comparisonParts.ts';
import { errorOf, near, recordingOf, resultOf, sine, valueOf, warningsOf } from '../notebook.ts';
import { loadPads, pads, worked, type Pads } from '../pads.ts';

const over = 'compare foam with gel over 10..30 Hz';

async function rowsOf(study: Pads, text = over): Promise<readonly ComparisonRow[]> {
  return (await valueOf('comparison', loadPads + text, pads(study))).rows;
}

async function messages(study: Pads, text = over, more: Record<string, string> = {}): Promise<string> {
  const { warnings, error } = await resultOf(loadPads + text, { ...pads(study), ...more });
  assert.equal(error?.message, undefined);
  return warnings.map(({ message }) => message).join('\n');
}

const ratios = ({
  lowPercent,
  highPercent,
}: {
  lowPercent: number | undefined;
  highPercent: number | undefined;
}): string => [lowPercent, highPercent].map((percent) => (1 + (percent ?? NaN) / 100).toFixed(4)).join(' ');

describe('compare', () => {
  it('gives the worked example to its digits: ratio and Welch’s interval', async () => {
    const [row] = await rowsOf(worked);
    assert.equal((1 + row.changePercent / 100).toFixed(4), '0.8581');
    assert.equal(ratios(row), '0.8093 0.9099');
    assert.equal(row.outcome, 'lower');
    near(row.changeDb, 20 * Math.log10(0.8581), 1e-3);
  });

  it('measures each run’s band exactly, and takes geometric means', async () => {
    const [row] = await rowsOf(worked);
    row.aRuns.forEach((level, k) => near(level, worked.a[k], 1e-6));
    near(row.a, (0.3 * 0.312 * 0.305) ** (1 / 3), 1e-6);
    near(row.b, (0.262 * 0.255 * 0.27) ** (1 / 3), 1e-6);
  });

  it('says how much of the baseline’s mean square the band holds', async () => {
    const [row] = await rowsOf(worked);
    const shares = worked.a.map((level) => (100 * level ** 2) / (level ** 2 + 0.05 ** 2 / 2));
    near(row.shareOfA ?? NaN, shares.reduce((sum, one) => sum + one, 0) / 3, 1e-5);
  });

  it('says what the data rule out', async () => {
    const [row] = await rowsOf({ a: [0.3, 0.31, 0.305], b: [0.301, 0.296, 0.311] });
    assert.equal(row.outcome, 'not shown');
    near(row.excludes?.eitherWayPercent ?? NaN, Math.max(-(row.lowPercent ?? 0), row.highPercent ?? 0), 1e-9);
    assert.match(
      row.sentence,
      /^A difference in acceleration r\.m\.s\. \(z, 10 to 30 Hz\) between gel and foam is not shown: .*rule out a change of more than \d+\.\d % either way, but do not show that there is none\.$/,
    );
  });

  it('pairs neighbours when told to, in the order of the day', async () => {
    const [row] = await rowsOf(worked, `${over} paired`);
    assert.equal(ratios(row), '0.7717 0.9542');
    // The same runs made in another order are paired otherwise: A1 B2, A2 B1, A3 B3.
    const [other] = await rowsOf({ ...worked, order: [1, 4, 5, 3, 2, 6] }, `${over} paired`);
    const d = [0.255 / 0.3, 0.262 / 0.312, 0.27 / 0.305].map(Math.log);
    const mean = (d[0] + d[1] + d[2]) / 3;
    const se = Math.sqrt(d.reduce((sum, one) => sum + (one - mean) ** 2, 0) / 6);
    near(1 + (other.lowPercent ?? NaN) / 100, Math.exp(mean - 4.30265 * se), 1e-5);
  });

  it('takes a steady drift out by trend, as least squares by hand does', async () => {
    const order = [1, 4, 6, 7, 2, 3, 5, 8];
    const wobble = [0.004, -0.003, 0.002, -0.001, 0.001, -0.002, 0.003, -0.004];
    const ln = order.map((place, k) => Math.log(0.3) + (k >= 4 ? Math.log(0.9) : 0) + 0.05 * place + wobble[k]);
    const levels = ln.map(Math.exp);
    const [row] = await rowsOf({ a: levels.slice(0, 4), b: levels.slice(4), order }, `${over} trend`);
    // Columns 1, [B], order: the normal equations after the means of both groups are taken out of order and level.
    const mean = (values: number[]): number => values.reduce((sum, one) => sum + one, 0) / values.length;
    const within = (values: readonly number[]): number[] => {
      const [a, b] = [mean(values.slice(0, 4)), mean(values.slice(4))];
      return values.map((value, k) => value - (k < 4 ? a : b));
    };
    const [x, y] = [within(order), within(ln)];
    const slope = x.reduce((sum, one, k) => sum + one * y[k], 0) / x.reduce((sum, one) => sum + one * one, 0);
    const delta = mean(ln.slice(4)) - mean(ln.slice(0, 4)) - slope * (mean(order.slice(4)) - mean(order.slice(0, 4)));
    near(row.changePercent, 100 * Math.expm1(delta), 1e-4);
    assert.ok(Math.abs(delta - Math.log(0.9)) < 0.01);
    assert.equal(row.outcome, 'lower');
  });

  it('falls back to Welch where there is no order for a trend, and says how to give one', async () => {
    const value = await valueOf('comparison', `${loadPads}${over} trend`, pads(worked));
    assert.equal(value.methodCode, 'welch');
    assert.match(
      await messages(worked, `${over} trend`),
      /Welch’s t was used instead of trend.*Give the order in a run sheet/,
    );
  });

  it('states several bands together, and the primary one by itself, with one interval and one p each', async () => {
    const files = { ...worked, a: [0.3, 0.33, 0.305], b: [0.29, 0.301, 0.281] };
    const [first, second, third] = await rowsOf(
      files,
      'compare foam with gel primary 10..30 Hz over 15..30 Hz, 10..50 Hz',
    );
    assert.deepEqual([first.primary, second.primary, third.primary], [true, undefined, undefined]);
    near(first.pAdjusted ?? NaN, first.p ?? NaN, 1e-12);
    near(second.pAdjusted ?? NaN, 2 * (second.p ?? NaN), 1e-6);
    assert.ok((second.lowPercent ?? 0) < (first.lowPercent ?? 0));
    assert.match(first.sentence, /\(95 % interval /);
    assert.match(second.sentence, /, 95 % for both other bands together; /);
  });

  it('takes the order from start times that stand above the rows, where nothing else tells it', async () => {
    const minutes: Readonly<Record<string, number>> = {
      'foam-1': 0,
      'gel-1': 10,
      'gel-2': 20,
      'foam-2': 30,
      'foam-3': 40,
      'gel-3': 50,
    };
    const started = Object.entries(pads(worked)).map(([path, text]) => {
      const minute = minutes[path.replace('.csv', '')];
      return [
        path,
        minute === undefined ? text : `# Start time: 2026-03-02 10:${String(minute).padStart(2, '0')}:00\n${text}`,
      ];
    });
    const line = `${loadPads}compare foam with gel over 10..30 Hz`;
    const value = await valueOf('comparison', line, Object.fromEntries(started));
    assert.match(value.rows[0].sentence, /3 \+ 3 runs in order ABBAAB/);
    assert.match((await valueOf('comparison', line, pads(worked))).rows[0].sentence, /order not known/);
  });

  it('does not show among several what would be shown only of a band by itself', async () => {
    const near5 = { a: [0.3, 0.312, 0.305], b: [0.29, 0.283, 0.295] };
    const [alone] = await rowsOf(near5);
    assert.ok((alone.p ?? 1) < 0.05 && (alone.p ?? 0) > 0.017, `p ${alone.p}`);
    const rows = await rowsOf(near5, 'compare foam with gel over 10..30 Hz, 11..30 Hz, 12..30 Hz');
    assert.equal(rows[0].outcome, 'not shown');
    assert.ok((rows[0].pAdjusted ?? 0) > 0.05 && (rows[0].highPercent ?? -1) > 0);
  });

  it('with a margin finds both the same within it, or not yet', async () => {
    const alike = { a: [0.3, 0.302, 0.301], b: [0.3015, 0.3005, 0.3025] };
    assert.equal((await rowsOf(alike, `${over} margin 5 %`))[0].outcome, 'equivalent');
    assert.equal((await rowsOf(alike, over))[0].outcome, 'not shown');
    const [row] = await rowsOf({ a: [0.3, 0.33, 0.31], b: [0.301, 0.32, 0.299] }, `${over} margin 5 %`);
    assert.equal(row.outcome, 'not shown');
    assert.equal(row.equivalent, false);
    assert.match(
      (await rowsOf(alike, `${over} margin 5 %`))[0].sentence,
      /^Acceleration r\.m\.s\. \(z, 10 to 30 Hz\) was the same within ±5 % with gel and with foam: /,
    );
  });

  it('infers nothing from one or two runs a side', async () => {
    const [two] = await rowsOf({ a: [0.3, 0.31], b: [0.2, 0.21] });
    assert.deepEqual([two.lowPercent, two.p, two.outcome], [undefined, undefined, 'not shown']);
    assert.match(two.sentence, /is not shown: −\d.* in 2 \+ 2 runs, and at least 3 of each are needed\.$/);
    const value = await valueOf('comparison', loadPads + over, pads({ a: [0.3], b: [0.2], seconds: 30 }));
    const [row] = value.rows;
    assert.deepEqual([row.lowPercent, row.highPercent, row.p, row.pAdjusted], Array(4).fill(undefined));
    assert.equal(row.outcome, 'not shown');
    assert.match(row.sentence, /was measured in 1 \+ 1 runs, which says nothing about other runs\.$/);
    const told = JSON.stringify(toJson(value)) + JSON.stringify(present(value, undefined, []).parts);
    assert.doesNotMatch(told, /95 % interval|"p_adjusted":\d|"low_percent":-?\d/);
  });

  it('does not depend on the scale of the levels, and turns about when the sides are swapped', async () => {
    const level = fc.integer({ min: 200, max: 400 }).map((thousandths) => thousandths / 1000);
    await fc.assert(
      fc.asyncProperty(fc.uniqueArray(level, { minLength: 6, maxLength: 6 }), async (levels) => {
        const study = { a: levels.slice(0, 3), b: levels.slice(3) };
        const [row] = await rowsOf(study);
        const twice = levels.map((one) => 2 * one);
        const [scaled] = await rowsOf({ a: twice.slice(0, 3), b: twice.slice(3) });
        const [swapped] = await rowsOf(study, 'compare gel with foam over 10..30 Hz');
        for (const key of ['changePercent', 'lowPercent', 'highPercent'] as const)
          near(1 + (scaled[key] ?? NaN) / 100, 1 + (row[key] ?? NaN) / 100, 1e-4);
        near((1 + row.changePercent / 100) * (1 + swapped.changePercent / 100), 1, 1e-9);
        near((1 + (row.lowPercent ?? NaN) / 100) * (1 + (swapped.highPercent ?? NaN) / 100), 1, 1e-9);
        near(row.p ?? NaN, swapped.p ?? NaN, 1e-6);
      }),
      { numRuns: 8 },
    );
  });

  it('takes a plain confidence', async () => {
    const [row] = await rowsOf(worked, `${over} confidence 90 %`);
    const [usual] = await rowsOf(worked, over);
    assert.ok((row.lowPercent ?? 0) > (usual.lowPercent ?? 0));
    assert.match(row.sentence, /90 % interval/);
  });
});

describe('the fields of a comparison', () => {
  it('are those of its only band, or of the primary one', async () => {
    const change = async (text: string): Promise<number> => {
      const { value, error } = await resultOf(`${loadPads}c = ${text}\nc.change`, pads(worked));
      assert.equal(error?.message, undefined);
      return value?.kind === 'quantity' ? value.quantity.value : NaN;
    };
    near(await change(over), -14.19, 1e-3);
    near(await change('compare foam with gel over 5..50 Hz, 15..30 Hz primary 10..30 Hz'), -14.19, 1e-3);
    const many = `${loadPads}c = compare foam with gel over 5..50 Hz, 10..30 Hz\nc.change`;
    assert.equal((await errorOf(many, pads(worked))).code, 'field.many');
  });
});

describe('what compare compares', () => {
  it('may be the dose value, a percentile, or a weighted level, as levels gives them', async () => {
    const files = pads(worked);
    const levels = await valueOf('levels', `${loadPads}levels foam`, files);
    const weighted = await valueOf('levels', `${loadPads}levels (weight foam wk)`, files);
    for (const [metric, expected, unit, said] of [
      ['vdv', levels.rows.map(({ vdv }) => vdv), 'm/s^1.75', /^Vibration dose value \(z\) was/],
      [
        'p99',
        levels.rows.map(({ percentile99 }) => percentile99),
        'g',
        /^Acceleration 99 % level about the mean \(z\)/,
      ],
      ['p99_9', levels.rows.map(({ percentile999 }) => percentile999), 'g', /^Acceleration 99\.9 % level/],
      ['wk', weighted.rows.map(({ rms }) => rms), 'g', /^Wk-weighted acceleration r\.m\.s\. \(z\)/],
    ] as const) {
      const value = await valueOf('comparison', `${loadPads}compare foam with gel metric ${metric}`, files);
      assert.deepEqual(value.rows[0].aRuns, expected, metric);
      assert.equal(value.rows[0].unit.symbol, unit);
      assert.equal(value.metricCode, metric);
      assert.match(value.rows[0].sentence, said);
    }
  });

  it('names a weighting that was applied beforehand', async () => {
    const text = `${loadPads}f = weight foam wk\nh = weight gel wk\ncompare f with h`;
    const value = await valueOf('comparison', text, pads(worked));
    assert.equal(value.metric, 'Wk-weighted acceleration r.m.s.');
    const again = `${loadPads}f = weight foam wk\ng1 = weight gel wk\ncompare f with g1 metric wk`;
    assert.match((await errorOf(again, pads(worked))).message, /weighted by Wk already/);
  });

  it('may be a response, over a band', async () => {
    const files: Record<string, string> = {};
    for (const [name, gain] of Object.entries({ a1: 2, a2: 2.1, a3: 1.9, b1: 1, b2: 1.05, b3: 0.97 })) {
      let state = 7;
      const random = (): number => ((state = (Math.imul(state, 1664525) + 1013904223) >>> 0) / 2 ** 32 - 0.5) * 2;
      const input = Array.from({ length: 4000 }, random);
      files[`${name}.csv`] = recordingOf({ axle: (_, i) => input[i], post: (_, i) => gain * input[i] });
    }
    const text =
      'a = load "a*.csv" unit g | transfer from axle to post\nb = load "b*.csv" unit g | transfer from axle to post\n';
    const value = await valueOf('comparison', `${text}compare a with b over 10..50 Hz`, files);
    assert.equal(value.metric, 'transmissibility');
    value.rows[0].aRuns.forEach((level, k) => near(level, [2, 2.1, 1.9][k], 1e-6));
    near(value.rows[0].changePercent, 100 * ((1 * 1.05 * 0.97) / (2 * 2.1 * 1.9)) ** (1 / 3) - 100, 1e-5);
    assert.match(
      (await errorOf(`${text}compare a with b over 10..50 Hz metric vdv`, files)).message,
      /transmissibility/,
    );
    assert.match(
      (await errorOf(`${text}r = load "b*.csv" unit g | channel axle\ncompare a with r`, files)).message,
      /only be compared with a response/,
    );
  });

  it('is the same of runs and of their spectra', async () => {
    const files = pads(worked);
    const runs = await valueOf('comparison', loadPads + over, files);
    const spectra = await valueOf(
      'comparison',
      `${loadPads}f = spectrum foam\nh = spectrum gel\ncompare f with h over 10..30 Hz`,
      files,
    );
    assert.deepEqual(
      spectra.rows.map(({ aRuns, bRuns }) => [aRuns, bRuns]),
      runs.rows.map(({ aRuns, bRuns }) => [aRuns, bRuns]),
    );
    assert.deepEqual(spectra.rows[0].lowPercent, runs.rows[0].lowPercent);
  });
});

describe('what compare warns of', () => {
  const four = { a: [0.3, 0.312, 0.305, 0.309], b: [0.262, 0.255, 0.27, 0.26] };
  const ordered = { ...four, order: [1, 4, 6, 7, 2, 3, 5, 8] };
  const cells = (a: string, b: string): string[] => [...four.a.map(() => a), ...four.b.map(() => b)];

  it('an order in which a drift passes for a change; not one that cancels it', async () => {
    const apart = { ...four, order: [1, 2, 3, 4, 5, 6, 7, 8] };
    assert.match(
      await messages(apart),
      /All runs of one of foam and gel came before the other’s, .* no verdict is given .* 4\.20 times/,
    );
    const [row] = await rowsOf(apart);
    assert.equal(row.outcome, 'not shown');
    assert.match(row.sentence, /because all runs of one came before the other’s.*4 \+ 4 runs in order AAAABBBB/);
    assert.match(await messages({ ...four, order: [1, 2, 4, 5, 3, 6, 7, 8] }), /are not well mixed: .* \d\.\d\d times/);
    assert.doesNotMatch(await messages(ordered), /mixed|before the other/);
  });

  it('names the method that the layout calls for', async () => {
    const cell = (words: readonly string[]) => [...words, ...words];
    for (const [study, code, said] of [
      [four, 'welch', /4 \+ 4 runs, order not known\)/],
      [ordered, 'trend', /4 \+ 4 runs in order ABBABAAB, steady drift taken out\)/],
      [{ ...ordered, facts: { pair: cell(['1', '2', '3', '4']) } }, 'paired', /ABBABAAB, compared in pairs\)/],
      [{ ...ordered, facts: { day: cell(['1', '1', '2', '2']) } }, 'days', /differences between days taken out\)/],
      [
        { ...ordered, facts: { date: cell(['2024-05-01', '2024-05-01', '2024-05-02', '2024-05-02']) } },
        'days',
        /differences between days taken out\)/,
      ],
    ] as const) {
      const value = await valueOf('comparison', loadPads + over, pads(study));
      assert.equal(value.methodCode, code);
      assert.match(value.rows[0].sentence, said);
    }
  });

  it('runs of a side that differ in a column of the sheet, and how to choose', async () => {
    const facts = { surface: ['brick', 'brick', 'tile', 'tile', 'brick', 'brick', 'tile', 'tile'] };
    assert.match(
      await messages({ ...ordered, facts }),
      /The runs of foam and those of gel differ in surface \(brick, tile\): compare like with like, as in "where surface brick", or each by itself and all together, "within surface"\./,
    );
    const both = await messages({
      ...ordered,
      facts: { weather: ['dry', 'dry', 'wet', 'wet', 'dry', 'dry', 'wet', 'wet'] },
    });
    assert.match(both, /The runs of foam and those of gel differ in weather \(dry, wet\)/);
    assert.equal(both.split('differ in').length, 2);
    const pace = { 'pace (km/h)': ['15', '14.9', '15', '15', '15.5', '15.5', '15.5', '15'] };
    assert.doesNotMatch(await messages({ ...ordered, facts: pace }), /differ in/);
    const flow = { 'flow (l/min)': ['2', '2', '4', '4', '2', '2', '4', '4'] };
    assert.match(await messages({ ...ordered, facts: flow }), /differ in flow \(2, 4\)/);
    const each = { wind: ['1.1', '1.2', '1.3', '1.4', '1.5', '1.6', '1.7', '1.8'], note: cells('a', 'b') };
    assert.doesNotMatch(await messages({ ...ordered, facts: each }), /differ in/);
  });

  it('speeds more than 2 % apart, with what they may do; beyond 10 % nothing is comparable', async () => {
    const of = (b: string): Promise<string> => messages({ ...four, facts: { 'speed (m/s)': cells('1.20', b) } });
    assert.doesNotMatch(await of('1.22'), /speed/);
    const told = await of('1.26');
    assert.match(told, /mean speed was 1\.2 m\/s with foam and 1\.26 m\/s with gel \(\+5\.0 %\)/);
    const change = (0.262 * 0.255 * 0.27 * 0.26) ** 0.25 / (0.3 * 0.312 * 0.305 * 0.309) ** 0.25;
    const at = [0.5, 1, 1.5].map((power) => `−${(100 * (1 - change / 1.05 ** power)).toFixed(1)} %`);
    assert.ok(told.includes(`would be ${at[0]}, ${at[1]} or ${at[2]}`), told);
    const far = await valueOf(
      'comparison',
      loadPads + over,
      pads({ ...four, facts: { 'speed (m/s)': cells('1.20', '1.40') } }),
    );
    assert.match(
      far.guards?.map(({ message }) => message).join() ?? '',
      /speeds differ by 16\.7 %, so the sides are not comparable/,
    );
  });

  it('tyre pressures and loads more than 2 % apart', async () => {
    const facts = { 'pressure (bar)': cells('5.00', '5.20'), 'mass (kg)': cells('75', '75.5') };
    const told = await messages({ ...four, facts });
    assert.match(told, /mean pressure was 5 bar with foam and 5\.2 bar with gel \(\+4\.0 %\)/);
    assert.doesNotMatch(told, /mean mass/);
  });

  it('runs of different lengths', async () => {
    const files = { ...pads(four) };
    for (const k of [1, 2, 3, 4]) files[`gel-${k}.csv`] = pads({ ...four, seconds: 14 })[`gel-${k}.csv`];
    assert.match((await warningsOf(loadPads + over, files)).join(), /compare.durations/);
  });

  it('a band that does not stand clear of the logger’s noise', async () => {
    const still = (level: number): Record<string, string> => ({
      'still.csv': recordingOf({ z: sine(20, level * Math.SQRT2, 1) }, { seconds: 10 }),
    });
    const text = `rest = load "still.csv" unit g\n${over} above rest`;
    assert.doesNotMatch(await messages(four, text, still(0.05)), /logger at rest/);
    assert.match(
      await messages(four, text, still(0.1)),
      /10 to 30 Hz: the mean square of gel-2 is only 6\.5 times that of the logger at rest/,
    );
    const under = await valueOf('comparison', loadPads + text, { ...pads(four), ...still(0.2) });
    assert.match(under.rows[0].guards?.map(({ message }) => message).join() ?? '', /under the logger’s noise floor/);
    const other = { 'still.csv': recordingOf({ x: sine(20) }) };
    assert.match((await errorOf(loadPads + text, { ...pads(four), ...other })).message, /has no channel z/);
  });

  it('the noise of a logger whose spectrum is given, as of its samples: by another window, or as velocity', async () => {
    const still = (level: number): Record<string, string> => ({
      'still.csv': recordingOf({ z: sine(20, level * Math.SQRT2, 1) }, { seconds: 10 }),
    });
    const rest = 'rest = load "still.csv" unit g\n';
    const velocity = 'compare (spectrum foam as velocity) with (spectrum gel as velocity) over 10..30 Hz above';
    for (const line of [
      `${over} above (spectrum rest)`,
      `${over} above (spectrum rest using window hann 1 s)`,
      `${velocity} (spectrum rest as velocity)`,
      `${velocity} (spectrum rest using window hann 1 s as velocity)`,
    ]) {
      assert.doesNotMatch(await messages(four, rest + line, still(0.05)), /logger at rest/, line);
      assert.match(await messages(four, rest + line, still(0.1)), /gel-2 is only 6\.5 times that of the logger/, line);
    }
    const cut = `${rest}${velocity} (spectrum rest as velocity above 15 Hz)`;
    assert.equal((await errorOf(loadPads + cut, { ...pads(four), ...still(0.1) })).code, 'band.below-cut');
  });

  it('bands that no plan names, and how to name them', async () => {
    assert.match(
      await messages(four),
      /Nothing here shows that this band was chosen before the data were seen: state it beforehand in a plan cell/,
    );
  });

  it('runs that the sheet excludes, and gives the result with them when told to', async () => {
    const five = {
      a: [...four.a, 0.2],
      b: four.b,
      facts: { excluded: ['', '', '', '', 'yes', '', '', '', ''], why: ['', '', '', '', 'gust', '', '', '', ''] },
    };
    assert.match(
      await messages(five),
      /1 run is left out: foam-5 \(gust\)\. "including excluded" gives the result with them/,
    );
    const without = await rowsOf(five);
    assert.equal(without[0].aRuns.length, 4);
    for (const text of [
      `${over} including excluded`,
      'f = spectrum foam\nh = spectrum gel\ncompare f with h over 10..30 Hz including excluded',
    ]) {
      const value = await valueOf('comparison', loadPads + text, pads(five));
      assert.equal(value.includesExcluded, true);
      near(value.rows[0].aRuns[4], 0.2, 1e-6);
      assert.match(await messages(five, text), /Taken in although the run sheet excludes it: foam-5 \(gust\)/);
    }
    assert.match(
      (await errorOf(`${loadPads}${over} including excluded`, pads(four))).message,
      /No run sheet excludes a run/,
    );
    const integrated = 'f = spectrum foam as velocity\nh = spectrum gel as velocity\n';
    assert.match(
      (await errorOf(`${loadPads}${integrated}compare f with h over 10..30 Hz including excluded`, pads(five))).message,
      /^The velocity of foam is there as spectra alone, and "including excluded" needs samples, which are in g: /,
    );
  });
});

describe('what compare refuses', () => {
  const refused = async (text: string): Promise<string> => (await errorOf(loadPads + text, pads(worked))).message;

  it('says in one sentence', async () => {
    assert.match(await refused('compare foam with foam'), /stands on both sides/);
    assert.match(await refused('compare foam with gel over 10..200 Hz'), /half the rate/);
    assert.match(await refused('compare foam with gel primary 30..10 Hz'), /./);
    assert.match(await refused('compare foam with gel metric vdv over 10..30 Hz'), /level of the whole signal/);
    assert.match(await refused('compare foam with gel over 10..30 Hz paired trend'), /Choose one of paired and trend/);
    assert.match(await refused('compare foam with gel margin 0 %'), /above 0 %/);
    assert.match(await refused('compare foam with gel over third-octave'), /need the range/);
    assert.match(
      await refused('f = spectrum foam as velocity\nh = spectrum gel as velocity\ncompare f with h metric p99'),
      /^The velocity of foam is there as spectra alone, and "metric p99" needs samples, which are in g: compare runs that "integrate" has made velocity\.$/,
    );
    assert.match(
      await refused('h = integrate gel to velocity\ncompare foam with h'),
      /foam is in g and gel in m\/s: load both in one unit/,
    );
  });

  it('a dose value of what is no acceleration', async () => {
    const text = 'f = integrate foam to velocity\nh = integrate gel to velocity\ncompare f with h metric vdv';
    assert.match(await refused(text), /of an acceleration, and z is in/);
    assert.match(await refused(text.replace('vdv', 'wk')), /only an acceleration can be weighted/);
  });
});
