import { strict as assert } from 'node:assert';
import { readFileSync } from 'node:fs';
import { version } from '../../../src/result/version.ts';
import { valueOf } from '../notebook.ts';
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
      signals: 'Recorded was z in g at 200 Hz.',
      runs: 'Made were 3 runs of foam and 3 runs of gel from 2026-03-01 to 2026-03-02.',
      order: 'They were made in the order A B B A A B, A being foam and B gel.',
      circumstances: 'By the run sheet: speed 1.19 to 1.22 m/s.',
      exclusions: 'No run was left out.',
      processing: 'Processing of each run: trim 1 s to 9 s.',
      spectra: parts['spectra'],
      statistics: parts['statistics'],
      software: `Computed with Washboard ${version}.`,
    });
    assert.match(parts['spectra'], /\(Welch 1967\): hann window of .* s, overlap 50 %, .* segments a run\./);
    assert.match(
      parts['statistics'],
      /gel against foam.* in 10 to 30 Hz, 40 to 80 Hz\. .*Satterthwaite 1946\); confidence 95 %/,
    );
    assert.match(parts['statistics'], /both bands together, by Bonferroni’s inequality/);
  });

  it('names what is missing, and what was left out', async () => {
    const files = pads({
      ...worked,
      facts: { excluded: ['', '', '', 'yes', '', ''], why: ['', '', '', 'fell off', '', ''] },
    });
    const parts = await said('methods foam, gel', files);
    assert.match(parts['instruments'], /does not name the instrument \(a column such as logger/);
    assert.equal(parts['exclusions'], 'Left out: gel-1.csv (fell off).');
    assert.equal(parts['runs'], 'Made were 5 runs.');
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
