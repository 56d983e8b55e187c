import { strict as assert } from 'node:assert';
import { createHash } from 'node:crypto';
import fc from 'fast-check';
import { sheetOfFiles, sheetOfOrder } from '../../../src/analysis/planning/sheetText.ts';
import { errorOf, near, resultOf, valueOf } from '../notebook.ts';
import { loadPads, pads } from '../pads.ts';

const planOf = (text: string) => valueOf('plan', text, {});

describe('repeats', () => {
  it('shows with so many runs what the published table says', async () => {
    // Smallest reduction with 80 % power, two-sided 5 %, spread 5 %: 24.6 14.2 11.2 9.6 8.6 - 7.3 - 6.4 - 5.8.
    const { table } = await valueOf('repeats', 'repeats detect 10 % spread 5 %', {});
    const shown = new Map(table.map(({ runs, smallestPercent }) => [runs, smallestPercent.toFixed(1)]));
    for (const [runs, percent] of [
      [2, '24.6'],
      [3, '14.2'],
      [4, '11.2'],
      [5, '9.6'],
      [6, '8.6'],
      [8, '7.3'],
      [10, '6.4'],
      [12, '5.8'],
    ] as const)
      assert.equal(shown.get(runs), percent);
  });

  it('needs the fewest runs whose row of the table reaches the reduction', async () => {
    for (const [detect, runs] of [
      [11.3, 4],
      [11.1, 5],
      [5.9, 12],
      [5, 16],
    ] as const) {
      const value = await valueOf('repeats', `repeats detect ${detect} % spread 5 %`, {});
      assert.equal(value.runs, runs, `${detect} %`);
      assert.ok((value.reached ?? 0) >= 0.8);
      const row = value.table.find((one) => one.runs === runs);
      assert.ok(row !== undefined && row.smallestPercent <= detect);
    }
  });

  it('takes its spread from a comparison', async () => {
    const study = pads({ a: [0.3, 0.31, 0.29], b: [0.2, 0.21, 0.19] });
    const { value } = await resultOf(
      `${loadPads}c = compare foam with gel over 10..30 Hz\nrepeats detect 5 % spread c.spread`,
      study,
    );
    assert.ok(value?.kind === 'repeats');
    const variance = (levels: number[]): number => {
      const ln = levels.map(Math.log);
      const mean = ln.reduce((sum, one) => sum + one, 0) / 3;
      return ln.reduce((sum, one) => sum + (one - mean) ** 2, 0) / 2;
    };
    near(value.spread, Math.sqrt((variance([0.3, 0.31, 0.29]) + variance([0.2, 0.21, 0.19])) / 2), 1e-5);
  });

  it('says when no number of runs would do', async () => {
    const value = await valueOf('repeats', 'repeats detect 0.01 % spread 50 %', {});
    assert.equal(value.runs, undefined);
    assert.equal(value.table.length, 11);
  });

  it('refuses what is no question', async () => {
    assert.match((await errorOf('repeats detect 5 %')).message, /needs the spread from run to run/);
    assert.match((await errorOf('repeats spread 5 %')).message, /needs the reduction to detect/);
    assert.match((await errorOf('repeats detect 0 % spread 4 %')).message, /`detect` .* above 0 %/);
    assert.match((await errorOf('repeats detect 5 % spread 0 %')).message, /`spread` .* above 0 %/);
  });
});

describe('order', () => {
  it('is ABBA BAAB, in which a steady drift cancels', async () => {
    const value = await valueOf('order', 'order 4', {});
    assert.equal(value.sequence.join(''), 'ABBABAAB');
    assert.equal(value.leanPercent, 0);
    const odd = await valueOf('order', 'order 3', {});
    assert.equal(odd.sequence.join(''), 'ABBABA');
    near(odd.leanPercent, (2 + 3 + 5) / 3 - (1 + 4 + 6) / 3, 1e-12);
  });

  it('by blocks holds one of each in every pair, and is the same for the same seed', async () => {
    const of = async (seed: number): Promise<string> =>
      (await valueOf('order', `order 20 blocks seed ${seed}`, {})).sequence.join('');
    const found = await of(7);
    for (let k = 0; k < 40; k += 2) assert.ok(['AB', 'BA'].includes(found.slice(k, k + 2)));
    assert.equal(await of(7), found);
    assert.notEqual(await of(8), found);
  });

  it('comes with a run sheet that load can read once its files are named', async () => {
    const { sheet } = await valueOf('order', 'order 3 conditions foam, gel', {});
    assert.ok(sheet !== undefined);
    const files = pads({ a: [0.3, 0.3, 0.3], b: [0.2, 0.2, 0.2] });
    const names = ['foam-1', 'gel-1', 'gel-2', 'foam-2', 'gel-3', 'foam-3'];
    files['runs.csv'] = sheet.replace(/^,/gm, () => `${names.shift()}.csv,`);
    const { runs } = await valueOf('runs', 'load sheet "runs.csv" where condition gel unit g', files);
    assert.deepEqual(
      runs.map(({ label, sheet: facts }) => [label, facts?.order]),
      [
        ['gel-1', 2],
        ['gel-2', 3],
        ['gel-3', 5],
      ],
    );
  });

  it('refuses what is no order', async () => {
    assert.match((await errorOf('order 2.5')).message, /whole number/);
    assert.match((await errorOf('order 0')).message, /1/);
    assert.match((await errorOf('order 4 seed 7')).message, /goes with blocks/);
    assert.match((await errorOf('order 4 conditions foam')).message, /two conditions/);
  });
});

describe('a run sheet to be filled in', () => {
  it('names the files there are, and guesses the condition from each', () => {
    const lines = sheetOfFiles(['brick-foam-1.csv.gz', 'a "b", 2.csv']).split('\n');
    assert.equal(lines[0], 'file,condition,order,date,speed (m/s),mass (kg),pressure (bar),note,excluded,why');
    assert.equal(lines[1], 'brick-foam-1.csv.gz,brick-foam,,,,,,,,');
    assert.equal(lines[2], '"a ""b"", 2.csv","a ""b"",",,,,,,,,');
  });

  it('can be read again whatever the files are called', async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.uniqueArray(fc.stringMatching(/^[a-z ,"'é;-]{1,12}[a-z]$/), {
          minLength: 1,
          maxLength: 4,
          selector: (name) => name.trim(),
        }),
        async (names) => {
          const files = names.map((name) => `${name.trim()}.csv`);
          const value = await valueOf('sheet', 'sheet "runs.csv"', { 'runs.csv': sheetOfFiles(files) });
          assert.deepEqual(
            value.rows.map(({ file }) => file),
            files,
          );
        },
      ),
      { numRuns: 30 },
    );
  });

  it('has a row a run to be made', () => {
    assert.equal(sheetOfOrder(['A', 'B'], ['foam', 'gel']).split('\n')[2], ',gel,2,,,,,,,');
  });
});

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
    const said = value.plan?.deviations.join('\n') ?? '';
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
