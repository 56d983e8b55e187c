import { strict as assert } from 'node:assert';
import { readFileSync } from 'node:fs';
import { version } from '../../../src/result/version.ts';
import { valueOf } from '../notebook.ts';
import { loadMounts, mounts, wobble, type Mounts } from '../mounts.ts';
import { loadPads, pads, worked } from '../pads.ts';

const facts = {
  logger: Array.from({ length: 6 }, () => 'AL-3'),
  'speed (m/s)': ['1.2', '1.21', '1.2', '1.19', '1.2', '1.22'],
  date: ['2026-03-02T09:00', '2026-03-01', '2026-03-01', '2026-03-01', '2026-03-01', '2026-03-01'],
};

/** What the paragraph says, by what it is about. */
async function said(cell: string, files: Readonly<Record<string, string>>): Promise<Record<string, string>> {
  const { parts } = await valueOf('methods', loadPads + cell, files);
  return Object.fromEntries(parts.map(({ about, text }) => [about, text]));
}

describe('the paragraph on methods', () => {
  it('says of a comparison what the sheet, the steps and the statistics were', async () => {
    const files = pads({ ...worked, order: [1, 4, 5, 2, 3, 6], facts });
    const parts = await said(
      'C = compare (trim foam 1..9 s) with (trim gel 1..9 s) over 10..30 Hz, 40..80 Hz\nmethods C',
      files,
    );
    assert.deepEqual(parts, {
      instruments: 'Instruments: logger AL-3.',
      signals: 'The recordings hold z in g at 200 Hz.',
      runs: 'There were 3 runs of foam and 3 runs of gel from 2026-03-01 to 2026-03-02.',
      order: 'They were made in the order A B B A A B, A being foam and B gel.',
      circumstances: 'By the run sheet: speed 1.19 to 1.22 m/s.',
      exclusions: 'No run was left out.',
      processing: 'Processing of each run: trim 1 s to 9 s.',
      spectra: parts['spectra'],
      statistics: parts['statistics'],
      software: `Computed with Washboard ${version}.`,
    });
    assert.match(parts['spectra'], /\(Welch 1967\): Hann window of .* s, overlap 50 %, .* segments a run\./);
    assert.match(
      parts['statistics'],
      /gel against foam.* in 10 to 30 Hz and 40 to 80 Hz\. .*Satterthwaite 1946\); confidence 95 %/,
    );
    assert.match(parts['statistics'], /both bands together, by Bonferroni’s inequality/);
  });

  it('says once how spectra were taken that differ in nothing but their segments', async () => {
    const { parts } = await valueOf(
      'methods',
      `${loadPads}C = compare (trim foam 1..9 s) with (trim gel 1..5 s) over 10..30 Hz\nmethods C`,
      pads({ ...worked, order: [1, 4, 5, 2, 3, 6], facts }),
    );
    const spectra = parts.flatMap(({ about, text }) => (about === 'spectra' ? [text] : []));
    assert.equal(spectra.length, 1);
    assert.match(spectra[0], /, 3 to 7 segments a run\.$/);
  });

  it('says whose order it is where several comparisons are told of', async () => {
    const files = pads({ ...worked, order: [1, 4, 5, 2, 3, 6], facts });
    const cell = 'C = compare foam with gel over 10..30 Hz\nD = compare gel with foam over 10..30 Hz\nmethods C, D';
    const { parts } = await valueOf('methods', loadPads + cell, files);
    assert.deepEqual(
      parts.flatMap(({ about, text }) => (about === 'order' ? [text] : [])),
      [
        'Those of foam and gel were made in the order A B B A A B, A being foam and B gel.',
        'Those of gel and foam were made in the order B A A B B A, A being gel and B foam.',
      ],
    );
  });

  it('names what is missing, and what was left out', async () => {
    const files = pads({
      ...worked,
      facts: { excluded: ['', '', '', 'yes', '', ''], why: ['', '', '', 'fell off', '', ''] },
    });
    const parts = await said('methods foam, gel', files);
    assert.match(parts['instruments'], /does not name the instrument \(a column such as logger/);
    assert.equal(parts['exclusions'], 'Left out: gel-1.csv (fell off).');
    assert.equal(parts['runs'], 'There were 5 runs.');
    assert.equal(parts['processing'], 'The recordings were used whole and as they are.');
    assert.equal(parts['order'], undefined);
    const { parts: alone } = await valueOf('methods', 'methods (load "foam-1.csv" unit g)', files);
    assert.equal(alone[0].text, 'There is no run sheet that would name the instrument.');
  });

  it('names the version that the package has', () => {
    const { version: packaged } = JSON.parse(readFileSync('package.json', 'utf8')) as { version: string };
    assert.equal(version, packaged);
  });
});

