import { strict as assert } from 'node:assert';
import { toJson } from '../../../src/values/json.ts';
import type { VerdictValue } from '../../../src/values/verdict.ts';
import { errorOf, near, recordingOf, resultOf, sine, valueOf } from '../notebook.ts';
import { loadPads, pads, stopped, worked, type Pads } from '../pads.ts';

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
      'Acceleration r.m.s. (z, 10 to 30 Hz) was 14.2 % lower with gel than with foam (95 % interval 9.0 to 19.1 %; 3 + 3 runs, order not known). ' +
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
      /^A reduction is shown, but whether it is as large as claimed is not settled\. /,
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
    assert.match((await errorOf(text, pads(worked))).message, /has the bands 10 to 30 Hz and 15 to 30 Hz: say which/);
  });

  it('that was not compared shows nothing, however small the step from one that was', async () => {
    const value = await verdictOf(`${over}claim c reduction 9 % over 10.1..30 Hz`);
    assert.equal(value.verdict, 'not shown');
    near(value.row.aRuns[0], 0.3, 1e-6);
    assert.equal(value.because[0], '10.1 to 30 Hz is not among the bands compared; add it to "over".');
    assert.equal(value.row.outcome, 'not shown');
    assert.match(
      value.sentence,
      /because it is not among the bands compared: .*, unplanned\. The claim .* is not shown/,
    );
    // Its interval is at alpha / 2, beside the one band that was compared.
    const [own] = (await valueOf('comparison', `${loadPads}compare foam with gel over 10.1..30 Hz`, pads(worked))).rows;
    assert.ok((value.row.lowPercent ?? 0) < (own.lowPercent ?? -100));
    near(value.row.pAdjusted ?? NaN, 2 * (own.p ?? NaN), 1e-6);
  });

  it('picked from several is judged by the interval that holds for them all, and is printed', async () => {
    // Alone it shows a reduction of 9 %; for three bands at once only of a little more than 6 %.
    const many = 'c = compare foam with gel over 10..30 Hz, 15..30 Hz, 10..50 Hz\n';
    const value = await verdictOf(`${many}claim c reduction 9 % over 10..30 Hz`);
    assert.equal(value.verdict, 'not shown');
    assert.match(
      value.sentence,
      /interval \d.* %, 95 % for all 3 bands together; .*a reduction of at least 6 % is supported/,
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

  it('all runs of one side before the other’s', async () => {
    const study = { ...four, order: [1, 2, 3, 4, 5, 6, 7, 8] };
    assert.match(
      await because(`${over}claim c reduction 15 %`, study),
      /All runs of one condition came before the other’s, so that a drift cannot be told from a change/,
    );
    // The row's own sentence has said why.
    const { sentence } = await verdictOf(`${over}claim c reduction 15 %`, study);
    assert.match(sentence, /because all runs of one came before .* is not shown for the same reason\.$/);
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
    const text = `${over}claim c reduction 15 %`;
    assert.match(await because(text, four, stopped(four)), /A recording has a fault: gel-1 \(clock-stopped\)/);
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
    assert.match(await refused('reduction 15'), /^15 %\? Write the unit, as in "15 %" or "15 dB"\.$/);
    assert.match(await refused('increase 2'), /^2 %\?/);
    assert.equal(await refused('reduction about 15 % tolerance 5'), '5 %? Write the unit, as in "5 %".');
    assert.match(await refused('reduction 15 ± 5 %'), /has no uncertainty: leave ± out, or write both bounds/);
    assert.match(await refused('reduction about 15 % tolerance 5 ± 1 %'), /has no uncertainty/);
    assert.match(await refused('reduction 100 %'), /can’t be reduced by 100 %/);
    assert.match(await refused('reduction 15 % over 30..10 Hz'), /./);
    assert.match(await refused('reduction 15 % over 10..300 Hz'), /past half the rate/);
    assert.match(await refused('reducton 15 %'), /reduction/);
  });

  it('is told from what is compared, and how it is written instead', async () => {
    const said = async (line: string): Promise<string> => (await errorOf(loadPads + line, pads(worked))).message;
    const instead = 'bind its result to a name and write `claim NAME reduction 30 %` on a line of its own.';
    for (const line of [
      'compare foam with gel reduction 30 %',
      'compare foam with gel over 10..30 Hz reduction 30 %',
      'compare foam with gel, reduction 30 % over 10..30 Hz',
    ])
      assert.equal(await said(line), `\`compare\` has no place for \`reduction 30 %\`; ${instead}`);
    assert.match(await said('compare foam with gel claim reduction 30 %'), /write `claim NAME reduction 30 %`/);
    assert.match(
      await said('plan "Less?" primary 10..30 Hz reduction 30 % repeats 4'),
      /^`plan` has no place for `reduction 30 %`; write `claim reduction 30 %`\.$/,
    );
    // Bound to something, the word is that.
    assert.equal(
      (await resultOf(`${loadPads}increase = gel\ncompare foam with increase`, pads(worked))).error,
      undefined,
    );
  });

  it('is asked about where a margin or a scatter lacks its %', async () => {
    const said = async (line: string): Promise<string> => (await errorOf(loadPads + line, pads(worked))).message;
    assert.match(await said('compare foam with gel over 10..30 Hz margin 1'), /not `1`; did you mean `1 %`\?$/);
    assert.match(await said('repeats detect 5 % spread 1'), /not `1`; did you mean `1 %`\?$/);
    assert.match(await said('load "foam-1.csv" calibration 1'), /not `1`; did you mean `1 %`\?$/);
  });

  it('of another band of a dose value, too', async () => {
    const text = `${loadPads}c = compare foam with gel metric vdv\nclaim c reduction over 10..30 Hz`;
    assert.match((await errorOf(text, pads(worked))).message, /has no band 10 to 30 Hz/);
  });
});
