import { strict as assert } from 'node:assert';
import { KeptAnswers, type Kept } from '../../../src/engine/kept/keptAnswers.ts';

/** Entries by their keys, and how many bytes were put down altogether. */
function memory(): Kept & { readonly entries: Map<string, Uint8Array>; bytes: number } {
  const entries = new Map<string, Uint8Array>();
  return {
    entries,
    bytes: 0,
    get: (key) => Promise.resolve(entries.get(key)),
    set(key, parts) {
      const bytes = Uint8Array.from(Buffer.concat(parts));
      this.bytes += bytes.length;
      entries.set(key, bytes);
    },
  };
}

/** Samples whose bytes are kept by themselves. */
const samples = Float64Array.from({ length: 10_000 }, (_, i) => Math.sin(i));

describe('answers kept by their keys', () => {
  it('put samples down once that several of them share, in the run that made them and in one that took them from there', async () => {
    const kept = memory();
    const first = new KeptAnswers(kept);
    first.set('whole', { samples });
    first.set('trimmed', { samples: samples.subarray(100, 9_000) });
    assert.ok(kept.bytes < 1.1 * samples.byteLength, `${kept.bytes} bytes`);

    const second = new KeptAnswers(kept);
    const whole = (await second.get<{ samples: Float64Array }>('whole'))!;
    const trimmed = (await second.get<{ samples: Float64Array }>('trimmed'))!;
    assert.equal(trimmed.samples.buffer, whole.samples.buffer, 'two answers hold the same samples twice');
    assert.deepEqual(trimmed.samples, samples.subarray(100, 9_000));
    second.set('turned', { samples: whole.samples, sign: -1 });
    assert.ok(kept.bytes < 1.1 * samples.byteLength, `${kept.bytes} bytes`);
    assert.deepEqual(await new KeptAnswers(kept).get('turned'), { samples, sign: -1 });
  });

  it('are missing where samples that they share are, or are no longer as long', async () => {
    const kept = memory();
    new KeptAnswers(kept).set('whole', { samples });
    const own = [...kept.entries.keys()].find((key) => key !== 'whole')!;
    kept.entries.set(own, kept.entries.get(own)!.subarray(8));
    assert.equal(await new KeptAnswers(kept).get('whole'), undefined);
    kept.entries.delete(own);
    assert.equal(await new KeptAnswers(kept).get('whole'), undefined);
  });

  it('are none, without a word, where they are more than data', async () => {
    const kept = memory();
    const answers = new KeptAnswers(kept);
    answers.set('verb', { name: 'a', evaluate: () => samples });
    assert.equal(kept.entries.size, 0);
    assert.equal(await answers.get('verb'), undefined);
  });
});
