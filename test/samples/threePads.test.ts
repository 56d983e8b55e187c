import { strict as assert } from 'node:assert';
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { designedChange, logger, rides, type Condition, type Surface } from '../../scripts/samples/threePads/design.ts';
import { openNotebook } from '../../src/cli/notebookFile.ts';
import { runWhole } from '../../src/cli/runWhole.ts';
import type { RunReport } from '../../src/engine/result.ts';
import { compareRecords } from '../../src/notebook/compareRecords.ts';
import { parseRecord } from '../../src/notebook/record.ts';
import type { ComparisonRow } from '../../src/values/comparisonParts.ts';
import { errorsOf, folder, prose, run, says, size, valuesOf } from './notebooks.ts';
import { textOf } from './recordings.ts';

const raw = join(folder, 'three-pads/');
const notebook = 'three-pads.washboard.md';

describe('the raw data of the study of three pads', () => {
  it('are the designed rides and a run sheet, and no more than 400 kB', () => {
    const files = readdirSync(raw).sort();
    assert.deepEqual(files, [...rides.map(({ file }) => file), 'runs.csv'].sort());
    assert.ok(files.reduce((sum, file) => sum + statSync(raw + file).size, 0) <= 400_000);
  });

  it('come out of their script again, line for line', function () {
    this.timeout(60_000);
    const made = mkdtempSync(join(tmpdir(), 'washboard-three-pads-'));
    const script = fileURLToPath(new URL('../../scripts/samples/makeThreePads.ts', import.meta.url));
    try {
      execFileSync(process.execPath, ['--import', 'tsx', script, made], { cwd: raw });
      // Text, not packed bytes: deflate may pack otherwise in another release of Node.
      assert.deepEqual(
        readdirSync(raw).filter((file) => textOf(join(made, file)) !== textOf(raw + file)),
        [],
      );
    } finally {
      rmSync(made, { recursive: true });
    }
  });

  it('hold the standing, the steps of the logger and no reading near its range', () => {
    for (const { file } of rides) {
      const readings = textOf(raw + file)
        .trimEnd()
        .split('\n')
        .slice(2)
        .map(Number);
      assert.equal(readings.length, 34 * logger.rate, file);
      assert.ok(readings.every((z) => Math.abs(z / logger.step - Math.round(z / logger.step)) < 1e-6 && Math.abs(z) < 4));
      const still = readings.slice(0, 3.5 * logger.rate);
      assert.ok(Math.max(...still) - Math.min(...still) < 0.05, file);
    }
  });
});

describe('the study of three pads', () => {
  const text = prose(notebook);
  let report: RunReport;
  before(async function () {
    this.timeout(120_000);
    report = await run(notebook);
  });
  const { comparison, verdict, named } = valuesOf(() => report);
  const row = (condition: Condition, stratum: Surface | undefined, from: number): ComparisonRow => {
    const found = comparison('pads').rows.find(
      (one) => one.condition === condition && one.stratum === stratum && one.band.from === from,
    );
    assert.ok(found);
    return found;
  };

  it('runs without an error, finds no fault, and follows its plan', () => {
    assert.deepEqual(errorsOf(report), []);
    assert.equal(report.sources.length, rides.length + 1);
    assert.ok(report.results.every(({ value }) => value?.kind !== 'findings' || value.rows.length === 0));
    assert.deepEqual(comparison('pads').plan?.deviations, []);
  });

  it('plans as many rides as `repeats` asks for', () => {
    const enough = named('enough');
    assert.ok(enough.kind === 'repeats' && enough.runs === 4);
    says(text, 'So four rides of each pad, on each surface: eight of each in all');
    for (const surface of ['brick', 'tile'])
      assert.equal(rides.filter((one) => one.surface === surface && one.condition === 'air').length, 4);
  });

  it('finds the designed changes within its intervals, over both surfaces and on each', () => {
    for (const condition of ['gel', 'air'] as const)
      for (const surface of [undefined, 'brick', 'tile'] as const)
        for (const band of [[10, 50], [4, 10]] as const) {
          const { lowPercent, highPercent } = row(condition, surface, band[0]);
          const truth = 100 * designedChange(condition, band, surface);
          assert.ok(truth > lowPercent! && truth < highPercent!, `${condition} ${surface ?? 'both'} ${band[0]}: ${truth}`);
        }
  });

  it('shows a change by air on either surface, by gel on bricks alone, and above 10 Hz', () => {
    const outcomes = (['air', 'gel'] as const).flatMap((condition) =>
      (['brick', 'tile'] as const).map((surface) => row(condition, surface, 10).outcome),
    );
    assert.deepEqual(outcomes, ['lower', 'lower', 'lower', 'not shown']);
    const [onBricks, onTiles] = (['brick', 'tile'] as const).map((surface) => row('gel', surface, 10));
    assert.ok(onBricks.highPercent! > onTiles.lowPercent!, 'the intervals of gel on the two surfaces overlap');
    assert.equal(row('gel', undefined, 4).outcome, 'not shown');
  });

  it('says how little the power of the speed matters', () => {
    says(text, 'by the powers 0 and 1 of the speed, instead of 0.5, neither would differ by a whole point');
    const warnings = report.results.flatMap((result) => result.warnings).filter(({ code }) => code === 'compare.adjusted');
    assert.equal(warnings.length, 2);
    const found = (['gel', 'air'] as const).map((one) => size(row(one, undefined, 10).changePercent));
    warnings.forEach(({ message }, k) => {
      const [none, first] = [...message.matchAll(/−(\d+\.\d) %/g)].map(([, figure]) => Number(figure));
      assert.ok([none, first].every((one) => Math.abs(one - Number(found[k])) < 1), message);
    });
  });

  it('says of the claims what the verdicts are', () => {
    const verdicts = ['gel_claim', 'gel_on_bricks', 'air_claim', 'air_below'].map((name) => verdict(name).verdict);
    assert.deepEqual(verdicts, ['contradicted', 'not shown', 'supported', 'contradicted']);
    const parts = ['Contradicted, over both', 'Not shown: 20 %', 'Supported. But', 'Contradicted: from 4 to 10 Hz'];
    const places = parts.map((words) => text.indexOf(words));
    assert.ok(places.every((place, k) => place > (places[k - 1] ?? 0)));
  });

  it('gives the figures and the words that its record holds, from the same files', async function () {
    this.timeout(120_000);
    const recorded = parseRecord(readFileSync(join(folder, 'three-pads.record.json'), 'utf8'));
    const opened = openNotebook(folder + notebook, {});
    assert.ok(recorded.ok && opened.ok);
    const { record: now } = await runWhole(opened.value);
    assert.ok(Object.keys(now.results).length > 100);
    assert.deepEqual(compareRecords(recorded.value, now), []);
  });

  it('has its truth on the page about the samples', () => {
    const shown = (value: number): string => `${value < 0 ? '−' : '+'}${size(100 * value)} %`;
    for (const condition of ['gel', 'air'] as const) {
      const changes = ([[10, 50], [4, 10]] as const).flatMap((band) =>
        (['brick', 'tile', undefined] as const).map((surface) => shown(designedChange(condition, band, surface))),
      );
      says(prose('README.md'), `| ${condition} | ${changes.join(' | ')} |`);
    }
  });
});
