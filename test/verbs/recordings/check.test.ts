import { strict as assert } from 'node:assert';
import { noise, recordingOf, sine, valueOf } from '../notebook.ts';

const random = noise(3);
/** 40 s of noise about gravity, one with its z clipped at 1.5 g. */
const sound = recordingOf({
  'x (g)': () => 0.2 * random(),
  'y (g)': () => 0.2 * random(),
  'z (g)': () => 1 + 0.2 * random(),
});
const clipped = recordingOf({
  'x (g)': () => 0.2 * random(),
  'y (g)': () => 0.2 * random(),
  'z (g)': (t) => Math.min(1.5, 1 + sine(3, 0.9)(t)),
});

const codesOf = async (line: string): Promise<string[]> => {
  const { rows } = await valueOf('findings', line, { 'sound.csv': sound, 'clipped.csv': clipped });
  return rows.map(({ run, finding }) => `${run.label} ${finding.severity} ${finding.code}`);
};

describe('check', () => {
  it('finds what is wrong with a run, the faults first, and nothing of that with a sound one', async () => {
    const found = await codesOf('check (load "sound.csv", "clipped.csv")');
    assert.match(found[0], /^clipped fault clipped$/);
    assert.ok(!found.some((one) => one.startsWith('sound fault')), found.join());
  });

  it('judges the rate and the length by the band of interest', async () => {
    const plain = await codesOf('check (load "sound.csv")');
    const past = await codesOf('check (load "sound.csv") over 10..95 Hz');
    assert.deepEqual(
      past.filter((one) => !plain.includes(one)),
      ['sound warning band-high'],
    );
  });

  it('counts of the gaps of a trimmed run those of the part that is used', async () => {
    const isLost = (i: number): boolean => (i > 300 && i < 321) || (i > 900 && i < 906) || (i > 1500 && i < 1531);
    const times = Array.from({ length: 2000 }, (_, i) => i)
      .filter((i) => !isLost(i))
      .map((i) => i / 100);
    const files = { 'a.csv': recordingOf({ z: sine(7, 0.1, 1) }, { times }) };
    const gapsOf = async (steps: string): Promise<(string | undefined)[]> => {
      const { rows } = await valueOf('findings', `check (load "a.csv" unit g${steps})`, files);
      return rows.filter(({ finding }) => finding.code === 'gap').map(({ finding }) => finding.message);
    };
    assert.match((await gapsOf(''))[0] ?? '', /^3 gaps leave out 55 samples /);
    const [one, ...others] = await gapsOf(' | trim 5..12 s');
    assert.deepEqual(others, []);
    assert.match(one ?? '', /^A gap leaves out 5 samples \(0\.714 %\), the gap at 9 s, /);
    assert.deepEqual(await gapsOf(' | trim 10..14 s'), []);
    // A part that ends within a gap has none of its own.
    assert.deepEqual(await gapsOf(' | trim 4..9.03 s'), []);
  });
});
