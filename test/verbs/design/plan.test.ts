import { strict as assert } from 'node:assert';
import { createHash } from 'node:crypto';
import { errorOf, resultOf, valueOf } from '../notebook.ts';
import { loadPads, pads } from '../pads.ts';

const planOf = (text: string) => valueOf('plan', text, {});

describe('plan', () => {
  const text =
    'plan "Does gel lower it?" channel z,\n  primary 10..30 Hz over 30..50 Hz,\n  claim reduction 15 % repeats 3 order "ABBA BA" margin 5 %';

  it('states what was settled, in words and in its own order', async () => {
    const { entries } = await planOf(text);
    assert.deepEqual(
      entries.map(({ word, text: said }) => `${word}: ${said}`),
      [
        'question: Does gel lower it?',
        'channel: z',
        'primary band: 10 to 30 Hz',
        'other bands: 30 to 50 Hz',
        'claim: a reduction of at least 15 %',
        'margin: 5.0 %',
        'runs of each: 3',
        'order: ABBA BA',
      ],
    );
  });

  it('is marked by the SHA-256 of what it states, however that is written', async () => {
    const { entries, hash } = await planOf(text);
    const stated = entries.map(({ word, text: said }) => `${word}: ${said}\n`).join('');
    assert.equal(hash, createHash('sha256').update(stated).digest('hex'));
    const other =
      'plan "Does gel lower it?" margin 5 % order "abba, ba" repeats 3 channel z over 30..50 Hz primary 10..30 Hz claim reduction 15 %';
    assert.equal((await planOf(other)).hash, hash);
    assert.notEqual((await planOf(text.replace('15 %', '16 %'))).hash, hash);
    assert.notEqual((await planOf(text.replace('10..30', '10..31'))).hash, hash);
  });

  it('says what it leaves open', async () => {
    const { warnings } = await resultOf('plan "Does gel lower it?" channel z');
    assert.match(warnings[0].message, /leaves open .*: a band \(primary 10\.\.50 Hz\), the number of runs/);
    assert.deepEqual((await resultOf(text)).warnings, []);
  });

  it('takes its order from an order', async () => {
    const value = await planOf('o = order 4\nplan "Does it?" repeats 4 order o');
    assert.equal(value.settled?.order, 'ABBABAAB');
  });

  it('settles what a comparison does not say, which then follows it', async () => {
    const study = pads({ a: [0.3, 0.312, 0.305], b: [0.262, 0.255, 0.27], order: [1, 4, 6, 2, 3, 5] });
    const plan = `p = ${text.replace('ABBA BA', 'ABBABA').replace('over 30..50 Hz', 'over 15..30 Hz')}\n`;
    const value = await valueOf('comparison', `${plan}${loadPads}compare foam with gel plan p`, study);
    assert.deepEqual(
      value.rows.map(({ band, primary }) => [band.from, band.to, primary]),
      [
        [10, 30, true],
        [15, 30, undefined],
      ],
    );
    assert.equal(value.margin, 0.05);
    assert.deepEqual(value.plan?.deviations, []);
    assert.deepEqual([value.plan?.name, value.plan?.question], ['p', 'Does gel lower it?']);
  });

  it('is held against what was done: every departure is said', async () => {
    const study = pads({ a: [0.3, 0.312, 0.305, 0.3], b: [0.262, 0.255, 0.27], order: [1, 2, 3, 4, 5, 6, 7] });
    const compare = `p = ${text}\n${loadPads}compare foam with gel primary 15..30 Hz over 10..30 Hz confidence 90 % margin 10 % paired plan p`;
    const { warnings, value } = await resultOf(compare, study);
    assert.ok(value?.kind === 'comparison');
    const said = value.plan?.deviations.map(({ message }) => message).join('\n') ?? '';
    for (const part of [
      'the margin was planned as 5.0 % and is 10.0 %',
      'the primary band was planned as 10 to 30 Hz and it is 15 to 30 Hz',
      '15 to 30 Hz was not among the bands planned',
      '30 to 50 Hz was planned and is not compared',
      '3 runs of each were planned and there are 4 + 3',
      'the order was planned as ABBABA and was AAAABBB',
    ])
      assert.ok(said.includes(part), `${part} not in:\n${said}`);
    assert.ok(
      warnings.some(
        ({ code, message }) => code === 'plan.deviates' && message.startsWith('This is not as planned in p: '),
      ),
    );
  });

  it('refuses what it could not be held to', async () => {
    assert.match((await errorOf('plan ""')).message, /begins with its question/);
    assert.match((await errorOf('plan "Q" order "FOAM"')).message, /letters A and B/);
    assert.match(
      (await errorOf('plan "Q" repeats 4 order "ABBA"')).message,
      /2 runs of A and 2 of B, and repeats says 4/,
    );
    assert.match((await errorOf('plan "Q" claim reduction about 5 %')).message, /needs a tolerance/);
    assert.match((await errorOf('plan "Q" tolerance 5 %')).message, /goes with a claim/);
    assert.match((await errorOf('plan "Q" paired trend')).message, /Choose one/);
  });
});
