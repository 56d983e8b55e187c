import { strict as assert } from 'node:assert';
import { refusedKind } from '../../src/disk/keptKinds.ts';

const bytes = (text: string): Uint8Array => new TextEncoder().encode(text);
const rows = Array.from({ length: 30 }, (_, i) => `${i / 100},${i % 7}`).join('\n');
const raw = bytes(`t (s),z (g)\n${rows}\n`);
const table = bytes(`Frequency (Hz),Density (g²/Hz)\n${rows}\n`);

describe('what is saved over nothing that is kept', () => {
  it('is refused over a notebook, a record and a recording', () => {
    for (const [path, found] of [
      ['study.washboard.md', bytes('# A study\n')],
      ['study.record.json', bytes('{}')],
      ['raw/a.csv', raw],
      ['raw/a.csv.gz', bytes('\x1f\x8b')],
      ['raw/a.wav', bytes('RIFF')],
      ['raw/too-long-to-be-read.csv', bytes('')],
    ] as const)
      assert.match(refusedKind(path, found, table)?.failure.message ?? '', /never written over/, path);
  });

  it('is allowed over an earlier save of the same, and over other files', () => {
    assert.equal(refusedKind('spectrum.csv', table, bytes('Frequency (Hz),Density (g²/Hz)\n1,2\n')), undefined);
    assert.equal(refusedKind('notes.csv', bytes('who,what\nA,tyres pumped\n'), table), undefined);
    assert.equal(refusedKind('figure.svg', bytes('<svg/>'), bytes('<svg/>')), undefined);
  });
});
