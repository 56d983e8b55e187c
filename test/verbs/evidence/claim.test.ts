import { strict as assert } from 'node:assert';
import { toJson } from '../../../src/values/json.ts';
import type { VerdictValue } from '../../../src/values/verdict.ts';
import { errorOf, near, recordingOf, resultOf, sine, valueOf } from '../notebook.ts';
import { loadPads, pads, worked, type Pads } from '../pads.ts';

const over = 'c = compare foam with gel over 10..30 Hz\n';

const verdictOf = (text: string, study: Pads = worked, more: Record<string, string> = {}): Promise<VerdictValue> =>
  valueOf('verdict', loadPads + text, { ...pads(study), ...more });

/** The interval of the worked example is 0.8093 to 0.9099 of the baseline: a reduction of 9.01 to 19.07 %. */
describe('claim', () => {
  it('is supported, contradicted or not shown by where the whole interval lies', async () => {
    for (const [words, expected] of [
      ['reduction 9 %', 'supported'],
      ['reduction 15 %', 'not shown'],
      ['reduction at-least 15 %', 'not shown'],
      ['reduction 19.1 %', 'contradicted'],
      ['reduction at-most 19.1 %', 'supported'],
      ['reduction at-most 9 %', 'contradicted'],
      ['reduction about 15 % tolerance 6 %', 'supported'],
      ['reduction about 15 % tolerance 5 %', 'not shown'],
      ['reduction about 25 % tolerance 5 %', 'contradicted'],
      ['reduction', 'supported'],
      ['increase', 'contradicted'],
      ['increase 5 %', 'contradicted'],
      ['no-worse 5 %', 'supported'],
    ] as const)
      assert.equal((await verdictOf(`${over}claim c ${words}`)).verdict, expected, words);
  });

  it('tells percentages of power from those of amplitude, and shows both', async () => {
    // 15 % less amplitude is 1 - 0.85^2 = 27.75 % less power.
    const amplitude = await verdictOf(`${over}claim c reduction 15 %`);
    const power = await verdictOf(`${over}claim c reduction 27.75 % of power`);
    near(power.claimed.to ?? NaN, amplitude.claimed.to ?? NaN, 1e-12);
    assert.equal((await verdictOf(`${over}claim c reduction 17 % of power`)).verdict, 'supported');
    near(power.powerReductionPercent, 100 * (1 - 0.8581 ** 2), 1e-3);
    assert.match(
      power.because.join('\n'),
      /Claimed −15\.0 % of amplitude, which is −27\.8 % of power; found −14\.2 % of amplitude, which is −26\.4 % of power/,
    );
  });

  it('takes decibels: 3 dB is a ratio of 0.708', async () => {
    near((await verdictOf(`${over}claim c reduction 3 dB`)).claimed.to ?? NaN, 10 ** (-3 / 20), 1e-9);
    near((await verdictOf(`${over}claim c increase 3 dB`)).claimed.from ?? NaN, 10 ** (3 / 20), 1e-9);
  });

  it('is told in one sentence, with what is supported and what would settle it', async () => {
    const value = await verdictOf(`${over}claim c reduction 15 % source "leaflet"`);
    assert.equal(
      value.sentence,
      'From foam to gel, the band r.m.s. of z in 10 to 30 Hz changed by −14.2 % (95 % interval −19.1 to −9.0 %, 3 + 3 runs). ' +
        'The claim of a reduction of at least 15 % is not shown; a reduction of at least 9 % is supported.',
    );
    assert.match(value.settle ?? '', /more runs would not settle it|runs of each/);
    assert.equal(value.source, 'leaflet');
  });

  it('gives as JSON the reduction with its interval', async () => {
    const json = toJson(await verdictOf(`${over}claim c reduction 15 %`)) as Record<string, unknown>;
    assert.equal(json.verdict, 'not shown');
    assert.equal((json.reduction_percent as number).toFixed(2), '14.19');
    assert.equal((json.low_percent as number).toFixed(2), '9.01');
    assert.equal((json.high_percent as number).toFixed(2), '19.07');
    assert.match(
      json.because as string,
      /^A reduction is shown, but whether it is as large or as small as claimed is not settled\. /,
    );
    assert.doesNotThrow(() => JSON.stringify(json));
  });

  it('has fields', async () => {
    const { value } = await resultOf(`${loadPads}${over}v = claim c reduction 15 %\nv.reduction`, pads(worked));
    assert.ok(value?.kind === 'quantity');
    near(value.quantity.value, 14.19, 1e-3);
  });
});

