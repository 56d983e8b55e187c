import { strict as assert } from 'node:assert';
import { present } from '../../../src/charts/present.ts';
import { standardUncertainty } from '../../../src/units/uncertainty.ts';
import { signalsOf } from '../../../src/values/run.ts';
import { errorOf, near, recordingOf, sine, valueOf, warningsOf } from '../notebook.ts';
import { faces, still, tiltedFaces } from '../stillPositions.ts';

const offsets = [0.02, -0.03, 0.01];
const sensitivities = [1.01, 0.99, 1.02];
const files = (positions: readonly (readonly number[])[]): Record<string, string> =>
  Object.fromEntries(positions.map((acting, k) => [`p${k + 1}.csv`, still(acting, offsets, sensitivities)]));
const alone = 'calibrate (load "p*.csv")';
const six = `K = ${alone}\n`;

describe('calibrate', () => {
  it('finds what the sensor was made with from six positions', async () => {
    const { rows, positions } = await valueOf('calibration', `${six}K`, files(faces));
    assert.deepEqual(
      positions.map(({ along }) => along),
      ['+x', '−x', '+y', '−y', '+z', '−z'],
    );
    rows.forEach(({ offset, sensitivity, df, sensitivityUncertainty }, k) => {
      assert.ok(Math.abs(offset - offsets[k]) < 3e-4, `offset ${offset}`);
      assert.ok(Math.abs(sensitivity - sensitivities[k]) < 3e-4, `sensitivity ${sensitivity}`);
      assert.equal(df, 4);
      assert.ok(sensitivityUncertainty! < 1e-3);
    });
  });

  it('covers a tilt of two degrees by its uncertainty', async () => {
    const { rows } = await valueOf('calibration', `${six}K`, files(tiltedFaces(2)));
    for (const [k, row] of rows.entries()) {
      assert.ok(Math.abs(row.sensitivity - sensitivities[k]) < 2 * row.sensitivityUncertainty!);
      assert.ok(Math.abs(row.offset - offsets[k]) < 2 * row.offsetUncertainty!);
      assert.ok(row.sensitivityUncertainty! > 0.005);
    }
    assert.ok((await warningsOf(alone, files(tiltedFaces(8)))).includes('calibrate.tilted'));
  });

  it('takes gravity as it is where the sensor lay', async () => {
    const there = await valueOf('calibration', 'calibrate (load "p*.csv") against 9.78 m/s^2', files(faces));
    near(there.rows[2].sensitivity, (1.02 * 9.80665) / 9.78, 3e-4);
    const inMetres = await valueOf('calibration', 'calibrate (load "p*.csv" in m/s^2)', files(faces));
    near(inMetres.rows[2].sensitivity, 1.02, 3e-4);
    assert.ok(Math.abs(inMetres.rows[2].offset - 9.80665 * 0.01) < 3e-3, String(inMetres.rows[2].offset));
  });

  it('has fields with their uncertainty, and rows to be picked', async () => {
    const of = await valueOf('quantity', `${six}K[3].sensitivity`, files(tiltedFaces(2)));
    near(of.quantity.value, 1.02, 0.01);
    assert.ok(standardUncertainty(of.parts!) > 0.005);
    assert.equal(of.parts![0].df, 4);
  });

  it('is applied by load: offsets off, readings over sensitivities, and their uncertainty with what is read off', async () => {
    const moving = recordingOf({
      'x (g)': (t) => offsets[0] + sensitivities[0] * sine(7)(t),
      'y (g)': (t) => offsets[1] + sensitivities[1] * sine(9)(t),
      'z (g)': (t) => offsets[2] + sensitivities[2] * sine(10, 0.5, 1)(t),
    });
    const study = { ...files(tiltedFaces(0.2)), 'ride.csv': moving };
    const runs = await valueOf('runs', `${six}load "ride.csv" calibration K`, study);
    const [x, , z] = signalsOf(runs.runs[0]);
    const mean = z.samples.reduce((sum, one) => sum + one, 0) / z.samples.length;
    near(mean, 1, 5e-3);
    near(Math.max(...x.samples), 1, 5e-3);
    assert.match(runs.runs[0].history.join(), /calibrated from 6 still positions/);
    const rms = await valueOf('quantity', `${six}L = levels (load "ride.csv" channel z calibration K)\nL.rms`, study);
    const K = await valueOf('calibration', `${six}K`, study);
    const { sensitivity, sensitivityUncertainty } = K.rows[2];
    near(standardUncertainty(rms.parts!), (rms.quantity.value * sensitivityUncertainty!) / sensitivity, 1e-6);
  });

  it('shows what the sensor adds in three digits, and as it is where it was stated', async () => {
    const study = { ...files(tiltedFaces(2)), 'ride.csv': recordingOf({ 'z (g)': sine(10, 0.5, 1) }) };
    const shown = async (calibration: string): Promise<string | undefined> => {
      const levels = await valueOf('levels', `${six}levels (load "ride.csv" calibration ${calibration})`, study);
      for (const part of present(levels, undefined, []).parts)
        if (part.type === 'table') {
          const at = part.columns.findIndex(({ name }) => name === 'Calibration ±');
          if (at >= 0) return part.rows[0][at];
        }
      return undefined;
    };
    assert.match((await shown('K'))!, /^\d\.?\d{0,3}$/);
    assert.equal(await shown('2.5 %'), '2.5');
  });

  it('still takes a relative uncertainty alone', async () => {
    const study = { 'ride.csv': recordingOf({ 'z (g)': sine(10, 0.5, 1) }) };
    const rms = await valueOf('quantity', 'L = levels (load "ride.csv" calibration 2 %)\nL.rms', study);
    near(standardUncertainty(rms.parts!), 0.02 * rms.quantity.value, 1e-9);
  });

  it('gives one factor and no uncertainty from one position, and says what that rests on', async () => {
    const one = { 'p1.csv': still([0, 0, 1.02]) };
    const { rows } = await valueOf('calibration', `${six}K`, one);
    for (const { sensitivity, offset, sensitivityUncertainty } of rows) {
      near(sensitivity, 1.02, 1e-3);
      assert.equal(offset, 0);
      assert.equal(sensitivityUncertainty, undefined);
    }
    assert.ok((await warningsOf(alone, one)).includes('calibrate.one'));
  });

  it('refuses positions that tell too little, and one that is twice the same way', async () => {
    const of = async (positions: readonly (readonly number[])[]): Promise<string> =>
      (await errorOf(alone, files(positions))).message;
    assert.match(await of([faces[4], faces[5]]), /x, y and z/);
    assert.match(await of([faces[4], faces[5], faces[4]]), /tell x and y apart from nothing/);
  });
});
