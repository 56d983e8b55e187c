import { strict as assert } from 'node:assert';
import { noise, recordingOf, resultOf, valueOf } from '../notebook.ts';

type Change = (value: number, i: number) => number;
const same: Change = (value) => value;
const rounded =
  (step: number) =>
  (value: number): number =>
    Math.round(value / step) * step;
const limited =
  (least: number, most: number): Change =>
  (value) =>
    Math.max(least, Math.min(most, value));

/** Noise of so many g r.m.s. at all frequencies, 0.02 of it as x and in steps of 1 mg, at 400 Hz. */
function recording(level: number, seed: number, { x = same, z = same }: { x?: Change; z?: Change }): string {
  const [side, up] = [noise(seed), noise(seed + 500)];
  const step = rounded(0.001);
  return recordingOf(
    {
      'x (g)': (_t, i) => x(step(0.02 * side()), i),
      'z (g)': (_t, i) => z(step(1 + level * up()), i),
    },
    { rate: 400, seconds: 20 },
  );
}

/** Four runs of each pad, those of the gel a fifth below, with what their channels were changed by. */
function study(change: { x?: Change; z?: Change } = {}, size = 0.3): Record<string, string> {
  const scatter = [1, 1.03, 0.98, 1.01];
  return Object.fromEntries(
    scatter.flatMap((one, k) => [
      [`foam-${k}.csv`, recording(size * one, 1 + k, change)],
      [`gel-${k}.csv`, recording(0.8 * size * one, 11 + k, change)],
    ]),
  );
}

/** Runs that scatter by a tenth, one of which was clipped. */
function onceClipped(): Record<string, string> {
  const scatter = [1, 1.15, 0.9, 1.05];
  const clipped = { z: limited(0.1, 1.9) };
  return Object.fromEntries(
    scatter.flatMap((one, k) => [
      [`foam-${k}.csv`, recording(0.3 * one, 1 + k, k === 0 ? clipped : {})],
      [`gel-${k}.csv`, recording(0.15 * one, 11 + k, {})],
    ]),
  );
}

const load = (steps: string): string => `foam = load "foam-*.csv" ${steps}\ngel = load "gel-*.csv" ${steps}\n`;
const compared = 'c = compare foam with gel over 10..50 Hz\n';
const verdict = (files: Record<string, string>, steps = '| channel z', text = compared) =>
  valueOf('verdict', `${load(steps)}${text}claim c reduction`, files);
const codes = async (files: Record<string, string>, steps = '| channel z', text = compared): Promise<string[]> =>
  (await resultOf(load(steps) + text, files)).warnings.map(({ code }) => code);

describe('what forbids a verdict', () => {
  it('is no fault of an axis that is not compared, which is not told either', async () => {
    const dead = study({ x: () => 0.02 });
    assert.equal((await verdict(dead)).verdict, 'supported');
    assert.ok(!(await codes(dead)).some((code) => code.startsWith('fault.')));
    const loud = study({ x: (value) => 0.001 * Math.round(20 * value) });
    assert.equal((await verdict(loud)).verdict, 'supported');
  });

  it('is a fault of an axis of the resultant that is compared, and of the other channel of a response', async () => {
    const dead = study({ x: () => 0.02 });
    const summed = await verdict(dead, '| resultant');
    assert.match(summed.because[0], /A recording has a fault: foam-0 \(flat, channel x\)/);
    const response = await verdict(study({ x: limited(-0.03, 0.03) }), '| transfer from x to z');
    assert.match(response.because[0], /A recording has a fault: foam-0 \(clipped, channel x\)/);
  });

  it('is no step of the logger that is little of the band, which is told with its share', async () => {
    const coarse = study({ z: rounded(0.15) });
    assert.equal((await verdict(coarse)).verdict, 'supported');
    const { warnings } = await resultOf(load('| channel z') + compared, coarse);
    // 0.15^2/12 of 0.24^2 + 0.15^2/12, spread as the noise itself.
    assert.match(
      warnings.find(({ code }) => code === 'compare.rounding')?.message ?? '',
      /^The logger’s step of 0\.15 g is 3\.[0-9] % of the power of 10 to 50 Hz \(z of gel-[0-3]\): too little to move the change\.$/,
    );
  });

  it('is a step of the logger that could move the change by a fifth of half its interval', async () => {
    const coarse = study({ z: rounded(0.3) }, 0.12);
    const found = await verdict(coarse);
    assert.deepEqual([found.verdict, found.row.outcome], ['not shown', 'not shown']);
    assert.match(
      found.because[0],
      /^The logger’s step of 0\.3 g is [34]\d\.\d % of the power of 10 to 50 Hz \(z of gel-[0-3]\), which could move the change by \d\.\d %\.$/,
    );
  });

  it('is a step in a quiet band, though it is small beside the whole', async () => {
    const quiet = study({ z: rounded(0.02) });
    const text = 'c = compare foam with gel over 130..150 Hz\n';
    const found = await verdict(quiet, '| channel z | lowpass 60 Hz order 8', text);
    assert.match(
      found.because[0],
      /^The logger’s step of 0\.02 g would be more than all the power of 130 to 150 Hz \(z of gel-[0-3]\)\.$/,
    );
  });

  it('is no clipping that took little from the band, which is told with its share', async () => {
    const mild = onceClipped();
    assert.equal((await verdict(mild)).verdict, 'supported');
    const { warnings } = await resultOf(load('| channel z') + compared, mild);
    assert.match(
      warnings.find(({ code }) => code === 'compare.clipped')?.message ?? '',
      /^What clipping took from z of foam-0 is up to \d+\.\d % of its r\.m\.s\. of 10 to 50 Hz: too little to move the change\.$/,
    );
  });

  it('is clipping that could move the change, with the figure in the row, its sentence and the verdict', async () => {
    const hard = study({ z: limited(0.6, 1.4) });
    const found = await verdict(hard);
    const why =
      /what clipping took from z of foam-[0-3] is up to \d+\.\d % of its r\.m\.s\. of 10 to 50 Hz, which could move the change by \d+(\.\d)? %/i;
    assert.match(found.because[0], why);
    assert.equal(found.row.outcome, 'not shown');
    assert.match(found.row.sentence, why);
    assert.match(found.sentence, /The claim of a reduction is not shown for the same reason\.$/);
    assert.deepEqual([found.row.excludes, found.row.equivalent], [undefined, undefined]);
  });

  it('is any clipping where peaks are compared', async () => {
    const mild = onceClipped();
    const found = await verdict(mild, '| channel z', 'c = compare foam with gel metric p99_9\n');
    assert.match(found.because[0], /A recording has a fault: foam-\d \(clipped, channel z\)/);
  });

  it('is noise of the logger at rest that could move the change by a fifth of half its interval', async () => {
    const text = 'rest = load "still.csv" | channel z\nc = compare foam with gel over 10..50 Hz above rest\n';
    const still = (level: number): Record<string, string> => ({ ...study(), 'still.csv': recording(level, 99, {}) });
    assert.equal((await verdict(still(0.002), '| channel z', text)).verdict, 'supported');
    const near = await verdict(still(0.07), '| channel z', text);
    assert.match(
      near.because[0],
      /^The noise of the logger at rest is \d\.\d % of the power of 10 to 50 Hz \(gel-\d\), which could move the change by \d\.\d %/,
    );
    const under = await verdict(still(0.2), '| channel z', text);
    assert.match(under.because[0], /^The band lies under the logger’s noise floor/);
  });
});
