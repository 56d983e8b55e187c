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
import { errorsOf, folder, interval, prose, run, says, size, valuesOf } from './notebooks.ts';
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
  const told = (one: ComparisonRow): string => `${size(one.changePercent)} % ${one.outcome}`;

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

  it('says of the changes what it computes', () => {
    const [gel, air] = (['gel', 'air'] as const).map((one) => row(one, undefined, 10));
    says(text, `was **${told(gel)}** with gel than with foam (95 % interval ${interval(gel)}) and **${told(air)}** with air (${interval(air)})`);
    const [onBrick, onTile] = (['brick', 'tile'] as const).map((one) => row('air', one, 10));
    says(text, `Air is lower on both: ${size(onBrick.changePercent)} % on bricks (${interval(onBrick)}), ${size(onTile.changePercent)} % on tiles (${interval(onTile)})`);
    assert.deepEqual([onBrick.outcome, onTile.outcome], ['lower', 'lower']);
    const [gelBrick, gelTile] = (['brick', 'tile'] as const).map((one) => row('gel', one, 10));
    says(text, `Gel is ${told(gelBrick)} on bricks (${interval(gelBrick)}), and on tiles nothing is shown: anything from ${size(gelTile.lowPercent)} % lower to ${size(gelTile.highPercent)} % higher`);
    assert.equal(gelTile.outcome, 'not shown');
    assert.ok(gelBrick.highPercent! > gelTile.lowPercent!, 'the intervals of gel on the two surfaces overlap');
    says(text, `"${size(gel.changePercent)} % with gel" is a mean of two surfaces`);
    const below = row('air', undefined, 4);
    says(text, `was **${told(below)}** with air than with foam (${interval(below)}). Of gel nothing is shown there`);
    assert.equal(row('gel', undefined, 4).outcome, 'not shown');
  });

  it('gives in its result the figures of the comparison', () => {
    const result = text.slice(text.indexOf('## Result')).replaceAll('> ', '');
    const [gel, air, below] = [row('gel', undefined, 10), row('air', undefined, 10), row('air', undefined, 4)];
    says(result, `was ${told(air)} with the air pad than with the foam (95 % interval ${interval(air)}) and ${told(gel)} with the gel pad (${interval(gel)})`);
    says(result, `the air pad was worse by ${size(below.changePercent)} % (${interval(below)})`);
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

  it('gives the figures that its record holds, from the same files', async function () {
    this.timeout(120_000);
    const recorded = parseRecord(readFileSync(join(folder, 'three-pads.record.json'), 'utf8'));
    const opened = openNotebook(folder + notebook, undefined);
    assert.ok(recorded.ok && opened.ok);
    const { record: now } = await runWhole(opened.value);
    assert.ok(Object.keys(now.results).length > 100);
    const figures = (record: typeof now): typeof now => ({
      ...record,
      results: Object.fromEntries(Object.entries(record.results).filter(([, value]) => typeof value !== 'string')),
    });
    assert.deepEqual(compareRecords(figures(recorded.value), figures(now)), []);
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
