import { strict as assert } from 'node:assert';
import { signalsOf } from '../../../src/values/run.ts';
import { errorOf, near, recordingOf, resultOf, rmsOf, sine, uniform, valueOf, warningsOf } from '../notebook.ts';

const load = 'r = load "a.csv" unit m/s^2\n';
const of = (frequency: number, rate = 400): Record<string, string> => ({
  'a.csv': recordingOf({ x: sine(frequency), y: sine(frequency, 2), z: sine(frequency, 1, 9.80665) }, { rate }),
});

describe('weight', () => {
  it('gives a sine the factor of ISO 8041-1 at its frequency, gravity aside', async () => {
    // Exact values at 10^(i/10) Hz, computed from the formula of ISO 2631-1:1997 annex A and ISO 5349-1 annex A.
    for (const [name, factor] of [
      ['wk', 0.9884],
      ['wd', 0.2017],
      ['wh', 0.9514],
    ] as const) {
      const { runs } = await valueOf('runs', `${load}weight r ${name}`, of(10));
      for (const [c, amplitude] of [1, 2, 1].entries())
        near(rmsOf(signalsOf(runs[0])[c].samples), amplitude * Math.SQRT1_2 * factor, 5e-4);
    }
  });

  it('takes one weighting for each channel in their order, and says which', async () => {
    const { runs } = await valueOf('runs', `${load}weight r wd wd wk`, of(10));
    const [run] = runs;
    assert.deepEqual(
      run.channels.map(({ weighting }) => weighting),
      ['Wd', 'Wd', 'Wk'],
    );
    near(rmsOf(signalsOf(run)[1].samples), 2 * Math.SQRT1_2 * 0.2017, 5e-4);
    near(rmsOf(signalsOf(run)[2].samples), Math.SQRT1_2 * 0.9884, 5e-4);
    assert.equal(run.channels[2].includesStatic, false);
    assert.match(run.history[0], /Wd, Wd, Wk/);
  });

  it('weights g as it weights m/s^2', async () => {
    const { runs } = await valueOf('runs', 'r = load "a.csv" unit g\nweight r wk', of(10));
    near(rmsOf(signalsOf(runs[0])[0].samples), Math.SQRT1_2 * 0.9884, 5e-4);
    assert.equal(runs[0].channels[0].unit.symbol, 'g');
  });

  it('warns of a rate too low for what the weighting counts', async () => {
    assert.deepEqual(await warningsOf(`${load}weight r wk`, of(10, 150)), ['weight.rate']);
    assert.deepEqual(await warningsOf(`${load}weight r wk`, of(10, 200)), []);
    assert.deepEqual(await warningsOf(`${load}weight r wh`, of(10, 400)), ['weight.rate']);
  });

  it('warns of a stretch too short for its lowest frequency', async () => {
    assert.deepEqual(await warningsOf(`${load}trim r 0..5 s | weight wk`, of(10)), ['weight.short']);
    assert.deepEqual(await warningsOf(`${load}weight r wf`, of(10)), ['weight.short']);
  });

  it('leaves out a short stretch between two losses, and says so', async () => {
    const times = Array.from({ length: 8000 }, (_, i) => (i + (i < 4000 ? 0 : i < 4100 ? 4 : 8)) / 200);
    const files = { 'a.csv': recordingOf({ x: sine(10) }, { times }) };
    const { value, warnings } = await resultOf('r = load "a.csv" unit m/s^2\nweight r wk', files);
    assert.ok(value?.kind === 'runs' && signalsOf(value.runs[0])[0].samples.length === 7900);
    const told = warnings.find(({ code }) => code === 'stretch.left-out')?.message ?? '';
    assert.match(
      told,
      /^Weight leaves out 1 unbroken stretch of a, with 100 of its 8000 samples: it is shorter than 10 s/,
    );
    assert.ok(!warnings.some(({ code }) => code === 'weight.short'));
  });

  it('refuses a run that loses so many samples that no period of what counts stays unbroken, and says how many', async () => {
    const lossy = (share: number): Record<string, string> => {
      const random = uniform(9);
      const times = Array.from({ length: 16_000 }, (_, i) => i / 400).filter(() => random() >= share);
      return { 'a.csv': recordingOf({ x: sine(10) }, { times }) };
    };
    const { code, message } = await errorOf(`${load}weight r wk`, lossy(0.05));
    assert.equal(code, 'weight.broken');
    assert.match(
      message,
      /^\d\d % of the samples of a lie in unbroken stretches of less than 0\.2\d s, a period of what Wk/,
    );
    assert.ok((await warningsOf(`${load}weight r wk`, lossy(0.005))).includes('weight.short'));
    assert.equal((await errorOf(`${load}weight r wd`, lossy(0.005))).code, 'weight.broken');
    assert.match(
      (await errorOf(`${load}trim r 0..0.1 s | weight wk`, of(10))).message,
      /^a lasts not one period of \d\.\d Hz, from where Wk counts in full/,
    );
  });

  it('refuses what is no acceleration, what is weighted already, and a wrong count of weightings', async () => {
    const speed = await errorOf(`${load}integrate r to velocity | weight wk`, of(10));
    assert.equal(speed.code, 'weight.unit');
    assert.match(speed.message, /in m\/s/);
    assert.equal((await errorOf(`${load}weight r wk | weight wd`, of(10))).code, 'weight.twice');
    const { code, message } = await errorOf(`${load}weight r wd wk`, of(10));
    assert.equal(code, 'weight.count');
    assert.match(message, /x, y, z.*2 weightings/);
    assert.match((await errorOf(`${load}weight r wq`, of(10))).message, /wk/);
  });
});