describe('the band of a claim', () => {
  const three = 'c = compare foam with gel primary 10..30 Hz over 15..30 Hz, 10..50 Hz\n';

  it('is the primary one, or the one that is named', async () => {
    assert.deepEqual((await verdictOf(`${three}claim c reduction`)).band, { from: 10, to: 30 });
    assert.deepEqual((await verdictOf(`${three}claim c reduction over 10..50 Hz`)).band, { from: 10, to: 50 });
  });

  it('must be named where there are several and none is primary', async () => {
    const text = `${loadPads}c = compare foam with gel over 10..30 Hz, 15..30 Hz\nclaim c reduction`;
    assert.match((await errorOf(text, pads(worked))).message, /has the bands 10 to 30 Hz, 15 to 30 Hz: say which/);
  });

  it('may be one that was not compared: then it is compared by itself, and said so', async () => {
    const { value, warnings } = await resultOf(`${loadPads}${over}claim c reduction 9 % over 12..28 Hz`, pads(worked));
    assert.ok(value?.kind === 'verdict');
    assert.equal(value.verdict, 'supported');
    near(value.row.aRuns[0], 0.3, 1e-6);
    assert.ok(warnings.some(({ code }) => code === 'claim.band'));
  });

  it('picked from several needs the interval of them all', async () => {
    // Alone it shows a reduction of 9 %; for three bands at once only of a little more than 5 %.
    const many = 'c = compare foam with gel over 10..30 Hz, 15..30 Hz, 10..50 Hz\n';
    const value = await verdictOf(`${many}claim c reduction 9 % over 10..30 Hz`);
    assert.equal(value.verdict, 'not shown');
    assert.match(
      value.because[0],
      /3 bands were compared and this one was not named beforehand: the interval that holds for all of them at once is −\d/,
    );
    assert.equal((await verdictOf(`${many}claim c reduction over 10..30 Hz`)).verdict, 'supported');
    assert.equal((await verdictOf(`${three}claim c reduction 9 %`)).verdict, 'supported');
  });
});

describe('what forbids a verdict', () => {
  const four = { a: [0.3, 0.312, 0.305, 0.309], b: [0.162, 0.155, 0.17, 0.16] };
  const because = async (text: string, study: Pads, more: Record<string, string> = {}): Promise<string> => {
    const value = await verdictOf(text, study, more);
    assert.equal(value.verdict, 'not shown');
    return value.because[0];
  };

  it('fewer than three runs a side', async () => {
    assert.match(
      await because(`${over}claim c reduction 15 %`, { a: [0.3, 0.31], b: [0.1, 0.11] }),
      /2 \+ 2 runs are too few/,
    );
    const one = await verdictOf(`${over}claim c reduction 15 %`, { a: [0.3], b: [0.1], seconds: 30 });
    assert.match(one.because[0], /One run each says nothing about how other runs/);
    assert.deepEqual([one.verdict, one.lowPercent], ['not shown', undefined]);
  });

  it('speeds too far apart', async () => {
    const facts = { speed: [...four.a.map(() => '1.2'), ...four.b.map(() => '1.4')] };
    assert.match(
      await because(`${over}claim c reduction 15 %`, { ...four, facts }),
      /The mean speeds differ by 16\.7 %/,
    );
  });

  it('a band under the logger’s noise', async () => {
    const still = { 'still.csv': recordingOf({ z: sine(20, 0.15 * Math.SQRT2, 1) }, { seconds: 10 }) };
    const text =
      'rest = load "still.csv" unit g\nc = compare foam with gel over 10..30 Hz above rest\nclaim c reduction 15 %';
    assert.match(await because(text, four, still), /under the logger’s noise floor/);
  });

  it('a recording with a fault', async () => {
    const clipped = (t: number): number => Math.max(0.5, Math.min(1.5, sine(20, 2, 1)(t)));
    const more = { 'gel-1.csv': recordingOf({ z: clipped }, { seconds: 10 }) };
    const text = `${over}claim c reduction 15 %`;
    assert.match(await because(text, four, more), /A recording has a fault: gel-1 \(/);
  });

  it('a level or a band that the plan does not name', async () => {
    const plan = 'p = plan "Less?" channel z, metric rms primary 10..30 Hz, claim reduction 15 % repeats 4\n';
    assert.equal((await verdictOf(`${plan}c = compare foam with gel plan p\nclaim c`, four)).verdict, 'supported');
    assert.match(
      await because(`${plan}c = compare foam with gel metric vdv plan p\nclaim c`, four),
      /The metric was planned as rms and is vdv/,
    );
    assert.match(
      await because(`${plan}c = compare foam with gel over 15..30 Hz plan p\nclaim c`, four),
      /15 to 30 Hz is no band of the plan/,
    );
    const axis = plan.replace('channel z', 'channel x');
    assert.match(
      await because(`${axis}c = compare foam with gel plan p\nclaim c`, four),
      /The channel was planned as x and is z/,
    );
  });
});

describe('a claim that is not understood', () => {
  const refused = async (words: string): Promise<string> =>
    (await errorOf(`${loadPads}${over}claim c ${words}`, pads(worked))).message;

  it('is refused in one sentence that shows how it is written', async () => {
    assert.match(await refused(''), /needs what is claimed, as in "reduction 15 %"/);
    assert.match(await refused('15 %'), /which way the change is claimed to go/);
    assert.match(await refused('reduction about 15 %'), /about needs a tolerance/);
    assert.match(await refused('reduction 15 % tolerance 5 %'), /tolerance goes with about/);
    assert.match(await refused('reduction at-most'), /at-most needs a figure/);
    assert.match(await refused('no-worse'), /no-worse needs a figure/);
    assert.match(await refused('no-worse at-most 5 %'), /bound itself/);
    assert.match(await refused('reduction 100 %'), /can’t be reduced by 100 %/);
    assert.match(await refused('reduction 15 % over 30..10 Hz'), /./);
    assert.match(await refused('reduction 15 % over 10..300 Hz'), /past half the rate/);
    assert.match(await refused('reducton 15 %'), /reduction/);
  });

  it('of another band of a dose value, too', async () => {
    const text = `${loadPads}c = compare foam with gel metric vdv\nclaim c reduction over 10..30 Hz`;
    assert.match((await errorOf(text, pads(worked))).message, /has no band 10 to 30 Hz/);
  });
});
