import { strict as assert } from 'node:assert';
import { spawnSync } from 'node:child_process';
import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { recording } from '../engine/memoryFiles.ts';
import { Sandbox } from './sandbox.ts';

const fixtures = fileURLToPath(new URL('../readers/fixtures', import.meta.url));

describe('washboard look', () => {
  let sandbox: Sandbox;
  before(() => {
    sandbox = new Sandbox({
      'a.csv': recording({ seconds: 5 }),
      'bare.txt': '0.01, 0.02, 1.00\n0.02, 0.01, 0.99\n0.01, 0.03, 1.01\n0.00, 0.02, 1.00\n',
      'prose.txt': 'No numbers at all.\n',
    });
  });
  after(() => sandbox.remove());

  it('says how a file is understood, and how to load it', async () => {
    const { code, printed } = await sandbox.run('look', sandbox.path('a.csv'));
    assert.equal(code, 0);
    assert.match(printed, /commas between columns, decimal mark "\."/);
    assert.match(printed, /header on line 1, numbers from line 2, 1000 rows/);
    assert.match(printed, /rate: 200 Hz by its time stamps; 1000 samples, 5\.00 s, no gap/);
    assert.match(printed, /channel z \("z \(g\)"\): in g, from the header/);
    assert.match(printed, /0\.0050,[-\d.,]+ +0\.005 /);
    assert.match(printed, /load ".*a\.csv"\n/);
  });

  it('says of a pipe or a device what it is, and reads nothing of it', async () => {
    assert.equal(spawnSync('mkfifo', [sandbox.path('pipe.csv')]).status, 0);
    for (const path of [sandbox.path('pipe.csv'), '/dev/zero']) {
      const { code, errors } = await sandbox.run('look', path);
      assert.equal(code, 1);
      assert.ok(errors.includes(`${path} is a pipe or a device, not a recording`), errors);
    }
  });

  it('makes the checks that load makes', async () => {
    const rows = recording({ seconds: 5 }).split('\n');
    const clipped = rows
      .map((row) => row.replace(/,[^,]*$/, (z) => (Number(z.slice(1)) > 1.1 ? ',1.1' : z)))
      .join('\n');
    const other = new Sandbox({ 'clipped.csv': clipped, 'a.washboard.md': '```washboard\nload "clipped.csv"\n```\n' });
    try {
      const looked = await other.run('look', other.path('clipped.csv'));
      const [, said] = /^ {2}fault: (z is clipped.*)$/m.exec(looked.printed) ?? assert.fail(looked.printed);
      const { printed, errors } = await other.run('run', other.path('a.washboard.md'));
      assert.ok(`${printed}${errors}`.includes(said), `${printed}${errors}`);
    } finally {
      other.remove();
    }
  });

  it('passes what was stated by hand into the line to paste', async () => {
    const { code, printed } = await sandbox.run('look', sandbox.path('bare.txt'), '--rate', '400 Hz', '--unit', 'g');
    assert.equal(code, 0);
    assert.match(printed, /rate: 400 Hz as stated/);
    assert.match(printed, /load ".*bare\.txt" unit g rate 400 Hz/);
  });

  it('takes sentinels, marked rows and clocks of two parts by hand, as load does', async () => {
    const rows = (count: number, row: (i: number) => string): string =>
      Array.from({ length: count }, (_, i) => row(i)).join('\n') + '\n';
    const other = new Sandbox({
      'gone.csv': `t (s),z (g)\n${rows(500, (i) => `${(i / 100).toFixed(2)},${i % 50 === 7 ? 777 : (i % 9) / 10}`)}`,
      'marked.csv': `t (s),z (g)\n${rows(500, (i) => `${i % 10 === 3 ? '#' : ''}${(i / 100).toFixed(2)},${(i % 9) / 10}`)}`,
      'minutes.csv': `clock,z (g)\n${rows(6000, (i) => `${10 + Math.floor(i / 3000)}:${String(Math.floor(i / 50) % 60).padStart(2, '0')},${(i % 9) / 10}`)}`,
    });
    try {
      const looked = async (name: string, ...flags: string[]): Promise<string> =>
        (await other.run('look', other.path(name), ...flags)).printed;
      assert.match(await looked('gone.csv'), /channel z[^\n]* to 777\n/);
      const without = await looked('gone.csv', '--sentinel', '777,-777');
      assert.match(without, /channel z[^\n]* to 0\.8\n/);
      assert.match(without, /load ".*gone\.csv" sentinel 777, -777\n/);
      assert.match(await looked('marked.csv'), /450 rows/);
      assert.match(
        await looked('marked.csv', '--comment', 'none'),
        /500 rows[\s\S]*load ".*marked\.csv" comment none\n/,
      );
      assert.match(await looked('minutes.csv', '--clock', 'mm:ss'), /load ".*minutes\.csv" clock "mm:ss"\n/);
      for (const flags of [
        ['--sentinel', 'none'],
        ['--comment', '#'],
        ['--clock', 'hh'],
      ])
        assert.equal((await other.run('look', other.path('gone.csv'), ...flags)).code, 2, flags.join(' '));
    } finally {
      other.remove();
    }
  });

  it('refuses in one sentence what is no recording, and wrong usage', async () => {
    const prose = await sandbox.run('look', sandbox.path('prose.txt'));
    assert.equal(prose.code, 1);
    assert.match(prose.printed, /can't be read: .*prose\.txt/);
    assert.equal((await sandbox.run('look', sandbox.path('none.csv'))).code, 1);
    assert.equal((await sandbox.run('look')).code, 2);
    assert.equal((await sandbox.run('look', sandbox.path('a.csv'), '--rate', 'fast')).code, 2);
    assert.equal((await sandbox.run('look', sandbox.path('a.csv'), '--unit', 'furlong')).code, 2);
  });

  it('has a sentence for every layout that is known', async () => {
    for (const name of readdirSync(fixtures).filter((file) => /\.(csv|txt|log|wav|gz|unv|parquet)$/.test(file))) {
      const { printed } = await sandbox.run('look', join(fixtures, name));
      assert.match(printed, /can't be read: .{20,}|to load it/, name);
      assert.doesNotMatch(printed, /NaN|undefined|Infinity/, `${name}:\n${printed}`);
    }
  });
});