describe('levels of weighted acceleration', () => {
  const weighted = 'levels (weight r wd wd wk)';

  it('show the comfort ranges of the vector sum, both where they overlap', async () => {
    // 10 Hz: x 0.2017, y 2 x 0.2017, z 0.9884 of amplitudes 1.2.
    const files = {
      'a.csv': recordingOf({ x: sine(10, 1.2), y: sine(10, 2.4), z: sine(10, 1.2, 9.80665) }, { rate: 400 }),
    };
    const { exposure } = await valueOf('levels', load + weighted, files);
    assert.equal(exposure?.rows.length, 1);
    const [row] = exposure!.rows;
    const total = 1.2 * Math.SQRT1_2 * Math.hypot(0.2017, 2 * 0.2017, 0.9884);
    near(row.total, total, 1e-3);
    assert.deepEqual([...row.comfort], ['fairly uncomfortable', 'uncomfortable']);
    near(row.daily, 1.2 * Math.SQRT1_2 * 0.9884, 1e-3);
    assert.deepEqual([row.action, row.limit], [0.5, 1.15]);
    assert.deepEqual(
      (await valueOf('levels', load + weighted, files)).rows.map(({ mean }) => mean),
      [0, 0, 0],
    );
    assert.match(row.sentences.join(' '), /vector sum of x by Wd, y by Wd, z by Wk is 0\.92\d m\/s².*overlap/);
  });

  it('count a horizontal axis 1.4 times against the action value', async () => {
    const files = { 'a.csv': recordingOf({ x: sine(2, 1), y: sine(2, 0.1), z: sine(2, 0.1) }, { rate: 400 }) };
    const { exposure } = await valueOf('levels', load + weighted, files);
    near(exposure!.rows[0].daily, 1.4 * Math.SQRT1_2 * 0.8903, 2e-3);
  });

  it('speak of one axis alone where there are not three, and sum only weightings that go together', async () => {
    const alone = await valueOf('levels', `${load}levels (channel r z | weight wk)`, of(10));
    assert.match(alone.exposure!.rows[0].sentences[0], /z by Wk alone.*other axes would add/);
    const odd = await valueOf('levels', `${load}levels (weight r wk)`, of(10));
    assert.deepEqual(
      odd.exposure!.rows.map(({ channels }) => channels),
      [['x'], ['y'], ['z']],
    );
    const hand = await valueOf('levels', `${load}levels (weight r wh)`, of(10));
    assert.deepEqual(
      hand.exposure!.rows.map(({ body, channels }) => [body, channels.length]),
      [['hand and arm', 3]],
    );
    assert.deepEqual([hand.exposure!.rows[0].action, hand.exposure!.rows[0].limit], [2.5, 5]);
    assert.deepEqual([...hand.exposure!.rows[0].comfort], []);
  });

  it('carry cautions and no verdict, and stand only beside weighted levels', async () => {
    const { exposure } = await valueOf('levels', load + weighted, of(10));
    const all = exposure!.cautions.join(' ');
    for (const needed of [/seat/, /hand/, /eight hours/, /local rules/, /licensed/, /no finding on anyone’s health/])
      assert.match(all, needed);
    const words = JSON.stringify(exposure!.rows.flatMap(({ sentences }) => sentences));
    assert.doesNotMatch(words, /safe|danger|harm|risk|exceeds|healthy/);
    assert.equal((await valueOf('levels', `${load}levels r`, of(10))).exposure, undefined);
    assert.equal((await valueOf('levels', `${load}levels (weight r wf)`, of(10))).exposure, undefined);
  });

  it('say where the standard calls for MTVV and VDV too, each sign with its ratio', async () => {
    const knock = { 'a.csv': recordingOf({ z: (t) => (t > 10 && t < 10.05 ? 40 : 0) }, { rate: 400 }) };
    const { warnings } = await resultOf(`${load}levels (weight r wk)`, knock);
    const found = warnings.find(({ code }) => code === 'levels.additional');
    assert.match(found?.message ?? '', /crest factor .* above 9 and MTVV\/a_w .* above 1\.5 and VDV.* above 1\.75/);
    assert.deepEqual(await warningsOf(`${load}levels (weight r wk)`, of(10)), []);
    assert.deepEqual(await warningsOf(`${load}levels r`, knock), []);
  });

  it('stand in JSON with the cautions', async () => {
    const { toJson } = await import('../../../src/values/json.ts');
    const json = toJson(await valueOf('levels', load + weighted, of(10))) as {
      rows: { weighting: string; mtvv: number }[];
      exposure: { rows: { total_m_s2: number; comfort: string[] }[]; cautions: string[] };
    };
    assert.deepEqual(
      json.rows.map(({ weighting }) => weighting),
      ['Wd', 'Wd', 'Wk'],
    );
    assert.equal(json.exposure.cautions.length, 4);
    assert.ok(json.exposure.rows[0].total_m_s2 > 0 && json.exposure.rows[0].comfort.length > 0);
  });
});
