import { strict as assert } from 'node:assert';
import { noise, recordingOf, resultOf, uniform } from '../notebook.ts';

const count = 8000;
const all = Array.from({ length: count }, (_, i) => i / 400);

/** Recordings of noise, three a side, of which the second of the first loses so many samples at random. */
function recordings(lost: number): Record<string, string> {
  const random = uniform(5);
  const times = all.filter(() => random() >= lost);
  return Object.fromEntries(
    ['a0', 'a1', 'a2', 'b0', 'b1', 'b2'].map((name, k) => {
      const made = noise(k + 1);
      return [`${name}.csv`, recordingOf({ 'z (m/s²)': made }, { times: name === 'a1' ? times : all })];
    }),
  );
}

describe('a comparison of runs that lose samples', () => {
  const load = 'a = load "a*.csv"\nb = load "b*.csv"\n';
  const told = async (cell: string, lost: number): Promise<readonly string[]> =>
    (await resultOf(load + cell, recordings(lost))).warnings
      .filter(({ code }) => code === 'window.short-stretches')
      .map(({ message }) => message);

  it('says how much of one is not in it, where that is more than a tenth', async () => {
    const [message, ...more] = await told('compare a with b over 20..80 Hz using window hann 0.25 s', 0.03);
    assert.deepEqual(more, []);
    assert.match(
      message,
      /unbroken stretches of a1, with \d{4} of its \d{4} samples, are shorter than a segment of 0\.25 s/,
    );
    assert.deepEqual(await told('compare a with b over 20..80 Hz using window hann 0.25 s', 0.0005), []);
  });

  it('says it once where spectra were made before, which said so', async () => {
    const spectra = 'w = window hann 0.25 s\nsa = spectrum a using w\nsb = spectrum b using w\n';
    assert.deepEqual(await told(`${spectra}compare sa with sb over 20..80 Hz`, 0.03), []);
  });

  it('does not say it of a metric that takes all samples', async () => {
    assert.deepEqual(await told('compare a with b metric p99', 0.03), []);
  });
});
