import { strict as assert } from 'node:assert';
import { freeName, freeStudyName, looksLikeRecording, recordingsBelow, type Entry } from '../../src/disk/recordings.ts';

/** Lists a folder that holds these files; a name with `/` lies in a folder of it. */
const listing =
  (...paths: readonly string[]) =>
  (below: string | undefined): Promise<Entry[]> => {
    const here = below === undefined ? paths : paths.flatMap((path) => path.split(`${below}/`)[1] ?? []);
    const names = new Map(here.map((path) => [path.split('/')[0], path.includes('/')]));
    return Promise.resolve([...names].map(([name, folder]) => ({ name, folder })));
  };

describe('the recordings of a folder', () => {
  it('are those in it, in natural order, and what lies below is another study', async () => {
    const { paths } = await recordingsBelow(listing('b-10.csv', 'b-9.csv', 'raw/a.csv', 'notes.md'));
    assert.deepEqual(paths, ['b-9.csv', 'b-10.csv']);
  });

  it('are those of the first folder in it that has some, where it has none itself', async () => {
    const found = await recordingsBelow(
      listing('notes.md', 'figures/a.csv', 'old/plan.md', 'raw/a.csv', 'raw/runs.csv'),
    );
    assert.deepEqual(found, { paths: ['raw/a.csv'], besides: ['raw/a.csv', 'raw/runs.csv'] });
  });

  it('are none where there are none', async () => {
    assert.deepEqual(await recordingsBelow(listing('notes.md', '.cache/a.csv')), { paths: [], besides: [] });
  });
});

describe('the name of a new study', () => {
  it('is the first that is free, whatever the letters of those that are there', () => {
    assert.equal(freeStudyName([]), 'study.washboard.md');
    assert.equal(
      freeStudyName(['Study.washboard.md', 'study-2.washboard.md', 'study-4.washboard.md']),
      'study-3.washboard.md',
    );
  });
});

describe('the name of a copy', () => {
  it('is its own where that is free, and keeps all its endings', () => {
    assert.equal(freeName('gel-1.csv.gz', ['gel-2.csv.gz']), 'gel-1.csv.gz');
    assert.equal(freeName('gel-1.csv.gz', ['Gel-1.csv.gz', 'gel-1-2.csv.gz']), 'gel-1-3.csv.gz');
    assert.equal(freeName('gel', ['gel']), 'gel-2');
  });
});

describe('a file that is likely a recording', () => {
  const rows = (row: (n: number) => string): Uint8Array =>
    Buffer.from(`head\n${Array.from({ length: 20 }, (_, n) => row(n)).join('\n')}\n`);

  it('holds rows of numbers, whatever divides them', () => {
    for (const row of [
      (n: number) => `${n / 100},0.1,-0.2e-3`,
      (n: number) => `${n};0,1;-0,2`,
      (n: number) => `2026-03-01T10:00:${n + 10}.250Z\t0.1\t0.2`,
      (n: number) => `  ${n}   0.1   1.02`,
    ])
      assert.ok(looksLikeRecording('a.csv', rows(row)), row(1));
  });

  it('is no list of words, no prose and no single column', () => {
    for (const row of [() => 'Miller,Berlin,12', () => 'and so on, as it was', (n: number) => `${n}`])
      assert.ok(!looksLikeRecording('a.csv', rows(row)), row(1));
    assert.ok(!looksLikeRecording('a.txt', new Uint8Array()));
  });

  it('is known by its name where it is no text', () => {
    assert.ok(looksLikeRecording('a.wav', new Uint8Array()));
  });
});
