import { strict as assert } from 'node:assert';
import { readFileSync } from 'node:fs';
import type { BandsValue } from '../../src/values/bands.ts';
import { toJson } from '../../src/values/json.ts';
import type { RunReport } from '../../src/engine/result.ts';
import { cellsOf, prose, runCells, valuesOf } from './notebooks.ts';

interface Row {
  readonly from_hz: number;
  readonly to_hz: number;
  readonly condition: string;
  readonly stratum: string;
  readonly change_percent: number;
  readonly low_percent: number;
  readonly high_percent: number;
  readonly p: number;
  readonly p_adjusted: number;
  readonly interaction_f?: number;
  readonly interaction_p?: number;
  readonly interaction_p_adjusted?: number;
}

// Source of the figures: numpy and scipy, by scripts/reference/makeThreePadsVectors.py, which names their versions.
const expected = JSON.parse(
  readFileSync(new URL('../published/vectors/threePads.json', import.meta.url), 'utf8'),
) as { readonly levels: readonly { run: string; rms: readonly number[] }[]; readonly rows: readonly Row[] };

const close = (found: number, wanted: number, tolerance: number, what: string): void =>
  assert.ok(Math.abs(found - wanted) <= tolerance * Math.abs(wanted), `${what}: ${found} instead of ${wanted}`);

const levelsOfAll =
  'everything = load sheet "three-pads/runs.csv" | trim 6..30 s\nall_levels = band (spectrum everything) 10..50 Hz, 4..10 Hz\n';

describe('the figures of the study of three pads, against numpy and scipy', () => {
  let report: RunReport;
  before(async function () {
    this.timeout(120_000);
    report = await runCells([...cellsOf(prose('three-pads.washboard.md')), levelsOfAll]);
  });
  const { comparison, named } = valuesOf(() => report);

  it('agree in the level of every run and band to 1e-9', () => {
    const levels = named('all_levels') as BandsValue;
    assert.equal(levels.kind, 'bands');
    for (const { run: file, rms } of expected.levels) {
      const label = file.replace('.csv.gz', '');
      const found = levels.rows.filter((row) => row.run.label === label);
      assert.equal(found.map(({ band }) => band.from).join(), '10,4', file);
      found.forEach((row, band) => close(row.rms, rms[band], 1e-9, `${file}, band ${band}`));
    }
  });

  it('agree in change, interval and p of every condition, surface and band to 1e-6', () => {
    const { rows } = toJson(comparison('pads')) as unknown as { rows: Row[] };
    assert.equal(rows.length, expected.rows.length);
    for (const wanted of expected.rows) {
      const found = rows.find(
        (one) =>
          one.from_hz === wanted.from_hz && one.condition === wanted.condition && one.stratum === wanted.stratum,
      );
      const what = `${wanted.condition}, ${wanted.stratum}, ${wanted.from_hz} Hz`;
      assert.ok(found, what);
      for (const key of ['change_percent', 'low_percent', 'high_percent', 'p', 'p_adjusted'] as const)
        close(found[key], wanted[key], 1e-6, `${what}, ${key}`);
      for (const key of ['interaction_f', 'interaction_p', 'interaction_p_adjusted'] as const) {
        assert.equal(found[key] === undefined, wanted.stratum !== 'all', `${what}, ${key}`);
        if (wanted.stratum === 'all') close(found[key] ?? NaN, wanted[key] ?? NaN, 1e-6, `${what}, ${key}`);
      }
    }
  });
});
