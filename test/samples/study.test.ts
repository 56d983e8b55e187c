import { strict as assert } from 'node:assert';
import { readFileSync } from 'node:fs';
import { designedChange, pad, padStiffness, movingMass } from '../../scripts/samples/design.ts';
import type { RunReport } from '../../src/engine/result.ts';
import type { ComparisonValue } from '../../src/values/comparison.ts';
import type { RepeatsValue } from '../../src/values/repeats.ts';
import { cellsOf, errorsOf, folder, prose, run, says, size, valuesOf } from './notebooks.ts';

for (const notebook of ['seat-pad.washboard.md', 'springs.washboard.md', 'three-pads.washboard.md']) {
  describe(notebook, () => {
    it('begins every cell with a comment that names it in an outline', () => {
      const cells = cellsOf(prose(notebook));
      assert.ok(cells.length >= 10);
      for (const cell of cells) assert.match(cell, /^# \S.{10,100}\n/);
    });

    it('has no cell longer than six lines', () => {
      for (const cell of cellsOf(prose(notebook))) assert.ok(cell.trimEnd().split('\n').length <= 6, cell);
    });
  });
}

describe('the study of the seat pad', () => {
  const text = prose('seat-pad.washboard.md');
  let report: RunReport;
  before(async () => {
    report = await run('seat-pad.washboard.md');
  });
  const { named, comparison, verdict } = valuesOf(() => report);
  const rows = (name: string): ComparisonValue['rows'] => comparison(name).rows;

  it('runs without an error, by the run sheet, and says which ride is left out', () => {
    assert.deepEqual(errorsOf(report), []);
    assert.equal(report.sources.length, 19);
    const bricks = comparison('bricks');
    assert.deepEqual(bricks.b.excluded?.map(({ label }) => label), ['stopped-brick-gel']);
    assert.ok(bricks.b.runs.every(({ label }) => !label.includes('stopped')));
    assert.deepEqual([bricks.a.places, bricks.b.places], [
      [1, 4, 7, 8],
      [2, 3, 6, 9],
    ]);
  });

  it('finds nothing in the rides but that their stamps are rounded', () => {
    const findings = report.results.flatMap(({ value }) => (value?.kind === 'findings' ? value.rows : []));
    assert.equal(findings.length, 16);
    assert.ok(findings.every(({ finding }) => finding.code === 'rounded-stamps'));
  });

  it('follows its plans', () => {
    for (const name of ['bricks', 'tiles_all']) {
      const { plan } = comparison(name);
      assert.deepEqual(plan?.deviations, [], name);
    }
  });

  it('plans as many runs as it says are needed', () => {
    const { runs, detect, power } = named('enough') as RepeatsValue;
    assert.equal(runs, 4);
    says(text, `find a reduction of ${100 * (detect ?? NaN)} % at least ${['one', 'two', 'three', 'four'][5 * power - 1]} times out of five`);
  });

  it('finds the primary band lower', () => {
    const [band] = rows('bricks');
    assert.equal(band.primary, true);
    assert.equal(band.outcome, 'lower');
  });

  it('says of the leaflet’s claim what the verdict is', () => {
    const leaflet = verdict('leaflet');
    assert.equal(leaflet.verdict, 'contradicted');
    assert.equal(leaflet.source, 'leaflet of the gel pad');
    assert.match(leaflet.sentence, /a reduction of at least 14 % is supported/);
    says(text, 'a reduction of at least 14 % is supported');
    const power = verdict('as_power');
    assert.equal(power.verdict, 'not shown');
    assert.match(power.settle ?? '', /about 8 runs of each would support/);
    says(text, 'A new test of about eight runs of each pad would settle it');
  });

  it('says of the weighted level that nothing is shown', () => {
    const smoother = verdict('smoother');
    assert.equal(smoother.verdict, 'not shown');
    const runs = Number(/about (\d+) runs of each/.exec(smoother.settle ?? '')?.[1]);
    assert.ok(runs >= 46 && runs <= 54);
    says(text, 'would take some fifty runs of each pad');
  });

  it('finds one of the other bands on bricks higher, and little in the last', () => {
    const [, low, high] = rows('bricks');
    assert.equal(low.outcome, 'higher');
    assert.ok(high.shareOfA! < 1);
  });

  it('finds no change on tiles', () => {
    const tiles = rows('tiles_all');
    assert.deepEqual(tiles.map((row) => row.outcome), ['not shown', 'not shown', 'not shown']);
  });

  it('gives the stiffnesses that the recordings were made with, and their resonances', () => {
    const { foam, gel } = padStiffness.brick;
    says(text, `the foam gave ${foam} N/mm and the gel ${gel} N/mm; about ${movingMass} kg`);
    says(text, `from ${pad('brick', 'foam').frequency.toFixed(1)} to ${pad('brick', 'gel').frequency.toFixed(1)} Hz`);
    says(text, `about ${padStiffness.tile.gel} N/mm`);
  });

  it('repeats the run sheet: order and speed of every ride', () => {
    const [header, ...lines] = readFileSync(folder + 'raw/runs.csv', 'utf8').trimEnd().split('\n');
    const speed = header.split(',').indexOf('speed (m/s)');
    for (const surface of ['brick', 'tile']) {
      const speeds = lines.map((line) => line.split(',')).filter((cells) => cells[0].includes(surface));
      says(text, `| m/s | ${speeds.map((cells) => cells[speed]).join(' | ')} |`.replace('|  |', '| |'));
    }
  });
});

describe('the notebook of springs', () => {
  it('runs without an error and without a file', async () => {
    const report = await run('springs.washboard.md');
    assert.deepEqual(errorsOf(report), []);
    assert.deepEqual(report.sources, []);
  });
});

describe('the page about the samples', () => {
  it('gives the designed changes', () => {
    const page = prose('README.md');
    const shown = (value: number): string => `${value < 0 ? '−' : '+'}${size(100 * value)} %`;
    for (const [surface, word] of [['brick', 'bricks'], ['tile', 'tiles']] as const) {
      const changes = ([[4, 10], [10, 50], [50, 100]] as const).map(([low, high]) => shown(designedChange(surface, low, high)));
      says(page, `| ${word} | ${changes.join(' | ')} |`);
    }
  });
});