const letterNames: Readonly<Record<string, string>> = { A: 'rigid', B: 'rubber', C: 'cork', R: 'reference' };

/** Runs in the order of the letters, in each of some flows, with what the sheet says of each besides. */
function ordered(letters: string, flows: readonly string[] = [''], facts: (k: number) => object = () => ({})): Mounts {
  const runs = flows.flatMap((flow, f) =>
    [...letters].map((letter, k) => ({
      condition: letterNames[letter],
      level: 0.3 * Math.exp(wobble(f * letters.length + k)),
      facts: { order: k + 1, ...(flow === '' ? {} : { flow }), ...facts(f * letters.length + k) },
    })),
  );
  return { runs };
}

/** What is said of a comparison of mounts, by what it is about. */
async function saidOf(compare: string, made: Mounts, names: readonly string[], channel?: string) {
  const cell = `${loadMounts(names, '', channel)}C = ${compare}\nmethods C`;
  const { parts } = await valueOf('methods', cell, mounts(made));
  return Object.fromEntries(parts.map(({ about, text }) => [about, text]));
}

describe('the paragraph on methods of several conditions', () => {
  const williams = 'ABCCBABCAACB';
  const three = ['rigid', 'rubber', 'cork'];
  const pair = three.slice(0, 2);

  it('names all conditions, the design of their order, the family, and each band once', async () => {
    const said = await saidOf('compare rigid with rubber, cork over 10..30 Hz, 50..70 Hz', ordered(williams), three);
    assert.equal(said['runs'], 'There were 4 runs of rigid, 4 runs of rubber and 4 runs of cork.');
    assert.equal(
      said['order'],
      'They were made in the order A B C C B A B C A A C B, A being rigid, B rubber and C cork: rows of a Williams design, each beside its mirror image (Williams 1949).',
    );
    assert.match(
      said['statistics'],
      /^The changes of acceleration r\.m\.s\. are those of rubber and of cork against rigid, each the ratio .*, in 10 to 30 Hz and 50 to 70 Hz\. Inference: /,
    );
    assert.match(said['statistics'], / The intervals hold for all 4 changes together, by Bonferroni’s inequality/);
  });

  it('tells blocks from a Williams design, and every two conditions from a baseline', async () => {
    const blocks = 'ABCBACACBCAB';
    const said = await saidOf('compare rigid with rubber, cork all-pairs over 10..30 Hz', ordered(blocks), three);
    assert.match(said['order'], /C cork: blocks that hold each once\.$/);
    assert.match(said['statistics'], /are those of every two of rigid, rubber and cork, each/);
    const mixed = await saidOf('compare rigid with rubber, cork over 10..30 Hz', ordered('ABCCBAABBCCA'), three);
    assert.match(mixed['order'], /B rubber and C cork\.$/);
  });

  it('tells strata with their counts, orders and weights, and how their rows hold together', async () => {
    const made = ordered('ABBABAAB', ['low', 'high']);
    const said = await saidOf('compare rigid with rubber within flow over 10..30 Hz', made, pair);
    assert.equal(said['runs'], 'There were 8 runs of rigid and 8 runs of rubber, 4 of each in each of low and high.');
    assert.equal(
      said['order'],
      'In each of low and high they were made in the order A B B A B A A B, A being rigid and B rubber.',
    );
    assert.match(
      said['statistics'],
      /Each is given within each flow \(low and high\) and over all of them, as the mean of the logarithms with equal weights\. Whether changes differ between them is told by the F of interaction in an analysis of variance, which assumes equal scatter of all runs \(Montgomery, Design and Analysis of Experiments, 5\.3\), without a verdict\. Inference/,
    );
    assert.match(said['statistics'], /Of the intervals those within single strata hold for both changes together/);
    const uneven = { runs: made.runs.slice(0, -1) };
    const other = await saidOf('compare rigid with rubber within flow over 10..30 Hz', uneven, pair);
    assert.equal(other['runs'], 'There were 8 runs of rigid and 7 runs of rubber (low: 4 + 4 and high: 4 + 3).');
    assert.match(
      other['order'],
      /in the orders A B B A B A A B \(low\) and A B B A B A A \(high\), A being rigid and B rubber\.$/,
    );
  });

  it('tells what was taken out of the levels, and reference runs', async () => {
    const facts = (k: number): object => ({ 'speed (m/s)': 1.2 + 0.01 * (k % 3), temperature: 18 + (k % 4) });
    const made = ordered('RABBARBAABR', [''], facts);
    const said = await saidOf(
      'compare rigid with rubber over 10..30 Hz adjust speed exponent 1.5 uncertainty 0.3 reference (load sheet "runs.csv" where condition reference unit g | channel z)',
      made,
      pair,
    );
    assert.equal(said['runs'], 'There were 4 runs of rigid, 4 runs of rubber and 3 reference runs.');
    assert.match(
      said['order'],
      /in the order C A B B A C B A A B C, A being rigid, B rubber and C .* \(reference runs\)\.$/,
    );
    assert.match(
      said['statistics'],
      /brought to equal speed by a stated exponent, 1\.5 ± 0\.3, whose standard uncertainty widens the intervals\. 3 reference runs made in between help to tell the drift\./,
    );
    const fitted = await saidOf(
      'compare rigid with rubber over 10..30 Hz plan (plan "Less?" adjust temperature)',
      ordered('ABBABAAB', [''], facts),
      pair,
    );
    assert.match(
      fitted['statistics'],
      /The part of temperature was fitted, a common slope of all runs, and taken out\./,
    );
  });

  it('tells pairs and days', async () => {
    const paired = ordered('ABBABAAB', [''], (k) => ({ pair: 1 + Math.floor(k / 2) }));
    const said = await saidOf('compare rigid with rubber over 10..30 Hz', paired, pair);
    assert.match(
      said['statistics'],
      /The run sheet names 4 pairs\. Inference: .* compared in pairs, 4 \+ 4 runs \(Student 1908\)/,
    );
    const asked = await saidOf('compare rigid with rubber over 10..30 Hz paired', ordered('ABBABAAB'), pair);
    assert.match(asked['statistics'], /Runs that followed one another make a pair\./);
    const days = ordered('ABBABAAB', [''], (k) => ({ day: 1 + Math.floor(k / 4) }));
    const byDay = await saidOf('compare rigid with rubber over 10..30 Hz', days, pair);
    assert.match(
      byDay['statistics'],
      /The runs were made on 2 days, each with a level of its own\. Inference: .*between days taken out/,
    );
    const strata = ordered('ABBA', ['', '', ''], (k) => ({ day: `d${Math.floor(k / 4)}`, order: k + 1 }));
    const over = await saidOf('compare rigid with rubber within day over 10..30 Hz', strata, pair);
    assert.match(
      over['statistics'],
      /speak of other days like them\. Whether changes differ between them is told by the F of interaction.*without a verdict\. Inference: t interval on the changes of the days.*\(Student 1908\)/,
    );
  });

  it('tells axes and a resultant, and one scatter for all runs', async () => {
    const axes = await saidOf('compare rigid with rubber axes x, z over 10..30 Hz', ordered('ABBABAAB'), pair, '');
    assert.match(axes['statistics'], /in 10 to 30 Hz, on each of the axes x and z\./);
    assert.match(axes['statistics'], /The intervals hold for both changes together/);
    const all = await saidOf('compare rigid with rubber over 10..30 Hz', ordered('ABBABAAB'), pair, ' | resultant');
    assert.equal(
      all['signals'],
      'The recordings hold the resultant of x and z in g (mean squares of the axes added) at 200 Hz.',
    );
    const pooled = await saidOf(
      'compare rigid with rubber, cork over 10..30 Hz plan (plan "Less?" pooled)',
      ordered(williams),
      three,
    );
    assert.match(
      pooled['statistics'],
      /; one scatter for all runs, and the limits are Dunnett’s \(Dunnett 1955\); confidence/,
    );
  });
});
