import { strict as assert } from 'node:assert';
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readdirSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { bandRms } from '../../src/signal/band.ts';
import { designedBand, designedChange, logger, ride, runs, type RunDesign } from '../../scripts/samples/design.ts';
import { densityOf, deviation, mean, rawFolder, recording, stretch, textOf } from './recordings.ts';

const complete = runs.filter((run) => run.stopsAt === undefined);
const bands = [
  [4, 10],
  [10, 50],
  [50, 100],
] as const;

/** ln of the vertical band r.m.s. of the ride's steady part. */
const lnBand = (run: RunDesign, low: number, high: number): number => {
  const of = recording(run.file);
  return Math.log(bandRms(densityOf(stretch(of, 2, 12, 74), of.rate), low, high));
};

describe('the raw data of the sample study', () => {
  it('are the designed rides, a still recording and a run sheet, and no more than 6.5 MB', () => {
    const files = readdirSync(rawFolder).sort();
    assert.deepEqual(files, [...runs.map((run) => run.file), 'runs.csv', 'still.csv'].sort());
    const size = files.reduce((sum, file) => sum + statSync(rawFolder + file).size, 0);
    assert.ok(size <= 6.5e6, `${size} bytes`);
  });

  it('come out of their script again, line for line', function () {
    const folder = mkdtempSync(join(tmpdir(), 'washboard-samples-'));
    const script = fileURLToPath(new URL('../../scripts/samples/makeSamples.ts', import.meta.url));
    try {
      execFileSync(process.execPath, ['--import', 'tsx', script, folder], { cwd: rawFolder });
      assert.deepEqual(readdirSync(folder).sort(), readdirSync(rawFolder).sort());
      // Text, not packed bytes: deflate may pack otherwise in another release of Node.
      const differs = readdirSync(folder).filter((file) => textOf(join(folder, file)) !== textOf(rawFolder + file));
      assert.deepEqual(differs, []);
    } finally {
      rmSync(folder, { recursive: true });
    }
  });

  it('hold four runs of each pad on each surface, in the order A B B A, B A A B', () => {
    for (const surface of ['brick', 'tile']) {
      const order = complete.filter((run) => run.surface === surface).sort((a, b) => a.order - b.order);
      assert.equal(order.map((run) => run.condition[0]).join(''), 'fggfgffg');
    }
  });

  it('stand in the run sheet, each with its condition, order and speed, the broken-off one with its reason', () => {
    const [header, ...lines] = textOf(rawFolder + 'runs.csv').trimEnd().split('\n').map((line) => line.split(','));
    const column = (name: string): number => header.findIndex((cell) => cell.split(' (')[0] === name);
    assert.deepEqual(lines.map((line) => line[0]), runs.map((run) => run.file));
    for (const [n, line] of lines.entries()) {
      const run = runs[n];
      assert.equal(line.length, header.length, line[0]);
      assert.equal(line[column('condition')], run.condition);
      assert.equal(Number(line[column('order')]), run.order);
      assert.equal(line[column('excluded')], run.stopsAt === undefined ? 'no' : 'yes');
      assert.equal(line[column('why')] === '', run.stopsAt === undefined);
      if (run.stopsAt === undefined) assert.ok(Math.abs(Number(line[column('speed')]) / ride.speed - 1) < 0.03, line[0]);
    }
  });
});

describe('each ride of the sample study', () => {
  for (const run of complete) {
    it(`${run.file}: about 85 s at ${logger.rate} Hz, still at both ends, gravity about 1 g, no sample at the limit`, () => {
      const of = recording(run.file);
      const duration = of.t.length / of.rate;
      assert.ok(duration > 80 && duration < 92, `${duration} s`);
      assert.ok(Math.abs(of.rate / logger.rate - 1) < 2e-5, `${of.rate} Hz`);
      const gravity = Math.hypot(...of.axes.map((_, axis) => mean(stretch(of, axis, 12, 74))));
      assert.ok(Math.abs(gravity - 1) < 0.02, `${gravity} g`);
      const moving = deviation(stretch(of, 2, 12, 74));
      for (const [from, to] of [[0, 5], [duration - 4, duration]]) {
        assert.ok(deviation(stretch(of, 2, from, to)) < 0.1 * moving, `not still from ${from} s`);
      }
      for (const axis of of.axes) {
        const largest = axis.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
        assert.ok(largest < 0.5 * logger.range, `${largest} g`);
        for (const extreme of [Math.max(...axis), Math.min(...axis)]) {
          const at = [...axis.keys()].filter((n) => axis[n] === extreme);
          assert.ok(at.length < 3 && at.every((n, k) => k === 0 || n > at[k - 1] + 1), 'looks clipped');
        }
        assert.ok(axis.every((value) => Math.abs(value / logger.step - Math.round(value / logger.step)) < 1e-6), 'off the step');
      }
    });
  }
});

describe('the bands of the sample study', () => {
  const logs = new Map<RunDesign, number[]>();
  before(() => complete.forEach((run) => logs.set(run, bands.map(([low, high]) => lnBand(run, low, high)))));
  const side = (surface: string, condition: string, band: number): number[] =>
    complete.filter((run) => run.surface === surface && run.condition === condition).map((run) => logs.get(run)![band]);

  for (const surface of ['brick', 'tile'] as const) {
    bands.forEach(([low, high], band) => {
      it(`${surface}, ${low} to ${high} Hz: level, change and scatter as designed`, () => {
        const [foam, gel] = [side(surface, 'foam', band), side(surface, 'gel', band)];
        const error = Math.sqrt((deviation(foam) ** 2 + deviation(gel) ** 2) / 4);
        const change = Math.exp(mean(gel) - mean(foam)) - 1;
        const designed = designedChange(surface, low, high);
        assert.ok(Math.abs(change - designed) < 2 * error, `${change} for ${designed}, standard error ${error}`);
        const level = Math.exp(mean(foam)) / designedBand(surface, 'foam', low, high);
        // The single obstacles are not in the designed density.
        assert.ok(level > 0.9 && level < 1.2, `level ${level} of the designed`);
        for (const runs of [foam, gel]) assert.ok(deviation(runs) > 0.004 && deviation(runs) < 0.07, `${deviation(runs)}`);
      });
    });
  }

  it('show the line of the joints near speed / pitch, on bricks and on tiles', () => {
    for (const [surface, line] of [['brick', ride.speed / 0.1], ['tile', (5 * ride.speed) / 0.3]] as const) {
      const of = recording(`${surface}-foam-2.csv.gz`);
      const density = densityOf(stretch(of, 2, 12, 74), of.rate);
      const near = bandRms(density, line - 0.75, line + 0.75) ** 2 / 1.5;
      const beside = bandRms(density, line + 2, line + 4) ** 2 / 2;
      assert.ok(near > 1.8 * beside, `${surface}: ${near} beside ${beside} g²/Hz`);
    }
  });
});

describe('the still recording of the sample study', () => {
  it('is 25 s of gravity and a noise far below the rides', () => {
    const of = recording('still.csv');
    assert.ok(Math.abs(of.t.length / of.rate - 25) < 0.01);
    for (const axis of of.axes) assert.ok(deviation(axis) < 0.002 && deviation(axis) > logger.step, `${deviation(axis)} g`);
    assert.ok(Math.abs(Math.hypot(...of.axes.map(mean)) - 1) < 0.01);
  });
});
