import { strict as assert } from 'node:assert';
import { lineOf, lineWord } from '../../../src/analysis/evidence/lineMetric.ts';
import type { ComparisonRow } from '../../../src/values/comparisonParts.ts';
import { errorOf, near, noise, recordingOf, resultOf, valueOf, warningsOf } from '../notebook.ts';

const speeds = [880, 900, 930, 860, 910, 890, 905, 870];
const sides = ['a', 'b', 'b', 'a', 'b', 'a', 'a', 'b'];
const gain = (k: number): number => (sides[k] === 'a' ? 1 : 0.8) * Math.exp(0.02 * Math.sin(13 * (k + 1)));

/** A line at twice the turning rate in noise, whose speed differs from run to run, beside a fixed one at 47 Hz. */
function rides(column = 'speed (rpm)', figure = (rpm: number): string => String(rpm)): Record<string, string> {
  const files: Record<string, string> = {};
  const rows = speeds.map((rpm, k) => {
    const random = noise(k + 1);
    const f = (2 * rpm) / 60;
    const z = (t: number): number =>
      gain(k) * Math.sin(2 * Math.PI * f * t) + 3 * Math.sin(2 * Math.PI * 47 * t) + 0.05 * random();
    files[`${k}.csv`] = recordingOf({ 'z (g)': z }, { seconds: 12 });
    return `${k}.csv,${sides[k]},${k + 1},${figure(rpm)}`;
  });
  files['runs.csv'] = [`file,condition,order,${column}`, ...rows].join('\n') + '\n';
  return files;
}

const load = ['a', 'b'].map((side) => `${side} = load sheet "runs.csv" where condition ${side}\n`).join('');
const files = rides();
const asked = (rest = 'metric line 2 x speed', of = files): Promise<ComparisonRow> =>
  valueOf('comparison', `${load}compare a with b ${rest}`, of).then(({ rows }) => rows[0]);

describe('the line that goes with the speed, as a metric', () => {
  it('is the r.m.s. of the line of each run, at the speed that the sheet has of it', async () => {
    const row = await asked();
    const of = (side: string): number[] => speeds.flatMap((_, k) => (sides[k] === side ? [gain(k) / Math.SQRT2] : []));
    row.aRuns.forEach((rms, k) => near(rms, of('a')[k], 0.01));
    row.bRuns.forEach((rms, k) => near(rms, of('b')[k], 0.01));
    assert.equal(row.outcome, 'lower');
    assert.match(
      row.sentence,
      /^Acceleration r\.m\.s\. of the line at 2 × speed \(z, 2[67]\.\d+ to 3[12]\.?\d* Hz\) was/,
    );
    // The line and the one beside it are all there is.
    near(row.shareOfA!, 100 / (1 + 9), 0.05);
  });

  it('goes with speeds in any unit, by cycles a metre of what moves', async () => {
    const inHz = await asked(
      undefined,
      rides('speed (Hz)', (rpm) => String(rpm / 60)),
    );
    const inMetres = await asked(
      undefined,
      rides('speed (km/h)', (rpm) => String((rpm / 60) * 3.6)),
    );
    const radians = await asked(
      undefined,
      rides('speed (rad/s)', (rpm) => String((rpm / 60) * 2 * Math.PI)),
    );
    for (const row of [inHz, inMetres, radians]) near(row.changePercent, (await asked()).changePercent, 1e-6);
  });

  it('has all of the line in its band wherever it lies between two bins, by every window', async () => {
    for (const shape of ['hann', 'blackman', 'flattop', 'blackman-harris']) {
      const row = await asked(`metric line 2 x speed using window ${shape} 2 s`);
      near(row.aRuns[0], gain(0) / Math.SQRT2, 0.01);
    }
  });

  it('warns of a line that does not stand out of what is beside it', async () => {
    const warnings = (order: string): Promise<string[]> =>
      warningsOf(`${load}compare a with b metric line ${order} x speed`, files);
    assert.ok(!(await warnings('2')).includes('compare.line-faint'));
    const { warnings: found } = await resultOf(`${load}compare a with b metric line 4.4 x speed`, files);
    assert.match(
      found.find(({ code }) => code === 'compare.line-faint')?.message ?? '',
      /^In 4 of 4 runs of a less than half of what is compared is the line:/,
    );
  });

  it('can be settled by a plan, and judged by a claim', async () => {
    const plan = 'p = plan "Less?" channel z metric line 2 x speed\n';
    const { warnings, value } = await resultOf(`${plan}p`, files);
    assert.ok(value?.kind === 'plan' && value.entries.some(({ text }) => text === 'r.m.s. of the line at 2 × speed'));
    assert.ok(warnings.every(({ message }) => !/band/.test(message)));
    const planned = await valueOf('comparison', `${plan}${load}compare a with b plan p`, files);
    assert.equal(planned.metricCode, 'line 2 x speed');
    assert.deepEqual(planned.plan?.deviations, []);
    const other = await valueOf('comparison', `${plan}${load}compare a with b plan p metric line 1 x speed`, files);
    assert.equal(other.plan?.deviations.length, 1);
    const verdict = await valueOf(
      'verdict',
      `${load}C = compare a with b metric line 2 x speed\nclaim C reduction 15 %`,
      files,
    );
    assert.equal(verdict.verdict, 'supported');
    const anew = `${load}C = compare a with b metric line 2 x speed\nclaim C reduction 15 % over 10..50 Hz`;
    assert.equal((await errorOf(anew, files)).code, 'claim.band');
  });

  it('refuses what says no frequency', async () => {
    const code = async (rest: string, of = files): Promise<string> =>
      (await errorOf(`${load}compare a with b ${rest}`, of)).code;
    assert.equal(await code('metric line 2'), 'metric.line');
    assert.equal(await code('metric vdv 2 x speed'), 'metric.line');
    assert.equal(await code('metric line 2 x load'), 'metric.line-speed');
    assert.equal(await code('metric line 2 x speed', rides('speed')), 'metric.line-speed');
    assert.equal(await code('metric line 2 x speed', rides('speed (kg)')), 'metric.line-speed');
    assert.equal(
      await code(
        'metric line 2 x speed',
        rides('speed (rpm)', () => '0'),
      ),
      'metric.line-speed',
    );
    assert.equal(await code('metric line 9 x speed'), 'band.outside');
    assert.equal(await code('metric line 2 x speed over 10..50 Hz'), 'metric.band');
  });

  it('has a word in the language that is read as it is written', () => {
    const line = { order: 2.5, column: 'pump speed' };
    assert.deepEqual(lineOf(lineWord(line)), line);
    assert.equal(lineOf('rms'), undefined);
  });
});
