import { strict as assert } from 'node:assert';
import { studentTInterval } from '../../../src/statistics/distributions/studentT.ts';
import { standardUncertainty } from '../../../src/units/uncertainty.ts';
import type { ComparisonRow } from '../../../src/values/comparisonParts.ts';
import { toJson } from '../../../src/values/json.ts';
import { tabulate } from '../../../src/values/tabulate.ts';
import { near, resultOf, valueOf, warningsOf } from '../notebook.ts';
import { pads, worked, type Pads } from '../pads.ts';

/** The worked example with what the sheet says of the sensors of its six runs, in a column of this name. */
const study = (cells: readonly string[], column = 'sensor', more: Pads['facts'] = {}): Record<string, string> =>
  pads({ ...worked, facts: { ...more, [column]: cells } });

const same = study(Array.from({ length: 6 }, () => 'A1'));
const apart = study(['A1', 'A1', 'A1', 'B2', 'B2', 'B2']);
const turned = study(['A1', 'B2', 'B2', 'A1', 'B2', 'B2']);
const loaded = (more = ' calibration 2 %'): string =>
  ['foam', 'gel'].map((pad) => `${pad} = load sheet "runs.csv" where condition ${pad} unit g${more}\n`).join('');
const C = 'C = compare foam with gel over 10..30 Hz\n';
const rowOf = async (files: Record<string, string>, load = loaded()): Promise<ComparisonRow> =>
  (await valueOf('comparison', `${load}compare foam with gel over 10..30 Hz`, files)).rows[0];

describe('a change between sensors whose calibration is stated', () => {
  it('is free of it where one sensor recorded both sides, or each had the same part in both', async () => {
    const plain = await rowOf(same, loaded(''));
    for (const files of [same, turned]) {
      const row = await rowOf(files);
      near(row.standardError!, plain.standardError!, 1e-9);
      assert.equal(row.sensors, undefined);
      assert.doesNotMatch(row.sentence, /calibration/);
    }
  });

  it('has both sensors in its standard error, degrees of freedom, interval and sentence', async () => {
    const [plain, row] = [await rowOf(same), await rowOf(apart)];
    const [own, all] = [plain.standardError! ** 2, plain.standardError! ** 2 + 2 * 0.02 ** 2];
    near(row.standardError!, Math.sqrt(all), 1e-9);
    // Satterthwaite, with no end to the degrees of freedom of what is stated.
    near(row.df!, plain.df! * (all / own) ** 2, 1e-9);
    const half = studentTInterval(0.95, row.df!) * Math.sqrt(all);
    near(100 + row.highPercent!, (100 + row.changePercent) * Math.exp(half), 1e-9);
    assert.match(row.sentence, /, with the calibration of A1 and B2 \(2 % each\) in the interval\)/);
    const { rows } = toJson(await valueOf('comparison', `${loaded()}${C}`, apart)) as unknown as {
      rows: { calibration: object[] }[];
    };
    assert.deepEqual(rows[0].calibration, [
      { sensor: 'A1', axis: 'z', uncertainty_percent: 2, in_change_percent: -2 },
      { sensor: 'B2', axis: 'z', uncertainty_percent: 2, in_change_percent: 2 },
    ]);
  });

  it('counts a sensor by how much more part it had in one side', async () => {
    const row = await rowOf(study(['A1', 'A1', 'A1', 'A1', 'B2', 'B2']));
    assert.deepEqual(
      row.sensors?.map(({ sensor, size }) => [sensor, Number(size.toFixed(9))]),
      [
        ['A1', -0.013333333],
        ['B2', 0.013333333],
      ],
    );
  });

  it('is decided by the column of sensors before that of loggers', async () => {
    const loggers = Array.from({ length: 6 }, () => 'LOG');
    const both = study(['A1', 'A1', 'A1', 'B2', 'B2', 'B2'], 'sensor', { logger: loggers });
    assert.equal((await rowOf(both)).sensors?.length, 2);
    const row = await rowOf(study(loggers, 'logger'));
    assert.equal(row.sensors, undefined);
  });

  it('shares the errors of its sensors with the levels that they gave', async () => {
    const size = async (text: string): Promise<number> =>
      standardUncertainty((await valueOf('quantity', `${loaded()}${C}L = levels gel[1]\n${text}`, apart)).parts!);
    const { standardError = NaN } = await rowOf(same);
    const ratio = await valueOf('quantity', `${loaded()}${C}C.ratio`, apart);
    // gel / (gel / foam): what is left is the sensor of foam, and the scatter of the runs.
    const left = await valueOf('quantity', `${loaded()}${C}L = levels gel[1]\nL.rms / C.ratio`, apart);
    near(await size('L.rms / C.ratio'), left.quantity.value * Math.hypot(standardError, 0.02), 1e-6);
    near(standardUncertainty(ratio.parts!), ratio.quantity.value * Math.sqrt(standardError ** 2 + 0.0008), 1e-6);
  });
});

describe('a change between sensors whose calibration is not stated', () => {
  it('warns, whichever of them it is of', async () => {
    const asked = `compare foam with gel over 10..30 Hz`;
    assert.ok((await warningsOf(loaded('') + asked, apart)).includes('compare.sensors'));
    assert.ok(!(await warningsOf(loaded('') + asked, same)).includes('compare.sensors'));
    assert.ok(!(await warningsOf(loaded('') + asked, turned)).includes('compare.sensors'));
    assert.ok(!(await warningsOf(loaded() + asked, apart)).includes('compare.sensors'));
    const half = loaded().replace(' calibration 2 %', '');
    const { warnings } = await resultOf(half + asked, apart);
    const { message } = warnings.find(({ code }) => code === 'compare.sensors')!;
    assert.match(message, /^foam was recorded with A1 and gel with B2, and the calibration of A1 is not stated: /);
  });
});

describe('tables and methods of calibrated runs', () => {
  it('say how uncertain the sensor is, in tables of levels, bands and running levels', async () => {
    for (const [kind, verb] of [
      ['levels', 'levels foam'],
      ['bands', 'band (spectrum foam) 10..30 Hz'],
      ['running', 'running foam over 1 s'],
    ] as const) {
      const columns = async (load: string): Promise<string[]> =>
        tabulate(await valueOf(kind, `${load}${verb}`, same))!.columns.map(({ name }) => name);
      assert.ok(!(await columns(loaded(''))).some((name) => name.startsWith('calibration')), kind);
      if (kind !== 'running') assert.ok((await columns(loaded())).includes('calibration uncertainty'), kind);
      const json = toJson(await valueOf(kind, `${loaded()}${verb}`, same)) as { rows?: Record<string, number>[] };
      assert.equal(json.rows?.[0]['calibration_percent'], 2, kind);
    }
  });

  it('tell that the calibration falls out, or between which sensors it does not', async () => {
    const said = async (files: Record<string, string>): Promise<string | undefined> =>
      (await valueOf('methods', `${loaded()}${C}methods C`, files)).parts.find(({ about }) => about === 'calibration')
        ?.text;
    assert.equal(
      await said(same),
      'The standard uncertainty of the sensitivity of A1 (2 %) is in absolute levels, and falls out of the changes, whose sides were recorded with the same sensor.',
    );
    assert.match(
      (await said(apart)) ?? '',
      /of A1 and B2 \(2 % each\) .* widens the intervals of changes between runs/,
    );
    const { parts } = await valueOf('methods', `${loaded('')}${C}methods C`, same);
    assert.ok(parts.every(({ about }) => about !== 'calibration'));
  });
});
