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

/** An entry whose lengths are right, whatever its texts say. */
function entryOf(heads: string, text: string, ...bytes: readonly number[]): Uint8Array {
  const lengths = new Uint8Array(8);
  new DataView(lengths.buffer).setUint32(0, heads.length, true);
  new DataView(lengths.buffer).setUint32(4, text.length, true);
  return Uint8Array.from([...lengths, ...Buffer.from(heads + text), ...bytes]);
}

const array = (length: number): string =>
  `{"samples":{"$":"typed","type":"Float64Array","buffer":0,"from":0,"length":${length}}}`;

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

  it('are missing where what was kept is whole and yet in no form that can be read', async () => {
    const kept = memory();
    const readAgain = (bytes: Uint8Array): Promise<object | undefined> => {
      kept.entries.set('answer', bytes);
      return new KeptAnswers(kept).get('answer');
    };
    const eight = [0, 0, 0, 0, 0, 0, 240, 63];
    assert.deepEqual(await readAgain(entryOf('[[8]]', array(1), ...eight)), { samples: Float64Array.of(1) });
    const unreadable = {
      'nothing at all': new Uint8Array(0),
      'no room for its lengths': Uint8Array.of(1, 0, 0, 0, 1),
      'lengths beyond its end': Uint8Array.of(255, 255, 0, 0, 1, 0, 0, 0, 91, 93),
      'buffers that are no list': entryOf('{}', '{}'),
      'buffers of no JSON': entryOf('[[8', '{}'),
      'a text of no JSON': entryOf('[]', '{"a":'),
      'no object': entryOf('[]', 'null'),
      'a number': entryOf('[]', '1'),
      'arrays of no kind': entryOf('[[8]]', array(1).replace('Float64Array', 'Float63Array'), ...eight),
      'an array that is longer than its bytes': entryOf('[[8]]', array(2), ...eight),
      'an array without its bytes': entryOf('[[8]]', array(1), 1),
      'an array whose bytes are no longer kept': entryOf('[[8,"gone"]]', array(1)),
      'a mark of no kind': entryOf('[]', '{"$":"map"}'),
    };
    for (const [what, bytes] of Object.entries(unreadable)) assert.equal(await readAgain(bytes), undefined, what);
  });
});
