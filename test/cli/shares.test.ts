import { strict as assert } from 'node:assert';
import { readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { recording } from '../engine/memoryFiles.ts';
import { KeptStore } from '../../src/disk/keptStore.ts';
import { Sandbox } from './sandbox.ts';

const notebook = `# Study

\`\`\`washboard
a = load "raw/a-*.csv" | trim 1..5 s
still = levels (load "raw/b-1.csv" | channel z)
one = load "raw/b-1.csv" | channel z
other = levels (channel ((load "raw/b-1.csv") in m/s^2) z)
whole = load "raw/b-1.csv"
\`\`\`

\`\`\`washboard
spectrum (load "raw/*.csv" | channel z | trim from 1 s to still.duration / 2) using window hann 1 s
levels (load "raw/a-*.csv" | channel z | trim from 1 s to one.duration / 2)
levels a
trim a 1..9 s
compare a with (load "raw/b-*.csv" | trim 1..5 s) over 4..10 Hz axes z
load "raw/none.txt"
\`\`\`
`;

const file = (seed: number): string => recording({ seconds: 8, rate: 100, seed, level: 0.1 * seed });
const files = {
  'study.washboard.md': notebook,
  'raw/a-1.csv': file(1),
  'raw/a-2.csv': file(2),
  'raw/a-3.csv': file(3),
  // Its first axis is clipped.
  'raw/b-1.csv': file(4).replace(/^([\d.]+),([-\d.]+)/gm, (_, t, x) => `${t},${Math.min(0.03, Number(x)).toFixed(4)}`),
  'raw/b-2.csv': file(5),
  'raw/none.txt': 'no table\n',
};

describe('a run in shares', () => {
  let box: Sandbox;
  const engine = process.env.WASHBOARD_ENGINE;
  beforeEach(() => {
    process.env.WASHBOARD_ENGINE = '0123456789abcdef01234567';
    box = new Sandbox(files);
  });
  afterEach(() => {
    if (engine === undefined) delete process.env.WASHBOARD_ENGINE;
    else process.env.WASHBOARD_ENGINE = engine;
    box.remove();
  });
  const run = (...options: readonly string[]): ReturnType<Sandbox['run']> =>
    box.run('run', box.path('study.washboard.md'), '--cache', box.path('store'), ...options);

  it('gives to the byte what the plain run gives, once all shares are there', async () => {
    const plain = await box.run('run', box.path('study.washboard.md'), '--json', '--no-cache');
    assert.equal(
      plain.printed.match(/"code":\s*"clipped"/g)?.length,
      2,
      'of the load and of the comparison, whose sides have all axes',
    );
    const planned = await run('--plan', '3');
    assert.equal(planned.code, 0);
    assert.deepEqual(planned.printed.match(/^\d\/3: \d recordings/gm), [
      '1/3: 2 recordings',
      '2/3: 2 recordings',
      '3/3: 2 recordings',
    ]);
    for (const share of ['3/3', '1/3', '1/3']) assert.deepEqual(await run('--share', share), done);
    const early = await run('--collect', '--json');
    assert.deepEqual([early.code, early.printed], [3, '']);
    assert.match(early.errors, /^washboard: share 2\/3 is missing: nothing is kept of raw\/\S+( and 1 other)?\.\n$/);
    assert.deepEqual(await run('--share', '2/3'), done);
    const collected = await run('--collect', '--json');
    assert.equal(collected.printed, plain.printed);
    assert.deepEqual([collected.code, plain.code], [1, 1]);
  });
  const done = { code: 0, printed: '', errors: '' };

  it('is refused without a plan, of another plan, and where its own files changed; others may change', async () => {
    assert.match((await run('--share', '1/2')).errors, /no plan of .* run it with --plan N first/);
    assert.match((await run('--collect')).errors, /no plan of/);
    await run('--plan', '2');
    const other = await run('--share', '1/3');
    assert.equal(other.code, 2);
    assert.match(other.errors, /was planned in 2 shares, not 3/);
    writeFileSync(box.path('raw/a-2.csv'), file(9));
    const codes = [(await run('--share', '1/2')).code, (await run('--share', '2/2')).code];
    assert.deepEqual(codes.sort(), [0, 2]);
  });

  it('names a recording that no share holds', async () => {
    await run('--plan', '1');
    await run('--share', '1/1');
    writeFileSync(box.path('raw/a-4.csv'), file(7));
    const { code, errors } = await run('--collect');
    assert.equal(code, 3);
    assert.match(errors, /no share holds raw\/a-4\.csv: run --plan again/);
  });

  it('names a planned recording that is gone, rather than collect a smaller set', async () => {
    await run('--plan', '1');
    await run('--share', '1/1');
    rmSync(box.path('raw/a-2.csv'));
    const { code, printed, errors } = await run('--collect', '--json');
    assert.deepEqual([code, printed], [2, '']);
    assert.match(
      errors,
      /raw\/a-2\.csv was written since the shares were planned, as its size or its time of change tells: run --plan again/,
    );
  });

  it('keeps anew what is lost of a share when it is run again, samples that a plot wants too', async () => {
    const cells = 'a = load "raw/a-*.csv" | trim 1..5 s\nplot a\n';
    writeFileSync(box.path('study.washboard.md'), `\`\`\`washboard\n${cells}\`\`\`\n`);
    const plain = await box.run('run', box.path('study.washboard.md'), '--json', '--no-cache');
    await run('--plan', '1');
    const { set } = KeptStore.prototype;
    KeptStore.prototype.set = function (key, bytes) {
      if (!key.startsWith('samples ')) set.call(this, key, bytes);
    };
    try {
      await run('--share', '1/1');
    } finally {
      KeptStore.prototype.set = set;
    }
    assert.equal((await run('--collect')).code, 3);
    assert.deepEqual(await run('--share', '1/1'), done);
    assert.equal((await run('--collect', '--json')).printed, plain.printed);
  });

  it('draws the places of a check when its shares are collected, and again', async () => {
    const reading = (i: number, k: number): number =>
      1.2 * Math.sin(i * (1 + k / 10)) + (((i * 7919) % 101) - 50) / 200;
    const clipped = (k: number): string =>
      `t (s),z (g)\n${Array.from({ length: 600 }, (_, i) => `${i / 100},${Math.min(1, reading(i, k)).toFixed(3)}\n`).join('')}`;
    for (const k of [1, 2, 3]) writeFileSync(box.path(`raw/c-${k}.csv`), clipped(k));
    writeFileSync(box.path('study.washboard.md'), '```washboard\ncheck (load "raw/c-*.csv")\n```\n');
    const plain = await box.run('run', box.path('study.washboard.md'), '--no-cache');
    assert.match(plain.printed, /\[chart\] .*places that were remarked on/);
    await run('--plan', '1');
    await run('--share', '1/1');
    for (const again of [false, true]) assert.equal((await run('--collect')).printed, plain.printed, String(again));
  });

  it('takes a torn plan for none', async () => {
    await run('--plan', '1');
    const [plan] = readdirSync(box.path('store/plans'));
    writeFileSync(box.path(`store/plans/${plan}`), readFileSync(box.path(`store/plans/${plan}`)).subarray(0, 40));
    for (const options of [['--share', '1/1'], ['--collect']]) {
      const { code, errors } = await run(...options);
      assert.equal(code, 2);
      assert.match(errors, /no plan of .* run it with --plan N first/);
    }
  });

  it('names the plan that the disk refuses, where a file stands in the folder’s place, and leaves that file whole', async () => {
    writeFileSync(box.path('store'), 'a file');
    const { code, errors } = await run('--plan', '2');
    assert.equal(code, 2);
    assert.match(
      errors,
      /store\/plans\/[0-9a-f]+\.json can't be written: a file stands where its folder should be; name a place in a folder\.\n$/,
    );
    assert.equal(readFileSync(box.path('store'), 'utf8'), 'a file');
  });

  it('refuses what it can not take', async () => {
    for (const options of [
      ['--plan', '0'],
      ['--share', '4/3'],
      ['--share', '1'],
      ['--plan', '2', '--collect'],
      ['--plan', '2', '--cell', '1'],
    ])
      assert.equal((await run(...options)).code, 2, options.join(' '));
  });
});
