import { strict as assert } from 'node:assert';
import { readFileSync } from 'node:fs';
import { Sandbox } from './sandbox.ts';

/** A noise of `size` g at 200 Hz on a vertical and a lying axis, for 20 s. */
function recording(size: number, seed: number): string {
  let state = seed;
  const noise = (): number => (state = (state * 1664525 + 1013904223) % 2 ** 32) / 2 ** 32 - 0.5;
  const rows = Array.from({ length: 4000 }, (_, n) => {
    const [y, z] = [size * noise(), 1 + size * noise()];
    return `${(n / 200).toFixed(3)},${y.toFixed(4)},${z.toFixed(4)}`;
  });
  return `t (s),y (g),z (g)\n${rows.join('\n')}\n`;
}

describe('washboard new', () => {
  let sandbox: Sandbox;
  before(() => {
    const runs = [1, 2, 3, 4].flatMap((run) => [
      [`lab/raw/stiff-${run}.csv`, recording(0.4, run)],
      [`lab/raw/before-${run}.csv`, recording(0.8, 10 + run)],
    ]);
    sandbox = new Sandbox({
      ...Object.fromEntries(runs),
      'lab/raw/runs.csv': 'file\n',
      'lab/.hidden/x-1.csv': '',
      'empty/photo.jpg': '',
    });
  });
  after(() => sandbox.remove());
  const text = (path: string): string => readFileSync(sandbox.path(path), 'utf8');

  it('begins a study that goes from the recordings found there to the claim as it stands', async () => {
    const made = await sandbox.run('new', sandbox.path('lab'));
    assert.equal(made.code, 0);
    assert.equal(made.printed.trim(), sandbox.path('lab/study.washboard.md'));
    const ran = await sandbox.run('run', sandbox.path('lab/study.washboard.md'));
    assert.equal(ran.code, 0, ran.errors);
    // The set whose name says so is that of before the change, and half the noise is half the level.
    assert.match(text('lab/study.washboard.md'), /compare before_density with stiff_density/);
    assert.match(ran.printed, /SUPPORTED: a reduction of at least 10 %/);
    assert.match(ran.printed, /\(z, 10 to 50 Hz\) was (?:4\d|5\d)\.\d % lower/);
  });

  it('takes the next name that is free, and writes over nothing', async () => {
    const before = text('lab/study.washboard.md');
    const { printed } = await sandbox.run('new', sandbox.path('lab'));
    assert.equal(printed.trim(), sandbox.path('lab/study-2.washboard.md'));
    assert.equal(text('lab/study.washboard.md'), before);
  });

  it('says that no recordings lie there, and still writes the whole way', async () => {
    const { code, errors } = await sandbox.run('new', sandbox.path('empty'));
    assert.equal(code, 0);
    assert.match(errors, /^washboard: no recordings lie in [^\n]*\.\n$/);
    for (const verb of ['plan', 'repeats', 'load', 'check', 'plot', 'trim', 'spectrum', 'compare', 'claim'])
      assert.match(text('empty/study.washboard.md'), new RegExp(`\\b${verb}\\b`), verb);
  });

  it('refuses what is no folder', async () => {
    const { code, errors } = await sandbox.run('new', sandbox.path('nowhere'));
    assert.equal(code, 2);
    assert.match(errors, /^washboard: there is no folder /);
    assert.equal((await sandbox.run('new')).code, 2);
  });
});
