import { strict as assert } from 'node:assert';
import { present } from '../../../src/charts/present.ts';
import { toJson } from '../../../src/values/json.ts';
import { errorOf, near, noise, recordingOf, sine, valueOf } from '../notebook.ts';

const order = { a: [1, 4, 6, 7], b: [2, 3, 5, 8] };
const scatter = [1, 1.01, 0.99, 1.005];
const random = noise(7);

/** Foam moves along gravity, gel 36 % more and across it; x, y and z in g. */
function study(axes = ['x', 'y', 'z']): Record<string, string> {
  const files: Record<string, string> = {};
  const rows = ['file,condition,order'];
  const made = (name: string, condition: string, place: number, along: number, across: number): void => {
    const all: Record<string, (t: number) => number> = {
      x: (t) => sine(12, across)(t) + 0.002 * random(),
      y: () => 0.002 * random(),
      z: (t) => sine(12, along, 1)(t) + 0.002 * random(),
    };
    files[`${name}.csv`] = recordingOf(Object.fromEntries(axes.map((axis) => [`${axis} (g)`, all[axis]])), {
      seconds: 10,
    });
    rows.push(`${name}.csv,${condition},${place}`);
  };
  scatter.forEach((size, k) => {
    made(`foam-${k + 1}`, 'foam', order.a[k], 0.1 * size, 0);
    made(`gel-${k + 1}`, 'gel', order.b[k], 0, 0.136 * size);
  });
  files['runs.csv'] = rows.join('\n') + '\n';
  return files;
}

const load = 'foam = load sheet "runs.csv" where condition foam\ngel = load sheet "runs.csv" where condition gel\n';
const both = `${load}f = resultant foam\ng1 = resultant gel\n`;

describe('a comparison of resultants', () => {
  it('finds a change of direction to be the change that it is, in a band and in all, and contradicts a false claim', async () => {
    const value = await valueOf('comparison', `${both}compare f with g1 over 5..20 Hz`, study());
    const [row] = value.rows;
    near(1 + row.changePercent / 100, 1.36, 2e-3);
    near(row.a, 0.1 * Math.SQRT1_2, 1e-2);
    assert.equal(row.outcome, 'higher');
    assert.match(
      row.sentence,
      /^Acceleration r\.m\.s\. \(resultant, 5 to 20 Hz\) was 36\.\d % higher with gel than with foam/,
    );
    const weighted = await valueOf('comparison', `${both}compare f with g1 metric wd`, study());
    near(1 + weighted.rows[0].changePercent / 100, 1.36, 2e-3);
    const { verdict } = await valueOf(
      'verdict',
      `${both}C = compare f with g1 primary 5..20 Hz\nclaim C reduction 10 %`,
      study(),
    );
    assert.equal(verdict, 'contradicted');
  });

  it('is of spectra as well as of runs', async () => {
    const text = `${both}compare (spectrum f) with (spectrum g1) over 5..20 Hz`;
    const [row] = (await valueOf('comparison', text, study())).rows;
    near(1 + row.changePercent / 100, 1.36, 2e-3);
  });

  it('says in JSON and in words what it is of', async () => {
    const runs = await valueOf('runs', `${load}resultant foam`, study());
    const json = toJson(runs) as { runs: { channels: string[]; axes: string[] }[] };
    assert.deepEqual([json.runs[0].channels, json.runs[0].axes], [['resultant'], ['x', 'y', 'z']]);
    assert.match(JSON.stringify(present(runs, 'r', [])), /resultant of x, y and z/);
  });

  it('compares percentiles of the vector’s length, and refuses doses', async () => {
    const [row] = (await valueOf('comparison', `${both}compare f with g1 metric p99`, study())).rows;
    near(1 + row.changePercent / 100, 1.36, 1e-2);
    const { code, message } = await errorOf(`${both}compare f with g1 metric vdv`, study());
    assert.equal(code, 'metric.resultant');
    assert.match(message, /no standard adds up those of x, y and z/);
  });

  it('refuses sides of other axes, and a logger at rest of other axes', async () => {
    const other = `${load}f = resultant foam\ng1 = gel | channel x y | resultant\n`;
    const { code, message } = await errorOf(`${other}compare f with g1 over 5..20 Hz`, study());
    assert.equal(code, 'resultant.axes');
    assert.match(message, /The resultant of foam-1 is of x, y and z, and that of gel-1 of x and y/);
    const rest = `${both}rest = foam | channel x y | resultant\ncompare f with g1 over 5..20 Hz above rest`;
    assert.equal((await errorOf(rest, study())).code, 'resultant.axes');
  });
});
